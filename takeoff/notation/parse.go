package notation

import (
	"regexp"
	"strconv"
	"strings"
)

const (
	finestFraction = 64 // the finest division of an inch that is read
	maxPlaces      = 6  // decimals, in every decimal notation
)

var (
	eighthsForm  = regexp.MustCompile(`^(-?)([0-9]{1,4})-([0-9]{1,2})-([0-9])([+-]?)$`)
	fractionForm = regexp.MustCompile(`^(-?)(?:([0-9]{1,5}) )?([0-9]{1,2})/([0-9]{1,2})$`)
	decimalForm  = regexp.MustCompile(`^(-?)([0-9]{1,7})(?:([.,])([0-9]{1,9}))?$`)
)

// Parse reads a length written in n. Spaces round the text are ignored. A leading minus puts the whole length
// below the datum, so that -0-3-4- is minus (3 4/8 in less a sixteenth). Whether a negative length is allowed is
// for the caller. Anything else than one length in n is refused with an *Error that says what is wrong and, where
// it is clear what was meant, how that length is written in n.
func (n Notation) Parse(text string) (Length, error) {
	if len(text) > MaxTextBytes {
		return Length{}, n.refuse(text, "it is far longer than any length", n.Example())
	}
	t := strings.TrimSpace(text)
	if t == "" {
		return Length{}, n.refuse(text, "it is empty", n.Example())
	}
	var l Length
	var reason string
	switch n {
	case FeetInchesEighths:
		l, reason = parseEighths(t)
	case Inches:
		l, reason = parseInches(t)
	case Millimetres:
		l, reason = parseDecimal(t, millimetre, true)
	case Metres:
		l, reason = parseDecimal(t, metre, true)
	default:
		return Length{}, n.refuse(text, "this notation is not known; it is one of feet_inches_eighths, inches, mm, m", "")
	}
	if reason == "" && (l.n > longest || l.n < -longest) {
		return Length{}, n.refuse(text, "it is over a kilometre", n.Example())
	}
	if reason != "" {
		return Length{}, n.explain(text, t, reason)
	}
	return l, nil
}

func (n Notation) refuse(text, reason, example string) error {
	return &Error{Text: text, Notation: n, Reason: reason, Example: example}
}

func parseEighths(t string) (Length, string) {
	m := eighthsForm.FindStringSubmatch(t)
	if m == nil {
		return Length{}, "feet, inches and eighths are needed, joined by hyphens, zeros written"
	}
	feet, inches, eighths := whole(m[2]), whole(m[3]), whole(m[4])
	if inches > 11 {
		return Length{}, "the inches, in the middle, run from 0 to 11"
	}
	if eighths > 7 {
		return Length{}, "the eighths, at the end, run from 0 to 7"
	}
	v := feet*foot + inches*inch + eighths*inch/8
	switch m[5] {
	case "+":
		v += inch / 16
	case "-":
		v -= inch / 16
	}
	return below(m[1], v), ""
}

func parseInches(t string) (Length, string) {
	m := fractionForm.FindStringSubmatch(t)
	if m == nil {
		return parseDecimal(t, inch, false)
	}
	num, den := whole(m[3]), whole(m[4])
	if den < 2 || den > finestFraction || den&(den-1) != 0 {
		return Length{}, "an inch is divided into 2, 4, 8, 16, 32 or 64 parts"
	}
	if num >= den {
		return Length{}, "the fraction must be less than an inch"
	}
	return below(m[1], whole(m[2])*inch+num*(inch/den)), ""
}

func parseDecimal(t string, unit int64, comma bool) (Length, string) {
	m := decimalForm.FindStringSubmatch(t)
	if m == nil || unit != metre && len(m[4]) > 6 { // finer than a nanometre otherwise
		return Length{}, decimalReason(t, comma)
	}
	if m[3] == "," && !comma {
		return Length{}, "inches take a decimal point, not a comma"
	}
	part, per := whole(m[4]), unit
	for range len(m[4]) {
		per /= 10
	}
	// Seven digits of metres would pass the int64; a kilometre ends long before.
	if whole(m[2]) > longest/unit {
		return Length{}, "it is over a kilometre"
	}
	return below(m[1], whole(m[2])*unit+part*per), ""
}

// decimalReason says why a text is not a plain decimal.
func decimalReason(t string, comma bool) string {
	marks := 0
	for _, r := range t {
		switch {
		case r == '.' || r == ',':
			marks++
		case r >= '0' && r <= '9' || r == '-':
		default:
			return "a plain number is needed, without unit or sign of another kind"
		}
	}
	if marks > 1 || marks == 1 && strings.Contains(t, ",") && !comma {
		return "thousands are not set apart; there is one decimal mark at most"
	}
	return "at most 7 digits are read before the decimal mark and at least 1 and at most 6 after it, 9 in metres"
}

// whole reads digits that a form above has matched; no digits are nothing.
func whole(digits string) int64 {
	v, err := strconv.ParseInt(digits, 10, 64)
	if err != nil {
		return 0
	}
	return v
}

func below(sign string, v int64) Length {
	if sign == "-" {
		return Length{-v}
	}
	return Length{v}
}
