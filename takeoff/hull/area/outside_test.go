package area_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/hull/area"
)

// The outside of a cone is a cone whose radius is greater by the thickness times the cosine of its half-angle; of a sphere
// both curvatures count.
func TestOutside(t *testing.T) {
	const thickness = 38.0
	d := side(t, cone(4*metre, .4*metre, 1.3*metre), 9, 15)
	outside := func(d *area.Side, w area.Window) float64 {
		t.Helper()
		v, err := d.Outside(w, thickness)
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	inside := exact(t, "C1", "surface (half frustum)", "") / 2
	mean, cos := (.4+1.3)/2*metre, 1/exact(t, "C1", "true/girth-only = sec bevel", "")
	near(t, "outside of a cone", outside(d, area.Everything()), inside*(mean+thickness*cos)/mean, 1e-7)

	const r = 1000.0
	ball := ellipsoid(2*r, 2*r, r)
	at := make([]float64, 17)
	for i := range at {
		at[i] = 500 + 1000*float64(i)/16
	}
	d = area.New(surface(t, fitted(t, ball.document(table{at, 21, false}))), 0)
	w := area.Between(700, 1300)
	near(t, "outside of a ball", outside(d, w)/part(t, d, w).Area, (1+thickness/r)*(1+thickness/r), 2e-5)
	low := area.Below(600)
	// The end bays are not quite a ball.
	near(t, "and up to a level", outside(d, low)/part(t, d, low).Area, (1+thickness/r)*(1+thickness/r), 5e-5)

	nothing, err := d.Outside(w, 0)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "no thickness", nothing, part(t, d, w).Area, 1e-12)
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		var e *area.ThicknessError
		if _, err := d.Outside(w, bad); !errors.As(err, &e) || e.Error() == "" {
			t.Error(err)
		}
	}
	var e *area.WindowError
	if _, err := d.Outside(area.Below(math.NaN()), 1); !errors.As(err, &e) {
		t.Error(err)
	}
}
