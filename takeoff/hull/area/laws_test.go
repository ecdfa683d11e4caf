package area_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/offsets"
)

func part(t testing.TB, d *area.Side, w area.Window) area.Part {
	t.Helper()
	p, err := d.Part(w)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// lost is what the integrals themselves may lose: below a millionth.
const lost = 1e-6

// The heights of R1 pass through a curved rabbet and a curved sheer: below 180 mm the ends are dry, above 1100 mm the
// sheer dips into the water.
var heightsOfR1 = []float64{80, 150, 400, 700, 1100, 1150, 1300}

func TestBelowAndAboveMakeTheWhole(t *testing.T) {
	d := side(t, r1(), 13, 15)
	whole := d.Whole()
	for _, z := range heightsOfR1 {
		below, above := part(t, d, area.Below(z)), part(t, d, area.Above(z))
		sum := below.Plus(above, 1)
		near(t, "area", sum.Area, whole.Area, lost)
		near(t, "girths", sum.Girths, whole.Girths, lost)
		near(t, "volume", sum.Volume, whole.Volume, lost)
		near(t, "moment about station 0", sum.MomentX, whole.MomentX, lost)
		near(t, "moment about the baseline", sum.MomentZ, whole.MomentZ, lost)
		if below.Area < 0 || above.Area < 0 || below.Volume < 0 {
			t.Errorf("at %v: below %+v, above %+v", z, below, above)
		}
	}
	if p := part(t, d, area.Below(0)); p != (area.Part{}) {
		t.Errorf("below the rabbet lies %+v", p)
	}
	if p := part(t, d, area.Above(2000)); p != (area.Part{}) {
		t.Errorf("above the sheer lies %+v", p)
	}
}

// What a form has below a level is known for the Wigley form: half-breadth integrated by hand.
func TestBelowALevel(t *testing.T) {
	w := wigley(24*foot, 8*foot, 3*foot)
	d := side(t, w, 25, 21)
	for _, share := range []float64{.1, .25, .5, .9} {
		z := 3 * foot * share
		p := part(t, d, area.Below(z))
		// Half-breadth B/2 (1 - X²)(2 s - s²) with s = z/T: along the boat 2/3 L, up to the level s² - s³/3.
		want := 8 * foot / 2 * 24 * foot * 2 / 3 * 3 * foot * (share*share - share*share*share/3)
		near(t, "volume", p.Volume, want, 1e-4)
		pl, err := d.Waterplane(z)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "water plane", pl.Area, 8*foot/2*24*foot*2/3*(2*share-share*share), 1e-4)
		if x, ok := pl.Centre(); !ok || math.Abs(x-12*foot) > 1e-3 {
			t.Error("centre of the water plane", x, ok)
		}
		_, cz, ok := p.Centre()
		// The moment of the layers: integral of s (2s - s²) over that of 2s - s².
		wantZ := 3 * foot * (2./3*math.Pow(share, 3) - math.Pow(share, 4)/4) / (share*share - math.Pow(share, 3)/3)
		if !ok || math.Abs(cz/wantZ-1) > 1e-4 {
			t.Error("centre's height", cz, wantZ)
		}
	}
	x, z, ok := d.Whole().Centre()
	near(t, "centre's height", z, exact(t, "W2", "KB above keel", ""), 2e-5)
	near(t, "centre", x, exact(t, "W2", "LCB from FP", ""), 1e-9)
	if !ok {
		t.Error("no centre")
	}
	pl, err := d.Waterplane(3 * foot)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "water plane at the sheer", 2*pl.Area, exact(t, "W2", "waterplane_area", ""), 2e-5)
	near(t, "its length", pl.Length, 24*foot, lost)
}

// The half form's centres lie 3/8 of its length from the transom.
func TestCentresOfT1(t *testing.T) {
	d := side(t, halfWigley(16*foot, 6.5*foot, 2.25*foot), 13, 21)
	x, _, _ := d.Whole().Centre()
	near(t, "centre", x, exact(t, "T1", "LCB forward of transom", ""), 1e-4)
	pl, err := d.Waterplane(2.25 * foot)
	if err != nil {
		t.Fatal(err)
	}
	cx, _ := pl.Centre()
	near(t, "water plane", 2*pl.Area, exact(t, "T1", "waterplane_area", ""), 1e-4)
	near(t, "centre of the water plane", cx, exact(t, "T1", "LCF forward of transom", ""), 1e-4)
	s, err := d.Strip(0, area.Everything())
	if err != nil {
		t.Fatal(err)
	}
	near(t, "the transom below the water", 2*s.Section, exact(t, "T1", "transom immersed area (not planking)", ""), 1e-5)
}

// The volume grows by the water plane as the water rises.
func TestVolumeGrowsByTheWaterplane(t *testing.T) {
	d := side(t, r1(), 9, 15)
	const step = 0.05
	for _, z := range heightsOfR1[:6] {
		pl, err := d.Waterplane(z)
		if err != nil {
			t.Fatal(err)
		}
		grows := (part(t, d, area.Below(z+step)).Volume - part(t, d, area.Below(z-step)).Volume) / (2 * step)
		near(t, "growth", grows, pl.Area, 1e-5)
	}
}

func TestZonesMakeTheWhole(t *testing.T) {
	d := side(t, r1(), 9, 15)
	whole := d.Whole()
	var along, up, across area.Part
	edges := []float64{math.Inf(-1), 300, 26 * foot / 8, 1000, 3777, 5000.5, math.Inf(1)}
	for i := range edges[1:] {
		along = along.Plus(part(t, d, area.Between(edges[i], edges[i+1])), 1)
	}
	fractions := []float64{0, .125, .4, .7777, 1}
	for i := range fractions[1:] {
		w := area.Everything()
		w.Rabbet, w.Sheer = fractions[i], fractions[i+1]
		across = across.Plus(part(t, d, w), 1)
	}
	heights := []float64{math.Inf(-1), 200, 500, 1150, math.Inf(1)}
	for i := range heights[1:] {
		w := area.Everything()
		w.Low, w.High = heights[i], heights[i+1]
		up = up.Plus(part(t, d, w), 1)
	}
	for _, p := range []area.Part{along, across, up} {
		near(t, "area", p.Area, whole.Area, lost)
		near(t, "volume", p.Volume, whole.Volume, lost)
		near(t, "place of the planking", p.PlankX, whole.PlankX, lost)
	}
	both := area.Window{Forward: 1000, Aft: 3000, Rabbet: .2, Sheer: .8, Low: 300, High: 600}
	if p := part(t, d, both); !(p.Area > 0 && p.Area < part(t, d, area.Between(1000, 3000)).Area) {
		t.Error(p)
	}
}

// A section that drops below its rabbet before it rises is passed twice by a level, and the parts still make the whole.
func TestDroppingSections(t *testing.T) {
	f := form{6000, func(x, t float64) (y, z float64) {
		a := -.5 + 2.4*t // of a circle, measured from straight down
		return 900 + 700*math.Sin(a) + x/20, 1000 - 700*math.Cos(a)
	}}
	doc := f.document(table{even(f, 5), 15, false})
	d := area.New(surface(t, fitted(t, doc)), 0)
	whole := d.Whole()
	for _, z := range []float64{320, 370, 800} {
		sum := part(t, d, area.Below(z)).Plus(part(t, d, area.Above(z)), 1)
		near(t, "area", sum.Area, whole.Area, lost)
		near(t, "volume", sum.Volume, whole.Volume, lost)
		pl, err := d.Waterplane(z)
		if err != nil {
			t.Fatal(err)
		}
		grows := (part(t, d, area.Below(z+.1)).Volume - part(t, d, area.Below(z-.1)).Volume) / .2
		near(t, "growth", grows, pl.Area, 1e-5)
	}
}

// scaled is the form so many times as great.
func (f form) scaled(by float64) form {
	return form{f.length * by, func(x, t float64) (y, z float64) {
		y, z = f.at(x/by, t)
		return y * by, z * by
	}}
}

func TestScale(t *testing.T) {
	a, b := side(t, r1(), 7, 11), side(t, r1().scaled(2.5), 7, 11)
	p, q := part(t, a, area.Below(700)), part(t, b, area.Below(1750))
	near(t, "area", q.Area, p.Area*2.5*2.5, 1e-8)
	near(t, "volume", q.Volume, p.Volume*2.5*2.5*2.5, 1e-8)
}

// The two sides of a boat written as one measure alike, and written end for end the same.
func TestMirrored(t *testing.T) {
	f := halfWigley(16*foot, 6.5*foot, 2.25*foot)
	h := fitted(t, f.document(table{even(f, 7), 11, false}))
	star, err := h.Surface(boat.Starboard)
	if err != nil {
		t.Fatal(err)
	}
	p, s := area.New(surface(t, h), 0).Whole(), area.New(star, 0).Whole()
	if p != s {
		t.Errorf("port %+v, starboard %+v", p, s)
	}
	turned := form{f.length, func(x, t float64) (y, z float64) { return f.at(f.length-x, t) }}
	o := side(t, turned, 7, 11).Whole()
	near(t, "area", o.Area, p.Area, 1e-9)
	near(t, "volume", o.Volume, p.Volume, 1e-9)
	x, _, _ := p.Centre()
	ox, _, _ := o.Centre()
	near(t, "centre", f.length-ox, x, 1e-9)
}

// On a hull whose lines are straight along the boat, further stations change nothing.
func TestStraightLinesNeedNoStations(t *testing.T) {
	f := cone(4*metre, .4*metre, 1.3*metre)
	few := part(t, side(t, f, 3, 11), area.Below(900))
	doc := f.document(table{[]float64{0, 411, 1000, 1777, 2500, 3600, 4000}, 11, false})
	many := part(t, area.New(surface(t, fitted(t, doc)), 0), area.Below(900))
	near(t, "area", many.Area, few.Area, 1e-8)
	near(t, "volume", many.Volume, few.Volume, 1e-8)
}

// The area is the integral along the boat of the secant of the bevel along the girth.
func TestAreaIsTheSecantOfTheBevel(t *testing.T) {
	s := surface(t, fitted(t, func() offsets.Document { f := r1(); return f.document(table{even(f, 9), 11, false}) }()))
	sum := 0.0
	const nx, nu = 400, 400
	for i := range nx {
		for k := range nu {
			j := s.Jet((float64(k)+.5)/nu, 26*foot*(float64(i)+.5)/nx)
			b := math.Atan(j.TanBevel())
			sum += math.Hypot(j.Yu, j.Zu) / math.Cos(b)
		}
	}
	near(t, "area", area.New(s, 0).Whole().Area, sum*26*foot/nx/nu, 2e-5) // of so many strips of the middle
}

func TestWindowsThatAreNone(t *testing.T) {
	d := side(t, r1(), 3, 7)
	for _, w := range []area.Window{area.Below(math.NaN()), area.Between(3, 2), area.Between(math.NaN(), 2), {Rabbet: 1, Aft: 1, High: 1}} {
		var e *area.WindowError
		if _, err := d.Part(w); !errors.As(err, &e) || e.Error() == "" {
			t.Error(w, err)
		}
	}
	var o *area.OutsideError
	if _, err := d.Part(area.Between(9000, 9500)); !errors.As(err, &o) || o.Error() == "" {
		t.Error(err)
	}
	var e *area.WindowError
	if _, err := d.Waterplane(math.NaN()); !errors.As(err, &e) {
		t.Error(err)
	}
	if _, err := d.Strip(math.NaN(), area.Everything()); !errors.As(err, &e) {
		t.Error(err)
	}
	if p := part(t, d, area.Between(5, 5)); p != (area.Part{}) {
		t.Error(p)
	}
}

// Nothing is made in the inner loops.
func TestNoAllocation(t *testing.T) {
	d := side(t, r1(), 7, 9)
	w := area.Below(700)
	if _, err := d.Part(w); err != nil { // its places along the boat find their room once
		t.Fatal(err)
	}
	if n := testing.AllocsPerRun(5, func() {
		if _, err := d.Part(w); err != nil {
			t.Error(err)
		}
	}); n > 8 { // what one call makes, whatever its strips
		t.Errorf("%v allocations", n)
	}
}
