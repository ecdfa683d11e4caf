package floor

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
)

// Sawn works out a floor cut in one piece from wide stock, its grain along its length from arm to arm. The blank is the
// level rectangle round the floor's outline at both of its faces, so that its bevel is in it, with trim along and cleaning
// up across; the board it comes from is as thick as the floor is sided. Wide stock is picked board by board, so the losses
// of laminates do not hold for it: those of rules.SawnTimber do. A *timber.MissingValueError where its density is not known.
func (j Job) Sawn(r rules.Rules, t *derivation.Table) (Replacement, error) {
	w := j.work(r, t)
	w.size()
	siding := given("S", "floors", w.Floor.Siding)
	length := t.Derive(w.path+"/blank_length", "floor/blank_length", []derivation.Input{t.Ref("A", w.path+"/across"), given("a", "rules/blank_trim", r.BlankTrim)})
	width := t.Derive(w.path+"/blank_width", "floor/blank_width", []derivation.Input{t.Ref("H", w.path+"/height"), given("c", "rules/cleaning_up", r.CleaningUp)})
	t.Measured(w.path+"/outline_area", "floor/outline_area", w.Size.Area/1e6, given("x", "floors", w.Size.X))
	t.Derive(w.path+"/net_volume", "floor/net_volume", []derivation.Input{t.Ref("P", w.path+"/outline_area"), siding})
	t.Derive(w.path+"/blank_volume", "floor/blank_volume", []derivation.Input{t.Ref("L", w.path+"/blank_length"), t.Ref("W", w.path+"/blank_width"), siding})
	t.Derive(w.path+"/board_feet", "timber/board_feet", []derivation.Input{t.Ref("V", w.path+"/blank_volume")})
	losses := r.For(rules.SawnTimber)
	var factors []derivation.Factor
	for _, l := range losses {
		factors = append(factors, derivation.ByFactor("l", l.Fraction, l.Name+": "+l.Source))
	}
	t.Derive(w.path+"/board_feet_gross", "bill/gross_board_feet", []derivation.Input{t.Ref("n", w.path+"/board_feet")}, factors...)
	if err := w.weigh(); err != nil {
		return Replacement{}, err
	}
	t.Derive(w.path+"/pieces", "floor/worked", nil)
	if t.Err() != nil {
		return Replacement{}, t.Err()
	}
	w.need("timber", bill.Line{Material: bill.Timber, Driver: string(step.Sawn), Pieces: &bill.Pieces{
		Species: w.Wood.Code, Grade: w.Grade, Thickness: width.Value(), Siding: w.Floor.Siding, Planing: r.Planing, Length: length,
	}}, w.path+"/pieces", losses, "bill/gross_pieces")
	w.count(step.Sawn, w.path+"/timber_gross")
	w.worked()
	return w.out, t.Err()
}

// mm is a figure's value in millimetres as a float, for what is only compared.
func mm(q quantity.Quantity) float64 { return q.Value().InexactFloat64() }
