package notation

import (
	"fmt"
	"unicode/utf8"
)

// MaxTextBytes is the longest text that is looked at; the longest sensible cell, "3280-11-7+", is far below it.
const MaxTextBytes = 40

// Error: a text that is not a length in the notation it should be in.
type Error struct {
	Text     string   // as it was given
	Notation Notation // expected
	Reason   string   // what is wrong with it
	Example  string   // how to write it: the same length where it is clear what was meant, otherwise any
}

func (e *Error) Error() string {
	s := fmt.Sprintf("%s is not a length in %s: %s", Quote(e.Text), e.Notation.Name(), e.Reason)
	if e.Example == "" {
		return s
	}
	return s + "; write it like " + e.Example
}

// Quote shows a cell's text in a message: in quotation marks, control characters escaped, shortened when long.
func Quote(text string) string {
	const shown = 24
	if len(text) <= shown {
		return fmt.Sprintf("%q", text)
	}
	cut := shown
	for cut > 0 && !utf8.RuneStart(text[cut]) {
		cut--
	}
	return fmt.Sprintf("%q", text[:cut]+"…")
}

// Shorten keeps a text fit for a message or a name, whatever was written: as it is where it is short, otherwise as Quote
// shows it, without the quotation marks.
func Shorten(text string) string {
	if len(text) <= MaxTextBytes+8 {
		return text
	}
	q := Quote(text)
	return q[1 : len(q)-1]
}
