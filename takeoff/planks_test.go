package takeoff_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/fastening"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// planked is the demo boat planked alike on both sides in strakes, with planks renewed and her frames left, in a yard that scarfs no
// planks and counts neither butt blocks nor what fastens planks to frames.
func planked(t *testing.T, side planking.Document, rows ...plank.Row) takeoff.Basis {
	t.Helper()
	b := demoBasis(t, 0)
	b.Remedies = map[boat.Member]frame.Choice{}
	b.Rules.PlankScarf, b.Rules.ButtBlock, b.Rules.Fastening = nil, nil, nil
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	table, bad := offsets.Read(&d.Hull)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	h := hulltest.Hull(t, &d.Hull)
	b.Planking = map[boat.Side]planking.Terms{}
	have := plank.Have{Strakes: map[boat.Side]int{}, Frames: map[boat.Side]map[int]decimal.Decimal{}, Species: b.Species}
	for _, s := range boat.Sides {
		side.Side = s
		terms, bad := planking.Read(side, h, d.Hull.Notation, planking.Endings(table)...)
		if len(bad) > 0 {
			t.Fatal(bad)
		}
		b.Planking[s] = terms
		have.Strakes[s] = terms.Edges.Strakes()
		have.Frames[s] = map[int]decimal.Decimal{}
	}
	for _, f := range b.Frames {
		have.Frames[f.Side][f.No] = f.X
	}
	var faults error
	planks, bad2 := plank.Read(plank.Document{Notation: d.Hull.Notation, Planks: rows}, have)
	if faults = bad2.Err(); faults != nil {
		t.Fatal(faults)
	}
	b.Planks = planks
	return b
}

func twelve() planking.Document {
	return planking.Document{Strakes: planking.Division{Count: 12}, PlankThickness: "0-1-2", Butts: []planking.Given{{Strake: 5}}}
}

func ofFrames(strake int, side boat.Side, from, to int) plank.Row {
	return plank.Row{Strake: strake, Side: side, FromFrame: &from, ToFrame: &to, Species: "white_oak", Grade: "FAS"}
}

func timberOf(r takeoff.Result) []bill.Line {
	var out []bill.Line
	for _, l := range r.Bill.Lines {
		if l.Member.Kind == boat.Strake && l.Material == bill.Timber {
			out = append(out, l)
		}
	}
	return out
}

// A damaged piece comes out with the shortest plank over it, and that plank's own rectangle, as laid out apart, is the board on
// the bill: spiling is in it and is no loss besides. It is as thick as the plank and what is backed out of it.
func TestANewPlankIsTheRectangleRoundIt(t *testing.T) {
	b := planked(t, twelve(), ofFrames(5, boat.Port, 14, 16))
	r := runs(t, b)
	lines := timberOf(r)
	if len(r.Bill.Faults) > 0 || len(lines) != 1 || len(r.Planks) != 1 {
		t.Fatal(r.Bill.Faults, lines, r.Planks)
	}
	p, err := planking.Lay(b.Hull, bays(b, boat.Port), b.Planking[boat.Port])
	if err != nil {
		t.Fatal(err)
	}
	s := p.Strakes[4]
	n := r.Planks[0]
	of, err := s.Between(s.Place(*n.X0MM), s.Place(*n.X1MM))
	if err != nil {
		t.Fatal(err)
	}
	l, q := lines[0], lines[0].Pieces
	const tenth = .1 + 1e-9
	trim := b.Rules.BlankTrim.InexactFloat64()
	if got, want := q.Thickness.InexactFloat64(), of.BoardWidth.High; got < want || got > want+tenth {
		t.Errorf("width %v, %v wanted", got, want)
	}
	if got, want := q.Length.Value().InexactFloat64()*1000, of.BoardLength.High+trim; got < want || got > want+1+tenth {
		t.Errorf("length %v, %v wanted", got, want)
	}
	if got, want := q.Siding.InexactFloat64(), 31.75+of.Backing; got < want || got > want+tenth {
		t.Errorf("thickness %v, %v wanted", got, want)
	}
	if l.Part != "frames 14 to 19" || n.NewButts != 2 || n.FromWhere == "" || l.Member.String() != "strake 5 port" {
		t.Errorf("%+v, %+v", l, n)
	}
	net := value(t, r, "strake/5/port/plank_1/net_volume")
	if want := of.Area.MM * 31.75 / 1e9; math.Abs(net/want-1) > 2e-3 { // the area is told to three places
		t.Errorf("net volume %v, %v wanted", net, want)
	}
	table := derivation.Index(r.Figures)
	for _, f := range r.Figures {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
	for _, driver := range []step.Driver{step.Planks, step.PlankMetres, step.NewButts} {
		if !slices.ContainsFunc(r.Bill.Measures, func(m bill.Measure) bool { return m.Driver == string(driver) && m.Member.Kind == boat.Strake }) {
			t.Errorf("no measure of %s", driver)
		}
	}
	if codes := codesOf(r); !slices.Contains(codes, "planks_hold_her_shape") || !slices.Contains(codes, "plank_fastenings_not_counted") {
		t.Error(codes)
	}
}

func bays(b takeoff.Basis, side boat.Side) (out []butt.Frame) {
	for _, f := range b.Frames {
		if f.Side == side {
			out = append(out, butt.Frame{No: f.No, X: f.X.InexactFloat64()})
		}
	}
	return out
}

// A crossing of a renewed frame and a renewed plank is fastened once: together they take what each takes alone, less the
// crossings that they share.
func TestACrossingIsFastenedOnce(t *testing.T) {
	screws := func(rows []plank.Row, frames ...int) (n float64) {
		b := planked(t, twelve(), rows...)
		fastenedBy(t, &b, "140", fastening.TwoOrThree)
		for _, no := range frames {
			b.Remedies[frameNo(no, boat.Port)] = oak(boat.ReplaceLaminated)
		}
		r := runs(t, b)
		for _, l := range r.Bill.Lines {
			if l.Material == bill.Fastenings {
				n += l.Net.Value().InexactFloat64()
			}
		}
		if r.Fastened == nil || r.Fastened.Screws.Value().InexactFloat64() != n {
			t.Errorf("%+v told, %v on the bill", r.Fastened, n)
		}
		return n
	}
	row := []plank.Row{ofFrames(5, boat.Port, 14, 16)}
	plank, frames, both := screws(row), screws(nil, 14, 15, 30), screws(row, 14, 15, 30)
	// 174 mm wide: three screws on each of six frames
	if plank != 6*3 || both != frames+plank-2*3 {
		t.Errorf("%v of the plank, %v of the frames, %v of both", plank, frames, both)
	}
}

// What cannot be done is at fault where it is, and the other planks are on the bill all the same.
func TestPlanksThatCannotBe(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*takeoff.Basis)
		rows   []plank.Row
		code   string
		made   int
	}{
		"no lines": {func(b *takeoff.Basis) { b.Planking = nil }, []plank.Row{ofFrames(5, boat.Port, 14, 16),
			{Strake: 2, Side: boat.Starboard, Species: "white_oak", Grade: "FAS", Thickness: "0-1-2", ByHand: &plank.ByHandRow{Length: "9-0-0", Width: "0-7-0"}}}, "plank_shape_unknown", 1},
		"renewed there": {nil, []plank.Row{ofFrames(5, boat.Port, 12, 13), ofFrames(5, boat.Port, 14, 15)}, "plank_not_found", 1},
		"no thickness": {func(b *takeoff.Basis) {
			p := b.Planking[boat.Port]
			p.Exact = decimal.Zero
			b.Planking[boat.Port] = p
		}, []plank.Row{ofFrames(5, boat.Port, 14, 16)}, "plank_thickness_unknown", 0},
	} {
		b := planked(t, twelve(), c.rows...)
		if c.change != nil {
			c.change(&b)
		}
		r := runs(t, b)
		if codes := faultCodes(r); !slices.Equal(codes, []string{c.code}) || len(timberOf(r)) != c.made {
			t.Errorf("%s: %v, %d planks", name, r.Bill.Faults, len(timberOf(r)))
		}
		for _, f := range r.Bill.Faults {
			if f.Member == nil || f.Fix == "" || !strings.Contains(f.Detail, "Strake 5 port") {
				t.Errorf("%s: %+v", name, f)
			}
		}
	}
}

// Two pieces of one strake whose shortest planks would meet get planks abaft one another, the butt between them counted once.
func TestPlanksAbaftOneAnother(t *testing.T) {
	r := runs(t, planked(t, twelve(), ofFrames(5, boat.Port, 10, 12), ofFrames(5, boat.Port, 16, 17)))
	if len(r.Bill.Faults) > 0 || len(r.Planks) != 2 {
		t.Fatal(r.Bill.Faults, r.Planks)
	}
	a, z := r.Planks[0], r.Planks[1]
	if *a.X1MM > *z.X0MM {
		t.Errorf("the planks overlap: %v to %v, %v to %v", *a.X0MM, *a.X1MM, *z.X0MM, *z.X1MM)
	}
	met := *a.X1MM == *z.X0MM
	if a.NewButts+z.NewButts != map[bool]int{true: 3, false: 4}[met] {
		t.Errorf("%d and %d new butts, met %v", a.NewButts, z.NewButts, met)
	}
}

// A whole strake is all its planks between the butts that are there, none of them new.
func TestAWholeStrake(t *testing.T) {
	side := twelve()
	side.Butts = []planking.Given{{Strake: 5, X: []string{"12-0-0", "22-0-0"}}}
	b := planked(t, side, plank.Row{Strake: 5, Side: boat.Both, Whole: true, Species: "white_oak", Grade: "FAS"})
	r := runs(t, b)
	if len(timberOf(r)) != 6 || len(r.Bill.Faults) > 0 {
		t.Fatal(timberOf(r), r.Bill.Faults)
	}
	for _, n := range r.Planks {
		if n.NewButts != 0 {
			t.Errorf("%+v", n)
		}
	}
	area := 0.0
	for k := range 3 {
		area += value(t, r, "strake/5/port/plank_"+string(rune('1'+k))+"/area")
	}
	p, err := planking.Lay(b.Hull, bays(b, boat.Port), b.Planking[boat.Port])
	if err != nil {
		t.Fatal(err)
	}
	if want := p.Strakes[4].Area.MM / 1e6; math.Abs(area-want) > 2e-3 {
		t.Errorf("%v m2 of planks in a strake of %v", area, want)
	}
}

// A plank longer than the stock is at fault with where one more butt would do; a yard that scarfs planks makes it of as few
// lengths as it can, all alike, each scarf as long as its slope says, with its glue and what its hours are counted by.
func TestAPlankLongerThanTheStock(t *testing.T) {
	side := twelve()
	side.StockLengths = []string{"8-0-0", "10-0-0"}
	b := planked(t, side, ofFrames(5, boat.Port, 8, 26))
	r := runs(t, b)
	if len(r.Bill.Faults) != 1 || r.Bill.Faults[0].Code != "plank_longer_than_stock" || !strings.Contains(r.Bill.Faults[0].Fix, "One butt more, between frames ") {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	b.Rules.PlankScarf = &rules.PlankScarf{Slope: decimal.NewFromInt(12), Source: "test"}
	r = runs(t, b)
	l := timberOf(r)
	if len(r.Bill.Faults) > 0 || len(l) != 1 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	long, thick := value(t, r, "strake/5/port/plank_1/board_length")*1000, l[0].Pieces.Siding.InexactFloat64()
	usable := 10*304.8 - 2*b.Rules.EndTrim.InexactFloat64()
	n := 2.0
	for (long+(n-1)*12*thick)/n > usable {
		n++
	}
	if got := l[0].Net.Value().InexactFloat64(); got != n || r.Planks[0].Scarfs != int64(n-1) {
		t.Errorf("%v lengths, %v wanted", got, n)
	}
	if got, want := l[0].Pieces.Length.Value().InexactFloat64()*1000, (long+(n-1)*12*thick)/n; got < want-1e-9 || got > want+1 {
		t.Errorf("%v mm each, %v wanted", got, want)
	}
	if !strings.HasSuffix(l[0].Part, " lengths scarfed") {
		t.Error(l[0].Part)
	}
	area := value(t, r, "strake/5/port/plank_1/scarf_area")
	if want := (n - 1) * thick * math.Sqrt(145) * l[0].Pieces.Thickness.InexactFloat64() / 1e6; math.Abs(area/want-1) > .02 {
		t.Errorf("%v m2 of scarfs, %v wanted", area, want)
	}
	if !slices.ContainsFunc(r.Bill.Lines, func(l bill.Line) bool { return l.Material == bill.Glue && l.Member.Kind == boat.Strake }) ||
		!slices.ContainsFunc(r.Work, func(w step.Work) bool {
			return w.Code == "scarf_plank" && w.Hours.Value().Equal(decimal.NewFromInt(int64(2*(n-1))+1))
		}) {
		t.Errorf("%+v", r.Work)
	}
	table := derivation.Index(r.Figures)
	for _, f := range r.Figures {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
}

// A plank that the stock gives whole carries what a scarf takes and counts none; one that takes two lengths is needed whole too and
// counts one, with its glue, until boards are bought.
func TestAPlankThatMayBeScarfed(t *testing.T) {
	for stock, counted := range map[string]int64{"40-0-0": 0, "14-0-0": 1} {
		side := twelve()
		side.StockLengths = []string{stock}
		b := planked(t, side, ofFrames(5, boat.Port, 8, 26))
		b.Rules.PlankScarf = &rules.PlankScarf{Slope: decimal.NewFromInt(12), Source: "test"}
		r := runs(t, b)
		l := timberOf(r)
		if len(r.Bill.Faults) > 0 || len(l) != 1 || l[0].Pieces.Scarf == nil || l[0].Net.String() != "1" {
			t.Fatalf("%s: %+v", stock, r.Bill.Faults)
		}
		s := l[0].Pieces.Scarf
		if taper := value(t, r, "strake/5/port/plank_1/scarf_taper"); s.Counted != counted || s.Taper.InexactFloat64() != taper || !s.Least.Equal(s.Taper.Mul(decimal.NewFromInt(2))) || !s.Glue.Width.Equal(l[0].Pieces.Thickness) {
			t.Errorf("%s: %+v", stock, s)
		}
		glued := slices.ContainsFunc(r.Bill.Lines, func(l bill.Line) bool { return l.ID == s.Glue.Line })
		hours := slices.ContainsFunc(r.Work, func(w step.Work) bool { return w.Code == "scarf_plank" })
		if glued != (counted > 0) || hours != (counted > 0) || r.Planks[0].Scarfs != counted {
			t.Errorf("%s: glue %v, hours %v", stock, glued, hours)
		}
	}
}
