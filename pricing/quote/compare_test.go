package quote_test

import (
	"errors"
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/boat"

	"github.com/google/go-cmp/cmp"
)

// ownerOf is the quote of random options as their owner sees it.
func ownerOf(t *testing.T, seed int, options int) quote.OwnerQuote {
	t.Helper()
	r := draw{rand.New(rand.NewSource(int64(seed)))}
	c := currencies[r.Intn(len(currencies))]
	terms, content := r.terms(), r.sheet(t, c)
	var in []quote.OptionInput
	for i := range options {
		in = append(in, r.option(t, fmt.Sprint("option ", i), c))
	}
	q, err := quote.Price(in, content, terms)
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	v, err := q.OwnerView()
	if err != nil {
		t.Fatalf("seed %d: %v", seed, err)
	}
	return v
}

// Over 10,000 random quotes of two options: the differences of the lines add to those of the steps, these to the net's,
// and net and taxes to the difference of the totals, to the last minor unit; every line of either option stands in it
// once at its price; and the other way round every difference turns its sign.
func TestDifferencesFoot(t *testing.T) {
	for seed := range randomQuotes(t) {
		v := ownerOf(t, seed, 2)
		a, b := v.Options[0], v.Options[1]
		d, err := quote.Difference(a, b)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if why := footsApart(d, a, b); why != "" {
			t.Fatalf("seed %d: %s", seed, why)
		}
		back, err := quote.Difference(b, a)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if back.Total.Difference != d.Total.Difference.Neg() || back.Net.Difference != d.Net.Difference.Neg() || len(back.Steps) != len(d.Steps) {
			t.Fatalf("seed %d: %+v and back %+v", seed, d.Total, back.Total)
		}
	}
}

func footsApart(d quote.OptionDifference, a, b quote.OwnerOption) string {
	prices := [2]map[string]money.Money{{}, {}}
	for i, o := range []quote.OwnerOption{a, b} {
		for _, s := range o.Steps {
			for _, l := range s.Lines {
				prices[i][l.Key] = l.Price
			}
		}
	}
	var net, tax int64
	seen := map[string]bool{}
	for _, s := range d.Steps {
		var step int64
		for _, l := range s.Lines {
			first, second := prices[0][l.Key].Minor(), prices[1][l.Key].Minor()
			_, inFirst := prices[0][l.Key]
			_, inSecond := prices[1][l.Key]
			if seen[l.Key] || l.Price.First.Minor() != first || l.Price.Second.Minor() != second || l.Price.Difference.Minor() != second-first ||
				inFirst != (l.Quantity.First != nil) || inSecond != (l.Quantity.Second != nil) {
				return fmt.Sprintf("line %s: %+v", l.Key, l)
			}
			seen[l.Key] = true
			step += second - first
		}
		if s.Price.Difference.Minor() != step {
			return fmt.Sprintf("step %s differs by %s, its lines by %d", s.Step, s.Price.Difference, step)
		}
		net += step
	}
	for _, x := range d.Taxes {
		tax += x.Amount.Difference.Minor()
	}
	for _, p := range prices {
		for k := range p {
			if !seen[k] {
				return "line " + k + " is left out"
			}
		}
	}
	if d.Net.Difference.Minor() != net || d.Tax.Difference.Minor() != tax || d.Total.Difference.Minor() != net+tax ||
		d.Total.Difference.Minor() != b.Total.Minor()-a.Total.Minor() {
		return fmt.Sprintf("lines %d, taxes %d, total %s", net, tax, d.Total.Difference)
	}
	return ""
}

// Hand-worked: the first option takes patterns and laminates, the second only fits; both pay tax on the timber they
// use. Steps come in the order of work, and what one option leaves out stands there without a quantity.
func TestDifferenceOfTwoOptions(t *testing.T) {
	c := content(t, prices)
	first := quote.OptionInput{ID: "a", Name: "Replace", Work: work("3.25", "5.10"), Needs: append(needs(1, boat.Port), needs(1, boat.Starboard)...), Library: library}
	second := quote.OptionInput{ID: "b", Name: "Patterns only", Work: work("4.00"), Library: library}
	q, err := quote.Estimate([]quote.OptionInput{first, second}, c, shop, terms())
	if err != nil {
		t.Fatal(err)
	}
	v, err := q.OwnerView()
	if err != nil {
		t.Fatal(err)
	}
	d, err := quote.Difference(v.Options[0], v.Options[1])
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, s := range d.Steps {
		got = append(got, fmt.Sprintf("%s %s", s.Step, s.Price.Difference))
		for _, l := range s.Lines {
			got = append(got, fmt.Sprintf("  %s %s to %s, %s, both %t", l.Key, l.Price.First, l.Price.Second, l.Price.Difference, l.Quantity.First != nil && l.Quantity.Second != nil))
		}
	}
	// 4.00 h x 61.55 = 246.20, with 35 % 332.37. The first option's prices are those of TestQuoteWorkedByHand.
	want := []string{
		"take_pattern 34.72",
		"  take_pattern/shipwright/frame 270.05 to 332.37, 62.32, both true",
		"  take_pattern/ply/frame 27.60 to 0.00, -27.60, both false",
		"rip_plane -691.17",
		"  rip_plane/machinist/frame 331.17 to 0.00, -331.17, both false",
		"  rip_plane/white_oak select/frame 360.00 to 0.00, -360.00, both false",
		"laminate -115.49",
		"  laminate/epoxy/frame 115.49 to 0.00, -115.49, both false",
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if d.Net.Difference.String() != "-771.94" || d.Tax.Difference.String() != "-31.44" || d.Total.Difference.String() != "-803.38" {
		t.Errorf("%+v", d)
	}
}

// A step that only the second option has stands where the work puts it, not at the end.
func TestStepsKeepTheOrderOfWork(t *testing.T) {
	steps := func(codes ...string) quote.OwnerOption {
		o := quote.OwnerOption{Name: strings.Join(codes, " "), Net: money.Zero("USD"), Tax: money.Zero("USD"), Total: money.Zero("USD"), Low: money.Zero("USD"), High: money.Zero("USD")}
		for _, c := range codes {
			o.Steps = append(o.Steps, quote.OwnerStep{Step: c, Name: c, Lines: []quote.OwnerLine{{Key: c, Kind: sheet.Labour, Price: money.Zero("USD")}}})
		}
		return o
	}
	for _, x := range []struct{ first, second, want string }{
		{"pattern fit", "pattern laminate fit", "pattern laminate fit"},
		{"pattern rip fit", "survey pattern fit paint", "survey pattern rip fit paint"},
		{"", "pattern fit", "pattern fit"},
	} {
		d, err := quote.Difference(steps(strings.Fields(x.first)...), steps(strings.Fields(x.second)...))
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, s := range d.Steps {
			got = append(got, s.Step)
		}
		if strings.Join(got, " ") != x.want {
			t.Errorf("%q and %q: %v", x.first, x.second, got)
		}
	}
}

// An option that does not foot, or has a line twice, is not compared.
func TestOptionsThatDoNotFoot(t *testing.T) {
	a := ownerOf(t, 3, 2).Options
	if len(a[0].Steps) == 0 || len(a[0].Taxes) == 0 {
		t.Fatal("the seed draws no steps or no taxes")
	}
	cent, err := money.New(1, a[0].Net.Currency())
	if err != nil {
		t.Fatal(err)
	}
	more := func(m money.Money) money.Money {
		x, err := m.Add(cent)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	var footing *quote.FootingError
	for what, bad := range map[string]quote.OwnerOption{
		"net":   func(o quote.OwnerOption) quote.OwnerOption { o.Net = more(o.Net); return o }(a[0]),
		"tax":   func(o quote.OwnerOption) quote.OwnerOption { o.Tax = more(o.Tax); return o }(a[0]),
		"total": func(o quote.OwnerOption) quote.OwnerOption { o.Total = more(o.Total); return o }(a[0]),
	} {
		if _, err := quote.Difference(a[1], bad); !errors.As(err, &footing) || footing.What != what {
			t.Errorf("%s a cent off: %v", what, err)
		}
	}
	twice := a[0]
	twice.Steps = append(twice.Steps, twice.Steps[0])
	var basis *quote.BasisError
	if _, err := quote.Difference(twice, a[1]); !errors.As(err, &basis) {
		t.Errorf("a line twice: %v", err)
	}
}
