package table_test

import (
	"strings"
	"testing"

	"ribband/takeoff/table"
)

func TestUnfitCells(t *testing.T) {
	for cell, want := range map[string]string{
		"":                         "",
		"white oak, air dried":     "",
		"\tends in a line break\n": "",
		"caf\u00e9":                "",
		strings.Repeat("a", 500):   "",
		strings.Repeat("a", 501):   "the cell has 501 bytes; at most 500 bytes",
		"caf\xe9":                  "the cell is not UTF-8 text; save the table as UTF-8",
		"o\x00ak":                  "the cell \"o\\x00ak\" holds a control character; write plain text on one line",
		" a\nb ":                   "the cell \"a\\nb\" holds a control character; write plain text on one line",
	} {
		got := ""
		if bad := table.Unfit(cell); bad != nil {
			got = bad.Error()
		}
		if got != want {
			t.Errorf("%q: %s, want %s", cell, got, want)
		}
	}
}

func TestDecimalCells(t *testing.T) {
	for _, c := range []struct {
		cell         string
		point, comma string // the number, or how the fault begins
	}{
		{"12.50", "12.5", "12.5"},
		{"-3", "-3", "-3"},
		{"12,50", "\"12,50\" has a decimal comma", "12.5"},
		{"1,312.00", "\"1,312.00\"", "\"1,312.00\""},
		{"1,312,00", "\"1,312,00\"", "\"1,312,00\""},
		{"1e1000000", "\"1e1000000\"", "\"1e1000000\""},
		{"", "\"\"", "\"\""},
		{",", "\",\" has a decimal comma", "\".\""},
	} {
		for comma, want := range map[bool]string{false: c.point, true: c.comma} {
			d, bad := table.Decimal(c.cell, comma)
			got := d.String()
			if bad != nil {
				got = bad.Detail
				if bad.Fix == "" || !d.IsZero() {
					t.Errorf("%q: %s, %+v", c.cell, d, bad)
				}
			}
			if bad == nil && got != want || bad != nil && !strings.HasPrefix(got, want) {
				t.Errorf("%q, decimal comma %t: %s, want %s", c.cell, comma, got, want)
			}
		}
	}
}
