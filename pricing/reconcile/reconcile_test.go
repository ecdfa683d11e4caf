package reconcile_test

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"math/big"
	"math/rand"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/reconcile"
	"ribband/pricing/sheet"
	"ribband/takeoff/quantity"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
)

func told(s reconcile.Sums) string {
	d := s.Difference
	return fmt.Sprintf("quoted %s, price %s, spent %s, tax %s: %s %s = price %s + quantity %s + unsplit %s", s.Quoted, s.Price, s.Spent, s.Tax,
		d.Amount, d.Effect, d.Price.Amount, d.Quantity.Amount, d.Unsplit.Amount)
}

func account(r reconcile.Reconciliation) []string {
	var out []string
	for _, s := range r.Steps {
		out = append(out, s.Step+" "+told(s.Sums))
		for _, l := range s.Lines {
			out = append(out, "  "+l.Key+" "+told(l.Sums))
			if m := l.Measure; m != nil {
				out = append(out, fmt.Sprintf("    %s %s at %s, had %s at %s", m.Quoted, m.Unit, m.QuotedPrice, m.Spent, m.SpentPrice))
			}
		}
		if len(s.NoLine.Entries) > 0 {
			out = append(out, "  no line "+told(s.NoLine.Sums))
		}
	}
	out = append(out, "no step "+told(r.NoStep.Sums))
	return append(out, "total "+told(r.Total))
}

// Hand-worked, on the option of accepted.
//
// Patterns: 3.25 h at 61.55 quoted, 200.04; 4 h for 250.00 had. Rate 250.00 - 4 x 61.55 = 3.80 unfavourable; the rest of
// 49.96 is efficiency, 0.75 h x 61.55 = 46.1625, 46.16.
// Oak: 24 board feet for 300.00; 30 had for 390.00, two sent back for 26.00: 28 for 364.00. Price 364.00 - 28 x 12.50 =
// 14.00; quantity 4 x 12.50 = 50.00. Ten off without a quantity stay unsplit.
// Epoxy: three litres for 99.99; a US gallon, 3.785411784 L, for 120.00. Price 120.00 - 3.785411784 x 33.33 =
// -6.167774..., -6.17; quantity the rest of 20.01, 26.18.
// Ripping: nothing yet. A knife for the planer is on the step but in no line of the quote; varnish on a step that the
// quote does not have; screws and some oak name no step, the oak can only belong to one line.
func TestReconciliationWorkedByHand(t *testing.T) {
	o, list := accepted(t)
	job := job
	job.Steps = append(job.Steps, reconcile.KnownStep{Code: "varnish", Name: "Varnish"})
	in := reconcile.ReadCSV([]byte(header+`2026-03-05,hours,Yard,week 10,1,Shipwright,,240,MIN,250.00,USD,,take_pattern,Ben
2026-03-05,invoice,Sawmill,A-1,1,white oak select,,30,BFT,390.00,USD,23.40,rip_plane,Ada
2026-03-09,credit,Sawmill,A-2,1,white_oak select,,-2,BFT,-26.00,USD,-1.56,rip_plane,Ada
2026-03-09,credit,Sawmill,A-2,2,white_oak select,late,,,-10.00,USD,,rip_plane,Ada
2026-03-06,invoice,Chandler,77,1,epoxy,,1,GLL,120.00,USD,7.20,laminate,Ada
2026-03-06,invoice,Chandler,77,2,planer knife,,1,C62,45.00,USD,2.70,rip_plane,Ada
2026-03-06,invoice,Chandler,77,3,varnish,,1,LTR,30.00,USD,1.80,varnish,Ada
2026-03-06,invoice,Chandler,77,4,screws,,100,C62,12.00,USD,0.72,,Ada
2026-03-06,invoice,Chandler,77,5,white_oak select,offcuts,2,BFT,5.00,USD,0.30,,Ada
`), job, nil)
	if err := in.Err(); err != nil {
		t.Fatal(err)
	}
	r, err := reconcile.Reconcile(o, list, entries(in))
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"take_pattern quoted 200.04, price 270.05, spent 250.00, tax 0.00: 49.96 unfavourable = price 3.80 + quantity 46.16 + unsplit 0.00",
		"  take_pattern/shipwright/frame quoted 200.04, price 270.05, spent 250.00, tax 0.00: 49.96 unfavourable = price 3.80 + quantity 46.16 + unsplit 0.00",
		"    3.25 HUR at 61.55, had 4 at 62.5",
		"rip_plane quoted 545.31, price 691.17, spent 399.00, tax 24.54: -146.31 favourable = price 14.00 + quantity 50.00 + unsplit -210.31",
		"  rip_plane/machinist/frame quoted 245.31, price 331.17, spent 0.00, tax 0.00: -245.31 nothing_spent = price 0.00 + quantity 0.00 + unsplit -245.31",
		"    5.1 HUR at 48.1, had  at ",
		"  rip_plane/white_oak select/frame quoted 300.00, price 360.00, spent 354.00, tax 21.84: 54.00 unfavourable = price 14.00 + quantity 50.00 + unsplit -10.00",
		"    24 BFT at 12.5, had 28 at 13",
		"  no line quoted 0.00, price 0.00, spent 45.00, tax 2.70: 45.00 unfavourable = price 0.00 + quantity 0.00 + unsplit 45.00",
		"laminate quoted 99.99, price 99.99, spent 120.00, tax 7.20: 20.01 unfavourable = price -6.17 + quantity 26.18 + unsplit 0.00",
		"  laminate/epoxy/frame quoted 99.99, price 99.99, spent 120.00, tax 7.20: 20.01 unfavourable = price -6.17 + quantity 26.18 + unsplit 0.00",
		"    3 LTR at 33.33, had 3.785412 at 31.700646",
		"varnish quoted 0.00, price 0.00, spent 30.00, tax 1.80: 30.00 unfavourable = price 0.00 + quantity 0.00 + unsplit 30.00",
		"  no line quoted 0.00, price 0.00, spent 30.00, tax 1.80: 30.00 unfavourable = price 0.00 + quantity 0.00 + unsplit 30.00",
		"no step quoted 0.00, price 0.00, spent 17.00, tax 1.02: 17.00 unfavourable = price 0.00 + quantity 0.00 + unsplit 17.00",
		"total quoted 845.34, price 1061.21, spent 816.00, tax 34.56: -29.34 favourable = price 11.63 + quantity 122.34 + unsplit -163.31",
	}
	if d := cmp.Diff(want, account(r)); d != "" {
		t.Error(d)
	}
	if e := r.NoStep.Entries; len(e) != 2 || e[0].Proposed != "" || e[1].Proposed != "rip_plane/white_oak select/frame" {
		t.Errorf("%+v", e)
	}
	if r.Total.Quoted != o.Cost || r.Total.Price != o.Net {
		t.Errorf("quoted %s of %s, price %s of %s", r.Total.Quoted, o.Cost, r.Total.Price, o.Net)
	}
}

// What cannot be split stays whole, and says so: no buy list, no quantity, a unit that does not convert, the same item
// in two lines of a step.
func TestWhatCannotBeSplit(t *testing.T) {
	o, list := accepted(t)
	two := o
	two.Lines = append([]quote.Line{}, o.Lines...)
	oak := two.Lines[2]
	if oak.Item != "white_oak select" {
		t.Fatalf("%+v", oak)
	}
	oak.Key, oak.MemberKind = "rip_plane/white_oak select/plank", "plank"
	two.Lines = append(two.Lines, oak)
	for name, x := range map[string]struct {
		option quote.Option
		list   buy.List
		rows   string
		noLine bool
	}{
		"no buy list":      {o, buy.List{}, "2026-03-05,invoice,S,1,1,white_oak select,,30,BFT,390.00,USD,,rip_plane,\n", false},
		"no quantity":      {o, list, "2026-03-05,invoice,S,1,1,white_oak select,,,,390.00,USD,,rip_plane,\n", false},
		"by the piece":     {o, list, "2026-03-05,invoice,S,1,1,white_oak select,,2,C62,390.00,USD,,rip_plane,\n", false},
		"two lines fit":    {two, list, "2026-03-05,invoice,S,1,1,white_oak select,,30,BFT,390.00,USD,,rip_plane,\n", true},
		"beyond reckoning": {o, list, "2026-03-05,invoice,S,1,1,white_oak select,,999999999999,MBF,390.00,USD,,rip_plane,\n", false},
	} {
		r, err := reconcile.Reconcile(x.option, x.list, posted(t, x.rows))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		s := r.Steps[1]
		if d := s.Sums.Difference; !d.Price.Amount.IsZero() || !d.Quantity.Amount.IsZero() || d.Unsplit.Amount != d.Amount || s.Sums.Spent.String() != "390.00" {
			t.Errorf("%s: %s", name, told(s.Sums))
		}
		if (len(s.NoLine.Entries) == 1) != x.noLine {
			t.Errorf("%s: %+v", name, s.NoLine)
		}
	}
}

// Where some entries of a line say how much they are, these split, and only the others stay whole and are named. Oak,
// 24 board feet at 12.50 quoted: 20 had for 300.00, price 300.00 - 20 x 12.50 = 50.00, quantity -4 x 12.50 = -50.00.
func TestOnlyWhatSaysNoQuantityStaysUnsplit(t *testing.T) {
	o, list := accepted(t)
	r, err := reconcile.Reconcile(o, list, posted(t, `2026-03-05,invoice,Sawmill,A-1,1,white_oak select,,20,BFT,300.00,USD,,rip_plane,
2026-03-05,invoice,Sawmill,A-1,2,white_oak select,,,,90.00,USD,,rip_plane,
2026-03-05,invoice,Sawmill,A-1,3,white_oak select,,2,C62,7.00,USD,,rip_plane,
`))
	if err != nil {
		t.Fatal(err)
	}
	l := r.Steps[1].Lines[1]
	if got, want := told(l.Sums), "quoted 300.00, price 360.00, spent 397.00, tax 0.00: 97.00 unfavourable = price 50.00 + quantity -50.00 + unsplit 97.00"; got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	want := []reconcile.Unsplit{{Entry: "sawmill/a-1/2", Reason: `line "2" of document "A-1" of "Sawmill" names no quantity`},
		{Entry: "sawmill/a-1/3", Reason: `line "3" of document "A-1" of "Sawmill" is counted in C62, which cannot be turned into BFT`}}
	if d := cmp.Diff(want, l.Unsplit); d != "" {
		t.Error(d)
	}
	if m := l.Measure; m.Spent != "20" || m.SpentPrice != "15" {
		t.Errorf("%+v", m)
	}
}

// What is not spent yet is not saved: a line, a step and a whole job with nothing posted say that nothing is spent. A
// purchase that was taken back is something posted.
func TestNothingSpentIsNotFavourable(t *testing.T) {
	o, list := accepted(t)
	effects := func(rows string) string {
		t.Helper()
		r, err := reconcile.Reconcile(o, list, posted(t, rows))
		if err != nil {
			t.Fatal(err)
		}
		out := string(r.Total.Difference.Effect)
		for _, s := range r.Steps {
			out += " " + string(s.Sums.Difference.Effect) + ":"
			for _, l := range s.Lines {
				out += string(l.Sums.Difference.Effect) + ","
			}
		}
		return out
	}
	const none = " nothing_spent:nothing_spent,"
	for rows, want := range map[string]string{
		"2026-03-08,invoice,Office,77,1,,stamps,,,4.10,USD,,,\n":                                                           "favourable" + none + none + "nothing_spent," + none,
		"2026-03-08,invoice,C,77,1,epoxy,,,,4.10,USD,,laminate,\n2026-03-08,credit,C,78,1,epoxy,,,,-4.10,USD,,laminate,\n": "favourable" + none + none + "nothing_spent, favourable:favourable,",
		"2026-03-08,invoice,C,77,1,brush,,,,4.10,USD,,laminate,\n":                                                         "favourable" + none + none + "nothing_spent, favourable:nothing_spent,",
	} {
		if got := effects(rows); got != want {
			t.Errorf("%s: %s\nwant %s", rows, got, want)
		}
	}
	r, err := reconcile.Reconcile(o, list, nil)
	if err != nil || r.Total.Difference.Effect != reconcile.NothingSpent || r.Total.Difference.Effect.Word() != "nothing spent" {
		t.Errorf("%s, %v", told(r.Total), err)
	}
}

// Hours go to a line of labour, an invoice to goods of the same name.
func TestHoursAndGoodsOfOneName(t *testing.T) {
	o := quote.Option{Cost: usd("30.00"), Net: usd("30.00"), Lines: []quote.Line{
		{Key: "s/rigger/general", Step: "s", Kind: sheet.Labour, Item: "rigger", Quantity: of("1", quantity.Hour), Rate: "10", RatePer: "1", Cost: usd("10.00"), Price: usd("10.00")},
		{Key: "s/rigger/frame", Step: "s", Kind: sheet.Outside, Item: "rigger", Cost: usd("20.00"), Price: usd("20.00")}}}
	job := job
	job.Steps = nil
	in := reconcile.ReadCSV([]byte(header+"2026-03-05,hours,Y,1,1,rigger,,1,HUR,11.00,USD,,s,\n2026-03-05,invoice,R,1,1,rigger,,,,25.00,USD,,s,\n"), job, nil)
	r, err := reconcile.Reconcile(o, buy.List{}, entries(in))
	if err != nil || r.Steps[0].Lines[0].Sums.Spent.String() != "11.00" || r.Steps[0].Lines[1].Sums.Spent.String() != "25.00" {
		t.Errorf("%+v, %v", r, err)
	}
}

// Entries that repeat count once; a name with two contents, or another currency, is no reconciliation.
func TestEntriesCountOnce(t *testing.T) {
	o, list := accepted(t)
	e := posted(t, good)
	r, err := reconcile.Reconcile(o, list, append(e, e...))
	if err != nil || r.Total.Spent.String() != "506.53" { // 312.00 - 25.00 + 215.43 + 4.10
		t.Errorf("%s, %v", r.Total.Spent, err)
	}
	other := e[0]
	other.Amount = usd("1.00")
	var twice *reconcile.TwiceError
	if _, err := reconcile.Reconcile(o, list, append(e, other)); !errors.As(err, &twice) {
		t.Errorf("%v", err)
	}
	other = e[0]
	other.Amount, other.Tax = money.Zero("EUR"), money.Zero("EUR")
	var mixed *money.MixedError
	if _, err := reconcile.Reconcile(o, list, []reconcile.Entry{other}); !errors.As(err, &mixed) {
		t.Errorf("%v", err)
	}
}

// The parts are within a cent of the exact ones: the price by rounding, the quantity by that and by the rounding of the
// quoted cost.
var cent = big.NewRat(1, 100)

// mostReconciled is how many random sets of entries are drawn.
const mostReconciled = 3000

// Over random spend: price, quantity and unsplit add to the difference to the cent at every level, lines and what is
// loose add to steps, steps to the total, everything spent is in it once, in whichever order it comes; and the parts
// are the textbook's within a cent.
func TestReconciliationsFoot(t *testing.T) {
	o, list := accepted(t)
	for seed := range mostReconciled {
		r := rand.New(rand.NewSource(int64(seed)))
		var all []reconcile.Entry
		var spent, tax int64
		for i := range r.Intn(12) {
			e := randomEntry(t, r, i)
			spent, tax = spent+e.Amount.Minor(), tax+e.Tax.Minor()
			all = append(all, e)
		}
		got, err := reconcile.Reconcile(o, list, all)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if why := foots(got); why != "" {
			t.Fatalf("seed %d: %s", seed, why)
		}
		if got.Total.Spent.Minor() != spent || got.Total.Tax.Minor() != tax || got.Total.Quoted != o.Cost || got.Total.Price != o.Net {
			t.Fatalf("seed %d: spent %d, %s", seed, spent, told(got.Total))
		}
		r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		again, err := reconcile.Reconcile(o, list, all)
		if err != nil {
			t.Fatal(err)
		}
		a, _ := json.Marshal(got)
		b, _ := json.Marshal(again)
		if !bytes.Equal(a, b) {
			t.Fatalf("seed %d: the order of entries changes the answer", seed)
		}
	}
}

func randomEntry(t *testing.T, r *rand.Rand, i int) reconcile.Entry {
	t.Helper()
	amount, err := money.New(r.Int63n(100_000)-20_000, "USD")
	if err != nil {
		t.Fatal(err)
	}
	vat, err := money.New(amount.Minor()/20, "USD")
	if err != nil {
		t.Fatal(err)
	}
	what := []struct {
		kind reconcile.Kind
		step string
		item string
		unit sheet.Unit
	}{
		{reconcile.Hours, "take_pattern", "shipwright", "HUR"}, {reconcile.Hours, "rip_plane", "machinist", "MIN"},
		{reconcile.Invoice, "rip_plane", "white_oak select", "BFT"}, {reconcile.Invoice, "rip_plane", "white_oak select", "MTQ"},
		{reconcile.Invoice, "laminate", "epoxy", "GLL"}, {reconcile.Invoice, "laminate", "epoxy", "KGM"},
		{reconcile.Invoice, "laminate", "brushes", "C62"}, {reconcile.Invoice, "", "rope", "MTR"}, {reconcile.Invoice, "general", "rope", "MTR"},
	}[r.Intn(9)]
	e := reconcile.Entry{Date: fmt.Sprintf("2026-03-%02d", 2+r.Intn(20)), Kind: what.kind, Supplier: "s", Document: fmt.Sprint(i), Line: "1",
		Item: what.item, Step: what.step, Amount: amount, Tax: vat}
	if r.Intn(5) > 0 && !amount.IsZero() {
		e.Quantity, e.Unit = decimal.New(r.Int63n(1_000_000)+1, -int32(r.Intn(7))).Mul(decimal.NewFromInt(int64(amount.Sign()))), what.unit
	}
	return e
}

func foots(r reconcile.Reconciliation) string {
	total := [7]int64{}
	for _, s := range r.Steps {
		sum := parts(s.NoLine.Sums)
		for _, l := range s.Lines {
			if why := parted(l); why != "" {
				return l.Key + ": " + why
			}
			p := parts(l.Sums)
			for i := range sum {
				sum[i] += p[i]
			}
		}
		if sum != parts(s.Sums) {
			return fmt.Sprintf("step %s: %v and %v", s.Step, sum, parts(s.Sums))
		}
		for i := range sum {
			total[i] += sum[i]
		}
	}
	for i, x := range parts(r.NoStep.Sums) {
		total[i] += x
	}
	if total != parts(r.Total) {
		return fmt.Sprintf("total: %v and %v", total, parts(r.Total))
	}
	if d := r.Total.Difference; d.Amount.Minor() != r.Total.Spent.Minor()-r.Total.Quoted.Minor() ||
		d.Price.Amount.Minor()+d.Quantity.Amount.Minor()+d.Unsplit.Amount.Minor() != d.Amount.Minor() {
		return told(r.Total)
	}
	return ""
}

func parts(s reconcile.Sums) [7]int64 {
	d := s.Difference
	return [7]int64{s.Quoted.Minor(), s.Price.Minor(), s.Spent.Minor(), s.Tax.Minor(), d.Price.Amount.Minor(), d.Quantity.Amount.Minor(), d.Unsplit.Amount.Minor()}
}

// parted works a line's parts out again from its entries.
func parted(l reconcile.Line) string {
	d := l.Sums.Difference
	if d.Amount.Minor() != l.Sums.Spent.Minor()-l.Sums.Quoted.Minor() || d.Price.Amount.Minor()+d.Quantity.Amount.Minor()+d.Unsplit.Amount.Minor() != d.Amount.Minor() {
		return told(l.Sums)
	}
	if len(l.Entries) == 0 {
		if d.Effect != "nothing_spent" || d.Unsplit.Effect != "nothing_spent" || d.Unsplit.Amount != d.Amount || d.Price.Effect != "none" || d.Quantity.Effect != "none" {
			return "nothing is posted: " + told(l.Sums)
		}
		return ""
	}
	for _, v := range []reconcile.Variance{{Amount: d.Amount, Effect: d.Effect}, d.Price, d.Quantity, d.Unsplit} {
		if want := []reconcile.Effect{"favourable", "none", "unfavourable"}[v.Amount.Sign()+1]; v.Effect != want {
			return fmt.Sprintf("%s is %s", v.Amount, v.Effect)
		}
	}
	if l.Measure.Spent == "" {
		if d.Unsplit.Amount != d.Amount {
			return "split without a quantity: " + told(l.Sums)
		}
		return ""
	}
	standard := map[string][2]string{"take_pattern/shipwright/frame": {"3.25", "61.55"}, "rip_plane/machinist/frame": {"5.10", "48.10"},
		"rip_plane/white_oak select/frame": {"24", "12.50"}, "laminate/epoxy/frame": {"3", "33.33"}}[l.Key]
	sq, sp := dec(standard[0]).Rat(), dec(standard[1]).Rat()
	aq, cost, off := new(big.Rat), new(big.Rat), int64(0)
	var left []string
	for _, e := range l.Entries {
		q, ok := sheet.Convert(e.Quantity.Rat(), e.Unit, l.Measure.Unit)
		if e.Quantity.IsZero() || !ok {
			off += e.Amount.Minor()
			left = append(left, e.ID())
			continue
		}
		aq.Add(aq, q)
		cost.Add(cost, e.Amount.Decimal().Rat())
	}
	var named []string
	for _, u := range l.Unsplit {
		named = append(named, u.Entry)
	}
	if !slices.Equal(left, named) {
		return fmt.Sprintf("left are %v, told %v", left, named)
	}
	price, amount := new(big.Rat).Sub(cost, new(big.Rat).Mul(aq, sp)), new(big.Rat).Mul(new(big.Rat).Sub(aq, sq), sp)
	if off != d.Unsplit.Amount.Minor() || apart(price, d.Price.Amount).Cmp(cent) >= 0 || apart(amount, d.Quantity.Amount).Cmp(cent) > 0 {
		return fmt.Sprintf("price %s, quantity %s: %s", price.FloatString(4), amount.FloatString(4), told(l.Sums))
	}
	return ""
}

func apart(exact *big.Rat, m money.Money) *big.Rat {
	d := new(big.Rat).Sub(exact, m.Decimal().Rat())
	return d.Abs(d)
}

// The table of a reconciliation says what it is of, adds up level by level, and no cell of it runs in a spreadsheet.
func TestReconciliationAsATable(t *testing.T) {
	o, list := accepted(t)
	o.Lines = append([]quote.Line{}, o.Lines...)
	o.Lines[0].StepName = "=HYPERLINK(1)"
	r, err := reconcile.Reconcile(o, list, posted(t, good+"2026-03-08,invoice,S,1,1,@x,,,,7.00,USD,,laminate,\n"))
	if err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	of := reconcile.About{Job: "J-7", Boat: "=Teal (invented)", Quote: "2026-0001", Revision: 2, Option: "Replace", Accepted: "2026-03-04"}
	if err := r.WriteCSV(&b, of); err != nil {
		t.Fatal(err)
	}
	if why := runs(b.Bytes()); why != "" {
		t.Error(why)
	}
	if !strings.Contains(b.String(), `,"'=HYPERLINK(1)",`) {
		t.Error(b.String())
	}
	rows, err := csv.NewReader(&b).ReadAll() // refuses rows of another length
	if err != nil {
		t.Fatal(err)
	}
	for _, row := range rows[1:] {
		if d := cmp.Diff([]string{"J-7", "'=Teal (invented)", "2026-0001", "2", "Replace", "2026-03-04"}, row[:6]); d != "" {
			t.Error(d)
		}
	}
	total := rows[len(rows)-1]
	if cell(total, "level") != "total" || cell(total, "row") != "total" || cell(total, "spent") != "513.53" || cell(total, "effect") != "under" {
		t.Errorf("%v", total)
	}
	for _, name := range []string{"quoted", "price", "spent", "tax", "difference", "price_difference", "quantity_difference", "unsplit"} {
		levels, step := map[string]decimal.Decimal{}, decimal.Zero
		for _, row := range rows[1:] {
			x := dec(cell(row, name))
			levels[cell(row, "level")] = levels[cell(row, "level")].Add(x)
			switch cell(row, "row") {
			case "line", "no_line":
				step = step.Add(x)
			case "step":
				if !step.Equal(x) {
					t.Errorf("%s of step %s: %s and %s", name, cell(row, "step"), step, x)
				}
				step = decimal.Zero
			}
		}
		for _, level := range []string{"line", "step"} {
			if !levels[level].Equal(levels["total"]) || len(levels) != 3 {
				t.Errorf("%s adds to %v", name, levels)
			}
		}
	}
	words := map[string]bool{}
	for _, row := range rows[1:] {
		words[cell(row, "effect")] = true
	}
	if d := cmp.Diff(map[string]bool{"over": true, "under": true, "nothing spent": true}, words); d != "" {
		t.Error(d)
	}
}

// cell is a row's cell by the name of its column.
func cell(row []string, name string) string {
	return row[slices.Index(reconcile.ReconciliationColumns, name)]
}
