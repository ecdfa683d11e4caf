package flat_test

import (
	"math/rand"
	"slices"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// yard draws lists as a yard cuts from a few sheets, in millimetres: up to 20 sizes of a shop's, 1 to 4 of each, two stages, from one
// to three sizes of sheet.
func yard(seed int) flat.List {
	r := rand.New(rand.NewSource(int64(seed)))
	l := shop(2 * seed).list
	l.Stock = l.Stock[:1+r.Intn(3)]
	l.Pieces = l.Pieces[:min(len(l.Pieces), 4+r.Intn(17))]
	for i := range l.Pieces {
		l.Pieces[i].Qty = 1 + r.Int63n(4)
	}
	return l
}

// asked are the limits that lists of a request are planned within.
var asked = flat.Limits{Work: 60_000_000, Pivots: 10_000, Nodes: 5_000}

// Most lists of few sheets are proved within what a request may take: 18 of these 20 when this was written.
func TestFewSheetsAreProved(t *testing.T) {
	lists := 20
	if testing.Short() {
		lists = 10
	}
	proven := 0
	for seed := range lists {
		if p := solve(t, yard(seed), asked); p.Proven {
			proven++
		}
	}
	t.Logf("%d of %d", proven, lists)
	if 10*proven < 8*lists {
		t.Errorf("%d of %d are proved", proven, lists)
	}
}

// How many of the lists of few sheets are proved, and by how much in a hundred plans are above their floors.
func BenchmarkFewSheets(b *testing.B) {
	for range b.N {
		proven, gaps := 0, []float64{}
		for seed := range 40 {
			l := yard(seed)
			p, err := flat.SolveWithin(l, asked)
			if err != nil {
				b.Fatal(err)
			}
			sound(b, p, l)
			if p.Proven {
				proven++
			}
			gaps = append(gaps, 100*(float64(p.Cost)/float64(p.Bound)-1))
		}
		slices.Sort(gaps)
		b.ReportMetric(float64(proven)/40, "proven")
		b.ReportMetric(gaps[20], "%-gap-median")
		b.ReportMetric(gaps[39], "%-gap-worst")
	}
}
