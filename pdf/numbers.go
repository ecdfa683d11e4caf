package pdf

import "strings"

// minus is the sign set before a negative number: as wide as the figures.
const minus = "−"

// decimal splits plain decimal text into sign, whole digits and the digits
// behind the point; ok is false for anything else.
func decimal(s string) (negative bool, whole, fraction string, ok bool) {
	s, negative = strings.CutPrefix(s, "-")
	whole, fraction, pointed := strings.Cut(s, ".")
	if whole == "" || !digits(whole) || pointed && (fraction == "" || !digits(fraction)) {
		return false, "", "", false
	}
	return negative, whole, fraction, true
}

func digits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return true
}

// grouped sets decimal text for print: thousands apart by a comma, a true minus.
// Every digit stays as it was. Text that is no decimal comes back unchanged.
func grouped(s string) string {
	negative, whole, fraction, ok := decimal(s)
	if !ok {
		return s
	}
	var b strings.Builder
	if negative {
		b.WriteString(minus)
	}
	for i, d := range []byte(whole) {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteByte(d)
	}
	if fraction != "" {
		b.WriteByte('.')
		b.WriteString(fraction)
	}
	return b.String()
}

// figure prints the number of an amount, without its currency.
func (c *composer) figure(a Amount) printable {
	return c.line(grouped(a.Text))
}

// money prints an amount with its currency before it. The space between them
// does not break.
func (c *composer) money(a Amount) printable {
	if a.Currency == "" {
		return c.figure(a)
	}
	return c.line(a.Currency) + "\u00a0" + c.figure(a)
}

// tail is the width of what stands behind the decimal mark, mark included. A
// column of numbers is set so that the marks stand below each other.
func (m *metrics) tail(t printable, s style) length {
	if i := strings.LastIndexByte(string(t), '.'); i >= 0 {
		return m.width(t[i:], s)
	}
	return 0
}
