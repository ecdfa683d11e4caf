package frame

import (
	"math"

	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Lie is what a bent frame that lies flat on the planking asks of its blank besides its length and bends: see hull.Laid.
type Lie struct {
	Sweep float64 // mm
	Twist float64 // radians
}

// Flat says that the frame lies flat on the planking.
func (f Frame) Flat() bool { return f.Run != nil }

// run reads how far aft of its heel the head of a frame stands that lies flat on the planking; nil where it does not.
func (r *reader) run(p string, row Row) *decimal.Decimal {
	if row.Run == "" {
		return nil
	}
	p += "/run"
	before := len(r.faults)
	d, most := r.length(p, row.Run), decimal.NewFromInt(MaxGirth)
	if r.n.Known() && len(r.faults) == before && d.Abs().GreaterThan(most) {
		r.faults.Add(p, "at most "+most.String()+" mm either way", "frame %d %s: a run of %s mm", row.No, row.Side, d)
	}
	if row.CantDeg != "" || row.Lean != "" {
		r.faults.Add(p, "run alone, or cant_deg and lean without it", "frame %d %s: a frame that lies flat on the planking stands in no plane that could cant or lean", row.No, row.Side)
	}
	if row.Tape != nil {
		r.faults.Add(p, "leave it out, or the tape: the shape comes from the lines", "frame %d %s was taken by a tape, which does not tell how it lies on the planking", row.No, row.Side)
	}
	if row.Target == Faired || row.Target == BetterSideMirrored {
		r.faults.Add(p, "the target as_found or from_lines, or no run", "frame %d %s lies flat on the planking, so it has the shape of the lines and not the target %s", row.No, row.Side, string(row.Target))
	}
	return &d
}

// lies puts the shape of the lie into measures. The blank's siding is before cleaning up, which the rules add.
func (s Shape) lies(m *Measures, f Frame) {
	if s.Lie == nil {
		return
	}
	of := func(x float64) *float64 { x = quantity.Thousandth(x); return &x }
	m.LengthMM, m.SweepMM = of(s.Girth), of(s.Lie.Sweep)
	m.TwistDeg, m.BlankSidingMM = of(s.Lie.Twist*180/math.Pi), of(f.Siding.InexactFloat64()+s.Lie.Sweep)
}

// side works out the blank's siding: the frame's own, but where it lies flat on the planking also its sweep and what is
// cleaned up.
func (b *blank) side() {
	b.siding = derivation.Given("S", "frames", b.frame.Siding, quantity.Millimetre)
	b.wide = b.frame.Siding
	if b.shape.Lie == nil {
		return
	}
	w := b.t.Measured(b.path+"/sweep", "frame/sweep", b.shape.Lie.Sweep,
		derivation.Given("x", "frames", b.frame.X, quantity.Millimetre), derivation.Given("r", "frames", *b.frame.Run, quantity.Millimetre))
	if w.Unit() != quantity.Millimetre {
		return // the table holds the error
	}
	b.wide = b.t.Derive(b.path+"/blank_siding", "frame/blank_siding", []derivation.Input{b.siding, b.t.Ref("w", b.path+"/sweep"),
		derivation.Given("c", "rules/cleaning_up", b.rules.CleaningUp, quantity.Millimetre)}).Value()
	b.siding = b.t.Ref("S", b.path+"/blank_siding")
}
