package takeoff

import (
	"math"

	"ribband/takeoff/notation"
)

// grainSaid writes a declared grain, mm, as its table does.
func grainSaid(in notation.Notation, mm float64) string {
	l, err := notation.FromMM(mm)
	if err != nil || !in.Writes(l) {
		return aboutSaid(in, mm)
	}
	return in.Format(l) + units[in]
}

// aboutSaid writes what a grain comes to, mm, as it would be declared: to the sixteenth of an inch in feet-inches-eighths, to
// the 64th in inches, otherwise to two figures. What a rule in inches does not show is said in millimetres.
func aboutSaid(in notation.Notation, mm float64) string {
	step := math.Pow(10, math.Floor(math.Log10(mm))-1)
	switch in {
	case notation.FeetInchesEighths:
		step = 25.4 / 16
	case notation.Inches:
		step = 25.4 / 64
	case notation.Millimetres, notation.Metres:
	default:
		in = notation.Millimetres
	}
	n := math.Round(mm / step)
	if n == 0 {
		return aboutSaid(notation.Millimetres, mm)
	}
	l, err := notation.FromMM(n * step)
	if err != nil {
		return ""
	}
	return in.Format(l) + units[in]
}
