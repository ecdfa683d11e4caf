package reconcile_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"regexp"
	"strings"
	"testing"

	"ribband/pricing/money"
	"ribband/pricing/reconcile"

	"github.com/google/go-cmp/cmp"
)

var number = regexp.MustCompile(`^-?\d+(\.\d+)?$`)

// runs says which cell of a table a spreadsheet would run: one that is no number and begins, blanks apart, with one
// of = + - @ tab or carriage return, however the spreadsheet parts cells; and which text is not in quotes.
func runs(table []byte) string {
	r := csv.NewReader(bytes.NewReader(table))
	r.FieldsPerRecord = -1
	rows, err := r.ReadAll()
	if err != nil {
		return err.Error()
	}
	for _, row := range rows {
		for _, cell := range row {
			if number.MatchString(cell) {
				continue
			}
			if begins(cell) {
				return fmt.Sprintf("the cell %q runs", cell)
			}
			for i, c := range cell {
				if strings.ContainsRune(";,\t\r\n\"", c) && begins(cell[i+1:]) {
					return fmt.Sprintf("the cell %q runs at byte %d", cell, i+1)
				}
			}
		}
	}
	_, below, _ := bytes.Cut(table, []byte("\r\n"))
	if bare := unquoted.Find(below); bare != nil {
		return fmt.Sprintf("%q is not in quotes", bare)
	}
	return ""
}

// unquoted is a cell that is neither empty nor a number nor in quotes, with what is before it.
var unquoted = regexp.MustCompile(`^(?:(?:"(?:[^"]|"")*"|-?\d+(?:\.\d+)?)?(?:,|\r\n))*[^",\r\n\d-][^,]*`)

func begins(text string) bool {
	text = strings.TrimLeft(text, " \u00a0\u200b\ufeff\v\f\u0085\u2000\u3000")
	return text != "" && strings.ContainsRune("=+-@\t\r＝＋－＠", []rune(text)[0])
}

// FuzzReadCSV: no table brings the reader down; every row is good, there already or bad; a fault says where, what and
// what would be right; and the good rows are written so that they read the same again and nothing in them runs.
func FuzzReadCSV(f *testing.F) {
	f.Add([]byte(header+strings.TrimLeft(good, "\n")), "USD")
	f.Add([]byte("\ufeffdate;kind;supplier;document;line;amount;currency\r\n2026-03-05;credit;'=a;\"b\"\"\";1;-1,5;EUR\r\n"), "EUR")
	f.Add([]byte("date\tkind\tsupplier\tdocument\tline\tamount\tcurrency\tdescription\n2026-03-05\tinvoice\ta\tb\t1\t5\tJPY\t +49\n"), "JPY")
	f.Add([]byte(header+"2026-03-05,invoice,a,b,1,,,,,1e1000000,KWD,,,\n"), "KWD")
	f.Add([]byte(header+"2026-03-05,invoice,caf\xe9,b,1,,,,,1,USD,,,\n"), "USD")
	f.Add([]byte(header+"2026-03-05,invoice,a;=1+1,\"b,@c\",\"d \"\"+e\"\"\",\"'f;'=g\",h; -1,,,1,USD,,,\n"), "USD")
	f.Add([]byte("\"date\n"), "")
	f.Fuzz(func(t *testing.T, table []byte, currency string) {
		job := job
		job.Currency = money.Currency(currency)
		in := reconcile.ReadCSV(table, job, nil)
		if (len(in.Bad) > 0) && len(in.Faults) == 0 || len(in.Good)+len(in.Again)+len(in.Bad)+len(in.Faults) == 0 {
			t.Fatalf("nothing said: %+v", in)
		}
		for _, f := range in.Faults {
			if f.Detail == "" || f.Fix == "" || f.Row < 0 {
				t.Fatalf("a fault that says too little: %+v", f)
			}
		}
		var b bytes.Buffer
		if err := reconcile.WriteCSV(&b, entries(in)); err != nil {
			t.Fatal(err)
		}
		if why := runs(b.Bytes()); why != "" {
			t.Fatal(why)
		}
		if len(in.Good) == 0 {
			return
		}
		again := reconcile.ReadCSV(b.Bytes(), job, nil)
		if err := again.Err(); err != nil {
			t.Fatalf("what was written is not read: %v\n%q", err, b.String())
		}
		if d := cmp.Diff(entries(in), entries(again), sameNumbers, cmp.AllowUnexported(money.Money{})); d != "" {
			t.Fatalf("%s\n%q", d, b.String())
		}
		twice := reconcile.ReadCSV(b.Bytes(), job, entries(in))
		if len(twice.Good) != 0 || len(twice.Again) != len(in.Good) || twice.Err() != nil {
			t.Fatalf("imported twice: %d good, %d again, %v", len(twice.Good), len(twice.Again), twice.Err())
		}
	})
}

// FuzzFromRows: no typed entry brings the reader down; it is good or bad, and what is told of it points into it and
// says what would be right. A good amount is never more places than its currency has.
func FuzzFromRows(f *testing.F) {
	f.Add("1.240", "1,125", "12,50", "Rip and plane", "Invoice", "USD")
	f.Add("12,50", "1.125", "", "", "hours", "KWD")
	f.Add("-1e9", "0", "\xff", "a\x00", "", "")
	f.Fuzz(func(t *testing.T, amount, quantity, tax, step, kind, currency string) {
		job := job
		job.Currency = money.Currency(currency)
		row := reconcile.Row{Date: "2026-03-05", Kind: kind, Supplier: "s", Document: "d", Line: "1", Quantity: quantity, Unit: "BFT", Amount: amount,
			Currency: currency, Tax: tax, Step: step}
		in := reconcile.FromRows([]reconcile.Row{row}, job, nil)
		if len(in.Good)+len(in.Bad) != 1 || (len(in.Bad) == 1) != (len(in.Faults) > 0) {
			t.Fatalf("%+v", in)
		}
		for _, f := range in.Faults {
			if f.Detail == "" || f.Fix == "" || f.Row != 0 || !strings.HasPrefix(f.Pointer, "/entries/0") {
				t.Fatalf("a fault that says too little: %+v", f)
			}
		}
		if len(in.Good) == 1 {
			if i := strings.IndexAny(strings.TrimSpace(amount), ".,"); i >= 0 && len(strings.TrimSpace(amount))-i-1 > int(job.Currency.Digits()) {
				t.Fatalf("%q is taken as %s", amount, in.Good[0].Entry.Amount)
			}
		}
	})
}
