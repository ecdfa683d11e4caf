package takeoff_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/shopspring/decimal"
)

func frameNo(no int, side boat.Side) boat.Member {
	return boat.Member{Kind: boat.Frame, No: no, Side: side}
}

// piecesOf is the demo boat, all sound but for these findings, with one remedy for these frames on port.
func piecesOf(t *testing.T, remedy boat.Remedy, nos []int, rows ...finding.Row) takeoff.Basis {
	t.Helper()
	b := demoBasis(t, 0)
	b.Findings = findings(t, append([]finding.Row{{Member: frameNo(1, boat.Both), ThroughNo: 34, State: finding.Sound}}, rows...)...)
	b.Remedies = map[boat.Member]frame.Choice{}
	for _, no := range nos {
		b.Remedies[frameNo(no, boat.Port)] = frame.Choice{Remedy: remedy, Species: "white_oak", Grade: "FAS"}
	}
	return b
}

func runs(t *testing.T, b takeoff.Basis) takeoff.Result {
	t.Helper()
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range r.Figures {
		if err := derivation.Verify(f, figures(r.Figures)); err != nil {
			t.Fatal(err)
		}
	}
	return r
}

// figures are a takeoff's, looked up by id.
type figures []derivation.Figure

func (f figures) Find(id string) (derivation.Figure, bool) {
	i := slices.IndexFunc(f, func(f derivation.Figure) bool { return f.ID == id })
	if i < 0 {
		return derivation.Figure{}, false
	}
	return f[i], true
}

// value of a figure by its id, in its unit.
func value(t *testing.T, r takeoff.Result, id string) float64 {
	t.Helper()
	i := slices.IndexFunc(r.Figures, func(f derivation.Figure) bool { return f.ID == id })
	if i < 0 {
		t.Fatalf("there is no figure %s", id)
	}
	v, err := decimal.NewFromString(r.Figures[i].Value)
	if err != nil {
		t.Fatal(err)
	}
	return v.InexactFloat64()
}

func faultCodes(r takeoff.Result) []string {
	out := []string{}
	for _, f := range r.Bill.Faults {
		out = append(out, f.Code)
	}
	return out
}

// A part let in at the bilge is as long as the break and its two tapers of ten to one on a depth of 2 7/8 in, and each
// scarf's face lies near m sqrt(1 + s2) as it follows an easy curve.
func TestAPartLetIn(t *testing.T) {
	r := runs(t, piecesOf(t, boat.ScarfIn, []int{12}, finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"}))
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatal(codes)
	}
	const in = 25.4
	taper := 10 * 2.875 * in
	path := "frame/12/port/part_1"
	if got, want := value(t, r, path+"/girth"), 6*in+2*taper; math.Abs(got-want) > 1e-6 {
		t.Errorf("the piece is %v mm, want %v", got, want)
	}
	// trim alone comes on top: the piece has neither heel nor head
	if got, want := value(t, r, path+"/blank_length"), (6*in+2*taper+4*in)/1000; math.Abs(got-want) > 0.0011 {
		t.Errorf("the blank is %v m, want %v", got, want)
	}
	face := 2.875 * in * math.Hypot(1, 10)
	if got := value(t, r, path+"/scarf_faces"); math.Abs(got-2*face) > 0.1*face {
		t.Errorf("the faces are %v mm, near %v wanted", got, 2*face)
	}
	if got, want := value(t, r, path+"/scarf_area"), value(t, r, path+"/scarf_faces")*1.75*in/1e6; math.Abs(got-want) > 0.0006 {
		t.Errorf("scarf area %v, want %v", got, want)
	}
	if len(r.Scarfs) != 2 || r.Scarfs[0].End != "heel" || r.Scarfs[1].End != "head" {
		t.Fatalf("%+v", r.Scarfs)
	}
	for _, s := range r.Scarfs {
		if math.Abs(math.Abs(s.InnerTipMM-s.FayingTipMM)-taper) > 0.01 || s.Straight == nil || s.Straight.ShortfallMM <= 0 || !strings.Contains(s.Note, "A straight edge would leave the wood") {
			t.Errorf("%+v, %+v", s, s.Straight)
		}
	}
	// at eight to one each taper is 2 x 2 7/8 in shorter, at twelve as much longer
	for _, s := range r.Scarfs {
		if s.Why == "" || s.Change == "" || s.Steeper == nil || s.Flatter == nil {
			t.Fatalf("%+v", s)
		}
		if s.Steeper.Slope != 8 || math.Abs(s.Steeper.TaperMM-8*2.875*in) > 0.001 || math.Abs(s.Steeper.FaceMM-2.875*in*math.Sqrt(65)) > 0.001 || s.Steeper.Means != "292 mm less of new piece along the girth." {
			t.Errorf("%+v", s.Steeper)
		}
		if s.Flatter.Slope != 12 || !strings.HasPrefix(s.Flatter.Means, "292 mm more") && !strings.Contains(s.Flatter.Means, "scarfs in place of 2") {
			t.Errorf("%+v", s.Flatter)
		}
	}
	if r.Scarfs[0].InnerTipMM != 36*in || r.Scarfs[1].InnerTipMM != 42*in {
		t.Errorf("the inner tips lie at %v and %v", r.Scarfs[0].InnerTipMM, r.Scarfs[1].InnerTipMM)
	}
	var scarfs decimal.Decimal
	for _, m := range r.Bill.Measures {
		if m.Driver == "scarfs" {
			scarfs = scarfs.Add(m.Quantity.Value())
		}
	}
	if !scarfs.Equal(decimal.NewFromInt(2)) {
		t.Errorf("%s scarfs are counted", scarfs)
	}
	// what is let in takes less of everything than the whole frame
	whole := runs(t, piecesOf(t, boat.ReplaceLaminated, []int{12}))
	for _, name := range []string{"/net_volume", "/glue_line_area", "/pattern_area"} {
		if part, all := value(t, r, path+name), value(t, whole, "frame/12/port"+name); part >= all {
			t.Errorf("%s: %v of %v", name, part, all)
		}
	}
	if !r.Weight.Value().LessThan(whole.Weight.Value()) {
		t.Errorf("%s of %s", r.Weight, whole.Weight)
	}
}

// A decayed heel is renewed with its housing and one scarf; two breaks far apart are two pieces with figures of their own.
func TestPartsAtTheHeelAndTwoApart(t *testing.T) {
	r := runs(t, piecesOf(t, boat.ScarfIn, []int{15, 20},
		finding.Row{Member: frameNo(15, boat.Port), State: finding.Decayed, To: "1-0-0"},
		finding.Row{Member: frameNo(20, boat.Port), State: finding.Broken, To: "0-2-0"},
		finding.Row{Member: frameNo(20, boat.Port), State: finding.Broken, From: "6-4-0"}))
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatal(codes)
	}
	heel := value(t, r, "frame/15/port/part_1/girth") + 3*25.4 + 4*25.4 // housing and trim of the demo's rules
	if got := value(t, r, "frame/15/port/part_1/blank_length"); math.Abs(got-heel/1000) > 0.0011 {
		t.Errorf("the heel piece is %v m, want %v", got, heel/1000)
	}
	if value(t, r, "frame/15/port/part_1/scarfs") != 1 || value(t, r, "frame/20/port/part_1/scarfs") != 1 || value(t, r, "frame/20/port/part_2/scarfs") != 1 {
		t.Error("a piece at an end has one scarf")
	}
	if len(r.Scarfs) != 3 || r.Scarfs[2].Piece != "part_2" || r.Scarfs[2].End != "heel" {
		t.Errorf("%+v", r.Scarfs)
	}
}

// Where the pieces lie is told by the figures alone, as the findings and the scarfs have it.
func TestStretchesOfPieces(t *testing.T) {
	b := piecesOf(t, boat.ScarfIn, []int{12, 15, 20},
		finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"},
		finding.Row{Member: frameNo(15, boat.Port), State: finding.Decayed, To: "1-0-0"},
		finding.Row{Member: frameNo(18, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"},
		finding.Row{Member: frameNo(20, boat.Port), State: finding.Broken, To: "0-2-0"},
		finding.Row{Member: frameNo(20, boat.Port), State: finding.Broken, From: "6-4-0"})
	b.Remedies[frameNo(18, boat.Port)] = frame.Choice{Remedy: boat.Sister, Species: "white_oak", Grade: "FAS"}
	r := runs(t, b)
	var members []boat.Member
	for _, f := range b.Frames {
		members = append(members, f.Member())
	}
	got := takeoff.Stretches(r.Figures, members)
	const in, taper = 25.4, 10 * 2.875 * 25.4
	end := value(t, r, "frame/20/port/part_2/girth") + 76*in - taper
	for no, want := range map[int][]takeoff.Stretch{
		12: {{Piece: "part_1", From: 36*in - taper, Low: 36 * in, High: 42 * in, To: 42*in + taper}},
		15: {{Piece: "part_1", High: 12 * in, To: 12*in + taper}},
		18: {{Piece: "sister_1", From: 12 * in, Low: 12 * in, High: 66 * in, To: 66 * in}},
		20: {{Piece: "part_1", High: 2 * in, To: 2*in + taper}, {Piece: "part_2", From: 76*in - taper, Low: 76 * in, High: end, To: end}},
	} {
		if diff := cmp.Diff(want, got[frameNo(no, boat.Port)], cmpopts.EquateApprox(0, 1e-6)); diff != "" {
			t.Errorf("frame %d: %s", no, diff)
		}
	}
	for _, x := range r.Scarfs {
		s := got[x.Member][slices.IndexFunc(got[x.Member], func(s takeoff.Stretch) bool { return s.Piece == x.Piece })]
		tip, inner := s.From, s.Low
		if x.End == "head" {
			tip, inner = s.To, s.High
		}
		if math.Abs(tip-x.FayingTipMM) > 0.001 || math.Abs(inner-x.InnerTipMM) > 0.001 {
			t.Errorf("%+v by its scarf, %+v by the figures", x, s)
		}
	}
	if len(got) != 4 || len(takeoff.Stretches(nil, members)) != 0 {
		t.Errorf("%d frames have pieces", len(got))
	}
}

func TestScarfsOfNeighboursAreKeptApart(t *testing.T) {
	broken := func(no int, from, to string) finding.Row {
		return finding.Row{Member: frameNo(no, boat.Port), State: finding.Broken, From: from, To: to}
	}
	near := runs(t, piecesOf(t, boat.ScarfIn, []int{12, 13}, broken(12, "3-0-0", "3-6-0"), broken(13, "3-2-0", "3-7-0")))
	if w := warned(near, "scarfs_abreast"); len(w) != 2 || w[0].Member.No != 13 {
		t.Errorf("%+v", w)
	}
	far := runs(t, piecesOf(t, boat.ScarfIn, []int{12, 14}, broken(12, "3-0-0", "3-6-0"), broken(14, "3-2-0", "3-7-0")))
	if w := warned(far, "scarfs_abreast"); len(w) != 0 {
		t.Errorf("%+v", w)
	}
}

// A sister is as long as the break and what the yard lays past it each way, and glued to its frame only where the yard
// glues.
func TestASister(t *testing.T) {
	b := piecesOf(t, boat.Sister, []int{12}, finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"})
	r := runs(t, b)
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatal(codes)
	}
	const in = 25.4
	path := "frame/12/port/sister_1"
	if got, want := value(t, r, path+"/girth"), (6+48)*in; math.Abs(got-want) > 1e-6 {
		t.Errorf("the sister is %v mm, want %v", got, want)
	}
	if len(r.Scarfs) != 0 {
		t.Errorf("%+v", r.Scarfs)
	}
	for _, l := range r.Bill.Lines {
		if strings.HasSuffix(l.ID, "side_glue") {
			t.Error("a sister that is bedded takes glue at its side")
		}
	}
	glued := *b.Rules.Sister
	glued.Glued, glued.Size, glued.Siding = true, rules.NoDeeper, decimal.NewFromInt(30)
	b.Rules.Sister = &glued
	r = runs(t, b)
	if got, want := value(t, r, path+"/side_area"), 54*in*2.875*in/1e6; math.Abs(got-want) > 0.0006 {
		t.Errorf("side area %v, want %v", got, want)
	}
	i := slices.IndexFunc(r.Bill.Lines, func(l bill.Line) bool { return l.Material == bill.Timber })
	if got := r.Bill.Lines[i].Pieces.Siding; !got.Equal(decimal.NewFromInt(30)) {
		t.Errorf("it is sided %s", got)
	}
}

// What a remedy cannot mend is refused for the frame, with what would do.
func TestRemediesThatCannotBe(t *testing.T) {
	decayed := finding.Row{Member: frameNo(12, boat.Port), State: finding.Decayed, From: "3-0-0", To: "3-6-0"}
	unsure := finding.Row{Member: frameNo(12, boat.Port), State: finding.Unknown, From: "3-6-0", To: "4-0-0"}
	broken := func(no int) finding.Row {
		return finding.Row{Member: frameNo(no, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"}
	}
	for _, c := range []struct {
		code   string
		remedy boat.Remedy
		nos    []int
		rows   []finding.Row
		change func(*takeoff.Basis)
	}{
		{"nothing_to_take_out", boat.ScarfIn, []int{12}, nil, nil},
		{"scarf_into_unknown", boat.ScarfIn, []int{12}, []finding.Row{decayed, unsure}, nil},
		{"frame_not_sounded", boat.ScarfIn, []int{12}, nil, func(b *takeoff.Basis) { b.Findings = finding.Set{} }},
		{"no_scarf_rule", boat.ScarfIn, []int{12}, []finding.Row{broken(12)}, func(b *takeoff.Basis) { b.Rules.Scarf = nil }},
		{"sister_over_decay", boat.Sister, []int{12}, []finding.Row{decayed}, nil},
		{"sister_over_unknown", boat.Sister, []int{12}, []finding.Row{broken(12), unsure}, nil},
		{"frame_not_sounded", boat.Sister, []int{12}, nil, func(b *takeoff.Basis) { b.Findings = finding.Set{} }},
		{"nothing_to_double", boat.Sister, []int{12}, nil, nil},
		{"no_sister_rule", boat.Sister, []int{12}, []finding.Row{broken(12)}, func(b *takeoff.Basis) { b.Rules.Sister = nil }},
		{"too_many_sisters", boat.Sister, []int{12, 13, 14}, []finding.Row{broken(12), broken(13), broken(14)}, nil},
	} {
		b := piecesOf(t, c.remedy, c.nos, c.rows...)
		if c.change != nil {
			c.change(&b)
		}
		r := runs(t, b)
		if codes := faultCodes(r); len(codes) != len(c.nos) || codes[0] != c.code {
			t.Errorf("%s: %v", c.code, codes)
			continue
		}
		if f := r.Bill.Faults[0]; f.Detail == "" || f.Fix == "" || f.Member == nil || f.Member.No != 12 {
			t.Errorf("%s: %+v", c.code, f)
		}
	}
	two := runs(t, piecesOf(t, boat.Sister, []int{12, 13, 15}, broken(12), broken(13), broken(15)))
	if codes := faultCodes(two); len(codes) > 0 {
		t.Errorf("two neighbours and one apart: %v", codes)
	}
}
