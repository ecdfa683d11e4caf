package strake_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"ribband/takeoff/hull/strake"
)

// stock is the figures of an item of testdata/published/plank-stock-undated, in the order they stand.
func stock(t *testing.T, item string) (out []float64) {
	t.Helper()
	f, err := os.Open("../../../testdata/published/plank-stock-undated/figures.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer func() { _ = f.Close() }()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if r[0] == item {
			v, err := strconv.ParseFloat(r[1], 64)
			if err != nil {
				t.Fatal(err)
			}
			out = append(out, v)
		}
	}
	if out == nil {
		t.Fatalf("no %s", item)
	}
	return out
}

// Strakes are laid off as is printed: at every place each is one part of the girth, wider amidships than at the ends; and a
// boat of the same shape whose girth is 1.3 times another's has planks as wide with 13 strakes as that with 10.
func TestStrakesArePartsOfTheGirth(t *testing.T) {
	n := stock(t, "strakes of the midship girth")
	few, many := int(n[0]), int(n[1])
	const length, breadth, draught = 7000., 2400., 900.
	grown := float64(many) / float64(few)
	small, great := wigley(length, breadth, draught), wigley(length, grown*breadth, grown*draught)
	widths := func(f form, strakes int) (out [][]float64, girths []float64) {
		xs := strake.Places(f, 16)
		all, err := strake.Lay(f, equal(t, strakes), xs)
		if err != nil {
			t.Fatal(err)
		}
		for i, x := range xs {
			girth := 0.0 // by chords of the section
			const chords = 4000
			before := f.jet(0, x)
			for k := range chords {
				j := f.jet(float64(k+1)/chords, x)
				girth += math.Hypot(j.Y-before.Y, j.Z-before.Z)
				before = j
			}
			girths = append(girths, girth)
			var at []float64
			for _, s := range all {
				at = append(at, s.Width(i).MM)
			}
			out = append(out, at)
		}
		return out, girths
	}
	ten, girths := widths(small, few)
	thirteen, _ := widths(great, many)
	middle := len(ten) / 2
	for i := range ten {
		sum := 0.0
		for _, w := range ten[i] {
			sum += w
		}
		near(t, "all widths at a place", sum, girths[i], 1e-3*girths[i])
		if ten[middle][0] < ten[i][0]*(1-1e-9) {
			t.Errorf("the first strake is %v wide amidships and %v at place %d", ten[middle][0], ten[i][0], i)
		}
	}
	mean := func(of []float64) float64 {
		sum := 0.0
		for _, w := range of {
			sum += w
		}
		return sum / float64(len(of))
	}
	near(t, "width of thirteen on the greater girth", mean(thirteen[middle]), mean(ten[middle]), 1e-3*mean(ten[middle]))
}

// Backing out by w²/8R as printed, and how far that is from the exact sagitta.
func TestPrintedBacking(t *testing.T) {
	usual, exactly := stock(t, "backing out of a plank"), stock(t, "backing out of a plank exactly")
	for i, c := range []struct{ w, r float64 }{{5, 30}, {120, 700}} {
		near(t, "backing", strake.Backing(c.w, 1/c.r), usual[i], 5e-7)
		const short = .002 // of it: the higher powers of w/R that are left out
		near(t, "backing beside the exact", strake.Backing(c.w, 1/c.r), exactly[i], short*exactly[i])
	}
}
