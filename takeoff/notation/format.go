package notation

import (
	"fmt"
	"strconv"
	"strings"
)

// Format writes l in n, as Parse reads it. What Parse read in n comes back as the same length. A length that n
// cannot write is rounded half away from zero: to the sixteenth in feet-inches-eighths (an odd sixteenth is
// written with the trailing +), to six decimals of the unit in the others and nine of the metre. An unknown notation gives millimetres
// with their unit.
func (n Notation) Format(l Length) string {
	switch n {
	case FeetInchesEighths:
		return formatEighths(l.n)
	case Inches:
		return formatInches(l.n)
	case Millimetres:
		return plain(l.n, millimetre, 6)
	case Metres:
		return plain(l.n, metre, 9)
	}
	return l.String()
}

// Writes reports whether n can write l exactly.
func (n Notation) Writes(l Length) bool {
	m, err := n.Parse(n.Format(l))
	return err == nil && m == l
}

func formatEighths(v int64) string {
	sign, v := signed(v)
	const sixteenth = inch / 16
	s := (v + sixteenth/2) / sixteenth
	if s == 0 {
		sign = ""
	}
	mark := ""
	if s%2 == 1 {
		mark = "+"
	}
	return fmt.Sprintf("%s%d-%d-%d%s", sign, s/192, s/16%12, s/2%8, mark)
}

// formatInches prefers the fraction, as a rule is divided, and falls back to decimals.
func formatInches(v int64) string {
	sign, w := signed(v)
	const part = inch / finestFraction
	if w%part != 0 {
		return plain(v, inch, 6)
	}
	whole, num, den := w/inch, w%inch/part, int64(finestFraction)
	if num == 0 {
		return sign + strconv.FormatInt(whole, 10)
	}
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	if whole == 0 {
		return fmt.Sprintf("%s%d/%d", sign, num, den)
	}
	return fmt.Sprintf("%s%d %d/%d", sign, whole, num, den)
}

func signed(v int64) (string, int64) {
	if v < 0 {
		return "-", -v
	}
	return "", v
}

// plain writes v/unit as a decimal of at most places decimals, rounded half away from zero, no trailing zeros.
func plain(v, unit int64, places int) string {
	sign, v := signed(v)
	step := unit
	for range places {
		if step%10 != 0 {
			break
		}
		step /= 10
	}
	count := v / step
	if rest := v % step; rest >= step-rest {
		count++
	}
	per := unit / step
	s := strconv.FormatInt(count/per, 10)
	if f := count % per; f != 0 {
		s += "." + strings.TrimRight(fmt.Sprintf("%0*d", len(strconv.FormatInt(per, 10))-1, f), "0")
	} else if count == 0 {
		sign = ""
	}
	return sign + s
}
