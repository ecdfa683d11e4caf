package pdf

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/bidi"
	"golang.org/x/text/unicode/norm"
)

// printable is text that the embedded faces can set: normalised, without
// controls, every rune with a glyph. The only runes in it that are not drawn are
// the space and the line break. Constants of this package are printable by a
// test; everything else passes through a cleaner.
type printable string

// substitute is what stands for a character that cannot be printed, so that the
// reader sees that something is missing. U+FFFD has no glyph in the faces.
const substitute = '□'

// maxMarks is how many combining marks a letter may carry. No written language
// we know stacks more than two or three; hundreds would ink over other lines.
const maxMarks = 2

// cleaner makes text printable and remembers whether anything was replaced.
type cleaner struct {
	replaced bool
}

// clean returns s ready to print.
func (c *cleaner) clean(s string) printable {
	s = strings.ReplaceAll(s, "\r\n", "\n")
	if utf8.ValidString(s) {
		s = norm.NFC.String(s)
	}
	var b strings.Builder
	b.Grow(len(s))
	marks, base := 0, false
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		invalid := r == utf8.RuneError && n == 1
		i += n
		if !invalid && unicode.Is(unicode.M, r) {
			marks++
			if !base || marks > maxMarks || !HasGlyph(r) {
				c.replaced = true
				if marks <= maxMarks+1 {
					b.WriteRune(substitute)
				}
				continue
			}
			b.WriteRune(r)
			continue
		}
		out, keep := plain(r)
		if invalid || keep && !settable(out) {
			out, keep = substitute, true
			c.replaced = true
		}
		if keep {
			b.WriteRune(out)
			marks, base = 0, out > ' '
		}
	}
	return printable(b.String())
}

// line is clean for text that must stay on one line: breaks become spaces.
func (c *cleaner) line(s string) printable {
	return printable(strings.Join(strings.Fields(string(c.clean(s))), " "))
}

// plain maps the runes that have an equal in print, and drops (keep false) those
// that are invisible by design: soft hyphens, joiners, byte order marks.
func plain(r rune) (out rune, keep bool) {
	switch r {
	case '\t', '\v', '\f':
		return ' ', true
	case '\r', '\u0085', '\u2028', '\u2029':
		return '\n', true
	case '\u00ad', '\u200b', '\u200c', '\u200d', '\u2060', '\ufeff':
		return 0, false
	case '\u202f', '\u2007':
		return '\u00a0', true // both forbid a break
	case '\u2010', '\u2011':
		return '-', true
	}
	if unicode.Is(unicode.Zs, r) && r != '\u00a0' {
		return ' ', true
	}
	return r, true
}

// settable reports whether r prints as its writer meant. Controls do not, nor do
// the controls of writing direction: they would show text in another order than
// it is stored. Letters written from right to left have glyphs but are refused
// too, because lines are set from left to right here and would read backwards.
func settable(r rune) bool {
	if r == '\n' || r == ' ' {
		return true
	}
	if unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || !HasGlyph(r) {
		return false
	}
	properties, _ := bidi.LookupRune(r)
	switch properties.Class() {
	case bidi.R, bidi.AL, bidi.AN:
		return false
	}
	return true
}
