package area_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/hull/area"
)

// wettedRules are what sources give for a first guess of the wetted surface: of length, breadth, draught, volume and the midship
// section's coefficient, all in metres. They are no part of the program. Sources: testdata/published/wetted-surface-rules-undated.
var wettedRules = map[string]func(l, b, t, v, cm float64) float64{
	"denny_mumford": func(l, _, t, v, _ float64) float64 { return 1.7*l*t + v/t },
	"taylor": func(l, _, _, v, _ float64) float64 {
		const ft = .3048
		return 15.5 * math.Sqrt(v/(ft*ft*ft)/35*l/ft) * ft * ft
	},
	"froude":         func(l, _, _, v, _ float64) float64 { return math.Pow(v, 2./3) * (3.3 + l/(2.09*math.Cbrt(v))) },
	"froude_variant": func(l, _, _, v, _ float64) float64 { return 3.4*math.Pow(v, 2./3) + .485*l*math.Cbrt(v) },
	"delft": func(l, b, t, v, cm float64) float64 {
		return (1.97 + .171*b/t) * math.Cbrt(.65/cm) * math.Sqrt(v*l)
	},
	"length_times_beam_and_draught": func(l, b, t, _, _ float64) float64 { return l * (b + t) },
}

// The rules of thumb, fed with the volume and the midship section that are integrated here, give what they are published to give
// over the exact surface; and the surface integrated here stands to each of them as the exact one does.
func TestWettedSurfaceRules(t *testing.T) {
	const m = metre
	type body struct {
		form      form
		l, b, t   float64 // m
		cm        float64
		area, vol float64 // both sides, as integrated, m² and m³
	}
	bodies := map[string]body{
		"W1": {form: wigley(10*m, 1*m, .625*m), l: 10, b: 1, t: .625, cm: 2. / 3},
		"W2": {form: wigley(24*foot, 8*foot, 3*foot), l: 24 * .3048, b: 8 * .3048, t: 3 * .3048, cm: 2. / 3},
		"E1": {form: ellipsoid(9*m, 3*m, 1.2*m), l: 9, b: 3, t: 1.2, cm: math.Pi / 4},
	}
	for id, b := range bodies {
		at := even(b.form, 25)
		var ends []area.Ending
		if id == "E1" {
			// Round ends: sections at a half and an eighth of the spacing, and the line on which the ends close.
			l, h := b.form.length, b.form.length/12
			at = []float64{h / 8, h / 2}
			for i := 1; i < 12; i++ {
				at = append(at, h*float64(i))
			}
			at = append(at, l-h/2, l-h/8)
			ends = []area.Ending{{Line: ellipsoidEnd(l, b.t*m, at[0], false)}, {Aft: true, Line: ellipsoidEnd(l, b.t*m, at[len(at)-1], true)}}
		}
		d := area.New(surface(t, fitted(t, b.form.document(table{at, 15, false}))), 0)
		p := d.Whole()
		for _, e := range ends {
			end, err := d.End(e, math.Inf(1))
			if err != nil {
				t.Fatal(err)
			}
			p = p.Plus(end.Part, 1)
		}
		mid, err := d.Strip(b.form.length/2, area.Everything())
		if err != nil {
			t.Fatal(err)
		}
		near(t, id+": midship coefficient", 2*mid.Section/(b.b*b.t*m*m), b.cm, 1e-4)
		b.area, b.vol = 2*p.Area/(m*m), 2*p.Volume/(m*m*m)
		bodies[id] = b
	}
	f, err := os.Open("../../../testdata/published/wetted-surface-rules-undated/ratios.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) != 1+3*len(wettedRules) {
		t.Fatal(len(rows), err)
	}
	for _, r := range rows[1:] {
		b, rule := bodies[r[0]], wettedRules[r[1]]
		number := func(i int) float64 {
			v, err := strconv.ParseFloat(r[i], 64)
			if err != nil {
				t.Fatal(err)
			}
			return v
		}
		square := map[string]float64{"m^2": 1, "ft^2": .3048 * .3048}[r[5]]
		const integrated = 3e-4 // of the ellipsoid's round ends; the other two are far nearer
		got := rule(b.l, b.b, b.t, b.vol, b.cm)
		near(t, r[0]+" "+r[1], got, number(2)*square, integrated)
		near(t, r[0]+" "+r[1]+" over the surface", got/b.area, number(4), 2*integrated)
	}
}

// ellipsoidEnd is the line on which an ellipsoid's end closes, from where the section at x0 begins up to the waterline.
func ellipsoidEnd(length, draught, x0 float64, aft bool) (line []area.Profile) {
	xx := 2*x0/length - 1
	low := draught - draught*math.Sqrt(1-xx*xx)
	for i := range 9 {
		z := low + (draught-low)*float64(i)/8
		s := (draught - z) / draught
		x := length / 2 * (1 - math.Sqrt(1-s*s))
		if aft {
			x = length - x
		}
		line = append(line, area.Profile{Z: z, X: x})
	}
	return line
}

// A waterplane of 36 by 6 m whose coefficient is 0.8, one of the half-breadth 3 (1 - X⁴): the example's 172.8 m², printed 173 (P12
// of simpson-examples-undated).
func TestWaterplaneOfACoefficient(t *testing.T) {
	const l, b, depth = 36 * metre, 6 * metre, 2 * metre
	f := form{l, func(x, t float64) (y, z float64) {
		X := 2*x/l - 1
		return b / 2 * (1 - X*X*X*X) * t * (2 - t), depth * t
	}}
	d := area.New(surface(t, fitted(t, f.document(table{even(f, 25), 11, false}))), 0)
	p, err := d.Waterplane(depth * (1 - 1e-9))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "waterplane", 2*p.Area/(metre*metre), 172.8, 1e-4)
	near(t, "its coefficient", 2*p.Area/(l*b), .8, 1e-4)
}
