package simpson_test

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"ribband/takeoff/hull/simpson"
)

// further is a figure of testdata/published/simpson-examples-undated/further.csv: as printed, and unrounded.
func further(t *testing.T, id, what string) (printed, unrounded float64) {
	t.Helper()
	f, err := os.Open("../../../testdata/published/simpson-examples-undated/further.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if r[0] == id && r[3] == what {
			return number(t, r[5]), number(t, r[7])
		}
	}
	t.Fatalf("no %s of %s", what, id)
	return 0, 0
}

// What is built on a published sum of products, whose ordinates are not stored: the volume of P09 and both second moments of
// P11 by the first rule's factor. Weights and draughts are the example's own arithmetic, no figure of the program.
func TestFurtherPublishedSums(t *testing.T) {
	check := func(id, what string, got, rounded float64) {
		t.Helper()
		printed, unrounded := further(t, id, what)
		if math.Abs(got-unrounded) > near*unrounded {
			t.Errorf("%s: %s is %v, want %v", id, what, got, unrounded)
		}
		if math.Abs(got-printed) > rounded {
			t.Errorf("%s: %s is %v, printed %v", id, what, got, printed)
		}
	}
	const seaWater = 1.025 // t/m³, as the example has it
	volume := simpson.First.Factor(1) * 7918
	check("P09", "volume", volume, 1e-6)
	check("P09", "displacement", seaWater*volume, .05)
	check("P09", "tonnes per centimetre", 660/97.56, .005) // 100 / 1.025 to four figures, as the book has it
	tons, _ := further(t, "P09", "displacement")           // the example goes on with what it printed
	perCentimetre, _ := further(t, "P09", "tonnes per centimetre")
	check("P09", "fresh water allowance", tons/(4*perCentimetre), .05)
	const h = 14.1
	check("P11", "longitudinal second moment amidships", 2*h*h*simpson.First.Factor(h)*1896, 500) // printed to thousands
	check("P11", "transverse second moment", 2*simpson.First.Factor(h)/3*52423, 50)
}

// The second moments of a waterplane by the first rule, taken as P11 takes them, meet those of a plane of known shape: a half
// breadth of b (1 - X²), X from -1 to 1 over 2a, has 4 a³ b / 15 to a side about amidships, and 64 a b³ / 105 across.
func TestSecondMomentsOfAParabola(t *testing.T) {
	const a, b, n = 60., 7., 10
	var longitudinal, cubes []float64
	for i := range n + 1 {
		x := a * (2*float64(i)/n - 1)
		y := b * (1 - x*x/a/a)
		longitudinal, cubes = append(longitudinal, x*x*y), append(cubes, y*y*y)
	}
	for what, c := range map[string]struct {
		y         []float64
		by, exact float64
	}{
		"longitudinal": {longitudinal, 2, 2 * 4 * a * a * a * b / 15},
		"transverse":   {cubes, 2. / 3, 64 * a * b * b * b / 105},
	} {
		s, err := simpson.ByFirst(2*a/n, c.y)
		if err != nil {
			t.Fatal(err)
		}
		const within = 3e-3 // of eleven ordinates; what is summed is a quartic and a sextic
		if got := c.by * s.Area; math.Abs(got/c.exact-1) > within {
			t.Errorf("%s second moment %v, want %v", what, got, c.exact)
		}
	}
}
