package table_test

import (
	"bytes"
	"encoding/csv"
	"testing"

	"ribband/takeoff/table"

	"github.com/google/go-cmp/cmp"
)

// FuzzOpen: no table brings the reader down, and one that says nothing has a fault; rows come in order within the
// limits, with a cell for each column, and written again they read the same.
func FuzzOpen(f *testing.F) {
	f.Add([]byte("item,unit,price\noak,BFT,12.50\n\"a \"\"b\"\"\",,1\n"), false)
	f.Add([]byte("\ufeffPrice;item\r\n1,5;x\r\n2;\"y\nz\"\r\n"), true)
	f.Add([]byte("item\tprice\tprice\n1\t2\t3\n"), true)
	f.Add([]byte("item,price\na\nb,\xff\x00\n\"c\"d,1\n"), false)
	f.Add([]byte("\xff\xfei\x00"), false)
	f.Fuzz(func(t *testing.T, written []byte, text bool) {
		k := stock
		k.Text = text
		opened, faults := k.Open(written)
		refused := len(faults) > 0
		var rows [][]string
		last := 1
		for line, cells := range opened.Rows(func(f table.Fault) { faults = append(faults, f) }) {
			if line <= last || len(cells) != len(k.Columns) {
				t.Fatalf("line %d after %d: %q", line, last, cells)
			}
			last = line
			rows = append(rows, cells)
		}
		if refused && len(rows) > 0 || len(rows)+len(faults) == 0 || len(rows) > k.MaxRows {
			t.Fatalf("%d rows, %v", len(rows), faults)
		}
		for i, f := range faults {
			if f.Detail == "" || f.Fix == "" || f.Row < 0 || f.ColumnNo < 0 || f.Lost && f.Row == 0 {
				t.Fatalf("a fault that says too little: %+v", f)
			}
			if !refused && i > 0 && f.Row <= faults[i-1].Row {
				t.Fatalf("%+v is told after %+v", f, faults[i-1])
			}
		}
		again(t, rows)
	})
}

// again writes rows and reads them back.
func again(t *testing.T, rows [][]string) {
	if len(rows) == 0 {
		return
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.WriteAll(append([][]string{stock.Columns}, rows...)); err != nil {
		t.Fatal(err)
	}
	k := stock
	k.MaxBytes = b.Len()
	opened, faults := k.Open(b.Bytes())
	var got [][]string
	for _, cells := range opened.Rows(func(f table.Fault) { faults = append(faults, f) }) {
		got = append(got, cells)
	}
	if d := cmp.Diff(rows, got); d != "" || len(faults) > 0 {
		t.Fatalf("%s\n%v\n%q", d, faults, b.String())
	}
}
