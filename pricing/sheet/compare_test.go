package sheet_test

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"testing"

	"ribband/pricing/internal/published"
	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

func version(t testing.TB, rows string) sheet.Content {
	t.Helper()
	c, err := sheet.ReadCSV([]byte("item,kind,supplier,unit,price,per,pack_size,species,grade,thickness,width,stock_length,lead_days\n"+rows), "USD", notation.FeetInchesEighths)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// told is a comparison in lines that a person could read.
func told(c sheet.Comparison) []string {
	var out []string
	for _, it := range c.Items {
		line := string(it.Change) + " " + it.Label
		for _, x := range it.Cells {
			line += fmt.Sprintf("; %s %q to %q", x.Column, x.Old, x.New)
		}
		if p := it.Price; p != nil {
			line += fmt.Sprintf("; %s to %s a %s, %s, %s %%", p.Old, p.New, p.Unit, p.Difference, p.Percent)
		}
		out = append(out, line)
	}
	return out
}

// Hand-worked. Oak 12.50 to 13.20 is 5.6 %; a board of another size is another board; a size or a price written
// otherwise is the same. Epoxy changes its pack and its unit: 33.33 a litre is 126.1678... a US gallon. Screws 9.60 for
// 12 become 0.81 each, 1.25 %. The trade falls by a third.
func TestVersionsCompare(t *testing.T) {
	older := version(t, `,timber,North,BFT,12.50,,,white_oak,select,8/4,0-8-0,18-0-0,
,timber,North,BFT,11.00,,,white_oak,select,8/4,0-8-0,12-0-0,
epoxy,glue,West,LTR,33.33,,1,,,,,,
screws,metal,West,C62,9.60,12,,,,,,,
ply,consumable,,MTK,9.20,,3,,,,,,5
bedding,consumable,,KGM,4,,,,,,,,
shipwright,labour,,HUR,60,,,,,,,,
`)
	newer := version(t, `shipwright,labour,,HUR,40,,,,,,,,
,timber,north,BFT,13.20,,,white_oak,select,0-2-0,0-8-0,18-0-0,
,timber,North,BFT,11.00,,,white_oak,select,8/4,0-8-0,14-0-0,
Epoxy,glue,West,GLL,120.00,,1,,,,,,
screws,metal,East,C62,0.81,,,,,,,,
ply,consumable,,MTK,9.200,,3,,,,,,5
machinist,labour,,HUR,48,,,,,,,,
`)
	got, err := sheet.Compare(older, newer)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		`changed shipwright; price "60" to "40"; 60 to 40 a HUR, -20, -33.33 %`,
		`changed white_oak select 0-2-0 x 0-8-0 x 18-0-0; supplier "North" to "north"; price "12.5" to "13.2"; 12.5 to 13.2 a BFT, 0.7, 5.60 %`,
		`removed white_oak select 8/4 x 0-8-0 x 12-0-0`,
		`added white_oak select 8/4 x 0-8-0 x 14-0-0`,
		`changed Epoxy; item "epoxy" to "Epoxy"; unit "LTR" to "GLL"; price "33.33" to "120"; 126.167775 to 120 a GLL, -6.167775, -4.89 %`,
		`changed screws; supplier "West" to "East"; price "9.6" to "0.81"; per "12" to "1"; 0.8 to 0.81 a C62, 0.01, 1.25 %`,
		`same ply`,
		`removed bedding`,
		`added machinist`,
	}
	if d := cmp.Diff(want, told(got)); d != "" {
		t.Error(d)
	}
	if got.Added != 2 || got.Removed != 2 || got.Changed != 4 || got.Same != 1 {
		t.Errorf("%+v", got)
	}
}

// Where several rows of an item are left over on a side, none is guessed to be another.
func TestSeveralRowsOfAnItem(t *testing.T) {
	older := version(t, "epoxy,glue,West,LTR,30,,1,,,,,,\nepoxy,glue,West,LTR,28,,5,,,,,,\n")
	newer := version(t, "epoxy,glue,West,LTR,31,,1,,,,,,\nepoxy,glue,West,LTR,27,,10,,,,,,\nepoxy,glue,West,LTR,26,,20,,,,,,\n")
	got, err := sheet.Compare(older, newer)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{`changed epoxy; price "30" to "31"; 30 to 31 a LTR, 1, 3.33 %`, "removed epoxy", "added epoxy", "added epoxy"}
	if d := cmp.Diff(want, told(got)); d != "" {
		t.Error(d)
	}
}

// A kind of unit that does not convert has no price difference, only cells.
func TestUnitsThatDoNotConvert(t *testing.T) {
	got, err := sheet.Compare(version(t, "rope,consumable,,MTR,3,,,,,,,,\n"), version(t, "rope,consumable,,KGM,9,,,,,,,,\n"))
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff([]string{`changed rope; unit "MTR" to "KGM"; price "3" to "9"`}, told(got)); d != "" {
		t.Error(d)
	}
	var currency *sheet.CurrencyError
	dollar := version(t, "rope,consumable,,MTR,3,,,,,,,,\n")
	euro := dollar
	euro.Currency = "EUR"
	if _, err := sheet.Compare(euro, dollar); !errors.As(err, &currency) || !strings.Contains(err.Error(), "EUR") {
		t.Errorf("%v", err)
	}
}

// Alaska Department of Labor: an index change in points and per cent (published to one place).
func TestIndexChange(t *testing.T) {
	for _, r := range published.Table(t, "index-change-undated", "index.csv") {
		price := func(x string) sheet.Content {
			return version(t, "basket,outside,,C62,"+x+",,,,,,,,\n")
		}
		c, err := sheet.Compare(price(r["base"]), price(r["current"]))
		if err != nil {
			t.Fatal(err)
		}
		p := c.Items[0].Price
		percent, ok := new(big.Rat).SetString(p.Percent)
		if !ok || p.Difference != r["points"] {
			t.Fatalf("%+v, published %v", p, r)
		}
		if one := money.HalfUp.RoundRat(percent, 1); one.String() != r["percent"] {
			t.Errorf("%s per cent, published %s", p.Percent, r["percent"])
		}
	}
}

// Over invented sheets: every row of either version stands in the comparison once, the newer in its order; a version
// against itself is all the same; and added one way is removed the other.
func TestComparisonsAreWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) sheet.Content {
			var rows []sheet.Row
			seen := map[string]bool{}
			for range rapid.IntRange(0, 8).Draw(t, name) {
				row := sheet.Row{Item: rapid.SampledFrom([]string{"epoxy", "screws", "ply"}).Draw(t, "item"), Kind: "metal",
					Supplier: rapid.SampledFrom([]string{"", "A", "B"}).Draw(t, "supplier"), PackSize: fmt.Sprint(rapid.IntRange(1, 2).Draw(t, "pack")),
					Unit: "KGM", Price: fmt.Sprint(rapid.IntRange(1, 3).Draw(t, "price"))}
				if k := row.Item + row.Supplier + row.PackSize; !seen[k] {
					seen[k] = true
					rows = append(rows, row)
				}
			}
			c, err := sheet.FromRows("USD", notation.Inches, rows)
			if err != nil {
				t.Fatal(err)
			}
			return c
		}
		a, b := draw("older"), draw("newer")
		there, err := sheet.Compare(a, b)
		if err != nil {
			t.Fatal(err)
		}
		back, err := sheet.Compare(b, a)
		if err != nil {
			t.Fatal(err)
		}
		self, err := sheet.Compare(a, a)
		if err != nil {
			t.Fatal(err)
		}
		older, newer := 0, []sheet.Row{}
		for _, it := range there.Items {
			if it.Old != nil {
				older++
			}
			if it.New != nil {
				newer = append(newer, *it.New)
			}
			if (it.Change == sheet.Changed) != (len(it.Cells) > 0) || (it.Change == sheet.Added) != (it.Old == nil) || (it.Change == sheet.Removed) != (it.New == nil) {
				t.Fatalf("%+v", it)
			}
		}
		if d := cmp.Diff(b.Document().Items, newer); d != "" || older != len(a.Items) {
			t.Fatalf("%d older rows of %d, %s", older, len(a.Items), d)
		}
		if there.Added != back.Removed || there.Removed != back.Added || there.Changed != back.Changed || self.Same != len(a.Items) || self.Same != len(self.Items) {
			t.Fatalf("%+v and back %+v and itself %+v", there, back, self)
		}
	})
}
