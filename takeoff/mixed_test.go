package takeoff_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

// ship is what a test's boat is made of: frames a metre apart from 0, all of them to be replaced.
type ship struct {
	rows     []frame.Row
	patterns []pattern.Rows
	lines    *offsets.Document
	steps    []step.Step // beside the demo's
}

// tapedRow is a frame taped as the quarter circle of that radius: girth, chord of 60 degrees and its rise.
func tapedRow(no int, side boat.Side, radius float64) frame.Row {
	r := plainRow(no, side)
	r.Tape = &frame.TapeRow{Girth: fmt.Sprintf("%.0f", 1.5*radius), Chord: fmt.Sprintf("%.0f", radius), Rise: fmt.Sprintf("%.0f", radius*(1-math.Cos(math.Pi/6)))}
	return r
}

func plainRow(no int, side boat.Side) frame.Row {
	return frame.Row{No: no, Side: side, X: fmt.Sprint(1000 * no), Siding: "45", Moulded: "50"}
}

// arcOf is a pattern of an arc of that radius, moved outboard by so much at every point.
func arcOf(no int, side boat.Side, radius, out float64) pattern.Rows {
	p := pattern.Rows{FrameNo: no, Side: side}
	for i := range 14 {
		s, c := math.Sincos(1.5 * float64(i) / 13)
		p.Points = append(p.Points, pattern.Row{N: i + 1, Y: fmt.Sprintf("%.1f", 40+(radius+out)*s), Z: fmt.Sprintf("%.1f", radius-(radius+out)*c)})
	}
	return p
}

func (s ship) basis(t *testing.T) takeoff.Basis {
	t.Helper()
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	b := takeoff.Basis{Species: d.Species, Steps: d.Steps, Remedies: map[boat.Member]frame.Choice{}}
	b.Steps.Steps = append(append([]step.Step{}, b.Steps.Steps...), s.steps...)
	shop, bad := rules.Read(d.Rules)
	frames, worse := frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward, Frames: s.rows})
	if len(bad)+len(worse) > 0 {
		t.Fatal(bad, worse)
	}
	b.Rules, b.Frames = shop, frames
	if s.patterns != nil {
		set, bad := pattern.Read(pattern.Document{Notation: notation.Millimetres, Grain: "0.1", Surface: offsets.Inside, Patterns: s.patterns})
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		if b.Patterns, bad = set.Fit(); len(bad) > 0 {
			t.Fatal(bad)
		}
	}
	if s.lines != nil {
		o := hulltest.Read(t, s.lines)
		if b.Hull, err = hull.Fit(o); err != nil {
			t.Fatal(err)
		}
	}
	for _, f := range frames {
		b.Remedies[f.Member()] = frame.Choice{Remedy: boat.ReplaceLaminated, Species: "douglas_fir", Grade: "FAS"}
	}
	return b
}

func (s ship) run(t *testing.T) takeoff.Result {
	t.Helper()
	r, err := takeoff.Run(s.basis(t))
	if err != nil {
		t.Fatal(err)
	}
	table := derivation.Index(r.Figures)
	for _, f := range r.Figures {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
	for _, w := range r.Bill.Warnings {
		namedOnce(t, w.Member, w.Detail)
	}
	for _, f := range r.Bill.Faults {
		namedOnce(t, f.Member, f.Detail)
	}
	return r
}

// namedOnce holds that what is said of a frame begins with its name, so that a page need not put it there again.
func namedOnce(t *testing.T, m *boat.Member, detail string) {
	t.Helper()
	if m == nil {
		return
	}
	name := m.String()
	name = strings.ToUpper(name[:1]) + name[1:] + ":"
	if !strings.HasPrefix(detail, name) || strings.Count(detail, name) != 1 {
		t.Errorf("%q does not begin with %q, once", detail, name)
	}
}

func told(r takeoff.Result, code string) []bill.Warning {
	var out []bill.Warning
	for _, w := range r.Bill.Warnings {
		if w.Code == code {
			out = append(out, w)
		}
		if w.Detail == "" || w.Fix == "" {
			panic("a warning without words: " + w.Code)
		}
	}
	return out
}

func measuresOf(t *testing.T, r takeoff.Result, no int, side boat.Side) frame.Measures {
	t.Helper()
	for _, m := range r.Frames {
		if m.Member.No == no && m.Member.Side == side {
			return m
		}
	}
	t.Fatalf("no frame %d %s", no, side)
	return frame.Measures{}
}

func TestABoatOfTapedFramesAloneGetsATakeoff(t *testing.T) {
	var s ship
	for no := range 34 {
		s.rows = append(s.rows, tapedRow(no, boat.Both, 1000))
	}
	r := s.run(t)
	if len(r.Frames) != 68 || len(r.Bill.Lines) == 0 || r.Weight.IsZero() || r.TotalHours.IsZero() {
		t.Fatalf("%d frames, %d lines", len(r.Frames), len(r.Bill.Lines))
	}
	for _, m := range r.Frames {
		if m.RestsOn != boat.OnTape || m.GirthMM != 1500 || m.LeastAtMM != nil || m.LeastRadiusMM == nil || math.Abs(*m.LeastRadiusMM-1000) > 2 {
			t.Fatalf("%+v", m)
		}
	}
	for _, code := range []string{"taped_frames", "pattern_stock_bound"} {
		if w := told(r, code); len(w) != 1 || w[0].Member != nil || !strings.Contains(w[0].Detail, "68") {
			t.Errorf("%s: %v", code, w)
		}
	}
	if len(r.Bill.Warnings) != 3 || r.NotFastened == nil || len(told(r, "fastenings_not_counted")) != 1 {
		t.Errorf("%v", r.Bill.Warnings)
	}
}

func TestEveryFrameRestsOnTheBestThatWasMeasured(t *testing.T) {
	doc := round(0) // stations from 0 to 7000
	s := ship{lines: &doc}
	s.rows = []frame.Row{plainRow(1, boat.Both), tapedRow(2, boat.Both, 1000), tapedRow(3, boat.Port, 1000), plainRow(3, boat.Starboard), tapedRow(9, boat.Port, 1000), plainRow(9, boat.Starboard)}
	s.patterns = []pattern.Rows{arcOf(3, boat.Both, 1100, 0), arcOf(9, boat.Starboard, 900, 0), arcOf(12, boat.Port, 900, 0)}
	r := s.run(t)
	for _, c := range []struct {
		no   int
		side boat.Side
		on   boat.RestsOn
	}{{1, boat.Port, boat.OnStations}, {2, boat.Port, boat.OnTape}, {3, boat.Port, boat.OnPattern}, {3, boat.Starboard, boat.OnPattern}, {9, boat.Port, boat.OnTape}, {9, boat.Starboard, boat.OnPattern}} {
		if m := measuresOf(t, r, c.no, c.side); m.RestsOn != c.on {
			t.Errorf("frame %d %s rests on %s, %s wanted", c.no, c.side, m.RestsOn, c.on)
		}
	}
	if m := measuresOf(t, r, 9, boat.Starboard); math.Abs(m.GirthMM-1350) > 1 {
		t.Errorf("girth of a frame outside the stations: %v, 1350 wanted", m.GirthMM)
	}
	if w := told(r, "pattern_of_no_frame"); len(w) != 1 || !strings.Contains(w[0].Detail, "frame 12 port") {
		t.Errorf("%v", w)
	}
	if w := told(r, "pattern_off_lines"); len(w) != 2 || *w[0].Member != (boat.Member{Kind: boat.Frame, No: 3, Side: boat.Port}) || !strings.Contains(w[0].Detail, "Frame 3 port") {
		t.Errorf("%v", w)
	}
}

func TestAFrameOfWhichNothingWasMeasuredIsNamed(t *testing.T) {
	doc := round(0)
	for name, s := range map[string]ship{
		"no lines": {rows: []frame.Row{tapedRow(1, boat.Both, 900), plainRow(9, boat.Port)}},
		"outside":  {rows: []frame.Row{plainRow(1, boat.Both), plainRow(9, boat.Port)}, lines: &doc},
	} {
		_, err := takeoff.Run(s.basis(t))
		var none *takeoff.UnmeasuredError
		if !errors.As(err, &none) || len(none.Members) != 1 || none.Lines != (s.lines != nil) {
			t.Fatalf("%s: %v", name, err)
		}
		if feet := s.basis(t); s.lines != nil { // the reach stands as the job writes lengths
			feet.Notation = notation.FeetInchesEighths
			_, err := takeoff.Run(feet)
			_, aft := feet.Hull.Reach()
			l, _ := notation.FromMM(math.Round(aft/3.175) * 3.175)
			if want := "from 0-0-0 to " + notation.FeetInchesEighths.Format(l); err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), " mm") {
				t.Errorf("%s: %v, and not %q", name, err, want)
			}
		}
		for _, text := range []string{err.Error(), none.Detail(none.Members[0]) + none.Fix()} {
			for _, word := range []string{"frame 9 port", "stations", "pattern", "tape"} {
				if !strings.Contains(text, word) {
					t.Errorf("%s: %q does not say %q", name, text, word)
				}
			}
		}
	}
}

// sagged is a boat of five patterns a side, alike but for frame 2 port, which lies outboard of its neighbours.
func sagged(out float64, target frame.Target) ship {
	var s ship
	for no := range 5 {
		for _, side := range boat.Sides {
			o, row := 0.0, plainRow(no, side)
			if no == 2 && side == boat.Port {
				o, row.Target = out, target
			}
			s.rows, s.patterns = append(s.rows, row), append(s.patterns, arcOf(no, side, 1000, o))
		}
	}
	return s
}

func TestATargetOffWhatWasFoundIsShoredTo(t *testing.T) {
	doc := arcs()
	for _, target := range []frame.Target{frame.Faired, frame.BetterSideMirrored, frame.FromLines} {
		for _, out := range []float64{30, -30, 3} {
			s := sagged(out, target)
			if target == frame.FromLines {
				s.lines = &doc
			}
			s.steps = []step.Step{{Code: "shore", Name: "Shore to shape", Trade: "shipwright", Driver: step.Shored, PerUnitH: decimal.NewFromInt(3), Factor: decimal.NewFromInt(1)}}
			r := s.run(t)
			m := measuresOf(t, r, 2, boat.Port)
			if m.Target != target || m.Difference == nil || len(m.Difference.Tenths) != 11 {
				t.Fatalf("%s: %+v", target, m)
			}
			for _, o := range append(m.Difference.Tenths, m.Difference.Greatest) { // found outboard, so the target lies inboard
				if math.Abs(o.OutboardMM+out) > 1 {
					t.Errorf("%s, %v out: the target lies %v mm outboard at %v", target, out, o.OutboardMM, o.AtMM)
				}
			}
			if math.Abs(m.GirthMM-1500) > 2 || math.Abs(m.Difference.FoundGirthMM-1.5*(1000+out)) > 2 {
				t.Errorf("%s: girth %v, found %v", target, m.GirthMM, m.Difference.FoundGirthMM)
			}
			shored := 0
			for _, x := range r.Bill.Measures {
				if x.Driver == "shored_frames" {
					shored++
					if x.Member != m.Member || x.Quantity.String() != "1" {
						t.Errorf("%+v", x)
					}
				}
			}
			w := told(r, "shore_to_shape")
			if want := math.Abs(out) > 6.35; (shored == 1) != want || (len(w) == 1) != want || m.Difference.Shored != want {
				t.Fatalf("%s, %v out: %d shored, warned %v, %v", target, out, shored, w, m.Difference.Shored)
			}
			hours := ""
			for _, x := range r.Work {
				if x.Driver == step.Shored {
					hours = x.Hours.String()
				}
			}
			if len(w) == 1 && (!strings.Contains(w[0].Detail, "Frame 2 port: shore to shape before the pattern is taken") || !strings.Contains(w[0].Fix, "surveyor") || strings.Contains(w[0].Fix, "No step") || hours != "3.00") {
				t.Errorf("%+v, %s h", w[0], hours)
			}
		}
	}
	// a library without such a step is told so
	r := sagged(30, frame.Faired).run(t)
	if w := told(r, "shore_to_shape"); len(w) != 1 || !strings.Contains(w[0].Fix, "No step of the library is counted by shored_frames") {
		t.Errorf("%v", w)
	}
	// as found the sag is built in again, and nothing is said
	if m := measuresOf(t, sagged(30, "").run(t), 2, boat.Port); m.Difference != nil || m.Target != "" || math.Abs(m.GirthMM-1545) > 2 {
		t.Errorf("%+v", m)
	}
}

// arcs is the lines of the boat of arcOf with nothing sagged.
func arcs() offsets.Document {
	doc := offsets.Document{Notation: notation.Millimetres, Grain: "0", Surface: offsets.Inside}
	for no := range 5 {
		at := func(a float64) (y, z string) {
			s, c := math.Sincos(a)
			return fmt.Sprintf("%.3f", 40+1000*s), fmt.Sprintf("%.3f", 1000-1000*c)
		}
		side := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{}, Sheer: &offsets.EndOffsets{}}
		side.Rabbet.HalfBreadth, side.Rabbet.Height = at(0)
		side.Sheer.HalfBreadth, side.Sheer.Height = at(1.5)
		for a := 0.1; a < 1.45; a += 0.1 {
			y, z := at(a)
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: z, HalfBreadth: y})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: fmt.Sprint(no * 1000), Sides: []offsets.SideOffsets{side}})
	}
	return doc
}

func TestTargetsThatCannotBeKnownAreNamedTogether(t *testing.T) {
	s := ship{patterns: []pattern.Rows{arcOf(0, boat.Port, 900, 0), arcOf(1, boat.Port, 900, 0), arcOf(2, boat.Port, 900, 0)}}
	for no, target := range []frame.Target{frame.FromLines, frame.Faired, frame.BetterSideMirrored} {
		row := plainRow(no, boat.Port)
		row.Target = target
		s.rows = append(s.rows, row)
	}
	_, err := takeoff.Run(s.basis(t))
	var unknown *takeoff.TargetError
	if !errors.As(err, &unknown) || len(unknown.Faults) != 3 {
		t.Fatal(err)
	}
	for i, f := range unknown.Faults {
		if !strings.HasPrefix(f.Detail, fmt.Sprintf("frame %d port: ", i)) || f.Fix == "" {
			t.Errorf("%+v", f)
		}
	}
	// at the end of the boat nothing lies beyond to fair by
	e := sagged(30, "")
	e.rows[0].Target = frame.Faired
	if _, err := takeoff.Run(e.basis(t)); !errors.As(err, &unknown) || len(unknown.Faults) != 1 || !strings.Contains(unknown.Faults[0].Detail, "from 1000 mm to 4000 mm") {
		t.Error(err)
	}
}

func TestWhatATapeCannotCompareIsToldOnce(t *testing.T) {
	s := ship{rows: []frame.Row{tapedRow(1, boat.Port, 900), tapedRow(1, boat.Starboard, 1000), plainRow(2, boat.Port), tapedRow(2, boat.Starboard, 1000)},
		patterns: []pattern.Rows{arcOf(2, boat.Port, 1000, 0)}}
	s.rows[0].Target, s.rows[2].Target = frame.BetterSideMirrored, frame.BetterSideMirrored
	r := s.run(t)
	if m := measuresOf(t, r, 1, boat.Port); m.GirthMM != 1500 || m.RestsOn != boat.OnTape || m.Difference != nil || m.Target != frame.BetterSideMirrored {
		t.Errorf("%+v", m)
	}
	if w := told(r, "difference_not_known"); len(w) != 1 || !strings.Contains(w[0].Detail, "was taped: 2") {
		t.Errorf("%v", w)
	}
}

// Everything port for starboard: the takeoff is the same with its sides changed.
func TestMirroredInputGivesMirroredOutput(t *testing.T) {
	s := sagged(25, frame.Faired)
	s.rows[6].Target, s.rows[6].BetterSide = frame.BetterSideMirrored, boat.Starboard
	s.rows = append(s.rows, tapedRow(7, boat.Port, 950), tapedRow(7, boat.Starboard, 990))
	m := ship{}
	for _, r := range s.rows {
		r.Side = r.Side.Other()
		if r.BetterSide != "" {
			r.BetterSide = r.BetterSide.Other()
		}
		m.rows = append(m.rows, r)
	}
	for _, p := range s.patterns {
		p.Side = p.Side.Other()
		m.patterns = append(m.patterns, p)
	}
	a, b := s.run(t), m.run(t)
	turned := map[boat.Member]frame.Measures{}
	for _, x := range b.Frames {
		x.Member.Side = x.Member.Side.Other()
		turned[x.Member] = x
	}
	for _, x := range a.Frames {
		if d := cmp.Diff(x, turned[x.Member]); d != "" {
			t.Error(d)
		}
	}
	if !a.Weight.Equal(b.Weight) || !a.TotalHours.Equal(b.TotalHours) || len(a.Bill.Warnings) != len(b.Bill.Warnings) {
		t.Errorf("%s and %s kg, %s and %s h", a.Weight, b.Weight, a.TotalHours, b.TotalHours)
	}
}

// What lies off by exactly what the rules let pass is let pass; a thousandth of a millimetre more is told and counted.
func TestWhatLiesOffByTheToleranceIsLetPass(t *testing.T) {
	doc := arcs()
	s := sagged(30, frame.FromLines)
	s.lines = &doc
	b := s.basis(t)
	runOf := func(tolerance decimal.Decimal) (r takeoff.Result) {
		t.Helper()
		b.Rules.ShapeTolerance = tolerance
		r, err := takeoff.Run(b)
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
	off := decimal.NewFromFloat(measuresOf(t, runOf(decimal.NewFromInt(1)), 2, boat.Port).Difference.Greatest.OutboardMM).Abs()
	for _, c := range []struct {
		tolerance decimal.Decimal
		told      int
	}{{off, 0}, {off.Sub(decimal.New(1, -3)), 1}} {
		r := runOf(c.tolerance)
		if n := len(told(r, "shore_to_shape")); n != c.told || measuresOf(t, r, 2, boat.Port).Difference.Shored != (c.told == 1) {
			t.Errorf("%s mm off, %s let pass: told of shoring %d times", off, c.tolerance, n)
		}
		if n := len(told(r, "pattern_off_lines")); n != c.told {
			t.Errorf("%s mm off, %s let pass: told of the lines %d times", off, c.tolerance, n)
		}
	}
}
