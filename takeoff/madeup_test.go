package takeoff_test

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/glue"
	"ribband/takeoff/rules"
	"ribband/takeoff/stagger"

	"github.com/shopspring/decimal"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// scarfed is a rule of feather scarfs of twelve to one in lengths of at most so many mm.
func scarfed(longest string) *rules.LaminateJoints {
	return &rules.LaminateJoints{Joint: rules.FeatherJoint, Slope: dec("12"), SlopeSource: "of a test", Longest: dec(longest), Thicknesses: dec("24"), Across: 1,
		FromBend: dec("100"), FromHeel: dec("150"), FromHead: dec("150"), Source: "of a test"}
}

func madeOf(t *testing.T, rule *rules.LaminateJoints) (takeoff.Basis, takeoff.Result) {
	t.Helper()
	b := piecesOf(t, boat.ReplaceLaminated, []int{12, 20})
	b.Rules.LaminateJoints = rule
	return b, runs(t, b)
}

// Without a rule, and by one whose stock is long enough, the takeoff is the same to the byte.
func TestLongStockChangesNothing(t *testing.T) {
	_, without := madeOf(t, nil)
	_, with := madeOf(t, scarfed("20000"))
	a, err := json.Marshal(without)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(with)
	if err != nil {
		t.Fatal(err)
	}
	if string(a) != string(b) {
		t.Error("a rule that nothing needs changes the takeoff")
	}
}

// What is laid keeps to the rule by a checker of its own, and the bill has every length, the glue of the scarfs and the work.
func TestMadeUpOfLengths(t *testing.T) {
	rule := scarfed("1600")
	b, r := madeOf(t, rule)
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatal(codes, r.Bill.Faults[0])
	}
	if len(r.MadeUp) != 2 {
		t.Fatalf("%d blanks are made up", len(r.MadeUp))
	}
	for _, m := range r.MadeUp {
		path := m.Path()
		n, long := int(value(t, r, path+"/laminates")), value(t, r, path+"/blank_length")*1000
		if len(m.Laminates) != n || math.Abs(m.BlankMM-long) > 1e-9 || m.TaperMM != 12*6.35 || m.ApartMM != 24*6.35 {
			t.Fatalf("%s: %+v", path, m)
		}
		nano := func(x float64) int64 { return int64(math.Round(x * 1e6)) }
		of := stagger.Blank{Length: nano(long), Laminates: n}
		for _, c := range m.Clear {
			of.Barred = append(of.Barred, stagger.Span{From: nano(c.FromMM), To: nano(c.ToMM)})
		}
		if len(m.Clear) != 3 || m.Clear[0].ToMM != 150+50.8 || math.Abs(m.Clear[2].FromMM-(long-150-50.8)) > 0.001 {
			t.Errorf("%+v", m.Clear)
		}
		var joints [][]int64
		total, faces := 0.0, 0
		for _, l := range m.Laminates {
			var one []int64
			for _, x := range l.JointsMM {
				one = append(one, nano(x))
			}
			joints = append(joints, one)
			sum := 0.0
			for _, x := range l.LengthsMM {
				sum += x
			}
			if want := long + float64(len(one))*m.TaperMM; math.Abs(sum-want) > 0.005 {
				t.Errorf("%s: lengths of %v mm, %v wanted", path, sum, want)
			}
			total, faces = total+sum, faces+len(one)
		}
		// places were rounded to the thousandth of a millimetre
		terms := stagger.Terms{Longest: nano(1600) + 1000, Joint: nano(m.TaperMM), Apart: nano(m.ApartMM) - 1000, Across: 1}
		for i := range of.Barred {
			of.Barred[i].From, of.Barred[i].To = of.Barred[i].From+1000, of.Barred[i].To-1000
		}
		if wrong := stagger.Check(of, terms, joints); wrong != nil {
			t.Errorf("%s: %v", path, wrong)
		}
		timber, pieces, litres := 0.0, int64(0), 0.0
		for _, l := range r.Bill.Lines {
			if !strings.HasPrefix(l.ID, path+"/") {
				continue
			}
			if l.Material == bill.Timber {
				q, _ := l.Net.Int()
				timber, pieces = timber+float64(q)*l.Pieces.Length.Value().InexactFloat64()*1000, pieces+q
				if l.Pieces.Length.Value().GreaterThan(dec("1.6")) {
					t.Errorf("%s is %s long", l.ID, l.Pieces.Length)
				}
			}
			if l.ID == path+"/laminate_scarf_glue" {
				litres = l.Net.Value().InexactFloat64()
			}
		}
		if timber < total || timber > total+float64(pieces) || pieces != int64(n+faces) {
			t.Errorf("%s: %d pieces of %v mm together, %v laid", path, pieces, timber, total)
		}
		area := float64(faces) * 6.35 * math.Hypot(1, 12) * b.Frames[0].Siding.InexactFloat64() / 1e6
		if got := value(t, r, path+"/laminate_scarf_area"); math.Abs(got-area) > 0.00051 {
			t.Errorf("%s: scarfs of %v m2, %v wanted", path, got, area)
		}
		if math.Abs(litres-value(t, r, path+"/laminate_scarf_area")*0.35) > 0.0051 || litres == 0 {
			t.Errorf("%s: %v litres on the scarfs", path, litres)
		}
	}
	counted := map[string]decimal.Decimal{}
	for _, w := range r.Work {
		counted[w.Code] = w.Counted.Value()
	}
	_, whole := madeOf(t, nil)
	for _, w := range whole.Work {
		if w.Code == "rip_and_plane" && !w.Counted.Value().Equal(counted[w.Code]) {
			t.Errorf("%s laminates are ripped, %s of whole ones", counted[w.Code], w.Counted.Value())
		}
	}
	if want := decimal.NewFromInt(r.MadeUp[0].Joints + r.MadeUp[1].Joints); !counted["cut_laminate_joints"].Equal(want) {
		t.Errorf("%s joints are cut, %s wanted", counted["cut_laminate_joints"], want)
	}
	for _, g := range r.Gluing.Records {
		if g.Where == glue.Bench {
			continue
		}
		if g.MadeUp == nil || g.MadeUp.Path() != g.Path {
			t.Errorf("the record of %s does not say how its laminates are made up", g.Path)
		}
	}
}

// Where nothing keeps to the rule the fault says what would, and that does.
func TestNoStaggerDoes(t *testing.T) {
	rule := scarfed("1200")
	rule.FromBend = dec("600")
	_, r := madeOf(t, rule)
	if codes := faultCodes(r); len(codes) != 2 || codes[0] != "joints_not_staggered" || r.MadeUp != nil {
		t.Fatal(codes)
	}
	f := r.Bill.Faults[0]
	if f.Member == nil || f.Member.No != 12 || f.Limit == nil || !strings.Contains(f.Detail, "Frame 12 port: laminates ") || !strings.Contains(f.Fix, "would do") {
		t.Fatalf("%+v", f)
	}
	rule.Longest = dec(f.Limit.Value)
	if _, r = madeOf(t, rule); len(r.MadeUp) == 0 {
		t.Errorf("lengths of %s mm do not do: %+v", f.Limit.Value, r.Bill.Faults)
	}
	rule.Longest = rule.Longest.Sub(decimal.NewFromInt(1))
	if _, r = madeOf(t, rule); len(r.Bill.Faults) == 0 || r.Bill.Faults[0].Member.No != 12 {
		t.Errorf("a millimetre less than %s does too", f.Limit.Value)
	}
}

// A taped frame's bend has no place: it is told, and halfway stands for it.
func TestATapedBendHasNoPlace(t *testing.T) {
	b, _ := madeOf(t, nil)
	for i, f := range b.Frames {
		if f.Member() == frameNo(12, boat.Port) {
			b.Frames[i].Tape = &frame.Tape{Girth: dec("2000"), Chord: dec("600"), Rise: dec("60"), Grain: dec("3")}
		}
	}
	b.Rules.LaminateJoints = scarfed("1600")
	r := runs(t, b)
	for _, w := range r.Bill.Warnings {
		if w.Code == "bend_not_placed" && w.Member.No == 12 {
			return
		}
	}
	t.Errorf("%+v", r.Bill.Warnings)
}

// Of a frame that tapers the laminates that run out are made up as long as they are, and all lengths are rounded up once.
func TestATaperingFrameMadeUp(t *testing.T) {
	b := tapered(t, func(b *takeoff.Basis) { b.Rules.LaminateJoints = scarfed("1600") })
	r := runs(t, b)
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	whole := runs(t, tapered(t, nil))
	shorter := 0
	for _, m := range r.MadeUp {
		path := m.Path()
		atHead := int(value(t, r, path+"/laminates_head"))
		for i, l := range m.Laminates {
			want := value(t, r, path+"/blank_length")
			if i >= atHead {
				want = value(t, r, fmt.Sprintf("%s/laminate_%d", path, i+1))
			}
			got := -float64(len(l.JointsMM)) * m.TaperMM
			for _, x := range l.LengthsMM {
				got += x
			}
			if math.Abs(got-want*1000) > 0.005 {
				t.Fatalf("%s: laminate %d is %v mm long, %v wanted", path, l.No, got, want*1000)
			}
			if want < 1.6 && len(l.JointsMM) > 0 {
				t.Errorf("%s: laminate %d is joined, and %v m long", path, l.No, want)
			}
			if want < 1.6 {
				shorter++
			}
		}
		net, gross := decimal.Zero, decimal.Zero
		for _, l := range r.Bill.Lines {
			if l.Material == bill.Timber && l.Member == m.Member {
				net, gross = net.Add(l.Net.Value()), gross.Add(l.Gross.Value())
			}
		}
		if gross.LessThan(net) { // whole pieces are shared out over the boat, and none is left short
			t.Errorf("%s: %s pieces for %s", path, gross, net)
		}
		// glue line and weight are those of laminates in one length
		for _, id := range []string{"/glue_line_area", "/weight"} {
			if value(t, r, path+id) != value(t, whole, path+id) {
				t.Errorf("%s%s changes with the joints", path, id)
			}
		}
	}
	// over all frames, those that are in one length with them, of one siding
	net, gross := decimal.Zero, decimal.Zero
	for _, l := range r.Bill.Lines {
		if l.Material == bill.Timber {
			net, gross = net.Add(l.Net.Value()), gross.Add(l.Gross.Value())
		}
	}
	if want := net.Div(dec("0.830208")).Ceil(); !gross.Equal(want) {
		t.Errorf("%s pieces for %s over the boat, %s wanted", gross, net, want)
	}
	if len(r.MadeUp) < 20 || shorter == 0 {
		t.Errorf("%d blanks made up, %d short laminates", len(r.MadeUp), shorter)
	}
}

// A part let in is made up as a whole frame is, and keeps clear of the bend where that lies along the part.
func TestAPartMadeUp(t *testing.T) {
	b := piecesOf(t, boat.ScarfIn, []int{12}, finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"})
	b.Rules.LaminateJoints = scarfed("1200")
	b.Rules.LaminateJoints.FromHeel, b.Rules.LaminateJoints.FromHead = decimal.Zero, decimal.Zero
	r := runs(t, b)
	if len(r.MadeUp) != 1 || r.MadeUp[0].Piece != "part_1" || len(r.MadeUp[0].Clear) != 1 {
		t.Fatalf("%+v, %+v", r.MadeUp, r.Bill.Faults)
	}
	// half the trim, then from the tip of the lower scarf to the bend, 100 mm to either side
	const in = 25.4
	start := 36*in - 10*2.875*in
	i := slices.IndexFunc(r.Figures, func(f derivation.Figure) bool { return f.ID == "frame/12/port/part_1/bilge_radius" })
	at, err := strconv.ParseFloat(r.Figures[i].Inputs[1].Value, 64)
	if err != nil {
		t.Fatal(err)
	}
	c := r.MadeUp[0].Clear[0]
	if want := 2*in + at - start; math.Abs((c.FromMM+c.ToMM)/2-want) > 0.01 || math.Abs(c.ToMM-c.FromMM-200) > 0.01 {
		t.Errorf("%+v, the bend is at %v", c, want)
	}
}

// Scarfs within laminates are glued on the bench in batches of their own, and no blank is glued up before its scarfs may carry load;
// with them every litre of the bill is in a batch.
func TestScarfsWithinLaminatesAreInABatchBeforeTheirBlank(t *testing.T) {
	b, r := madeOf(t, scarfed("1600"))
	if b.Rules.Glue.Layup == nil || r.Gluing.Plan == nil || len(r.Gluing.Elsewhere) != 0 {
		t.Fatalf("%+v", r.Gluing.Elsewhere)
	}
	load, day, litres := map[string]int64{}, map[string]int64{}, decimal.Zero
	for _, batch := range r.Gluing.Plan.Batches {
		litres = litres.Add(batch.Litres)
		for _, m := range batch.Members {
			load[m], day[m] = max(load[m], batch.LoadDay), batch.Day
			if scarfs := strings.HasSuffix(m, "/laminate_scarfs"); scarfs != (batch.Where == glue.Bench) {
				t.Errorf("%s is glued up %s", m, batch.Where)
			}
		}
	}
	if !litres.Equal(r.Gluing.Mixed) {
		t.Errorf("%s L in batches of %s", litres, r.Gluing.Mixed)
	}
	for _, m := range r.MadeUp {
		scarfs := load[m.Path()+"/laminate_scarfs"]
		if scarfs == 0 || day[m.Path()] < scarfs {
			t.Errorf("%s is glued up on day %d, its scarfs may carry load on day %d", m.Path(), day[m.Path()], scarfs)
		}
	}
}
