package takeoff_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
	"ribband/takeoff/rules"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

func floorNo(no int) boat.Member { return boat.Member{Kind: boat.Floor, No: no} }

// floorsOf is the demo boat with floors at frames 12 and 13, nothing done but this to floor 12.
func floorsOf(t *testing.T, c frame.Choice, change func(*floor.Row)) takeoff.Basis {
	t.Helper()
	b := piecesOf(t, boat.ReplaceLaminated, nil)
	row := floor.Row{No: 12, Stands: floor.Aft, Siding: "0-2-4", Depth: "0-6-0", ArmEnd: "0-2-0", Arm: &floor.ArmRow{Girth: "1-6-0"}}
	other := row
	other.No = 13
	if change != nil {
		change(&row)
	}
	floors, faults := floor.Read(floor.Document{Notation: notation.FeetInchesEighths, Floors: []floor.Row{other, row}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	b.Floors = floors
	b.Remedies[floorNo(12)] = c
	return b
}

var sawn = frame.Choice{Remedy: boat.ReplaceSawn, Species: "white_oak", Grade: "FAS"}

// A sawn floor is one piece from a board as thick as it is sided, as wide as its rectangle is high, its bevel in it.
func TestASawnFloor(t *testing.T) {
	r := runs(t, floorsOf(t, sawn, nil))
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	m := r.Floors[0]
	if m.Member != floorNo(12) || m.AcrossMM == nil || !m.BevelKnown || m.Port == nil || math.Abs(m.Port.GirthMM-457.2) > 1e-9 {
		t.Fatalf("%+v", m)
	}
	const in = 25.4
	holds := func(id string, want, within float64) {
		t.Helper()
		if got := value(t, r, "floor/12/"+id); math.Abs(got-want) > within {
			t.Errorf("%s is %v, %v wanted", id, got, want)
		}
	}
	holds("blank_length", (*m.AcrossMM+4*in)/1000, 0.0011)
	holds("blank_width", *m.HeightMM+in/8, 0.11)
	// board measure: thickness in inches times width in inches times length in feet, over 12
	length, width := value(t, r, "floor/12/blank_length"), value(t, r, "floor/12/blank_width")
	holds("board_feet", 2.5*(width/in)*(length*1000/in/12)/12, 0.06)
	holds("weight", value(t, r, "floor/12/net_volume")*value(t, r, timber.DensityFigure("white_oak")), 0.01)
	if net, blank := value(t, r, "floor/12/net_volume"), value(t, r, "floor/12/blank_volume"); net <= 0.3*blank || net >= blank {
		t.Errorf("the floor is %v of a blank of %v m3", net, blank)
	}
	i := slices.IndexFunc(r.Bill.Lines, func(l bill.Line) bool { return l.ID == "floor/12/timber" })
	if i < 0 {
		t.Fatal("no timber")
	}
	l := r.Bill.Lines[i]
	if n, _ := l.Gross.Int(); n != 1 || len(l.Losses) > 0 || l.Pieces.Siding.String() != "63.5" || math.Abs(l.Pieces.Thickness.InexactFloat64()-width) > 1e-9 {
		t.Errorf("%+v, %+v", l, l.Pieces)
	}
	var codes []string
	for _, w := range r.Work {
		codes = append(codes, w.Code)
	}
	for _, want := range []string{"take_floor_pattern", "old_floor_out", "saw_floor", "fit_floor"} {
		if !slices.Contains(codes, want) {
			t.Errorf("no %s in %v", want, codes)
		}
	}
	if !slices.ContainsFunc(r.Bill.Warnings, func(w bill.Warning) bool { return w.Code == "floors_bear_the_keel" }) {
		t.Error("nothing says what hangs on a floor")
	}
	if !slices.ContainsFunc(r.Bill.Warnings, func(w bill.Warning) bool {
		return w.Code == "floors_not_sounded" && strings.HasSuffix(w.Detail, ": 13.")
	}) {
		t.Error("floor 13 was not sounded, and nothing says so")
	}
}

// Without floors, or with none worked on, the bill has none of it.
func TestFloorsLeft(t *testing.T) {
	b := floorsOf(t, frame.Choice{Remedy: boat.Leave}, nil)
	b.Findings = findings(t, finding.Row{Member: floorNo(12), ThroughNo: 13, State: finding.Decayed}, finding.Row{Member: floorNo(40), State: finding.Sound})
	r := runs(t, b)
	if len(r.Bill.Lines) > 0 || len(r.Bill.Measures) > 0 || len(r.Floors) != 2 {
		t.Errorf("%+v", r.Bill)
	}
	told := map[string]int{}
	for _, w := range r.Bill.Warnings {
		told[w.Code]++
	}
	if told["damage_left"] != 2 || told["finding_of_no_floor"] != 1 || told["floors_bear_the_keel"] != 0 || told["floors_not_sounded"] != 0 {
		t.Errorf("%v", told)
	}
}

// A floor of laminates runs from arm to arm over a chock; without its radius nobody knows what it is bent over.
func TestALaminatedFloor(t *testing.T) {
	c := frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}
	r := runs(t, floorsOf(t, c, func(row *floor.Row) { row.Stands = floor.Over }))
	if codes := faultCodes(r); !slices.Equal(codes, []string{"floor_throat_unknown"}) {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	r = runs(t, floorsOf(t, c, func(row *floor.Row) { row.Stands, row.ThroatRadius, row.Depth = floor.Over, "3-0-0", "0-2-0" }))
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	n := value(t, r, "floor/12/laminates")
	if want := math.Ceil((2 + 1.0/8) / 0.25); n != want {
		t.Errorf("%v laminates, %v wanted", n, want)
	}
	along := value(t, r, "floor/12/along")
	if got, want := value(t, r, "floor/12/glue_line_area"), (n-1)*63.5*value(t, r, "floor/12/blank_length")/1000; math.Abs(got-want) > 0.0006 || along < 900 || along > 1300 {
		t.Errorf("glue line of %v m2, %v wanted, on %v mm", got, want, along)
	}
	if got := value(t, r, "floor/12/throat_tightest"); math.Abs(got-(36-2)*25.4) > 0.001 {
		t.Errorf("the tightest laminate over the keel has %v mm", got)
	}
	if len(r.Gluing.Records) != 1 || r.Gluing.Records[0].Path != "floor/12" || r.Gluing.Records[0].Batch != 1 {
		t.Errorf("%+v", r.Gluing.Records)
	}
	// A radius that no rip takes is told with what would do.
	r = runs(t, floorsOf(t, c, func(row *floor.Row) { row.Stands, row.ThroatRadius, row.Depth = floor.Over, "1-0-0", "0-2-0" }))
	if len(r.Bill.Faults) != 1 || r.Bill.Faults[0].Code != "laminate_too_thick" || r.Bill.Faults[0].Limit == nil || !strings.Contains(r.Bill.Faults[0].Fix, "throat_radius") {
		t.Errorf("%+v", r.Bill.Faults)
	}
}

// A strap of bronze from arm to arm: its length along the lower face, its weight by section.
func TestAFloorOfMetal(t *testing.T) {
	r := runs(t, floorsOf(t, frame.Choice{Remedy: boat.ReplaceStrap, Strap: "bronze"}, func(row *floor.Row) { row.Stands = floor.Over }))
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	const in = 25.4
	long := (*r.Floors[0].AlongMM + 2*in) / 1000
	if got := value(t, r, "floor/12/strap/length"); math.Abs(got-long) > 0.0011 {
		t.Errorf("the strap is %v m, %v wanted", got, long)
	}
	if got, want := value(t, r, "floor/12/strap/metal_net"), long*1.25*in*3.0/16*in*8530/1e6; math.Abs(got-want) > 0.02 {
		t.Errorf("the strap weighs %v kg, %v wanted", got, want)
	}
	r = runs(t, floorsOf(t, frame.Choice{Remedy: boat.ReplaceStrap, Strap: "gold"}, nil))
	if codes := faultCodes(r); !slices.Equal(codes, []string{"no_such_strap"}) {
		t.Error(codes)
	}
}

// On a boat of taped frames a floor has no shape: its size by hand is asked for, and then it does.
func TestAFloorOnTapedFrames(t *testing.T) {
	tape := func(b *takeoff.Basis) {
		b.Hull, b.Fairness = nil, nil
		for i := range b.Frames {
			b.Frames[i].Tape = &frame.Tape{Girth: dec("2000"), Chord: dec("600"), Rise: dec("60"), Grain: dec("3")}
		}
	}
	b := floorsOf(t, sawn, nil)
	tape(&b)
	r := runs(t, b)
	if codes := faultCodes(r); !slices.Equal(codes, []string{"floor_shape_unknown"}) {
		t.Fatal(codes)
	}
	if f := r.Bill.Faults[0]; !strings.Contains(f.Detail, "Floor 12: frame 12 port was taken by a tape") || !strings.Contains(f.Fix, "by_hand") || r.Floors[0].Why == "" {
		t.Errorf("%+v", f)
	}
	b = floorsOf(t, sawn, func(row *floor.Row) { row.ByHand = &floor.ByHandRow{Across: "3-0-0", Height: "0-10-0"} })
	tape(&b)
	r = runs(t, b)
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatalf("%+v", r.Bill.Faults)
	}
	if got := value(t, r, "floor/12/blank_length"); math.Abs(got-40*25.4/1000) > 0.0011 {
		t.Errorf("the blank is %v m", got)
	}
}

// A hull whose sides are straight and spread outboard as they go aft: a floor is wider by what its after face is.
func TestAFloorsBevelIsInItsBlank(t *testing.T) {
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "0.01", Surface: offsets.Inside}
	text := func(v float64) string { return fmt.Sprintf("%.4f", v) }
	for no := range 4 {
		x := float64(no) * 1000
		at := func(s float64) (string, string) {
			return text(60 + x/10 + s*math.Cos(math.Pi/6)), text(400 + s*math.Sin(math.Pi/6))
		}
		side := offsets.SideOffsets{Side: boat.Both}
		y, z := at(0)
		side.Rabbet = &offsets.EndOffsets{Height: z, HalfBreadth: y}
		for i := 1; i < 8; i++ {
			y, z = at(150 * float64(i))
			side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: z, HalfBreadth: y})
		}
		y, z = at(1200)
		side.Sheer = &offsets.EndOffsets{Height: z, HalfBreadth: y}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: no, X: text(x), Sides: []offsets.SideOffsets{side}})
	}
	b := floorsOf(t, sawn, nil)
	b.Hull, b.Fairness, b.Frames = hulltest.Hull(t, doc), nil, nil
	x := dec("1200")
	b.Floors = []floor.Floor{{No: 12, X: &x, Siding: dec("70"), Depth: dec("150"), ArmEnd: dec("50"), Port: floor.Reach{Girth: dec("500")}, Starboard: floor.Reach{Girth: dec("500")}}}
	r := runs(t, b)
	want := 2 * (60 + 127 + 500*math.Cos(math.Pi/6))
	if got := value(t, r, "floor/12/across"); math.Abs(got-want) > 0.2 {
		t.Errorf("the floor is %v mm across, %v wanted", got, want)
	}
	if got, want := value(t, r, "floor/12/height"), 250+50*math.Cos(math.Pi/6); math.Abs(got-want) > 0.2 {
		t.Errorf("the floor is %v mm high, %v wanted", got, want)
	}
	b.Floors[0].Port.Girth = decimal.NewFromInt(5000)
	if r = runs(t, b); len(r.Bill.Faults) != 1 || !strings.Contains(r.Bill.Faults[0].Detail, "port arm reaches past the sheer") {
		t.Errorf("%+v", r.Bill.Faults)
	}
}

// A floor stands square across the boat whatever its frame does: at a canted one its outline is that of the lines.
func TestAFloorAtACantedFrame(t *testing.T) {
	size := func(cant string) takeoff.FloorMeasures {
		b := floorsOf(t, sawn, nil)
		for i, f := range b.Frames {
			if f.No == 12 {
				b.Frames[i].Cant = dec(cant)
			}
		}
		return runs(t, b).Floors[0]
	}
	if square, canted := size("0"), size("20"); math.Abs(*square.AcrossMM-*canted.AcrossMM) > 0.001 || math.Abs(*square.HeightMM-*canted.HeightMM) > 0.001 {
		t.Errorf("%v x %v, at a canted frame %v x %v", *square.AcrossMM, *square.HeightMM, *canted.AcrossMM, *canted.HeightMM)
	}
}

// Where the arms rise more than the yard takes a floor sawn from one board is warned of, with what would do; laminated it is not.
func TestShortGrainIsWarnedOfWhereAFloorIsSawn(t *testing.T) {
	warned := func(b takeoff.Basis) (out []bill.Warning) {
		for _, w := range runs(t, b).Bill.Warnings {
			if w.Code == "short_grain" {
				out = append(out, w)
			}
		}
		return out
	}
	long := func(r *floor.Row) { r.Arm = &floor.ArmRow{Girth: "2-9-0"}; r.ThroatRadius = "3-0-0" }
	b := floorsOf(t, sawn, long)
	got := warned(b)
	if len(got) != 1 || *got[0].Member != floorNo(12) || !strings.Contains(got[0].Fix, "replace_laminated") || !strings.Contains(got[0].Detail, "15 (common practice, no source)") {
		t.Fatalf("%+v", got)
	}
	r := runs(t, b)
	if g := r.Floors[0].Grain; g == nil || !g.Short || g.SteepestDeg <= 15 || g.RunMM == nil {
		t.Errorf("%+v", r.Floors[0].Grain)
	}
	b.Rules.SawnGrain = &rules.SawnGrain{Most: decimal.NewFromInt(60), Source: "the yard's own"}
	if got := warned(b); len(got) != 0 {
		t.Errorf("at 60 degrees: %+v", got)
	}
	if got := warned(floorsOf(t, frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}, long)); len(got) != 0 {
		t.Errorf("laminated: %+v", got)
	}
}
