package reconcile_test

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/money"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/takeoff/document"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

var sameNumbers = cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) })

const good = `
2026-03-05,invoice,Sawmill,A-1,1,white_oak select,"air dried, 8/4",24,BFT,312.00,USD,18.72,rip_plane,Ada
2026-03-06,credit,Sawmill,A-2,1,white_oak select,a check in it,-2,BFT,-25.00,USD,-1.50,rip_plane,Ada
2026-03-07,hours,Yard,week 10,1,shipwright,,3.5,HUR,215.43,USD,,take_pattern,Ben
2026-03-08,invoice,Office,77,1,,stamps,,,4.10,USD,,,
`

func TestReadsATableOfSpend(t *testing.T) {
	got := posted(t, good)
	want := reconcile.Entry{Date: "2026-03-06", Kind: reconcile.Credit, Supplier: "Sawmill", Document: "A-2", Line: "1", Item: "white_oak select",
		Description: "a check in it", Quantity: dec("-2"), Unit: "BFT", Amount: usd("-25.00"), Tax: usd("-1.50"), Step: "rip_plane", Author: "Ada"}
	if len(got) != 4 || !cmp.Equal(want, got[1], sameNumbers, cmp.AllowUnexported(want.Amount)) {
		t.Errorf("%+v", got)
	}
	if e := got[3]; !e.Quantity.IsZero() || e.Unit != "" || !e.Tax.IsZero() || e.Step != "" {
		t.Errorf("%+v", e)
	}
}

// The same entries, parted by semicolons or tabs, with decimal commas, a byte order mark and columns in another order.
func TestOtherTables(t *testing.T) {
	want := posted(t, "2026-03-05,invoice,Sawmill,A-1,1,,,,,1312.5,USD,,,\n")
	for name, text := range map[string]string{
		"semicolons": "\ufeffCurrency; amount ;date;kind;supplier;document;line\r\nUSD;1312,50;2026-03-05;invoice; Sawmill ;A-1;1\r\n",
		"tabs":       "line\tdocument\tsupplier\tkind\tdate\tamount\tcurrency\n1\tA-1\tSawmill\tinvoice\t2026-03-05\t1312.50\tUSD",
	} {
		in := reconcile.ReadCSV([]byte(text), job, nil)
		if err := in.Err(); err != nil || len(in.Good) != 1 || in.Good[0].Entry.Hash() != want[0].Hash() {
			t.Errorf("%s: %+v, %v", name, in, err)
		}
	}
}

// Every kind of fault, by row and column, with what would be right; the good rows between them wait.
func TestFaultsByRowAndColumn(t *testing.T) {
	base := "2026-03-05,invoice,Sawmill,A-%d,1,oak,,24,BFT,312.00,USD,18.72,rip_plane,Ada"
	with := func(column, cell string) string { return column + "\x00" + cell }
	for name, x := range map[string]struct {
		change []string
		want   string
	}{
		"another currency":       {[]string{with("currency", "EUR")}, "currency 11: write the amount in USD"},
		"no currency":            {[]string{with("currency", "")}, "currency 11: write the amount in USD"},
		"before the job":         {[]string{with("date", "2026-03-01")}, "date 1: a day from 2026-03-02"},
		"after today":            {[]string{with("date", "2026-04-01")}, "date 1: the day of the document, 2026-03-31 at the latest"},
		"no such day":            {[]string{with("date", "2026-02-30")}, "date 1: year-month-day"},
		"a day written in words": {[]string{with("date", "5 March 2026")}, "date 1: year-month-day"},
		"broken UTF-8":           {[]string{with("description", "caf\xe9")}, "description 7: save the table as UTF-8"},
		"a NUL":                  {[]string{with("item", "o\x00ak")}, "item 6: write plain text"},
		"a line break":           {[]string{with("description", "\"a\nb\"")}, "description 7: write plain text"},
		"a long cell":            {[]string{with("description", strings.Repeat("a", 501))}, "description 7: at most 500 bytes"},
		"kind":                   {[]string{with("kind", "bill")}, "kind 2: invoice, credit or hours"},
		"unit":                   {[]string{with("unit", "plank")}, "unit 9: a code of UN/ECE"},
		"step":                   {[]string{with("step", "varnish")}, "step 13: one of take_pattern, rip_plane, laminate, general"},
		"exponent":               {[]string{with("amount", "1e1000000")}, "amount 10: write for example"},
		"long exponent":          {[]string{with("quantity", "1e1000000")}, "quantity 8: write for example"},
		"thousands":              {[]string{with("amount", "\"1,312.00\"")}, "amount 10: write for example"},
		"a decimal comma":        {[]string{with("amount", "\"312,00\"")}, "amount 10: write a decimal point"},
		"a third of a cent":      {[]string{with("amount", "312.003")}, "amount 10: at most 2 places"},
		"tax of part of a cent":  {[]string{with("tax", "18.721")}, "tax 12: at most 2 places"},
		"no amount":              {[]string{with("amount", "")}, "amount 10: write the amount without tax"},
		"quantity without unit":  {[]string{with("unit", "")}, "unit 9: write its unit"},
		"unit without quantity":  {[]string{with("quantity", "")}, "quantity 8: write how many"},
		"nothing of it":          {[]string{with("quantity", "0")}, "quantity 8: leave quantity and unit empty"},
		"a credit above nothing": {[]string{with("kind", "credit")}, "amount 10: write it below nothing, for example -312.00"},
		"two signs":              {[]string{with("amount", "-312.00"), with("tax", "")}, "quantity 8: write both with the same sign"},
		"tax of another sign":    {[]string{with("tax", "-18.72")}, "tax 12: write amount and tax with the same sign"},
		"hours by the board":     {[]string{with("kind", "hours")}, "unit 9: HUR, or MIN"},
		"hours without number":   {[]string{with("kind", "hours"), with("quantity", ""), with("unit", "")}, "quantity 8: write how many, for example 7.5"},
		"no supplier":            {[]string{with("supplier", " ")}, "supplier 3: write who sent"},
		"no document":            {[]string{with("document", "")}, "document 4: write the number"},
		"no line":                {[]string{with("line", "")}, "line 5: write the line"},
		"a cell too few":         {[]string{with("author", "\x01")}, " 14: one cell for each column"},
		"a cell too many":        {[]string{with("author", "Ada,Ben")}, " 15: one cell for each column"},
	} {
		cells := strings.Split(fmt.Sprintf(base, 2), ",")
		for _, c := range x.change {
			column, cell, _ := strings.Cut(c, "\x00")
			for i, n := range reconcile.Columns {
				if n == column {
					cells[i] = cell
				}
			}
		}
		row := strings.ReplaceAll(strings.Join(cells, ","), ",\x01", "")
		in := reconcile.ReadCSV([]byte(header+fmt.Sprintf(base, 1)+"\n"+row+"\n"+fmt.Sprintf(base, 3)+"\n"), job, nil)
		if len(in.Good) != 2 || !cmp.Equal(in.Bad, []int{3}) || len(in.Faults) != 1 {
			t.Errorf("%s: %d good, bad %v, %v", name, len(in.Good), in.Bad, in.Faults)
			continue
		}
		f := in.Faults[0]
		if got := fmt.Sprintf("%s %d: %s", f.Column, f.ColumnNo, f.Fix); f.Row != 3 || !strings.HasPrefix(got, x.want) || f.Detail == "" {
			t.Errorf("%s: row %d, %s\nwant %s", name, f.Row, got, x.want)
		}
	}
}

// All faults of a row, and of all rows, at once and in order; a cell that is no text does not hide the others, nor is
// it called empty.
func TestAllFaultsAtOnce(t *testing.T) {
	in := reconcile.ReadCSV([]byte(header+"2026-13-01,bill,Saw\xffmill,,1,oak,,x,BFT,1e9,EUR,,varnish,Ada\n,,,,,,,,,,,,,\n"), job, nil)
	var got []string
	for _, f := range in.Faults {
		got = append(got, fmt.Sprint(f.Row, " ", f.Column))
	}
	want := []string{"2 date", "2 kind", "2 supplier", "2 document", "2 quantity", "2 amount", "2 currency", "2 step",
		"3 date", "3 kind", "3 supplier", "3 document", "3 line", "3 amount", "3 currency"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	var faults *sheet.FaultsError
	var plain document.Faults
	if err := in.Err(); !errors.As(err, &faults) || !errors.As(err, &plain) || len(plain) != len(want) {
		t.Errorf("%v", in.Err())
	}
}

// A row with too few cells, or with broken quoting, has its place among the faults of the rows before it.
func TestFaultsStandInTheOrderOfTheRows(t *testing.T) {
	bad := "2026-03-05,invoice,Sawmill,A-1,1,,,,,x,EUR,,,\n"
	in := reconcile.ReadCSV([]byte(header+bad+"a,b\n"+bad+"\"a\"b\n"), job, nil)
	var got []string
	for _, f := range in.Faults {
		got = append(got, fmt.Sprint(f.Row, " ", f.Column))
	}
	want := []string{"2 amount", "2 currency", "3 ", "4 amount", "4 currency", "5 "}
	if d := cmp.Diff(want, got); d != "" || !cmp.Equal(in.Bad, []int{2, 3, 4, 5}) {
		t.Errorf("bad %v, %s", in.Bad, d)
	}
}

// Tables that leave no rows at all say why, once.
func TestTablesRefusedWhole(t *testing.T) {
	for name, x := range map[string]struct{ table, want string }{
		"empty":                 {"", "the table is empty"},
		"a header only":         {header, "the table has a header and no rows"},
		"a million columns":     {strings.Repeat("a,", 1_000_000), "column 15: the header has 1000001 columns"},
		"UTF-16":                {"\xff\xfed\x00a\x00", "UTF-16"},
		"an unknown column":     {strings.Replace(header, "author", "colour", 1), "column 14: column 14 is called \"colour\""},
		"a column twice":        {strings.Replace(header, "author", "date", 1), "column 14: the column stands twice"},
		"a column that is away": {strings.Replace(header, "currency,", "", 1), "the column is not there"},
		"too long":              {strings.Repeat("a", reconcile.MaxTableBytes+1), "bytes"},
		"a broken header":       {"\"date", "double quote"},
	} {
		in := reconcile.ReadCSV([]byte(x.table), job, nil)
		if len(in.Good) > 0 || len(in.Faults) != 1 {
			t.Errorf("%s: %+v", name, in)
			continue
		}
		f := in.Faults[0]
		if got := fmt.Sprintf("column %d: %s", f.ColumnNo, f.Detail); !strings.Contains(got, x.want) || f.Fix == "" {
			t.Errorf("%s: %s", name, got)
		}
	}
}

// A row of a million columns is one fault; the rows round it stand. Broken quoting ends the reading, and says so.
func TestRowsThatAreNoRows(t *testing.T) {
	row := func(n int) string { return fmt.Sprintf("2026-03-05,invoice,Sawmill,A-%d,1,,,,,3.00,USD,,,\n", n) }
	in := reconcile.ReadCSV([]byte(header+row(1)+strings.Repeat(",", 999_999)+"\n"+row(2)), job, nil)
	if len(in.Good) != 2 || len(in.Faults) != 1 || in.Faults[0].Row != 3 || in.Faults[0].ColumnNo != 15 || !strings.Contains(in.Faults[0].Detail, "1000000 cells") {
		t.Errorf("%+v", in)
	}
	in = reconcile.ReadCSV([]byte(header+row(1)+"2026-03-05,invoice,Saw\"mill,A,1,,,,,3.00,USD,,,\n"+row(2)), job, nil)
	if len(in.Good) != 1 || len(in.Faults) != 1 || in.Faults[0].Row != 3 || !cmp.Equal(in.Bad, []int{3}) {
		t.Errorf("%+v", in)
	}
}

// Faults beyond the most that are listed are counted, and every bad row is named all the same.
func TestManyFaults(t *testing.T) {
	in := reconcile.ReadCSV([]byte(header+strings.Repeat(",,,,,,,,,,,,,\n", 100)), job, nil)
	if len(in.Faults) != reconcile.MaxFaults || len(in.Faults)+in.More != 700 || len(in.Bad) != 100 {
		t.Errorf("%d faults and %d more, %d bad rows", len(in.Faults), in.More, len(in.Bad))
	}
	row := "2026-03-05,invoice,Sawmill,A-%d,1,,,,,3.00,USD,,,\n"
	var b strings.Builder
	b.WriteString(header)
	for i := range reconcile.MaxRows + 1 {
		fmt.Fprintf(&b, row, i)
	}
	in = reconcile.ReadCSV([]byte(b.String()), job, nil)
	if len(in.Good) != reconcile.MaxRows || len(in.Faults) != 1 || in.Faults[0].Row != reconcile.MaxRows+2 {
		t.Errorf("%d good, %v", len(in.Good), in.Faults)
	}
}

// A file imported twice counts once; another amount under the same document and line is a fault that names the first.
func TestTheSameAgain(t *testing.T) {
	first := posted(t, good)
	again := reconcile.ReadCSV([]byte(header+strings.TrimLeft(good, "\n")), job, first)
	if len(again.Good) != 0 || len(again.Again) != 4 || again.Err() != nil {
		t.Errorf("%+v", again)
	}
	// Written otherwise, the content is the same: another order of places, case of the key apart.
	same := "2026-03-05,invoice,Sawmill,A-1,1,white_oak select,\"air dried, 8/4\",24.000,BFT,312,USD,18.72,rip_plane,Ada\n"
	if in := reconcile.ReadCSV([]byte(header+same+same), job, nil); len(in.Good) != 1 || len(in.Again) != 1 || in.Again[0].Row != 3 {
		t.Errorf("%+v", in)
	}
	other := strings.Replace(same, "312,", "321,", 1)
	for name, x := range map[string]struct {
		table string
		known []reconcile.Entry
		want  string
	}{
		"posted":     {other, first, `posted already, dated 2026-03-05 over 312.00 USD, with other content: amount "312.00" there, "321.00" here`},
		"other case": {strings.Replace(other, "Sawmill", "SAWMILL", 1), first, `supplier "Sawmill" there, "SAWMILL" here; amount`},
	} {
		in := reconcile.ReadCSV([]byte(header+x.table), job, x.known)
		if len(in.Faults) != 1 || in.Faults[0].Column != "document" || in.Faults[0].ColumnNo != 4 || !strings.Contains(in.Faults[0].Detail, x.want) || len(in.Bad) != 1 {
			t.Errorf("%s: %+v", name, in.Faults)
		}
	}
}

// Two rows of one table under one name and with different content: nobody can tell which is right, so both are bad and
// each names the other; a row that repeats one of them does not count either.
func TestTwoContentsOfOneName(t *testing.T) {
	row := "2026-03-05,invoice,Sawmill,A-1,%s,oak,,24,BFT,%s,USD,,rip_plane,Ada\n"
	first, second := fmt.Sprintf(row, "1", "312.00"), fmt.Sprintf(row, "01", "321.00")
	in := reconcile.ReadCSV([]byte(header+first+second+first+fmt.Sprintf(row, "2", "1.00")), job, nil)
	if len(in.Good) != 1 || in.Good[0].Row != 5 || len(in.Again) != 0 || !cmp.Equal(in.Bad, []int{2, 3, 4}) || len(in.Faults) != 3 {
		t.Fatalf("%+v", in)
	}
	for i, want := range []string{
		`in row 3, with other content: line "01" there, "1" here; amount "321.00" there, "312.00" here`,
		`in row 2, with other content: line "1" there, "01" here; amount "312.00" there, "321.00" here`,
		`in row 3, with`,
	} {
		if f := in.Faults[i]; f.Row != i+2 || f.Column != "document" || !strings.Contains(f.Detail, want) {
			t.Errorf("row %d: %s", f.Row, f.Detail)
		}
	}
}

// How a name is written does not make another of it: blanks, case, how a letter is composed, zeros before a line's
// number. What differs otherwise is another name.
func TestOneNameWrittenOtherwise(t *testing.T) {
	name := func(supplier, document, line string) string {
		return reconcile.Entry{Supplier: supplier, Document: document, Line: line}.ID()
	}
	want := name("Old Caf\u00e9 Sawmill", "HO-2214", "1")
	for _, same := range []string{
		name("Old  Caf\u00e9\u00a0Sawmill", "HO-2214", "1"), name("Old Cafe\u0301 Sawmill", "ho-2214", "1"), name(" OLD CAF\u00c9 SAWMILL ", "HO-2214 ", "01"),
		name("Old Caf\u00e9 Sawmill", "HO-2214", "0001"),
	} {
		if same != want {
			t.Errorf("%s is not %s", same, want)
		}
	}
	for _, other := range []string{name("OldCaf\u00e9 Sawmill", "HO-2214", "1"), name("Old Caf\u00e9 Sawmill", "HO-02214", "1"), name("Old Caf\u00e9 Sawmill", "HO-2214", "10"),
		name("Old Caf\u00e9 Sawmill", "HO-2214", "0"), name("Old Caf\u00e9 Sawmill", "HO-2214", "01a")} {
		if other == want {
			t.Errorf("%s is taken for another name", other)
		}
	}
	if name("a", "b", "000") != name("a", "b", "0") || name("a", "b", "0") == name("a", "b", "") {
		t.Error("line 0")
	}
	// Written otherwise in a table it does not count a second time.
	first := posted(t, good)
	again := "2026-03-05,invoice,sawmill ,A-1,01,white_oak select,\"air dried, 8/4\",24,BFT,312.00,USD,18.72,rip_plane,Ada\n"
	if in := reconcile.ReadCSV([]byte(header+again), job, first); len(in.Good) != 0 || len(in.Faults) != 1 {
		t.Errorf("%+v", in)
	}
}

// The same amount under another line of the same document is told, and entered all the same.
func TestTheSameAmountOnAnotherLine(t *testing.T) {
	row := "2026-03-05,invoice,%s,A-1,%s,oak,,24,BFT,%s,USD,,rip_plane,Ada\n"
	in := reconcile.ReadCSV([]byte(header+fmt.Sprintf(row, "SAWMILL", "7", "312.00")+fmt.Sprintf(row, "Sawmill", "8", "12.00")+
		fmt.Sprintf(row, "Sawmill", "9", "12.00")+fmt.Sprintf(row, "Chandler", "9", "12.00")), job, posted(t, good))
	if in.Err() != nil || len(in.Good) != 4 || len(in.Notes) != 2 {
		t.Fatalf("%+v", in)
	}
	for i, want := range []struct {
		row   int
		words string
	}{{2, `has 312.00 USD on line "1", which is posted already, as well as on line "7" here`}, {4, `has 12.00 USD on line "8" in row 3, as well as on line "9" here`}} {
		if n := in.Notes[i]; n.Row != want.row || !strings.Contains(n.Detail, want.words) {
			t.Errorf("%+v", n)
		}
	}
	if in := reconcile.ReadCSV([]byte(header+strings.TrimLeft(good, "\n")), job, nil); len(in.Notes) != 0 {
		t.Errorf("%+v", in.Notes)
	}
}

// Names are names: a stroke inside one does not make two alike.
func TestNamesDoNotRunTogether(t *testing.T) {
	a := reconcile.Entry{Supplier: "a/b", Document: "c", Line: "1"}
	b := reconcile.Entry{Supplier: "a", Document: "b/c", Line: "1"}
	c := reconcile.Entry{Supplier: "a~1b", Document: "c", Line: "1"}
	if a.ID() == b.ID() || a.ID() == c.ID() {
		t.Errorf("%s %s %s", a.ID(), b.ID(), c.ID())
	}
}

// Typed entries are judged alike, with JSON pointers.
func TestTypedEntries(t *testing.T) {
	e := posted(t, good)[0]
	row := e.Row()
	if in := reconcile.FromRows([]reconcile.Row{row}, job, nil); len(in.Good) != 1 || in.Good[0].Entry.Hash() != e.Hash() || in.Good[0].Row != 1 {
		t.Errorf("%+v", in)
	}
	row.Amount = "12,50 USD"
	in := reconcile.FromRows([]reconcile.Row{e.Row(), row}, job, nil)
	if len(in.Faults) != 1 || in.Faults[0].Pointer != "/entries/1/amount" {
		t.Errorf("%+v", in.Faults)
	}
	if in := reconcile.FromRows(make([]reconcile.Row, reconcile.MaxRows+1), job, nil); len(in.Faults) != 1 || len(in.Good) != 0 {
		t.Errorf("%d faults", len(in.Faults))
	}
}

// A mark before exactly three digits may part thousands or places. Where a decimal comma may stand, such a number is
// refused with both readings, unless the other numbers of the table show which mark is the decimal one.
func TestNoNumberIsTakenAThousandfold(t *testing.T) {
	const semicolons = "date;kind;supplier;document;line;quantity;unit;amount;currency;tax\n"
	row := func(line, quantity, amount, tax string) string {
		return "2026-03-05;invoice;Sawmill;A-1;" + line + ";" + quantity + ";BFT;" + amount + ";USD;" + tax + "\n"
	}
	for name, x := range map[string]struct{ table, want string }{
		"an amount, comma":  {semicolons + row("1", "3", "1,240", ""), `2 amount: "1,240" can be read as 1240 or as 1.240; write 1240, without a thousands mark, or 1,24`},
		"an amount, point":  {semicolons + row("1", "3", "1.240", ""), `2 amount: "1.240" can be read as 1240 or as 1.240; write 1240, without a thousands mark, or 1.24`},
		"a tax":             {semicolons + row("1", "3", "12", "1.234"), `2 tax: "1.234" can be read as 1234 or as 1.234; write 1234, without a thousands mark; USD has 2 places`},
		"a quantity":        {semicolons + row("1", "1,125", "12", ""), `2 quantity: "1,125" can be read as 1125 or as 1.125; write 1125, without a thousands mark, or 1,1250`},
		"a credit":          {semicolons + row("1", "-3", "-1.200", ""), `2 amount: "-1.200" can be read as -1200 or as -1.200; write -1200, without a thousands mark, or -1.2`},
		"tabs":              {strings.ReplaceAll(semicolons+row("1", "3", "1,000", ""), ";", "\t"), `2 amount: "1,000" can be read as 1000 or as 1.000; write 1000, without a thousands mark, or 1`},
		"two marks":         {semicolons + row("1", "3", "12,50", "") + row("2", "1.234", "13", ""), `3 quantity: "1.234" can be read as 1234 or as 1.234, and "12,50" in row 2 has a decimal comma: only one of the two marks can be the decimal one; write 1234, without a thousands mark, or 1,2340`},
		"two clear marks":   {semicolons + row("1", "3", "12,50", "") + row("2", "3", "13.50", ""), `2 amount: "12,50", and "13.50" in row 3 has a decimal point: only one of the two marks can be the decimal one; write all numbers with the same decimal mark and without a thousands mark`},
		"more places":       {header + "2026-03-05,invoice,S,A,1,,,,,1.240,USD,,,\n", `2 amount: "1.240" has 3 places and USD has 2; it can be read as 1240 or as 1.240; at most 2 places; write 1240 where that is meant`},
		"places that are 0": {header + "2026-03-05,invoice,S,A,1,,,,,1240.500,USD,,,\n", `2 amount: "1240.500" has 3 places and USD has 2; at most 2 places`},
		"settled, places":   {semicolons + row("1", "3", "12,50", "1,240"), `2 tax: "1,240" has 3 places and USD has 2; it can be read as 1240 or as 1.240; at most 2 places; write 1240 where that is meant`},
	} {
		in := reconcile.ReadCSV([]byte(x.table), job, nil)
		if len(in.Faults) == 0 {
			t.Errorf("%s: nothing is told", name)
			continue
		}
		f := in.Faults[0]
		if got := fmt.Sprintf("%d %s: %s; %s", f.Row, f.Column, f.Detail, f.Fix); got != x.want {
			t.Errorf("%s: %s\nwant %s", name, got, x.want)
		}
	}
	for name, x := range map[string]struct{ table, quantity string }{
		"a comma shown elsewhere": {semicolons + row("1", "1,125", "1", "") + row("2", "3", "12,50", ""), "1.125"},
		"a point shown elsewhere": {semicolons + row("1", "1.125", "1", "") + row("2", "3", "12.50", ""), "1.125"},
		"no thousand begins so":   {semicolons + row("1", "0,125", "1", ""), "0.125"},
		"too long for a thousand": {semicolons + row("1", "1240,125", "1", ""), "1240.125"},
		"parted by commas":        {header + "2026-03-05,invoice,S,A,1,,,1.125,BFT,1,USD,,,\n", "1.125"},
	} {
		in := reconcile.ReadCSV([]byte(x.table), job, nil)
		if err := in.Err(); err != nil || in.Good[0].Entry.Quantity.String() != x.quantity {
			t.Errorf("%s: %+v, %v", name, in.Good, err)
		}
	}
	// A currency of three places has such amounts, one without places has none.
	for c, want := range map[money.Currency]bool{"KWD": true, "JPY": false} {
		job := job
		job.Currency = c
		in := reconcile.ReadCSV([]byte(strings.ReplaceAll(semicolons+row("1", "0,5", "1,240", ""), "USD", string(c))), job, nil)
		if (in.Err() == nil) != want {
			t.Errorf("%s: %v", c, in.Err())
		}
	}
}

// What is typed in may have a decimal comma or a point; the same numbers are refused, each entry by itself.
func TestTypedNumbers(t *testing.T) {
	e := posted(t, good)[0].Row()
	for _, x := range []struct{ quantity, amount, tax, want string }{
		{"24", "12,50", "", ""}, {"24", "12.50", "", ""}, {"1,125", "12,50", "", ""}, {"1.125", "12.50", "", ""},
		{"24", "1.240", "", "/entries/0/amount"}, {"24", "1,240", "", "/entries/0/amount"}, {"1.125", "12", "", "/entries/0/quantity"},
		{"24", "12,50", "1.200", "/entries/0/tax"},
	} {
		row := e
		row.Quantity, row.Amount, row.Tax = x.quantity, x.amount, x.tax
		other := e
		other.Line = "2"
		in := reconcile.FromRows([]reconcile.Row{row, other}, job, nil)
		got := ""
		for _, f := range in.Faults {
			got += f.Pointer
		}
		if got != x.want {
			t.Errorf("%s %s %s: %v", x.quantity, x.amount, x.tax, in.Faults)
		}
	}
}

// What is told of entries that were typed in speaks of fields and entries; there is no table.
func TestTypedEntriesAreToldOfFields(t *testing.T) {
	e := posted(t, good)[0].Row()
	var rows []reconcile.Row
	for i := range 14 {
		row := e
		row.Document = fmt.Sprint(i)
		*[]*string{&row.Date, &row.Kind, &row.Supplier, &row.Document, &row.Line, &row.Item, &row.Description, &row.Quantity, &row.Unit, &row.Amount,
			&row.Currency, &row.Tax, &row.Step, &row.Author}[i] = []string{"then", "bill", "", "", "", "a\x00b", strings.Repeat("a", 501), "x", "plank", "1.240", "EUR", "1,234", "sails", "\xff"}[i]
		rows = append(rows, row)
	}
	twice, other := e, e
	twice.Amount = "1.00"
	in := reconcile.FromRows(append(rows, twice, other), job, nil)
	if len(in.Bad) != 16 {
		t.Errorf("bad are %v", in.Bad)
	}
	for _, f := range in.Faults {
		for _, word := range []string{"cell", "row", "table"} {
			if strings.Contains(f.String(), word) {
				t.Errorf("%s speaks of a %s: %s", f.Pointer, word, f)
			}
		}
	}
	if last := in.Faults[len(in.Faults)-1]; last.Pointer != "/entries/15/document" || !strings.Contains(last.Detail, "in entry 15") {
		t.Errorf("%+v", last)
	}
}

// A kind in capitals is the kind; a step is named by its code or by its name as it is shown.
func TestKindsAndStepsAsTheyAreShown(t *testing.T) {
	job := job
	job.Steps = append(job.Steps, reconcile.KnownStep{Code: "rip_plane", Name: "Ripping"}, reconcile.KnownStep{Code: "fair", Name: "Fairing"}, reconcile.KnownStep{Code: "sand", Name: "fairing"})
	for cell, want := range map[string]string{"rip_plane": "rip_plane", "Rip and plane": "rip_plane", "rip  and plane": "rip_plane", "RIPPING": "rip_plane",
		"Rip_Plane": "rip_plane", "General": "general", "": "", "fair": "fair", "Fairing": "?", "varnish": "?"} {
		in := reconcile.ReadCSV([]byte(header+"2026-03-05,Invoice,S,A,1,,,,,1,USD,,"+cell+",\n"), job, nil)
		switch {
		case want == "?":
			if len(in.Faults) != 1 || in.Faults[0].Column != "step" {
				t.Errorf("%s: %+v", cell, in)
			}
		case in.Err() != nil || in.Good[0].Entry.Step != want || in.Good[0].Entry.Kind != reconcile.Invoice:
			t.Errorf("%s: %+v", cell, in)
		}
	}
}

// What was read of a table whose reading stopped is shown and cannot be confirmed.
func TestReadingThatStopped(t *testing.T) {
	row := "2026-03-05,invoice,Sawmill,A-%d,1,,,,,3.00,USD,,,\n"
	in := reconcile.ReadCSV([]byte(header+fmt.Sprintf(row, 1)+"2026-03-05,invoice,Saw\"mill,A,1,,,,,3.00,USD,,,\n"+fmt.Sprintf(row, 2)), job, nil)
	var stopped *reconcile.StoppedError
	if len(in.Good) != 1 || in.StoppedAt != 3 || !errors.As(in.Confirmable(), &stopped) || stopped.Row != 3 {
		t.Errorf("%+v, %v", in, in.Confirmable())
	}
	var b strings.Builder
	b.WriteString(header)
	for i := range reconcile.MaxRows + 1 {
		fmt.Fprintf(&b, row, i)
	}
	if in := reconcile.ReadCSV([]byte(b.String()), job, nil); in.StoppedAt != reconcile.MaxRows+2 || in.Confirmable() == nil {
		t.Errorf("too many rows: stopped at %d", in.StoppedAt)
	}
	if in := reconcile.ReadCSV([]byte(header+fmt.Sprintf(row, 1)+"a,b\n"), job, nil); in.StoppedAt != 0 || in.Confirmable() != nil {
		t.Errorf("a row of too few cells: %+v", in)
	}
}

// What is written is read as the same entries, and no cell of it runs in a spreadsheet.
func TestFormulasAreDefused(t *testing.T) {
	texts := []string{"=1+1", "+1", "-1+2", "@sum", "-12", "-12.50", "-", "'=1", "''+1", "it's", "'quoted'", " =1", "\u00a0=1", "\u200b=1", "＝1", "-1e5", "0012", "a=b",
		"oak;=1+1", "oak; =1+1", "oak,@x", "a, b", `say "=1+1"`, `"=1"`, "a;'=1", "a;''=1", "a;-5", ";;+1", "'a;=1", strings.Repeat("=;", 250)}
	var rows []reconcile.Entry
	for i, text := range texts {
		e := posted(t, "2026-03-05,invoice,Sawmill,A-1,1,,,,,-3.00,USD,,,\n")[0]
		e.Line, e.Description, e.Item = fmt.Sprint(i), strings.TrimSpace(text), "x"
		rows = append(rows, e)
	}
	var b bytes.Buffer
	if err := reconcile.WriteCSV(&b, rows); err != nil {
		t.Fatal(err)
	}
	in := reconcile.ReadCSV(b.Bytes(), job, nil)
	if err := in.Err(); err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(rows, entries(in), sameNumbers, cmp.AllowUnexported(rows[0].Amount)); d != "" {
		t.Error(d)
	}
	lines := strings.Split(b.String(), "\r\n")
	if want := `"2026-03-05","invoice","Sawmill","A-1",0,"x","'=1+1",,,-3.00,"USD",,,`; lines[1] != want {
		t.Errorf("%s\nwant %s", lines[1], want)
	}
	if want := `"oak;'=1+1"`; !strings.Contains(b.String(), want) {
		t.Errorf("%s is not there", want)
	}
	if why := runs(b.Bytes()); why != "" {
		t.Error(why)
	}
}
