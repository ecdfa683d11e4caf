package frame_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// 3 1/4 in at the heel with 1/8 in of cleaning up are fourteen laminates of 1/4 in, 2 1/4 in at the head ten. The four that run
// out stop where the depth has fallen to 13, 12, 11 and 10 of them: at half of the last quarter inch short of each, so after 1/8,
// 3/8, 5/8 and 7/8 of the girth, counted from the shortest.
func TestLaminatesRunOutWhereTheOthersMakeTheDepth(t *testing.T) {
	f := frame.Frame{No: 5, Side: boat.Port, Siding: mm("2"), Moulded: mm("3.25"), MouldedHead: mm("2.25")}
	got, table := replace(t, f, bilge(2000, 2000), shopRules(t, "1/4"))
	p := "frame/5/port"
	const housing, trim, in = 76.2, 101.6, 25.4
	long := []float64{2.2286, (housing + trim + 1750) / 1000, (housing + trim + 1250) / 1000, (housing + trim + 750) / 1000, (housing + trim + 250) / 1000}
	for id, want := range map[string]string{"/laminates": "14", "/laminates_head": "10", "/laminate_11": "1.928", "/laminate_12": "1.428", "/laminate_13": "0.928", "/laminate_14": "0.428",
		"/laminates_gross": "20"} { // 14 / (0.9 x 0.8) = 19.44
		if v := value(t, table, p+id); v != want {
			t.Errorf("%s = %s, want %s", id, v, want)
		}
	}
	sum := 9 * long[0]
	for _, l := range long[1:] {
		sum += l
	}
	near := func(id string, want, by float64) {
		v := decimal.RequireFromString(value(t, table, p+id)).InexactFloat64()
		if math.Abs(v-want) > by {
			t.Errorf("%s = %v, want %v", id, v, want)
		}
	}
	// lengths are rounded up to the millimetre, a thousandth of them each
	near("/glue_line_area", sum*2*in/1000, 0.001+14*0.001*2*in/1000)
	near("/net_volume", (sum+long[0])*2*in/1000*0.25*in/1000, 15*0.001*2*in/1000*0.25*in/1000)
	gross, lines := int64(0), 0
	for _, l := range got.Lines {
		if l.Pieces != nil {
			gross, lines = gross+l.Gross.Value().IntPart(), lines+1
		}
	}
	if gross != 20 || lines != 5 {
		t.Errorf("%d laminates on %d lines", gross, lines)
	}
	for _, f := range table.Figures() {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
}

// Against what the pure arithmetic of a taper says, and the closed form: the timber between the stepped laminates and the
// even taper is less than a laminate more than the wedge.
func TestATaperHoldsItsWedge(t *testing.T) {
	r := shopRules(t, "1/4")
	r.Heel, r.Head, r.BlankTrim = decimal.Zero, decimal.Zero, decimal.Zero
	rapid.Check(t, func(rt *rapid.T) {
		heel := decimal.New(rapid.Int64Range(400, 1500).Draw(rt, "heel"), -1)
		head := heel.Mul(decimal.New(rapid.Int64Range(30, 99).Draw(rt, "share"), -2))
		girth := float64(rapid.IntRange(500, 4000).Draw(rt, "girth"))
		f := frame.Frame{No: 1, Side: boat.Port, Siding: mm("2"), Moulded: heel, MouldedHead: head}
		_, table := replace(t, f, bilge(1e5, girth), r)
		p := "frame/1/port"
		want, atHead, err := bend.Taper{Length: decimal.NewFromFloat(girth), HeelDepth: heel.Add(r.CleaningUp), HeadDepth: head.Add(r.CleaningUp),
			HeelSiding: mm("2"), HeadSiding: mm("2")}.Laminates(mm("0.25"))
		if err != nil {
			rt.Fatal(err)
		}
		if !number(rt, table, p+"/laminates").Equal(decimal.NewFromInt(int64(len(want)))) || !number(rt, table, p+"/laminates_head").Equal(decimal.NewFromInt(atHead)) {
			rt.Fatalf("%s and %s laminates, %d and %d wanted", number(rt, table, p+"/laminates"), number(rt, table, p+"/laminates_head"), len(want), atHead)
		}
		for i := int(atHead); i < len(want); i++ {
			got := number(rt, table, p+"/laminate_"+decimal.NewFromInt(int64(i+1)).String())
			if w := want[i].Length.Shift(-3).RoundCeil(3); !got.Sub(w).Abs().LessThan(dec("0.0011")) {
				rt.Fatalf("laminate %d is %s m, %s wanted", i+1, got, w)
			}
		}
		volume := number(rt, table, p+"/net_volume").InexactFloat64()
		wedge := girth * (heel.Add(head).InexactFloat64()/2 + r.CleaningUp.InexactFloat64()) * 50.8 / 1e9
		laminate := (girth + 1) * 6.35 * 50.8 / 1e9
		if slack := float64(len(want)+1) * 6.35 * 50.8 / 1e9; volume < wedge-1e-6 || volume > wedge+laminate+slack+1e-6 {
			rt.Fatalf("%v m3 of laminates for a wedge of %v", volume, wedge)
		}
	})
}

// A frame that is as heavy at its head as at its heel is one that does not taper, to the last figure.
func TestEqualEndsAreNoTaper(t *testing.T) {
	row := frame.Row{No: 3, Side: boat.Port, X: "1500", Siding: "45", Moulded: "73.5"}
	read := func(row frame.Row) []frame.Frame {
		t.Helper()
		out, faults := frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward, Frames: []frame.Row{row}})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		return out
	}
	plain := read(row)[0]
	row.SidingHead, row.MouldedHead = "45.0", "73.50"
	same := read(row)[0]
	if plain.Tapers() || same.Tapers() {
		t.Fatalf("%+v", same)
	}
	of := func(f frame.Frame) []derivation.Figure {
		_, table := replace(t, f, bilge(1200, 2000), shopRules(t, "1/4"))
		return table.Figures()
	}
	if d := cmp.Diff(of(plain), of(same)); d != "" {
		t.Error(d)
	}
	row.MouldedHead, row.SidingHead = "60", "40"
	if f := read(row)[0]; !f.Tapers() || f.MouldedAt(0) != 73.5 || f.MouldedAt(1) != 60 || f.MouldedAt(0.5) != 66.75 {
		t.Errorf("%+v", f)
	}
}

func TestFaultsOfATaperSayWhere(t *testing.T) {
	spacing := frame.Spacing{FirstNo: 1, Count: 3, FirstX: "100", Spacing: "300", Siding: "50", Moulded: "80", MouldedHead: "60"}
	read := func(rows ...frame.Row) ([]frame.Frame, document.Faults) {
		return frame.Read(frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward, Spacing: &spacing, Frames: rows})
	}
	for pointer, row := range map[string]frame.Row{
		"/frames/0/moulded_head": {No: 2, Side: boat.Port, MouldedHead: "81"},
		"/frames/0/siding_head":  {No: 2, Side: boat.Port, SidingHead: "0"},
	} {
		if _, faults := read(row); len(faults) != 1 || faults[0].Pointer != pointer || faults[0].Fix == "" {
			t.Errorf("%s: %v", pointer, faults)
		}
	}
	// a row shallower than the run's head has to say its own
	if _, faults := read(frame.Row{No: 2, Side: boat.Port, Moulded: "55"}); len(faults) != 1 || faults[0].Pointer != "/frames/0/moulded_head" {
		t.Errorf("%v", faults)
	}
	got, faults := read(frame.Row{No: 2, Side: boat.Port, MouldedHead: "80"})
	if len(faults) > 0 || !got[0].Tapers() || got[2].Tapers() || !got[3].Tapers() {
		t.Errorf("%+v, %v", got, faults)
	}
	if len(got) != 6 {
		t.Fatal(errors.New("six frames wanted"))
	}
}

// A slip of the unit does not make thousands of lines: where more than sixty laminates would run out all run through.
func TestThousandsOfLaminatesRunThrough(t *testing.T) {
	f := frame.Frame{No: 1, Side: boat.Port, Siding: mm("2"), Moulded: dec("900"), MouldedHead: dec("10")}
	got, table := replace(t, f, bilge(1e5, 2000), shopRules(t, "1/4"))
	lines := 0
	for _, l := range got.Lines {
		if l.Pieces != nil {
			lines++
		}
	}
	if lines != 1 || value(t, table, "frame/1/port/laminates") != "143" {
		t.Errorf("%d lines of %s laminates", lines, value(t, table, "frame/1/port/laminates"))
	}
}
