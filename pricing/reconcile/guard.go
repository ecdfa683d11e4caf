package reconcile

import (
	"regexp"
	"strings"
)

// A spreadsheet runs a cell that begins with one of = + - @, a tab or a carriage return as a formula, also with
// blanks before it, whatever RFC 4180 quoting is around it. An apostrophe in front makes it text.
//
// One that parts cells by semicolons or tabs takes a row apart where this table does not, in the middle of a cell and
// past its quotes; so what follows a parting mark, a quote or a line break is a beginning as well.
//
// Source: OWASP, CSV Injection, as reported in the advisory CVE-2021-41270; the blanks are from a later report, the
// full-width signs and the other parting marks from memory.
var (
	plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)
	formula     = regexp.MustCompile("^'*[\\s\v\\p{Z}\u0085\u200b\ufeff]*[=+\\-@\t\r＝＋－＠]")
	beginning   = regexp.MustCompile(`[^;,\t\r\n"]*[;,\t\r\n"]?`)
)

// defuse makes a text harmless in a spreadsheet: every beginning that would be run, or that already looks defused,
// gets an apostrophe in front, so that armed gives back what went in. Numbers stay numbers.
func defuse(text string) string {
	if plainNumber.MatchString(text) {
		return text
	}
	return beginning.ReplaceAllStringFunc(text, func(part string) string {
		if formula.MatchString(part) {
			return "'" + part
		}
		return part
	})
}

// armed takes away the apostrophes that defuse puts in.
func armed(cell string) string {
	if !strings.Contains(cell, "'") {
		return cell
	}
	return beginning.ReplaceAllStringFunc(cell, func(part string) string {
		if rest, ok := strings.CutPrefix(part, "'"); ok && formula.MatchString(rest) {
			return rest
		}
		return part
	})
}

// quoted is a cell as RFC 4180 writes it: a text always in quotes, a number and an empty cell without.
func quoted(cell string) string {
	if cell == "" || plainNumber.MatchString(cell) {
		return cell
	}
	return `"` + strings.ReplaceAll(defuse(cell), `"`, `""`) + `"`
}
