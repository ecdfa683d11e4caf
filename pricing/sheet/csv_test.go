package sheet_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/sheet"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
)

const header = "item,description,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length,min_qty,lead_days,valid_until,available\n"

// yard is an invented price table in feet-inches-eighths.
const yard = header +
	",rough air dried,timber,Sawmill A,BFT,12.50,,,white_oak,select,8/4,0-8-0,12-0-0,,14,2026-12-31,40\n" +
	",rough air dried,timber,Sawmill A,BFT,12.50,,,white_oak,select,8/4,0-8-0,14-0-0,,14,2026-12-31,\n" +
	",\"long, clear\",timber,Sawmill B,MBF,14500,,,douglas_fir,clear,0-3-0,0-10-0,16-0-0,,,,\n" +
	"epoxy,\"two-part, \"\"thick\"\"\",glue,Chandler,GLL,98.40,,2,,,,,,,3,,\n" +
	"epoxy,quart kit,glue,Chandler,QTL,31.00,,1,,,,,,,3,,6\n" +
	"pattern ply,1/4 in hardboard,consumable,Chandler,MTK,9.20,,2.97,,,,,,,,,\n" +
	"bronze screw,No. 12,metal,Chandler,C62,41.00,100,100,,,,,,500,,,\n" +
	"shipwright,,labour,,HUR,68.00,,,,,,,,,,,\n" +
	"slip,,day_charge,,DAY,120,,,,,,,,,,,\n"

func read(t *testing.T, table string) sheet.Content {
	t.Helper()
	c, err := sheet.ReadCSV([]byte(table), "USD", notation.FeetInchesEighths)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func TestReadsAYardsTable(t *testing.T) {
	c := read(t, yard)
	if len(c.Items) != 9 {
		t.Fatalf("%d items", len(c.Items))
	}
	oak := c.Boards("White_Oak ", "SELECT")
	if len(oak) != 2 || oak[0].Available != 40 || oak[1].Available != -1 || oak[0].LeadDays != 14 || oak[1].ValidUntil != "2026-12-31" {
		t.Fatalf("oak: %+v", oak)
	}
	if mm := oak[0].Thickness.MM().String(); mm != "50.8" || oak[0].Thickness.Text() != "8/4" {
		t.Errorf("8/4 is two inches: %s mm, %s", mm, oak[0].Thickness.Text())
	}
	// 2 x 8 in x 12 ft = 16 board feet at 12.50.
	if p, err := oak[0].PiecePrice("USD"); err != nil || p.String() != "200.00" {
		t.Errorf("a board of oak costs %s (%v)", p, err)
	}
	// 3 x 10 in x 16 ft = 40 board feet at 14.50.
	if p, err := c.Boards("douglas_fir", "clear")[0].PiecePrice("USD"); err != nil || p.String() != "580.00" {
		t.Errorf("a board of fir costs %s (%v)", p, err)
	}
	epoxy := c.Item("epoxy")
	if len(epoxy) != 2 || epoxy[0].Description != `two-part, "thick"` {
		t.Fatalf("epoxy: %+v", epoxy)
	}
	if p, err := epoxy[0].PiecePrice("USD"); err != nil || p.String() != "196.80" {
		t.Errorf("two gallons cost %s (%v)", p, err)
	}
	screws := c.Item("bronze screw")[0]
	if p, err := screws.PiecePrice("USD"); err != nil || p.String() != "41.00" || screws.MinPieces() != 5 {
		t.Errorf("a box of screws costs %s (%v), least %d boxes", p, err, screws.MinPieces())
	}
	if w, ok := c.Labour("Shipwright"); !ok || w.Price.String() != "68" {
		t.Errorf("an hour costs %v %t", w.Price, ok)
	}
	if _, ok := c.Labour("slip"); ok || len(c.Item("shipwright")) != 0 {
		t.Error("labour and other rows were mixed up")
	}
	if late := c.Expired("2027-01-01"); len(late) != 2 || len(c.Expired("2026-12-31")) != 0 {
		t.Errorf("%d prices past their day", len(late))
	}
}

// sameSizes compares sizes as they compare everywhere.
var sameSizes = cmp.Comparer(func(a, b sheet.Size) bool { return a == b })

// The same table parted otherwise, with decimal commas, a byte order mark, and columns in another order.
func TestOtherTables(t *testing.T) {
	want := read(t, yard)
	for _, mark := range []rune{';', '\t'} {
		var b bytes.Buffer
		b.WriteString("\ufeff")
		w := csv.NewWriter(&b)
		w.Comma, w.UseCRLF = mark, true
		write := func(cells ...string) {
			if err := w.Write(cells); err != nil {
				t.Fatal(err)
			}
		}
		write("Valid_Until", "item", "description", "kind", "supplier", "unit", "price", "per", "pack_size", "species", "grade",
			"thickness", "width", "stock_length", "min_qty", "lead_days", "available")
		for _, it := range want.Items {
			r := it.Row()
			write(r.ValidUntil, r.Item, r.Description, r.Kind, r.Supplier, r.Unit, strings.Replace(r.Price, ".", ",", 1), r.Per,
				strings.Replace(r.PackSize, ".", ",", 1), r.Species, r.Grade, r.Thickness, r.Width, r.StockLength, r.MinQty, r.LeadDays, r.Available)
		}
		w.Flush()
		if d := cmp.Diff(want, read(t, b.String()), sameSizes); d != "" {
			t.Errorf("parted by %q: %s", mark, d)
		}
	}
	short := read(t, "kind,item,unit,price\nlabour,shipwright,HUR,68.00\n")
	if len(short.Items) != 1 {
		t.Errorf("a table of four columns: %+v", short)
	}
}

func TestWritesWhatItReads(t *testing.T) {
	want := read(t, yard)
	var b bytes.Buffer
	if err := want.WriteCSV(&b); err != nil {
		t.Fatal(err)
	}
	document, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	var fromDocument sheet.Content
	if err := json.Unmarshal(document, &fromDocument); err != nil {
		t.Fatal(err)
	}
	hash, err := want.Hash()
	if err != nil || len(hash) != 64 {
		t.Fatalf("%s %v", hash, err)
	}
	for name, got := range map[string]sheet.Content{"table": read(t, b.String()), "document": fromDocument} {
		if d := cmp.Diff(want, got, sameSizes); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		if h, err := got.Hash(); err != nil || h != hash {
			t.Errorf("%s: hash %s and %s (%v)", name, hash, h, err)
		}
	}
	if line, _, _ := strings.Cut(b.String(), "\r\n"); line+"\n" != header {
		t.Errorf("header %q", line)
	}
}

// The hash is of what the sheet says: another way of writing a number or size leaves it, another price moves it.
func TestHash(t *testing.T) {
	hash := func(table string) string {
		h, err := read(t, table).Hash()
		if err != nil {
			t.Fatal(err)
		}
		return h
	}
	base := hash(yard)
	for name, table := range map[string]string{
		"zeros":    strings.ReplaceAll(yard, "12.50", "12.5000"),
		"quarters": strings.ReplaceAll(yard, "8/4", "0-2-0"),
		"line end": strings.ReplaceAll(yard, "\n", "\r\n"),
	} {
		if hash(table) != base {
			t.Errorf("%s moved the hash", name)
		}
	}
	for name, table := range map[string]string{
		"price": strings.Replace(yard, "12.50", "12.51", 1), "supplier": strings.Replace(yard, "Sawmill B", "Sawmill C", 1),
		"available": strings.Replace(yard, ",40\n", ",41\n", 1), "width": strings.Replace(yard, "0-10-0", "0-11-0", 1),
	} {
		if hash(table) == base {
			t.Errorf("another %s left the hash", name)
		}
	}
}

// Every fault of a table at once, by row and column.
func TestFaultsByRowAndColumn(t *testing.T) {
	table := header +
		",,timber,A,BFT,0,,,white_oak,select,9-4,0-8-0,12-0-0,,,,\n" + // 2: price, thickness
		"x,,wood,A,BFT,1,,,,,,,,,,,\n" + // 3: kind
		"glue,,glue,A,GAL,1,,,,,,,,,,,\n" + // 4: unit
		"joiner,,labour,,DAY,60,,,,,,,,,,,\n" + // 5: unit
		"=cmd(),,glue,A,LTR,1,,,,,,,,,,,\n" + // 6: item
		",,timber,A,KGM,5,,2,white_oak,,8/4,0-8-0,,,,,\n" + // 7: unit, pack_size, grade, stock_length
		"tar,,coating,A,LTR,\"1,50\",,,,,,,,,x,2026-02-30,-1\n" + // 8: price, lead_days, valid_until, available
		"tar,,coating,A,LTR,1e3,,,,,,,,,,,\n" + // 9: price
		"tar,,coating,A,LTR,,,,,,,,,,,,\n" + // 10: price
		"tin,,metal,A,C62,0.001,,,,,,,,,,,\n" + // 11: price comes to nothing
		"nut,,metal,A,C62,1,,,,,,,,,,,\n" +
		"Nut,,metal,a,C62,2,,,,,,,,,,,\n" + // 13: item, twice
		"nut,,coating,B,LTR,2,,,,,,,,,,,\n" + // 14: kind, two kinds
		"bolt,,metal,A\n" + // 15: cells
		",,timber,A,BFT,0.01,,,teak,a,0-0-1,0-0-1,0-0-1,,,,\n" // 16: a board for nothing
	_, err := sheet.ReadCSV([]byte(table), "USD", notation.FeetInchesEighths)
	var faults *sheet.FaultsError
	if !errors.As(err, &faults) {
		t.Fatal(err)
	}
	var got []string
	for _, f := range faults.Faults {
		got = append(got, fmt.Sprintf("%d %s", f.Row, f.Column))
		if f.Detail == "" || f.Fix == "" {
			t.Errorf("a fault that does not say what would be right: %+v", f)
		}
	}
	want := []string{"2 price", "2 thickness", "3 kind", "4 unit", "5 unit", "6 item", "7 unit", "7 pack_size", "7 grade", "7 stock_length",
		"8 price", "8 lead_days", "8 valid_until", "8 available", "9 price", "10 price", "11 price", "13 item", "14 kind", "15 ", "16 price"}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s\n%v", d, err)
	}
	var doc document.Faults
	if !errors.As(err, &doc) || len(doc) != len(want) || doc[0].Row != 2 || doc[0].Column != 6 {
		t.Errorf("as a document's faults: %+v", doc)
	}
}

func TestTablesRefusedWhole(t *testing.T) {
	for name, c := range map[string]struct{ table, says string }{
		"empty":              {"", "empty"},
		"header alone":       {header, "no rows"},
		"NUL":                {header + "a\x00,,glue,,LTR,1,,,,,,,,,,,\n", "NUL"},
		"not UTF-8":          {header + "\xff,,glue,,LTR,1,,,,,,,,,,,\n", "UTF-8"},
		"unknown column":     {"item,kind,unit,price,colour\nx,glue,LTR,1,red\n", "colour"},
		"column twice":       {"item,kind,unit,price,price\nx,glue,LTR,1,1\n", "twice"},
		"no price":           {"item,kind,unit\nx,glue,LTR\n", "not there"},
		"open quote":         {header + "\"a,,glue,,LTR,1\n", "quote"},
		"stray quote":        {header + "a\"b,,glue,,LTR,1,,,,,,,,,,,\n", "quote"},
		"a long cell":        {header + strings.Repeat("a", 501) + ",,glue,,LTR,1,,,,,,,,,,,\n", "501 bytes"},
		"a huge exponent":    {header + "a,,glue,,LTR,1e1000000,,,,,,,,,,,\n", "plain decimal"},
		"100000 digits":      {header + "a,,glue,,LTR," + strings.Repeat("9", 100_000) + ",,,,,,,,,,,\n", "bytes"},
		"not a number":       {header + "a,,glue,,LTR,NaN,,,,,,,,,,,\n", "plain decimal"},
		"a control sign":     {header + "a\u0007,,glue,,LTR,1,,,,,,,,,,,\n", "control"},
		"thousands of lines": {header + strings.Repeat("a,,glue,,LTR,1,,,,,,,,,,,\n", sheet.MaxItems+1), "more than 10000 rows"},
		"megabytes":          {header + strings.Repeat("a", sheet.MaxTableBytes), "bytes"},
		"a thousand columns": {strings.Repeat("price,", 1000) + "\n", "columns"},
	} {
		_, err := sheet.ReadCSV([]byte(c.table), "USD", notation.FeetInchesEighths)
		var faults *sheet.FaultsError
		if !errors.As(err, &faults) || len(faults.Faults) > sheet.MaxFaults {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if name == "thousands of lines" {
			// The duplicates are listed first; what is past the list is counted.
			if faults.More < sheet.MaxItems-sheet.MaxFaults {
				t.Errorf("%s: %d more", name, faults.More)
			}
			continue
		}
		if !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestCurrencyAndNotationAreChecked(t *testing.T) {
	_, err := sheet.ReadCSV([]byte(yard), "EURO", "cubits")
	var faults *sheet.FaultsError
	if !errors.As(err, &faults) || len(faults.Faults) != 2 {
		t.Errorf("%v", err)
	}
	// A price of half a yen an ounce comes to nothing in a pack of one.
	_, err = sheet.ReadCSV([]byte("item,kind,unit,price\ntar,coating,OZA,0.4\n"), "JPY", notation.Millimetres)
	if !errors.As(err, &faults) || faults.Faults[0].Column != "price" {
		t.Errorf("%v", err)
	}
}

func TestDocumentFaultsHavePointers(t *testing.T) {
	var c sheet.Content
	err := json.Unmarshal([]byte(`{"currency":"USD","notation":"mm","items":[{"item":"tar","kind":"coating","unit":"LTR","price":"2"},{"item":"tar","kind":"coating","unit":"LTR","price":"1,5"}]}`), &c)
	var doc document.Faults
	if !errors.As(err, &doc) || doc[0].Pointer != "/items/1/price" {
		t.Errorf("%v", err)
	}
	for _, bad := range []string{`{"currency":"USD","notation":"mm","items":[],"x":1}`, `{"currency":"USD","notation":"mm","items":[{"price":2}]}`} {
		if err := json.Unmarshal([]byte(bad), &c); err == nil {
			t.Errorf("%s was read", bad)
		}
	}
}
