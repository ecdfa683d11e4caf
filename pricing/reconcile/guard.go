package reconcile

import (
	"regexp"
	"strings"
)

// A spreadsheet runs a cell that begins with one of = + - @, a tab or a carriage return as a formula, also with
// blanks before it, whatever RFC 4180 quoting is around it. An apostrophe in front makes it text.
//
// Source: OWASP, CSV Injection, as reported in the advisory CVE-2021-41270; the blanks are from a later report, the
// full-width signs from memory.
var (
	plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)
	formula     = regexp.MustCompile("^'*[\\s\\p{Z}\u0085\u200b\ufeff]*[=+\\-@\t\r＝＋－＠]")
)

// defuse makes a text harmless in a spreadsheet: a text that would be run, or one that already looks defused, gets an
// apostrophe in front, so that armed gives back what went in. Numbers stay numbers. Every line inside a cell counts
// as a beginning.
func defuse(text string) string {
	if plainNumber.MatchString(text) {
		return text
	}
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		if formula.MatchString(l) {
			lines[i] = "'" + l
		}
	}
	return strings.Join(lines, "\n")
}

// armed takes away the apostrophe that defuse puts in front of a text of one line.
func armed(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && formula.MatchString(rest) {
		return rest
	}
	return cell
}
