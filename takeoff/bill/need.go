package bill

import "ribband/takeoff/derivation"

// Need is a line with its net and gross: what its net figure stands at, and what must be had so that this is left after
// its losses, put into t by the formula gross under the line's id. ID, NetFigure and Losses are given.
func Need(t *derivation.Table, line Line, gross string) Line {
	line.GrossFigure = line.ID + "_gross"
	factors := make([]derivation.Factor, len(line.Losses))
	for i, l := range line.Losses {
		factors[i] = derivation.ByFactor("l", l.Fraction, l.Name+": "+l.Source)
	}
	line.Net = t.Quantity(line.NetFigure)
	line.Gross = t.Derive(line.GrossFigure, gross, []derivation.Input{t.Ref("n", line.NetFigure)}, factors...)
	return line
}
