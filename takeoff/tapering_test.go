package takeoff_test

import (
	"math"
	"slices"
	"testing"

	"ribband/takeoff"
	bending "ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/mould"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

// tapered is the demo boat with frames 2 1/8 in moulded at the head, all replaced.
func tapered(t *testing.T, change func(*takeoff.Basis)) takeoff.Basis {
	t.Helper()
	b := demoBasis(t, 1)
	for i := range b.Frames {
		b.Frames[i].MouldedHead = decimal.RequireFromString("53.975")
	}
	if change != nil {
		change(&b)
	}
	return b
}

// A boat whose frames taper takes less timber and glue than one whose frames do not, is ripped to the same thickness, and has
// as many laminates at the heel.
func TestTaperingFramesTakeLess(t *testing.T) {
	plain, light := runs(t, demoBasis(t, 1)), runs(t, tapered(t, nil))
	if codes := faultCodes(light); len(codes) > 0 {
		t.Fatal(codes)
	}
	if !light.Weight.Value().LessThan(plain.Weight.Value()) {
		t.Errorf("%s of %s", light.Weight, plain.Weight)
	}
	for i, f := range light.Ripping.Frames {
		was := plain.Ripping.Frames[i]
		if f.Laminates != was.Laminates || f.AtHead <= 0 || f.AtHead >= f.Laminates || !f.Thickness.Equal(was.Thickness) {
			t.Errorf("%+v, without a taper %+v", f, was)
		}
	}
	sum := func(r takeoff.Result, m bill.Material) (out, long decimal.Decimal) {
		for _, l := range r.Bill.Lines {
			if l.Material != m {
				continue
			}
			out = out.Add(l.Gross.Value())
			if l.Pieces != nil {
				long = long.Add(l.Gross.Value().Mul(l.Pieces.Length.Value()))
			}
		}
		return out, long
	}
	// as many laminates are ripped, but shorter: their rounding up is not done line by line
	was, wasLong := sum(plain, bill.Timber)
	now, nowLong := sum(light, bill.Timber)
	if !now.Equal(was) || !nowLong.LessThan(wasLong) {
		t.Errorf("%s laminates of %s m, without a taper %s of %s m", now, nowLong, was, wasLong)
	}
	g, _ := sum(light, bill.Glue)
	if all, _ := sum(plain, bill.Glue); !g.LessThan(all) {
		t.Errorf("%s L of glue, without a taper %s", g, all)
	}
}

// Frames written in millimetres give what they give in inches.
func TestATaperIsTheSameInAnyUnit(t *testing.T) {
	read := func(n notation.Notation, x, siding, moulded, sidingHead, mouldedHead string) []frame.Frame {
		t.Helper()
		out, faults := frame.Read(frame.Document{Notation: n, MouldingFace: frame.Forward, Frames: []frame.Row{{No: 15, Side: boat.Both, X: x, Siding: siding, Moulded: moulded, SidingHead: sidingHead, MouldedHead: mouldedHead}}})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		return out
	}
	of := func(frames []frame.Frame) map[string]string {
		return tellings(t, runs(t, tapered(t, func(b *takeoff.Basis) { b.Frames = frames })))
	}
	inInches := of(read(notation.Inches, "180", "1 3/4", "2 7/8", "1 1/2", "2 1/8"))
	inMM := of(read(notation.Millimetres, "4572", "44.45", "73.025", "38.1", "53.975"))
	if d := cmp.Diff(inInches, inMM); d != "" {
		t.Error(d)
	}
}

// The mould's inner face lies as deep from the faying face as the frame is moulded there, from heel to head.
func TestTheMouldOfATaperingFrame(t *testing.T) {
	b := tapered(t, nil)
	f, s, err := b.Shaped(frameNo(15, boat.Port))
	if err != nil {
		t.Fatal(err)
	}
	m, err := mould.Of(mould.Given{Frame: f, Section: s, Notation: notation.FeetInchesEighths})
	if err != nil {
		t.Fatal(err)
	}
	off := func(a, b hull.Point) float64 { return math.Hypot(a.Y-b.Y, a.Z-b.Z) }
	first, last := m.Marks[0], m.Marks[len(m.Marks)-1]
	for _, c := range []struct{ got, want float64 }{
		{off(first.At, first.Across), 73.025}, {off(last.At, last.Across), 53.975}, {m.MouldedHead, 53.975},
		{off(m.Faying[0], m.Inner[0]), 73.025}, {off(m.Faying[len(m.Faying)-1], m.Inner[len(m.Inner)-1]), 53.975},
	} {
		if math.Abs(c.got-c.want) > 1e-6 {
			t.Errorf("%v mm deep, %v wanted", c.got, c.want)
		}
	}
	for i, k := range m.Marks[1:] {
		if off(k.At, k.Across) > off(m.Marks[i].At, m.Marks[i].Across) {
			t.Errorf("the frame grows deeper at %s", k.Name)
		}
	}
}

// The form of a tapering frame says where each laminate ends: where those left are as deep as the frame has to be there.
func TestTheFormOfATaperingFrameSaysWhereLaminatesEnd(t *testing.T) {
	b := tapered(t, nil)
	r := runs(t, b)
	m := boat.Member{Kind: boat.Frame, No: 15, Side: boat.Port}
	f, s, err := b.Shaped(m)
	if err != nil {
		t.Fatal(err)
	}
	for _, face := range []bending.Face{bending.Inner, bending.Faying} {
		form, err := b.Form(r, takeoff.FormQuestion{Member: m, Face: face, Pitch: 50})
		if err != nil {
			t.Fatal(err)
		}
		left := form.Laminates
		for _, o := range form.RunsOut {
			left--
			deep := f.MouldedAt(o.From/s.Girth.MM) + b.Rules.CleaningUp.Add(form.Bevel).InexactFloat64()
			if want := float64(left) * form.Thickness.InexactFloat64(); o.Laminates != left || math.Abs(deep-want) > 1e-6 || math.Abs(o.Stack-want) > 1e-9 || math.Abs(o.Share-1/float64(left*left)) > 1e-12 {
				t.Errorf("%s: %+v where it has to be %.6f mm deep", face, o, deep)
			}
		}
		if i := slices.IndexFunc(r.Ripping.Frames, func(x frame.RippedFrame) bool { return x.Member == m }); r.Ripping.Frames[i].AtHead != left {
			t.Errorf("%s: %d at the head, %d told", face, left, r.Ripping.Frames[i].AtHead)
		}
	}
}
