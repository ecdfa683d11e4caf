package frame

import (
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Tapers reports a frame that is lighter at its head than at its heel.
func (f Frame) Tapers() bool { return f.MouldedHead.Sign() > 0 || f.SidingHead.Sign() > 0 }

// AtHead is the siding and the moulded depth at the head, mm.
func (f Frame) AtHead() (siding, moulded decimal.Decimal) {
	siding, moulded = f.Siding, f.Moulded
	if f.SidingHead.Sign() > 0 {
		siding = f.SidingHead
	}
	if f.MouldedHead.Sign() > 0 {
		moulded = f.MouldedHead
	}
	return siding, moulded
}

// MouldedAt is the moulded depth, mm, at a share of the girth from the rabbet: it falls evenly from heel to head.
func (f Frame) MouldedAt(share float64) float64 {
	heel := f.Moulded.InexactFloat64()
	if f.MouldedHead.Sign() <= 0 {
		return heel
	}
	return heel + (f.MouldedHead.InexactFloat64()-heel)*min(1, max(0, share))
}

// parallel is the frame as heavy all along as at its heel.
func (f Frame) parallel() Frame {
	f.SidingHead, f.MouldedHead = decimal.Zero, decimal.Zero
	return f
}

// head reads what a frame is at its head, 0 for what it is at the heel; run is that of its run where nothing is written.
func (r *reader) head(pointer, text string, heel, run decimal.Decimal) decimal.Decimal {
	before := len(r.faults)
	if text != "" {
		run = r.scantling(pointer, text)
	}
	switch {
	case run.Equal(heel) || run.Sign() <= 0:
		return decimal.Zero
	case run.GreaterThan(heel) && len(r.faults) == before:
		r.faults.Add(pointer, "no more than at the heel, "+heel.String()+" mm", "at the head it would be %s mm: a frame that grows heavier upwards is not reckoned", run)
	}
	return run
}

// runOut is one laminate of a tapering frame that does not run through to the head.
type runOut struct {
	name   string
	length quantity.Quantity
}

// mostRunOut is how many laminates of one frame may run out: more than any that is glued up. Where more would, all are
// reckoned to run through, so that a slip of the unit does not make thousands of lines.
const mostRunOut = 60

// runningOut puts into the table how many laminates there are at the head of a tapering frame, and how long each is that the
// others make the depth without from there on; none where the frame keeps its depth, or drops no laminate.
//
// The depth falls evenly along the girth, at the high end of its range. A laminate that runs out has the heel housing and
// the trim besides; the step is faired off (common practice, no source).
func (b *blank) runningOut(deep []derivation.Input, n int64) []runOut {
	if b.frame.MouldedHead.Sign() <= 0 || b.t.Err() != nil {
		return nil
	}
	mm := func(symbol, where string, d decimal.Decimal) derivation.Input {
		return derivation.Given(symbol, where, d, quantity.Millimetre)
	}
	light := append([]derivation.Input{mm("m", "frames", b.frame.MouldedHead)}, deep[1:]...)
	atHead, whole := b.t.Derive(b.path+"/laminates_head", "frame/laminates", light).Int()
	if !whole || n-atHead > mostRunOut {
		return nil
	}
	var out []runOut
	for i := atHead + 1; i <= n; i++ {
		one := runOut{name: "laminate_" + decimal.NewFromInt(i).String()}
		one.length = b.t.Derive(b.path+"/"+one.name, "frame/run_out_length", append([]derivation.Input{
			derivation.Given("i", "laminates", decimal.NewFromInt(i), quantity.Each), mm("d", "frames", b.frame.MouldedHead), b.t.Ref("G", b.path+"/girth_high"),
			mm("h", "rules/heel", b.rules.Heel), mm("a", "rules/blank_trim", b.rules.BlankTrim)}, deep...))
		out = append(out, one)
	}
	return out
}
