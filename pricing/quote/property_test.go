package quote_test

import (
	"fmt"
	"math/big"
	"math/rand"
	"os"
	"slices"
	"strconv"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// randomQuotes is how many quotes are drawn; RIBBAND_RANDOM_QUOTES sets another number, for example 1000000.
func randomQuotes(t *testing.T) int {
	text := os.Getenv("RIBBAND_RANDOM_QUOTES")
	if text == "" {
		return 10_000
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		t.Fatalf("RIBBAND_RANDOM_QUOTES is %q: a number above 0 is needed", text)
	}
	return n
}

var currencies = []money.Currency{"USD", "EUR", "JPY", "KWD", "CLF"}

// draw is one random quote's input. Seeds are fixed, so that a failure comes again.
type draw struct {
	*rand.Rand
}

func (r draw) fraction(most int) string {
	return fmt.Sprintf("%d.%0*d", r.Intn(most), 1+r.Intn(6), r.Intn(10))
}

func (r draw) terms() quote.Terms {
	t := quote.Terms{Markup: map[sheet.Kind]string{}, ValidDays: 1 + r.Intn(90), RangeLow: "0." + strconv.Itoa(r.Intn(1000)), RangeHigh: r.fraction(2)}
	t.Rounding = []money.Mode{"", money.HalfUp, money.HalfEven}[r.Intn(3)]
	for _, k := range sheet.Kinds {
		if r.Intn(3) > 0 {
			t.Markup[k] = "0." + strconv.Itoa(r.Intn(100_000))
		}
	}
	for i := range r.Intn(4) {
		x := quote.Tax{Category: fmt.Sprint("tax ", i), Rate: "0." + strconv.Itoa(r.Intn(10_000))}
		for _, k := range sheet.Kinds {
			if r.Intn(2) == 0 {
				x.Kinds = append(x.Kinds, k)
			}
		}
		if len(x.Kinds) > 0 {
			t.Taxes = append(t.Taxes, x)
		}
	}
	return t
}

func (r draw) sheet(t *testing.T, c money.Currency) sheet.Content {
	t.Helper()
	var rows []sheet.Row
	for i := range 5 {
		row := sheet.Row{Item: fmt.Sprint("trade ", i), Kind: "labour", Unit: "HUR", Price: fmt.Sprintf("%d.%d", 1+r.Intn(200), r.Intn(1_000_000))}
		if r.Intn(4) == 0 {
			row.Per = strconv.Itoa(2 + r.Intn(11))
		}
		rows = append(rows, row)
	}
	s, err := sheet.FromRows(c, notation.Inches, rows)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func (r draw) option(t *testing.T, id string, c money.Currency) quote.OptionInput {
	t.Helper()
	o := quote.OptionInput{ID: id, Name: id, Library: library, Buy: buy.List{Currency: c}}
	for i := range r.Intn(8) {
		h, err := quantity.Of(decimal.New(r.Int63n(1_000_000), -2), quantity.Hour)
		if err != nil {
			t.Fatal(err)
		}
		o.Work = append(o.Work, step.Work{Step: step.Step{Code: fmt.Sprint("step ", i), Trade: fmt.Sprint("trade ", r.Intn(5))}, Hours: h})
	}
	for i := range r.Intn(12) {
		cost, err := money.New(r.Int63n(1_000_000_000), c)
		if err != nil {
			t.Fatal(err)
		}
		kind := []sheet.Kind{sheet.Timber, sheet.Glue, sheet.Consumable, sheet.Metal, sheet.Coating}[r.Intn(5)]
		s := buy.Share{Line: fmt.Sprint("need ", i), Kind: kind, Item: fmt.Sprint(kind, " ", r.Intn(2)), Driver: string(step.Drivers[r.Intn(len(step.Drivers))]),
			Member: boat.Member{Kind: boat.Frame, No: i + 1, Side: boat.Port}, Remedy: boat.ReplaceLaminated, Net: quantity.Count(1), Gross: quantity.Count(2), Cost: cost}
		o.Buy.Shares = append(o.Buy.Shares, s)
		o.Needs = append(o.Needs, bill.Line{ID: s.Line})
	}
	return o
}

// Over 10,000 random quotes: the prices of the lines and the taxes add to the total, the costs to what was bought and
// worked, to the last minor unit; and every line's price and every tax is its one rounding, worked out here in exact
// fractions by another way of rounding than the program's.
func TestQuotesFoot(t *testing.T) {
	for seed := range randomQuotes(t) {
		r := draw{rand.New(rand.NewSource(int64(seed)))}
		c := currencies[r.Intn(len(currencies))]
		terms, content := r.terms(), r.sheet(t, c)
		var in []quote.OptionInput
		for i := range 1 + r.Intn(3) {
			in = append(in, r.option(t, fmt.Sprint("option ", i), c))
		}
		q, err := quote.Price(in, content, terms)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		for i, o := range q.Options {
			if why := foots(o, in[i], terms); why != "" {
				t.Fatalf("seed %d, option %d: %s", seed, i, why)
			}
		}
	}
}

func foots(o quote.Option, in quote.OptionInput, terms quote.Terms) string {
	var net, tax, cost, labour int64
	for _, l := range o.Lines {
		net, cost = net+l.Price.Minor(), cost+l.Cost.Minor()
		if l.Kind == sheet.Labour {
			labour += l.Cost.Minor()
			exact := new(big.Rat).Mul(l.Quantity.Value().Rat(), dec(l.Rate).Rat())
			if want := rounded(exact.Quo(exact, dec(l.RatePer).Rat()), l.Cost.Currency(), terms.Rounding); want != l.Cost.Minor() {
				return fmt.Sprintf("%s costs %s, want %d", l.Key, l.Cost, want)
			}
		}
		markup := terms.Markup[l.Kind]
		if markup == "" {
			markup = "0"
		}
		up := decimal.NewFromInt(1).Add(dec(markup))
		if want := rounded(new(big.Rat).Mul(l.Cost.Decimal().Rat(), up.Rat()), l.Cost.Currency(), terms.Rounding); want != l.Price.Minor() {
			return fmt.Sprintf("%s is priced %s, want %d", l.Key, l.Price, want)
		}
	}
	for i, x := range o.Taxes {
		var base int64
		for _, l := range o.Lines {
			if slices.Contains(terms.Taxes[i].Kinds, l.Kind) {
				base += l.Price.Minor()
			}
		}
		exact := new(big.Rat).Mul(x.Base.Decimal().Rat(), dec(terms.Taxes[i].Rate).Rat())
		if x.Base.Minor() != base || x.Amount.Minor() != rounded(exact, x.Base.Currency(), terms.Rounding) {
			return fmt.Sprintf("%s is %s on %s", x.Category, x.Amount, x.Base)
		}
		tax += x.Amount.Minor()
	}
	var bought int64
	for _, s := range in.Buy.Shares {
		bought += s.Cost.Minor()
	}
	if len(in.Buy.Freight) > 0 {
		bought += in.Buy.FreightCost.Minor()
	}
	switch {
	case net != o.Net.Minor() || tax != o.Tax.Minor() || net+tax != o.Total.Minor():
		return fmt.Sprintf("lines %d, taxes %d, total %s", net, tax, o.Total)
	case cost != o.Cost.Minor() || cost != labour+bought:
		return fmt.Sprintf("costs %d, shown %s, labour %d, bought %d", cost, o.Cost, labour, bought)
	case o.Low.Minor() > o.Total.Minor() || o.High.Minor() < o.Total.Minor():
		return fmt.Sprintf("from %s to %s round %s", o.Low, o.High, o.Total)
	}
	return ""
}

// rounded rounds by adding half and cutting down, and then minds the tie.
func rounded(r *big.Rat, c money.Currency, m money.Mode) int64 {
	x := new(big.Rat).Mul(r, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(c.Digits())), nil)))
	doubled := new(big.Rat).Add(x, big.NewRat(1, 2))
	n := new(big.Int).Div(doubled.Num(), doubled.Denom()).Int64() // amounts here are not negative
	if m == money.HalfEven && doubled.IsInt() && n%2 == 1 {
		n--
	}
	return n
}
