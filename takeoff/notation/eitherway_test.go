package notation_test

import (
	"errors"
	"testing"

	"ribband/takeoff/notation"
)

// 1,234 mm is told with both readings; a comma that other cells show to be the decimal mark is none at the thousands.
func TestACommaThatCanBeReadTwoWays(t *testing.T) {
	for _, c := range []struct {
		in     notation.Notation
		text   string
		commas bool
		mm     float64
		write  string // what the refusal says to write; empty where it is taken
	}{
		{notation.Millimetres, "1,234", false, 0, "1234 or 1.234"},
		{notation.Millimetres, " -12,500 ", false, 0, "-12500 or -12.500"},
		{notation.Millimetres, "1,234", true, 1.234, ""},
		{notation.Millimetres, "1.234", false, 1.234, ""},
		{notation.Millimetres, "1234,567", false, 1234.567, ""}, // a mark at the thousands would stand before the 2 too
		{notation.Millimetres, "1,23", false, 1.23, ""},
		{notation.Millimetres, "1,2345", false, 1.2345, ""},
		{notation.Metres, "1,234", false, 1234, ""}, // 1234 m is no boat
	} {
		l, err := c.in.ParseCell(c.text, c.commas)
		var told *notation.Error
		if c.write != "" {
			if !errors.As(err, &told) || told.Example != c.write || told.Text != c.text || l.Sign() != 0 {
				t.Errorf("%s %q: %v, %v", c.in, c.text, l, err)
			}
		} else if err != nil || l.MM() != c.mm {
			t.Errorf("%s %q: %v, %v; %v mm wanted", c.in, c.text, l, err, c.mm)
		}
	}
}

func TestOnlyAPlainCommaShowsTheDecimalMark(t *testing.T) {
	for text, want := range map[string]bool{"698,5": true, " -0,25 ": true, "1,2345": true, "1,234": false, "1234,567": false, "698.5": false, "698": false, ",5": false, "": false} {
		if got := notation.Millimetres.PlainComma(text); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
	if notation.Metres.PlainComma("0,5") {
		t.Error("metres show nothing of millimetres")
	}
}

func TestOnlyWhatCanBeReadTwoWaysIsPointed(t *testing.T) {
	for text, want := range map[string]string{"1,234": "1.234", " 1,234": " 1.234", "1,23": "1,23", "1.234": "1.234", "": ""} {
		if got := notation.Millimetres.Pointed(text); got != want {
			t.Errorf("%q: %q", text, got)
		}
	}
	if got := notation.Inches.Pointed("1,234"); got != "1,234" {
		t.Errorf("in inches: %q", got)
	}
}
