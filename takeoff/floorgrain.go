package takeoff

import (
	"fmt"
	"math"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
)

// grained is the grain of one board in the floor, held against the limit.
func (s floorSize) grained(limit rules.SawnGrain) *FloorGrain {
	out := &FloorGrain{SteepestDeg: quantity.Thousandth(degrees(s.grain.Steepest)), Side: s.grain.Side, AtLeast: s.grain.AtLeast,
		MostDeg: limit.Most.InexactFloat64(), Source: limit.Source}
	out.Short = out.SteepestDeg > out.MostDeg
	if s.grain.Run > 0 {
		run := quantity.Thousandth(s.grain.Run)
		out.RunMM = &run
	}
	return out
}

// shortGrain warns of a floor whose arms rise so steeply that a board's grain is short across them. What would do is common
// practice, no source.
func (b Basis) shortGrain(f floor.Floor, s floorSize) []bill.Warning {
	g := s.grained(b.Rules.Grain())
	if !g.Short {
		return nil
	}
	m := f.Member()
	least, most := floor.StrengthLeft(s.grain.Steepest)
	detail := fmt.Sprintf("Floor %d, sawn: the grain of one board, level from arm to arm, crosses its arms at %.0f degrees or more, as its size by hand tells; the yard takes %.0f (%s).",
		f.No, math.Floor(g.SteepestDeg), g.MostDeg, g.Source)
	if !g.AtLeast {
		detail = fmt.Sprintf("Floor %d, sawn: the grain of one board, level from arm to arm, crosses its %s arm at up to %.0f degrees; the yard takes %.0f (%s). More than that it is along",
			f.No, g.Side, math.Ceil(g.SteepestDeg), g.MostDeg, g.Source)
		limit := g.MostDeg * math.Pi / 180
		detail += fmt.Sprintf(" %.0f mm of the port arm and %.0f mm of the starboard.", s.grain.Beyond(boat.Port, limit), s.grain.Beyond(boat.Starboard, limit))
	}
	detail += fmt.Sprintf(" Grain so short splits under the frame's fastenings: %.0f to %.0f %% of the strength in bending is left (Hankinson's formula, its figures from memory).", 100*least, 100*most)
	return []bill.Warning{{Code: "short_grain", Member: &m, Detail: detail,
		Fix: "Laminates follow the arms: replace_laminated. Or cut it from a grown crook or a natural knee whose grain runs down one arm and up the other; or make each arm of straight-grained stock along its own run, bolted to a chock over the keel; or choose a strap."}}
}
