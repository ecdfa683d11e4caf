package fairness_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// studySeed draws the boats of the single tests, and its first sixty a family those that the factors near the ends were
// measured on; heldOut and heldOther draw boats that nothing was tuned by.
const (
	studySeed = 0xfa1e
	heldOut   = 0x1889c0de
	heldOther = 0x7777000
)

// misread changes a length as written by so many millimetres, either way, but not below nothing.
func misread(r *rand.Rand, doc *offsets.Document, text *string, by float64) {
	v, err := doc.Notation.Parse(*text)
	if err != nil {
		panic(err)
	}
	to := v.MM() + by
	if r.IntN(2) == 0 && v.MM() > by {
		to = v.MM() - by
	}
	l, err := notation.FromMM(math.Round(to/eighth) * eighth)
	if err != nil {
		panic(err)
	}
	*text = doc.Notation.Format(l)
}

// told is the place in the list of the cell, or -1 where it is not told to be out of line.
func told(rep *fairness.Report, station int, cell string) int {
	for i, o := range rep.Beyond() {
		if o.Station == station && o.Cell == cell {
			return i
		}
	}
	return -1
}

// The figures stated of Threshold, on a third of the boats they were measured on: 132 of the 396, twelve of every family,
// about 130 figures each, written to eighths. Nearly every one that is told heads the list.
func TestFalseAlarmsAndWhatIsFound(t *testing.T) {
	trials := 12
	if testing.Short() {
		trials = 4
	}
	found := []struct {
		by, least           float64
		tried, hit, refused int
	}{{by: 6.35, least: .1}, {by: 12.7, least: .5}, {by: 25.4, least: .8}, {by: 50.8, least: .88}, {by: 304.8, least: .95}}
	tables, alarms, heads, hits := 0, 0, 0, 0
	for f := range families {
		for trial := range trials {
			r := rand.New(rand.NewPCG(heldOut+uint64(trial), uint64(f)))
			doc := written(f, r)
			tables++
			for _, o := range sound(t, doc).Beyond() {
				alarms++
				t.Logf("false: %s, %s: %s, %s would be fair", families[f].name, name(o), o.WrittenText, o.FairText)
			}
			for i := range found {
				c := &found[i]
				station := r.IntN(len(doc.Stations))
				lines := doc.Stations[station].Sides[0].Waterlines
				w := &lines[r.IntN(len(lines))]
				was := w.HalfBreadth
				misread(r, doc, &w.HalfBreadth, c.by)
				c.tried++
				rep, ok := judged(doc)
				at := 0
				if ok {
					if at = told(rep, station, "wl:"+w.Height); at >= 0 {
						hits++
						c.hit++
					}
				} else {
					c.refused++
				}
				if ok && at == 0 {
					heads++
				}
				w.HalfBreadth = was
			}
		}
	}
	t.Logf("%d false alarms in %d tables", alarms, tables)
	if most := 0.1 * float64(tables); float64(alarms) > most {
		t.Errorf("%d false alarms in %d tables, %.0f allowed", alarms, tables, most)
	}
	for _, c := range found {
		t.Logf("misread by %.2f mm: %d tried, %d told, %d refused", c.by, c.tried, c.hit, c.refused)
		if share := float64(c.hit+c.refused) / float64(c.tried); share < c.least {
			t.Errorf("misread by %.2f mm: %.0f in 100 are told, %.0f wanted", c.by, 100*share, 100*c.least)
		}
	}
	if heads < hits*9/10 {
		t.Errorf("%d of %d told head the list", heads, hits)
	}
}

// Tables of fewer and of more stations, and to other grains, are no more often told of without a mistake.
func TestFalseAlarmsOfOtherTables(t *testing.T) {
	trials := 12
	if testing.Short() {
		trials = 4
	}
	for _, c := range []struct {
		stations int
		grain    string
	}{{5, "0-0-1"}, {7, "0-0-1"}, {13, "0-0-1"}, {9, "0-0-0+"}, {13, "0-0-2"}} {
		tables, alarms := 0, 0
		for f := range families {
			for trial := range trials {
				doc := writtenAt(f, rand.New(rand.NewPCG(heldOther+uint64(trial), uint64(f))), c.stations, c.grain)
				tables++
				alarms += len(sound(t, doc).Beyond())
			}
		}
		t.Logf("%d stations to %s: %d false alarms in %d tables", c.stations, c.grain, alarms, tables)
		if most := 0.1 * float64(tables); float64(alarms) > most {
			t.Errorf("%d stations to %s: %d false alarms in %d tables, %.0f allowed", c.stations, c.grain, alarms, tables, most)
		}
	}
}

// Two figures exchanged are both told, before all others.
func TestTwoFiguresExchanged(t *testing.T) {
	n := 0
	for f := range families {
		r := rand.New(rand.NewPCG(studySeed+100, uint64(f)))
		doc := written(f, r)
		lines := doc.Stations[3].Sides[0].Waterlines
		a, b := &lines[2], &lines[3]
		va, _ := doc.Notation.Parse(a.HalfBreadth)
		vb, _ := doc.Notation.Parse(b.HalfBreadth)
		if math.Abs(va.MM()-vb.MM()) < 40 {
			continue // so near that nobody would mind
		}
		a.HalfBreadth, b.HalfBreadth = b.HalfBreadth, a.HalfBreadth
		rep, ok := judged(doc)
		if !ok {
			continue // refused on reading
		}
		n++
		i, k := told(rep, 3, "wl:"+a.Height), told(rep, 3, "wl:"+b.Height)
		if i < 0 || k < 0 || i > 2 || k > 2 {
			t.Errorf("%s: exchanged figures stand at %d and %d of %d", families[f].name, i, k, len(rep.Beyond()))
			for _, o := range rep.Worst(4) {
				t.Logf("%s: %s, %s would be fair, %.1f times", name(o), o.WrittenText, o.FairText, o.Times)
			}
		}
	}
	if n < 4 {
		t.Errorf("only %d boats tried", n)
	}
}

// A station at the wrong place is told by its x, with the place that would be fair within a sixth of the mistake.
func TestAStationAtTheWrongPlace(t *testing.T) {
	const wrong, by = 2, 228.6 // nine inches of a spacing of 45
	right := 0
	for f := range families {
		doc := written(f, rand.New(rand.NewPCG(studySeed+200, uint64(f))))
		x, _ := doc.Notation.Parse(doc.Stations[wrong].X)
		l, _ := notation.FromMM(math.Round((x.MM()+by)/eighth) * eighth)
		doc.Stations[wrong].X = doc.Notation.Format(l)
		rep, ok := judged(doc)
		if !ok {
			t.Errorf("%s: refused", families[f].name)
			continue
		}
		if told(rep, wrong, "x") < 0 {
			continue
		}
		for _, o := range rep.Beyond() {
			if o.Cell == "x" && o.Station == wrong {
				if o.Way != fairness.Aft || math.Abs(o.Off-by) > by/6 {
					t.Errorf("%s: told to be %.0f mm %s, put %.0f aft", families[f].name, o.Off, o.Way, by)
				} else {
					right++
				}
			} else if o.Cell == "x" {
				t.Errorf("%s: station %d is told to stand wrong", families[f].name, o.Station)
			}
		}
	}
	t.Logf("found in %d of %d", right, len(families))
	if right < 4 {
		t.Errorf("a station nine inches too far aft is told in %d of %d boats", right, len(families))
	}
}

// Whatever is judged is told in words that fit: fair values in the table's notation and to its grain, ways by sign.
func TestWhatIsToldOfAnOffset(t *testing.T) {
	doc := written(1, rand.New(rand.NewPCG(studySeed, 1)))
	s := &doc.Stations[4].Sides[0]
	w := &s.Waterlines[4]
	v, _ := doc.Notation.Parse(w.HalfBreadth)
	l, _ := notation.FromMM(v.MM() + 50.8)
	was := w.HalfBreadth
	w.HalfBreadth = doc.Notation.Format(l)
	rep := sound(t, doc)
	o := rep.Offsets[0]
	if o.Station != 4 || o.Side != boat.Both || o.Line != "wl" || o.At != w.Height || o.Cell != "wl:"+w.Height || !o.Beyond || o.Way != fairness.Out ||
		o.WrittenText != w.HalfBreadth || math.Abs(o.Off-50.8) > 2*eighth || math.Abs(o.Grains-o.Off/eighth) > 1e-9 || o.Pointer == "" {
		t.Errorf("told: %+v", o)
	}
	if got, _ := doc.Notation.Parse(o.FairText); got != o.Fair || math.Abs(got.MM()-v.MM()) > 2*eighth {
		t.Errorf("%s would be fair, %s was", o.FairText, was)
	}
	for i, o := range rep.Offsets {
		if i > 0 && o.Times > rep.Offsets[i-1].Times && o.Beyond == rep.Offsets[i-1].Beyond {
			t.Errorf("%s stands below one less far off", name(o))
		}
		if g := o.Fair.MM() / eighth; math.Abs(g-math.Round(g)) > 1e-6 {
			t.Errorf("%s: %s is not to the grain", name(o), o.FairText)
		}
	}
	if len(rep.Worst(3)) != 3 || len(rep.Worst(-1)) != 0 || len(rep.Worst(1e6)) != len(rep.Offsets) || (*fairness.Report)(nil).Beyond() != nil {
		t.Error("the first few of the list")
	}
}
