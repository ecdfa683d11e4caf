package sheet_test

import (
	"bytes"
	"errors"
	"testing"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
)

// FuzzReadCSV: no table brings the reader down; what it takes it writes so that it reads the same again; what it
// refuses it refuses with faults that say where and what would be right.
func FuzzReadCSV(f *testing.F) {
	f.Add([]byte(yard), "USD", "feet_inches_eighths")
	f.Add([]byte("\ufeffitem;kind;unit;price\r\n\"a \"\"b\"\"\";glue;LTR;1,5\r\n"), "EUR", "mm")
	f.Add([]byte("item\tkind\tunit\tprice\tthickness\na\ttimber\tBFT\t1\t8/4\n"), "JPY", "inches")
	f.Add([]byte("item,kind,unit,price\na,glue,LTR,1e1000000\n"), "KWD", "m")
	f.Add([]byte("\"item\n"), "", "")
	f.Fuzz(func(t *testing.T, table []byte, currency, n string) {
		c, err := sheet.ReadCSV(table, money.Currency(currency), notation.Notation(n))
		if err != nil {
			var faults *sheet.FaultsError
			if !errors.As(err, &faults) || len(faults.Faults) == 0 {
				t.Fatalf("refused without faults: %v", err)
			}
			for _, f := range faults.Faults {
				if f.Detail == "" || f.Fix == "" || f.Row < 0 {
					t.Fatalf("a fault that says too little: %+v", f)
				}
			}
			return
		}
		var b bytes.Buffer
		if err := c.WriteCSV(&b); err != nil {
			t.Fatal(err)
		}
		again, err := sheet.ReadCSV(b.Bytes(), c.Currency, c.Notation)
		if err != nil {
			t.Fatalf("what was written is not read: %v\n%q", err, b.String())
		}
		if d := cmp.Diff(c, again, sameSizes); d != "" {
			t.Fatalf("%s\n%q", d, b.String())
		}
	})
}
