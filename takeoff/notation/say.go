package notation

// Said is l as it is told to people: written in n, with its unit where that does not show by itself. What n cannot write
// exactly is a length that was worked out, and is said to what a rule shows: to the sixteenth of an inch, the tenth of a
// millimetre, the tenth of a millimetre in metres too.
func (n Notation) Said(l Length) string {
	step := millimetre / 10
	unit := ""
	switch n {
	case FeetInchesEighths:
		return n.Format(l)
	case Inches:
		step, unit = inch/16, " in"
	case Metres:
		unit = " m"
	default:
		n, unit = Millimetres, " mm"
	}
	if !n.Writes(l) {
		sign := int64(1)
		if l.n < 0 {
			sign = -1
		}
		l.n = sign * ((sign*l.n + step/2) / step * step)
	}
	return n.Format(l) + unit
}
