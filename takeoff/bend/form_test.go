package bend_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/bend"
)

// returns, mm: a form bent by the computed ordinates and released lies within this of the frame all along it.
const returns = 0.5

// lines that a frame may have, by curvature.
func lines() map[string]bend.Curve {
	legs := func(s float64) float64 {
		if s > 900 && s < 900+400*75*math.Pi/180 {
			return 1 / 400.0
		}
		return 0
	}
	arc := 400 * 75 * math.Pi / 180
	return map[string]bend.Curve{
		"arc":           {Length: 1200, Kappa: func(float64) float64 { return 1 / 700.0 }},
		"half circle":   {Length: math.Pi * 500, Kappa: func(float64) float64 { return 1 / 500.0 }},
		"hook":          {Length: 1.4 * math.Pi * 500, Kappa: func(float64) float64 { return 1 / 500.0 }},
		"clothoid":      {Length: 1800, Kappa: func(s float64) float64 { return s / 1800 / 350 }},
		"S":             {Length: 2200, Kappa: func(s float64) float64 { return -math.Sin(2*math.Pi*s/2200) / 450 }},
		"hard bilge":    {Length: 2400, Kappa: func(s float64) float64 { d := (s - 1100) / 260; return math.Exp(-d*d) / 320 }},
		"legs and arc":  {Length: 1800 + arc, Kappa: legs, Corners: []float64{900, 900 + arc}},
		"nearly nought": {Length: 1500, Kappa: func(float64) float64 { return 1e-7 }},
	}
}

type point struct{ x, y float64 }

// follow goes along a curvature by a Runge-Kutta step of its own, ten thousand of them, and gives a place and a direction
// every hundredth.
func follow(length float64, kappa func(float64) float64) (at []point, theta []float64) {
	const n = 10_000
	h := length / n
	var x, y, a float64
	for i := 0; ; i++ {
		if i%(n/100) == 0 {
			at, theta = append(at, point{x, y}), append(theta, a)
		}
		if i == n {
			return at, theta
		}
		s := h * float64(i)
		k1, k2, k4 := kappa(s+h*1e-6), kappa(s+h/2), kappa(s+h*(1-1e-6))
		x += h / 6 * (math.Cos(a) + 4*math.Cos(a+h/2*(k1+k2)/2) + math.Cos(a+h*(k1+4*k2+k4)/6))
		y += h / 6 * (math.Sin(a) + 4*math.Sin(a+h/2*(k1+k2)/2) + math.Sin(a+h*(k1+4*k2+k4)/6))
		a += h * (k1 + 4*k2 + k4) / 6
	}
}

// by looks between rows of ordinates with a quartic through the five nearest, as a batten held by them would lie, and gives
// value and slope of each of the two coordinates by length along.
func by(rows []bend.Ordinate, along float64, of func(bend.Ordinate) float64) (value, slope float64) {
	i := 0
	for i+1 < len(rows) && rows[i+1].Along < along {
		i++
	}
	first := max(0, min(len(rows)-5, i-2))
	five := rows[first:min(len(rows), first+5)]
	for j := range five {
		l, dl := 1.0, 0.0
		for k := range five {
			if k != j {
				d := five[j].Along - five[k].Along
				dl = dl*(along-five[k].Along)/d + l/d
				l *= (along - five[k].Along) / d
			}
		}
		value, slope = value+l*of(five[j]), slope+dl*of(five[j])
	}
	return value, slope
}

// released is the faying line of a stack laid against the ordinates and let go: the direction along the form's face is read
// off the ordinates alone; the middle of the stack lies so far from it, keeps its length and turns back by the share that
// springs, and the faying line lies outboard of that.
func released(f bend.Form) (at []point) {
	const n = 4000
	rows := f.Ordinates
	heading := func(s float64) float64 {
		_, dx := by(rows, s, func(o bend.Ordinate) float64 { return o.Base })
		_, dy := by(rows, s, func(o bend.Ordinate) float64 { return -o.Off })
		return math.Atan2(dy, dx)
	}
	turn, last := 0.0, heading(0)
	x, y, dir := 0.0, 0.0, 0.0
	h := f.Length / n
	for i := range n {
		if i%(n/100) == 0 {
			at = append(at, point{x, y})
		}
		next := heading(h * float64(i+1))
		d := math.Mod(next-last+3*math.Pi, 2*math.Pi) - math.Pi
		last = next
		turn += d
		// so far along the middle of the stack: the face's own length and what lies between them times the turn; and from
		// there along the faying line when it has turned back
		back := turn * (1 - f.Springback.Share)
		ds := h + (f.Depth-f.Keeps)*d + f.Keeps*(back-dir)
		mid := (dir + back) / 2
		x, y, dir = x+ds*math.Cos(mid), y+ds*math.Sin(mid), back
	}
	return append(at, point{x, y})
}

// apart is the greatest distance from points of one line to the other, both laid with the heel at the origin and the
// head on a line; each point of a against the polygon of b.
func apart(a, b []point) float64 {
	lay := func(p []point) []point {
		e := p[len(p)-1]
		s, c := math.Sincos(-math.Atan2(e.y, e.x))
		out := make([]point, len(p))
		for i, q := range p {
			out[i] = point{q.x*c - q.y*s, q.x*s + q.y*c}
		}
		return out
	}
	a, b = lay(a), lay(b)
	worst := math.Hypot(a[len(a)-1].x-b[len(b)-1].x, a[len(a)-1].y-b[len(b)-1].y)
	for _, p := range a {
		near := math.Inf(1)
		for i := 0; i+1 < len(b); i++ {
			tx, ty := b[i+1].x-b[i].x, b[i+1].y-b[i].y
			u := max(0, min(1, ((p.x-b[i].x)*tx+(p.y-b[i].y)*ty)/(tx*tx+ty*ty)))
			near = min(near, math.Hypot(p.x-b[i].x-u*tx, p.y-b[i].y-u*ty))
		}
		worst = max(worst, near)
	}
	return worst
}

func TestAFormByItsOrdinatesReturnsToTheFrame(t *testing.T) {
	for name, c := range lines() {
		for _, n := range []int64{3, 5, 8, 20} {
			for _, face := range []bend.Face{bend.Inner, bend.Faying} {
				back, err := bend.ByCount(n)
				if err != nil {
					t.Fatal(err)
				}
				f, err := bend.NewForm(c, bend.Laid{Face: face, Moulded: 60, Stack: 66, Pitch: 25}, back)
				if err != nil {
					t.Fatalf("%s, %d laminates, %s: %v", name, n, face, err)
				}
				want, _ := follow(c.Length, c.Kappa)
				if off := apart(released(f), want); !(off <= returns) {
					t.Errorf("%s, %d laminates, %s: %.3f mm off the frame", name, n, face, off)
				}
			}
		}
	}
}

// The proof must be able to fail: a form whose camber alone is scaled, or one that is not sprung at all, does not return.
func TestAFormThatIsNotSprungDoesNotReturn(t *testing.T) {
	c := lines()["legs and arc"]
	back, _ := bend.ByCount(8)
	plain, err := bend.NewForm(c, bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 66, Pitch: 25}, bend.Springback{})
	if err != nil {
		t.Fatal(err)
	}
	plain.Springback = back
	want, _ := follow(c.Length, c.Kappa)
	if off := apart(released(plain), want); off < 5 {
		t.Errorf("a form with the frame's own curve misses by only %.2f mm", off)
	}
}

// An arc of 75 degrees at 400 mm between legs of 900 mm, 8 laminates: 12.6 mm of chord (computed:
// testdata/published/bending-figures, chord).
func TestScalingTheCamberMissesTheChord(t *testing.T) {
	back, _ := bend.ByCount(8)
	// a stack of no depth, whose faying line keeps its length
	f, err := bend.NewForm(lines()["legs and arc"], bend.Laid{Face: bend.Faying, Moulded: 51, Pitch: 50}, back)
	if err != nil {
		t.Fatal(err)
	}
	if miss := f.FrameChord - f.Chord; math.Abs(miss-12.6) > 0.05 {
		t.Errorf("the chords differ by %.3f mm, 12.6 computed", miss)
	}
	half := 75 * math.Pi / 360
	if want := 2 * (900*math.Cos(half) + 400*math.Sin(half)); math.Abs(f.FrameChord-want) > 1e-3 {
		t.Errorf("the frame's chord is %.4f mm, %.4f by geometry", f.FrameChord, want)
	}
	half *= 64 / 63.0
	if want := 2 * (900*math.Cos(half) + 400*63/64.0*math.Sin(half)); math.Abs(f.Chord-want) > 1e-3 {
		t.Errorf("the form's chord is %.4f mm, %.4f by geometry", f.Chord, want)
	}
}

// 3 in of camber in 4 plies springs 3/16 in (testdata/published/timber-figures): a flat arc's form has 3.2 in.
func TestAFlatArcsCamberGrowsByThePublishedShare(t *testing.T) {
	const camber, chord = 3 * 25.4, 120 * 25.4
	r := chord*chord/(8*camber) + camber/2.0
	back, _ := bend.ByCount(4)
	f, err := bend.NewForm(bend.Curve{Length: 2 * r * math.Asin(chord/2/r), Kappa: func(float64) float64 { return 1 / r }}, bend.Laid{Face: bend.Faying, Moulded: 25, Pitch: 100}, back)
	if err != nil {
		t.Fatal(err)
	}
	// flat within the square of the camber over the chord, 0.06 %
	if got := f.Greatest.Off / 25.4; math.Abs(got-3.2) > 3.2*0.002 {
		t.Errorf("the form's camber is %.4f in, 3.2 wanted", got)
	}
}

func TestOrdinatesOfAHalfCircle(t *testing.T) {
	f, err := bend.NewForm(lines()["half circle"], bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 66, Pitch: 40}, bend.Springback{})
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(f.Chord-880) > 1e-6 || math.Abs(f.Length-440*math.Pi) > 1e-6 || math.Abs(f.Greatest.Off-440) > 1e-3 {
		t.Errorf("chord %v, length %v, greatest %+v", f.Chord, f.Length, f.Greatest)
	}
	for i, o := range f.Ordinates {
		if got := math.Hypot(o.Base-440, o.Off); math.Abs(got-440) > 1e-5 {
			t.Errorf("ordinate %d lies %.6f mm from the middle", i, got)
		}
		if i+1 < len(f.Ordinates) && math.Abs(o.Base-40*float64(i)) > 1e-6 && !f.AlongCurve {
			t.Errorf("ordinate %d is at %.6f mm", i, o.Base)
		}
	}
	hook, err := bend.NewForm(lines()["hook"], bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 66, Pitch: 40}, bend.Springback{})
	if err != nil || !hook.AlongCurve {
		t.Fatalf("a hook is not told along the curve: %v", err)
	}
	if o := hook.Ordinates[3]; math.Abs(o.Along-120) > 1e-6 {
		t.Errorf("the fourth is at %v along", o.Along)
	}
}

// The yard's own springback overrides: a trial piece's movement at the head gives the share that moved it.
func TestMovementAtTheHeadGivesTheShare(t *testing.T) {
	trial := bend.Curve{Length: 1500, Kappa: func(float64) float64 { return 1 / 600.0 }}
	const share = 0.031
	a, _ := follow(1500, trial.Kappa)
	b, _ := follow(1500, func(float64) float64 { return (1 - share) / 600 })
	moved := math.Hypot(a[100].x-b[100].x, a[100].y-b[100].y)
	got, err := bend.MeasuredAtHead(trial, moved, "trial piece")
	if err != nil || math.Abs(got.Share-share) > 1e-6 {
		t.Errorf("%v, %v", got, err)
	}
	if got.Source != "measured by the yard: trial piece" {
		t.Error(got.Source)
	}
}

func TestLinesThatNobodyCanFollow(t *testing.T) {
	arc := lines()["arc"]
	var line *bend.CurveError
	var number *bend.RangeError
	back, _ := bend.ByCount(8)
	for _, c := range []bend.Curve{{}, {Length: math.NaN(), Kappa: arc.Kappa}, {Length: math.Inf(1), Kappa: arc.Kappa}, {Length: 100},
		{Length: 100, Kappa: func(float64) float64 { return math.NaN() }}, {Length: 100, Kappa: func(float64) float64 { return math.Inf(1) }},
		{Length: 1000, Kappa: func(float64) float64 { return 1 / 55.0 }}} {
		if _, err := bend.NewForm(c, bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 66, Pitch: 50}, back); !errors.As(err, &line) {
			t.Errorf("length %v: %v", c.Length, err)
		}
	}
	for _, bad := range []func() error{
		func() error {
			_, err := bend.NewForm(arc, bend.Laid{Face: "top", Moulded: 60, Pitch: 50}, back)
			return err
		},
		func() error {
			_, err := bend.NewForm(arc, bend.Laid{Face: bend.Inner, Moulded: math.NaN(), Pitch: 50}, back)
			return err
		},
		func() error {
			_, err := bend.NewForm(arc, bend.Laid{Face: bend.Inner, Moulded: 60, Pitch: 0.1}, back)
			return err
		},
		func() error {
			_, err := bend.NewForm(arc, bend.Laid{Face: bend.Inner, Moulded: 60, Pitch: 50}, bend.Springback{Share: 1})
			return err
		},
		func() error {
			_, err := bend.NewForm(arc, bend.Laid{Face: bend.Inner, Moulded: 60, Stack: math.NaN(), Pitch: 50}, back)
			return err
		},
		func() error { _, err := bend.ByCount(1); return err },
		func() error { _, err := bend.Measured(math.NaN(), ""); return err },
		func() error { _, err := bend.MeasuredAtHead(arc, -1, ""); return err },
	} {
		if err := bad(); !errors.As(err, &number) {
			t.Errorf("%v", err)
		}
	}
}

// An arc of 75 degrees at 400 mm, 51 mm deep, 8 laminates: bent about the middle of the stack, its faying line grows on the
// form by 25.5 mm times a 63rd of the turn, 0.530 mm, and lies on an arc of (400 + 25.5/63) 63/64 mm (by geometry).
func TestTheMiddleOfTheStackKeepsItsLength(t *testing.T) {
	back, _ := bend.ByCount(8)
	turn := 75 * math.Pi / 180
	arc := bend.Curve{Length: 400 * turn, Kappa: func(float64) float64 { return 1 / 400.0 }}
	f, err := bend.NewForm(arc, bend.Laid{Face: bend.Faying, Moulded: 51, Stack: 51, Pitch: 50, Marks: []float64{0, arc.Length / 2, arc.Length}}, back)
	if err != nil {
		t.Fatal(err)
	}
	grown := 25.5 * turn / 63
	radius := (400 + 25.5/63) * 63 / 64
	if math.Abs(f.Length-arc.Length-grown) > 1e-9 || math.Abs(grown-0.530) > 0.0005 || math.Abs(f.Chord-2*radius*math.Sin(turn*64/63/2)) > 1e-6 {
		t.Errorf("the faying line is %.6f mm longer, %.6f by geometry; chord %.6f", f.Length-arc.Length, grown, f.Chord)
	}
	inner, err := bend.NewForm(arc, bend.Laid{Face: bend.Inner, Moulded: 51, Stack: 57, Pitch: 50}, back)
	if err != nil || inner.Keeps != 22.5 || inner.Depth != 51 || f.Keeps != 25.5 {
		t.Errorf("%+v %v", inner, err)
	}
	if len(f.Marks) != 3 || math.Abs(f.Marks[1].Along-f.Length/2) > 1e-9 || math.Abs(f.Marks[1].Off-f.Greatest.Off) > 1e-6 || math.Abs(f.Marks[2].Base-f.Chord) > 1e-9 {
		t.Errorf("%+v", f.Marks)
	}
	if rise := 400 * (1 - math.Cos(turn/2)); math.Abs(f.Camber-rise) > 1e-6 {
		t.Errorf("camber %.6f, %.6f by geometry", f.Camber, rise)
	}
}

// A stretch of a line bends as the line does there, corners and all.
func TestBetweenTwoPlacesOfALine(t *testing.T) {
	legs := lines()["legs and arc"]
	part := legs.Between(700, 1100)
	if part.Length != 400 || part.Kappa(100) != 0 || part.Kappa(300) != 1/400.0 || len(part.Corners) != 1 || part.Corners[0] != 200 {
		t.Errorf("%+v", part)
	}
}
