package takeoff

import (
	"fmt"
	"math"

	"ribband/takeoff/notation"
)

// length is a length as people of the job write it, to the grain that its notation is written to as a rule, with its unit.
func (b Basis) length(mm float64) string {
	in := b.Notation
	if !in.Known() {
		in = notation.Millimetres
	}
	grain := in.DefaultGrain().MM()
	l, err := notation.FromMM(math.Round(mm/grain) * grain)
	if err != nil {
		return fmt.Sprintf("%.0f mm", mm)
	}
	return in.Format(l) + units[in]
}

// width is a length that was written down, as people of the job say it: whole where their notation can write it.
func (b Basis) width(mm float64) string {
	l, err := notation.FromMM(mm)
	if err != nil {
		return fmt.Sprintf("%.1f mm", mm)
	}
	return b.Notation.Said(l)
}

// units behind a number that does not show its own.
var units = map[notation.Notation]string{notation.Inches: " in", notation.Millimetres: " mm", notation.Metres: " m"}

// reach is how far the boat's lines run, aft of station 0, as people of the job write it.
func (b Basis) reach() (forward, aft string) {
	from, to := b.Hull.Reach()
	return b.length(from), b.length(to)
}
