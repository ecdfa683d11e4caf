package fair_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/hull/fair"
)

const (
	tableSections = 8
	tablePoints   = 9
)

// TestTableReadWorse: tables whose points were read wrong by up to a grain
// either way, besides being written to it, with eight sections of nine points
// that count; among all families and placings that takes twenty.
func TestTableReadWorse(t *testing.T) {
	const (
		seen  = 0.97
		grain = 1.0
	)
	tables := trials()
	var w fair.Workspace
	found, multiples, sections := 0.0, 0.0, 0
	r := rand.New(rand.NewPCG(studySeed, 200))
	for range tables {
		var reading fair.Reading
		for reading.Sections() < tableSections {
			sections++
			c := families[r.IntN(len(families))].draw(r)
			marks := placings[r.IntN(len(placings))].lay(c, tablePoints, r)
			_, q, err := w.Judge(misread(c, marks, eighth, grain, r), eighth)
			if err != nil {
				t.Fatal(err)
			}
			reading.Add(q)
		}
		if multiple, worse := reading.Worse(); worse {
			found++
			multiples += multiple
		}
	}
	share := found / float64(tables)
	t.Logf("%d tables: %.2f %% found (standard error %.2f), at %.2f times the error of the grain; %.1f sections drawn for %d that count",
		tables, 100*share, 100*math.Sqrt(share*(1-share)/float64(tables)), multiples/found, float64(sections)/float64(tables), tableSections)
	if share < seen {
		t.Errorf("%.2f %% of the tables read a grain wrong are found, less than %.0f", 100*share, 100*seen)
	}
	// Up to a grain either way, besides up to half a grain: the square root of
	// 1 + 4 times the error of the grain alone.
	const true, within = 2.236, 0.35
	if math.Abs(multiples/found-true) > within {
		t.Errorf("they are told to be read %.2f times worse, want %.2f", multiples/found, true)
	}
}

// TestTableReadWell: the sections of the study were read as they were written.
func TestTableReadWell(t *testing.T) {
	const (
		mostFalse = 0.003 // of some 500 tables; over 3000 it was 0.10 %, standard error 0.06
		rounds    = 4     // the sections are dealt out anew so many times
	)
	var all []outcome
	for _, f := range families {
		for _, o := range theStudy().outcomes[cell{f.name, tablePoints}] {
			var one fair.Reading
			if one.Add(o.quality); one.Sections() == 1 {
				all = append(all, o)
			}
		}
	}
	r := rand.New(rand.NewPCG(studySeed, 201))
	tables, alarms := 0.0, 0.0
	for range rounds {
		r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		for i := 0; i+tableSections <= len(all); i += tableSections {
			var reading fair.Reading
			for _, o := range all[i : i+tableSections] {
				reading.Add(o.quality)
			}
			tables++
			if _, worse := reading.Worse(); worse {
				alarms++
			}
		}
	}
	share := alarms / tables
	// The rounds share their sections, so the error is that of one round.
	t.Logf("%.0f tables: %.2f %% false alarms (standard error %.2f)", tables, 100*share, 100*math.Sqrt(share*(1-share)/tables*rounds))
	if share > mostFalse {
		t.Errorf("%.2f %% of the tables read well are told to be read worse, more than %.1f", 100*share, 100*mostFalse)
	}
	single := 0.0
	for _, o := range all {
		if _, worse := o.quality.ReadWorse(); worse {
			single++
		}
	}
	t.Logf("of %d single sections %.2f %% are told", len(all), 100*single/float64(len(all)))
	const mostSingle = 0.005 // measured 0.25 %
	if single > mostSingle*float64(len(all)) {
		t.Errorf("%.2f %% of the sections read well are told to be read worse, more than %.1f", 100*single/float64(len(all)), 100*mostSingle)
	}
}

// A section that was read three grains wrong is told alone more often than
// not, where its points lie close; fitted again with the multiple it is told no
// more.
func TestSectionReadWorse(t *testing.T) {
	r := rand.New(rand.NewPCG(studySeed, 202))
	const sections = 200
	told, again := 0, 0
	for range sections {
		c := ellipse(r)
		pts := misread(c, alongGirth(c, 13, r), eighth, 3, r)
		_, q, err := fair.Judge(pts, eighth)
		if err != nil {
			t.Fatal(err)
		}
		multiple, worse := q.ReadWorse()
		if !worse {
			if multiple != 1 {
				t.Errorf("read well, yet %.2f times worse", multiple)
			}
			continue
		}
		told++
		_, q, err = fair.Judge(pts, eighth*multiple)
		if err != nil {
			t.Fatal(err)
		}
		if _, worse := q.ReadWorse(); worse {
			again++
		}
	}
	t.Logf("%d of %d told, %d told again", told, sections, again)
	if told < sections/2 || again > 0 {
		t.Errorf("%d of %d told, %d told again after a refit; want half and none", told, sections, again)
	}
}
