package notation

import (
	"fmt"
	"regexp"
	"strings"
)

// Forms that are never read but are recognised, so that the refusal can say how the same length is written.
var (
	ticksForm = regexp.MustCompile(`^([0-9]{1,4})(?:'|′|’| ?ft\.?)(?:[ -]?([0-9]{1,2})(?:[ -]([0-9]{1,2}/[0-9]{1,2}))?(?:"|″|”|''| ?in\.?)?)?$`)
	unitForm  = regexp.MustCompile(`^(.*[0-9])\s*("|″|”|''|in\.?|inch|inches|mm|cm|m)$`)
	runForm   = regexp.MustCompile(`^[0-9]+$`)
	runPairs  = regexp.MustCompile(`^[0-9]+ [0-9]{2}$`)
	longDash  = strings.NewReplacer("–", "-", "—", "-", "−", "-", "‐", "-", "‑", "-")
)

// explain makes the refusal of a text (t trimmed) that is not in n: it names the notation the text is in when
// that is plain, and then writes the same length in n.
func (n Notation) explain(text, t, reason string) error {
	if fixed := longDash.Replace(t); fixed != t {
		if _, err := n.Parse(fixed); err == nil {
			return n.refuse(text, "its dash is not a hyphen", fixed)
		}
	}
	if l, said, ok := other(n, t); ok {
		why := fmt.Sprintf("it is written in %s, %s", said, l)
		return n.refuse(text, why, n.Format(l))
	}
	if n == FeetInchesEighths && (runForm.MatchString(t) || runPairs.MatchString(t)) {
		reason = "figures run together can be read several ways; feet, inches and eighths are needed, joined by hyphens"
	}
	return n.refuse(text, reason, n.Example())
}

// other recognises a length written in a way that n does not read.
func other(n Notation, t string) (l Length, said string, ok bool) {
	if m := ticksForm.FindStringSubmatch(t); m != nil {
		return feetAndInches(m)
	}
	if m := unitForm.FindStringSubmatch(t); m != nil {
		return withUnit(m[1], m[2])
	}
	if l, why := parseEighths(t); n != FeetInchesEighths && why == "" {
		return l, FeetInchesEighths.Name(), true
	}
	if n != Inches && fractionForm.MatchString(t) {
		l, why := parseInches(t)
		return l, Inches.Name(), why == ""
	}
	return Length{}, "", false
}

func feetAndInches(m []string) (Length, string, bool) {
	v := whole(m[1])*foot + whole(m[2])*inch
	if whole(m[2]) > 11 {
		return Length{}, "", false
	}
	if m[3] != "" {
		f, why := parseInches(m[3])
		if why != "" {
			return Length{}, "", false
		}
		v += f.n
	}
	return Length{v}, "feet and inches with marks", v <= longest
}

func withUnit(number, unit string) (Length, string, bool) {
	if unit == "cm" {
		l, why := parseDecimal(number, 10*millimetre, true)
		return l, "centimetres", why == "" && l.n <= longest && l.n >= -longest
	}
	as, said := Inches, "inches with the unit beside them"
	switch unit {
	case "mm":
		as, said = Millimetres, "millimetres with the unit beside them"
	case "m":
		as, said = Metres, "metres with the unit beside them"
	}
	l, err := as.Parse(strings.TrimSpace(number))
	return l, said, err == nil
}
