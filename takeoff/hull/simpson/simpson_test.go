package simpson_test

import (
	"encoding/csv"
	"errors"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/hull/simpson"
)

// near: the examples print or repeat their sums to about ten digits.
const near = 1e-9

// TestPublishedExamples: sources in testdata/published/simpson-examples-undated/SOURCE.md, row by row.
func TestPublishedExamples(t *testing.T) {
	f, err := os.Open("../../../testdata/published/simpson-examples-undated/sums.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil || len(rows) < 7 {
		t.Fatal(len(rows), err)
	}
	for _, r := range rows[1:] {
		t.Run(r[0], func(t *testing.T) {
			var y []float64
			for _, one := range strings.Split(r[4], ";") {
				y = append(y, number(t, one))
			}
			sum := simpson.ByFirst
			if r[3] == string(simpson.Second) {
				sum = simpson.BySecond
			}
			s, err := sum(number(t, r[5]), y)
			if err != nil {
				t.Fatal(err)
			}
			if r[6] != "" && math.Abs(s.Products-number(t, r[6])) > 1e-9 {
				t.Errorf("sum of products %v, printed %s", s.Products, r[6])
			}
			if want := number(t, r[7]); math.Abs(s.Area-want) > near*want {
				t.Errorf("area %v, want %v", s.Area, want)
			}
			if c, ok := s.Centroid(); r[8] != "" && (!ok || math.Abs(c-number(t, r[8])) > 1e-8) {
				t.Errorf("centroid %v, want %s", c, r[8])
			}
		})
	}
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// The first and the second rule are exact for cubics, 5-8-minus-1 with its moment for parabolas, trapezoids for
// straight lines; one power more is not met.
func TestWhatIsSummedExactly(t *testing.T) {
	type sum func(float64, []float64) (*simpson.Sum, error)
	halved := func(h float64, y []float64) (*simpson.Sum, error) {
		return simpson.ByFirstHalved(h, y, simpson.Halved{Forward: true})
	}
	for _, c := range []struct {
		name   string
		by     sum
		at     []float64 // places, in intervals of 1.5
		to     float64
		powers int // up to which the area is exact
	}{
		{"first", simpson.ByFirst, []float64{0, 1, 2, 3, 4}, 4, 3},
		{"second", simpson.BySecond, []float64{0, 1, 2, 3}, 3, 3},
		{"halved", halved, []float64{0, .5, 1, 2, 3}, 3, 3},
		{"5-8-minus-1", simpson.ByFiveEight, []float64{0, 1, 2}, 1, 2},
		{"trapezoids", simpson.ByTrapezoids, []float64{0, 1, 2, 3, 4, 5}, 5, 1},
	} {
		for p := 0; p <= c.powers+1; p++ {
			var y []float64
			for _, x := range c.at {
				y = append(y, math.Pow(1.5*x, float64(p)))
			}
			s, err := c.by(1.5, y)
			if err != nil {
				t.Fatalf("%s: %v", c.name, err)
			}
			end, n := 1.5*c.to, float64(p)
			exact := math.Abs(s.Area/(math.Pow(end, n+1)/(n+1))-1) < 1e-12
			if exact != (p <= c.powers) {
				t.Errorf("%s: x^%d gives %v", c.name, p, s.Area)
			}
			// A moment is exact one power lower, but for 5-8-minus-1, which has multipliers of its own for it.
			if moment := math.Pow(end, n+2) / (n + 2); (p < c.powers || c.name == "5-8-minus-1" && p <= 2) && math.Abs(s.Moment/moment-1) > 1e-12 {
				t.Errorf("%s: the moment of x^%d is %v, want %v", c.name, p, s.Moment, moment)
			}
		}
	}
}

// A count of ordinates that the rule does not take is refused with what it takes.
func TestWrongCounts(t *testing.T) {
	y := make([]float64, 8)
	for _, c := range []struct {
		name         string
		err          error
		below, above int
	}{
		{"first, seven intervals", only(simpson.ByFirst(1, y)), 6, 8},
		{"first, one ordinate", only(simpson.ByFirst(1, y[:1])), 0, 2},
		{"second, seven", only(simpson.BySecond(1, y)), 6, 9},
		{"5-8-minus-1, seven", only(simpson.ByFiveEight(1, y)), 0, 2},
		{"trapezoids, none", only(simpson.ByTrapezoids(1, nil)), 0, 1},
	} {
		var count *simpson.CountError
		if !errors.As(c.err, &count) || count.Below != c.below || count.Above != c.above || !strings.Contains(c.err.Error(), "would be right") {
			t.Errorf("%s: %v", c.name, c.err)
		}
	}
	var odd *simpson.OrdinateError
	if err := only(simpson.ByFirst(1, []float64{0, math.NaN(), 1})); !errors.As(err, &odd) || odd.Number != 1 {
		t.Error(err)
	}
	var interval *simpson.IntervalError
	if err := only(simpson.ByFirst(0, y[:3])); !errors.As(err, &interval) {
		t.Error(err)
	}
	var size *simpson.SizeError
	if err := only(simpson.ByFirst(1, []float64{math.MaxFloat64, math.MaxFloat64, 1})); !errors.As(err, &size) {
		t.Error(err)
	}
}

func only(_ *simpson.Sum, err error) error { return err }

// Places tell halved intervals, and uneven ones are refused; levers follow the places.
func TestPlacesOfOrdinates(t *testing.T) {
	places := []float64{100, 150, 200, 300, 400, 450, 500}
	y := make([]float64, len(places))
	for i, x := range places {
		y[i] = 7 + 3*(x-100) + (x-100)*(x-100)/9
	}
	s, err := simpson.FirstAt(places, y, 0.5)
	if err != nil {
		t.Fatal(err)
	}
	if want := 7*400 + 1.5*400*400 + 400.*400*400/27; math.Abs(s.Area/want-1) > 1e-12 {
		t.Errorf("area %v, want %v", s.Area, want)
	}
	for i, x := range places {
		if math.Abs(s.Levers[i]-(x-100)/100) > 1e-12 {
			t.Errorf("lever %d is %v", i, s.Levers[i])
		}
	}
	var spacing *simpson.SpacingError
	if err := only(simpson.FirstAt([]float64{0, 100, 200, 330, 400}, y[:5], 0.5)); !errors.As(err, &spacing) || spacing.Number != 2 {
		t.Errorf("uneven: %v", err)
	}
	if err := only(simpson.FirstAt([]float64{0, 100, 90}, y[:3], 0.5)); !errors.As(err, &spacing) {
		t.Errorf("backwards: %v", err)
	}
	var length *simpson.LengthError
	if err := only(simpson.FirstAt(places[:3], y[:4], 0)); !errors.As(err, &length) {
		t.Error(err)
	}
	// Trapezoids take any places: a straight line is exact.
	s, err = simpson.TrapezoidsAt([]float64{0, 10, 35, 100}, []float64{0, 10, 35, 100})
	if err != nil || math.Abs(s.Area-5000) > 1e-9 {
		t.Errorf("%v, %v", s, err)
	}
}

// Powers, computed: what each rule makes of them and what is exact, testdata/published/analytic-curves-computed/SOURCE.md.
func TestPowers(t *testing.T) {
	f, err := os.Open("../../../testdata/published/analytic-curves-computed/curves.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range rows[1:] {
		name, ok := strings.CutPrefix(r[0], "power_")
		if !ok {
			continue
		}
		interval, n := .5, 7
		if strings.HasSuffix(name, "by_5_8") {
			interval, n = .7, 3
		}
		power := number(t, name[:1])
		y := make([]float64, n)
		for i := range y {
			y[i] = math.Pow(interval*float64(i), power)
		}
		got := func(s *simpson.Sum, err error) *simpson.Sum {
			if err != nil {
				t.Fatal(r, err)
			}
			return s
		}
		var v float64
		switch r[1] {
		case "trapezoidal":
			v = got(simpson.ByTrapezoids(interval, y)).Area
		case "Simpson first rule":
			v = got(simpson.ByFirst(interval, y)).Area
		case "Simpson second rule":
			v = got(simpson.BySecond(interval, y)).Area
		case "5 8 -1 rule first interval":
			v = got(simpson.ByFiveEight(interval, y)).Area
		case "3 10 -1 moment of first interval about y0":
			v = got(simpson.ByFiveEight(interval, y)).Moment
		default:
			continue
		}
		seen++
		if want := number(t, r[3]); math.Abs(v-want) > near*max(1, math.Abs(want)) {
			t.Errorf("%s, %s: %v, want %v", r[0], r[1], v, want)
		}
	}
	if seen < 20 {
		t.Errorf("%d figures", seen)
	}
}
