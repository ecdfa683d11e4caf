package scarf_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/scarf"

	"pgregory.net/rapid"
)

const inch = 25.4

func near(t *testing.T, what string, got, want, within float64) {
	t.Helper()
	if !(math.Abs(got-want) <= within) {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

// arc is a faying face of one radius, its centre inboard where it is positive, outboard where it is negative; 0 stands
// for none.
func arc(radius float64) scarf.Curve {
	return func(s float64) (y, z, theta float64) {
		if radius == 0 {
			return s, 0, 0
		}
		theta = s / radius
		return radius * math.Sin(theta), radius * (1 - math.Cos(theta)), theta
	}
}

// Taper, face and angle of straight pieces, by the geometry of a right triangle: 1 1/4 in at 8:1 and 3/4 in at 12:1
// (worked here), and the angle at 1:15, 3.8 degrees (a post in a forum of aircraft builders, aviationbanter.com, post
// 407462, undated).
func TestStraightPieces(t *testing.T) {
	f := scarf.Feather{Slope: 8, Depth: 1.25 * inch}
	near(t, "length at 8:1", f.Length(), 10*inch, 1e-9)
	near(t, "face at 8:1", f.Face(), 10.078*inch, 0.0005*inch)
	near(t, "length at 12:1", scarf.Feather{Slope: 12, Depth: 0.75 * inch}.Length(), 9*inch, 1e-9)
	near(t, "angle at 15:1", scarf.Feather{Slope: 15, Depth: 1}.Angle()*180/math.Pi, 3.8, 0.05)
	// two lengths of 12 ft, 1 in thick, scarfed at 8:1, are 23 ft 4 in long together (by geometry)
	near(t, "two lengths", 2*144*inch-scarf.Feather{Slope: 8, Depth: inch}.Length(), 280*inch, 1e-9)
	for _, back := range []bool{false, true} {
		near(t, "face laid on a straight frame", f.Lay(arc(0), 700, back, 3).Face, f.Face(), 1e-6)
		near(t, "straight edge on a straight frame", f.Straight(arc(0), 700, back).Shortfall, 0, 1e-9)
	}
}

// A 10:1 scarf on a frame moulded 3 in is 30 in long, and laid out straight on a bent frame it comes out too short
// (common practice, no source). At a bilge of 20 in the line from the tip that touches the inner face is reached after
// 20 acos(17/20) = 11.1 in: less than 4:1.
func TestAStraightEdgeOnABentFrame(t *testing.T) {
	f := scarf.Feather{Slope: 10, Depth: 3 * inch}
	near(t, "taper", f.Length(), 30*inch, 1e-9)
	step := f.Length() / 1600
	for _, back := range []bool{false, true} {
		s := f.Straight(arc(20*inch), 100, back)
		near(t, "bilge", s.Along, 20*math.Acos(17.0/20)*inch, 1.01*step)
		near(t, "what is missing", s.Shortfall, 30*inch-s.Along, 1e-9)
		near(t, "slope", s.Slope, s.Along/(3*inch), 1e-12)
		if s.Slope >= 4 {
			t.Errorf("slope %v", s.Slope)
		}
		s = f.Straight(arc(-20*inch), 100, back)
		near(t, "hollow", s.Along, 20*math.Acos(20.0/23)*inch, 1.01*step)
	}
	// easy enough a bend takes the whole taper: R^2 - (R - t)^2 from the touching line
	if s := f.Straight(arc(2000*inch), 0, false); s.Shortfall != 0 {
		t.Errorf("%+v", s)
	}
}

// Along an arc the cut of a taper is a spiral towards the centre, r = R - theta R / slope; its length in closed form is
// the integral of sqrt(r^2 + (dr/dtheta)^2), taken here by Simpson's rule on the closed integrand.
func TestFaceAlongAnArc(t *testing.T) {
	for _, radius := range []float64{500, 900, -700} {
		f := scarf.Feather{Slope: 8, Depth: 60}
		got := f.Lay(arc(radius), 0, false, 9)
		end := f.Length() / math.Abs(radius)
		towards := math.Copysign(1, radius)
		at := func(theta float64) float64 {
			r := math.Abs(radius) * (1 - towards*theta/f.Slope)
			return math.Hypot(r, math.Abs(radius)/f.Slope)
		}
		const n = 200
		sum := at(0) + at(end)
		for i := 1; i < n; i++ {
			sum += at(end*float64(i)/n) * float64(2+2*(i%2))
		}
		near(t, "face", got.Face, sum*end/n/3, 1e-3)
		if len(got.Marks) != 9 || got.Marks[8].Depth != 60 || got.Marks[0].Depth != 0 {
			t.Errorf("%+v", got.Marks)
		}
		near(t, "middle", got.Marks[4].Along, f.Length()/2, 1e-9)
		near(t, "middle", got.Marks[4].Depth, 30, 1e-9)
	}
}

// A straight cut that is given really stays in the wood: no place of the frame between its ends lies beyond it.
func TestAStraightCutStaysInTheFrame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := scarf.Feather{Slope: rapid.Float64Range(1, 14).Draw(t, "slope"), Depth: rapid.Float64Range(20, 120).Draw(t, "depth")}
		radius := f.Depth * rapid.Float64Range(3, 60).Draw(t, "radius")
		if rapid.Bool().Draw(t, "hollow") {
			radius = -radius
		}
		c := arc(radius)
		s := f.Straight(c, 0, false)
		if s.Along < 0 || s.Along > f.Length()*(1+1e-12) || math.Abs(s.Along+s.Shortfall-f.Length()) > 1e-9*f.Length() {
			t.Fatalf("%+v", s)
		}
		y, z, theta := c(s.Along)
		y, z = y-f.Depth*math.Sin(theta), z+f.Depth*math.Cos(theta)
		for i := 1; i < 50; i++ {
			share := float64(i) / 50
			// distance of a place of the cut from the centre is between those of the two faces
			r := math.Hypot(share*y, share*z-radius)
			low, high := math.Abs(radius)-f.Depth, math.Abs(radius)
			if radius < 0 {
				low, high = high, high+f.Depth
			}
			if r < low-1e-6*high || r > high+1e-6*high {
				t.Fatalf("%+v: the cut leaves the frame at %v: %v of %v to %v", s, share, r, low, high)
			}
		}
	})
}

func TestNumbersThatMakeNoScarf(t *testing.T) {
	for _, f := range []scarf.Feather{{0.5, 50}, {51, 50}, {math.NaN(), 50}, {8, 0}, {8, math.NaN()}, {8, math.Inf(1)}} {
		var out *scarf.RangeError
		if err := f.Check(); !errors.As(err, &out) {
			t.Errorf("%+v: %v", f, err)
		}
	}
	if err := (scarf.Feather{Slope: 8, Depth: 50}).Check(); err != nil {
		t.Error(err)
	}
}
