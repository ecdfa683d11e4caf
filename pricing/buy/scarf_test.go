package buy_test

import (
	"fmt"
	"math/big"
	"slices"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/ripping"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/cutting"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// mayScarf lets planks be scarfed twelve to one of 32 mm, each joint with a face of 385 mm across the plank.
func mayScarf(needs []bill.Line) []bill.Line {
	for i := range needs {
		p := needs[i].Pieces
		p.Scarf = &bill.Scarf{Taper: dec("384"), Least: dec("768"), Driver: string(step.Scarfs),
			Glue: bill.ScarfGlue{Line: strings.TrimSuffix(needs[i].ID, "timber") + "plank_glue", Item: "epoxy", Face: dec("385.333"), Width: p.Thickness, Spread: dec("0.35"), Source: "test",
				Losses: []bill.Loss{{Name: "pot", Fraction: dec("0.1"), Source: "test"}}}}
	}
	return needs
}

// scarfing takes hours a joint at rate, with setup; an unrelated step of frames stands beside it.
func scarfing(hours, setup string) buy.Rules {
	return buy.Rules{Kerf: dec("3"), EndTrim: dec("20"), Labour: buy.Labour{Steps: step.Library{Steps: []step.Step{
		{Code: "cut_scarfs", Trade: "shipwright", Driver: step.Scarfs, Where: step.Where{Kind: boat.Frame}, PerUnitH: dec("9"), Factor: dec("1")},
		{Code: "scarf_plank", Trade: "shipwright", Driver: step.Scarfs, Where: step.Where{Kind: boat.Strake}, PerUnitH: dec(hours), Factor: dec("1"), SetupH: dec(setup)},
	}}}}
}

// withHands is a sheet with a rate and glue beside its boards.
func withHands(t *testing.T, rate string, rows ...string) sheet.Content {
	t.Helper()
	c := larch(t, rows...)
	more := []sheet.Row{{Item: "epoxy", Kind: "glue", Unit: "LTR", Price: "1"}}
	if rate != "" {
		more = append(more, sheet.Row{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: rate})
	}
	added, err := sheet.FromRows("EUR", c.Notation, more)
	if err != nil {
		t.Fatal(err)
	}
	c.Items = append(c.Items, added.Items...)
	return c
}

// Hand-worked. Two planks of 4.5 m. A board of 5 m holds one whole and costs 60.00 by the piece price of 12 a metre; one of 3 m
// costs 15.00 and gives 2.96 m. Each plank of two parts takes 4500 + 385 mm; two boards of 3 m give 5920, so the two planks, 9770
// with their kerfs, take four of them, 60.00, and two joints. At an hour of 20.00 each that is 100.00 in place of 120.00; at one of
// 40.00 it is 140.00, and they are cut whole.
func TestAScarfIsWeighedInMoney(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "4500"}, [3]string{"150", "30", "4500"}))
	rows := []string{"40 160 5000 12", "40 160 3000 5"}
	l, err := buy.New(needs, withHands(t, "20", rows...), scarfing("1", "0"))
	if err != nil {
		t.Fatal(err)
	}
	g := l.Timber[0]
	if g.Cost.String() != "60.00" || g.Scarfed == nil || g.Scarfed.Count != 2 || g.Scarfed.Must != 0 || g.Scarfed.Labour.String() != "40.00" ||
		g.Scarfed.Saves == nil || g.Scarfed.Saves.String() != "60.00" || g.Bound.String() != "100.00" || !g.Proven || l.ScarfLabour.String() != "40.00" {
		t.Fatalf("%+v %+v %s %v", g.Cost, g.Scarfed, g.Bound, g.Proven)
	}
	// Glue of one joint: 385.333 x 150 / 10^6 = 0.058 m2, 0.02 L, and 0.03 with what the pot keeps.
	if len(l.Added) != 2 || l.Added[0].Net.String() != "0.02" || l.Added[0].Gross.String() != "0.03" || len(l.Shares) != 4 || l.Shares[2].Line != l.Added[0].ID {
		t.Errorf("%+v", l.Added)
	}
	table := derivation.Index(l.Figures)
	for _, f := range l.Figures {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
	}
	work, figures, err := l.Planned(needs, scarfing("1", "0").Labour)
	if err != nil || len(work) != 1 || work[0].Code != "scarf_plank" || work[0].Hours.String() != "2.00" || len(figures) != 1 || work[0].Figure != figures[0].ID {
		t.Errorf("%+v %v", work, err)
	}
	if l, err = buy.New(needs, withHands(t, "40", rows...), scarfing("1", "0")); err != nil || l.Timber[0].Scarfed != nil || l.Cost.String() != "120.00" || l.Bound.String() != "120.00" || l.Added != nil {
		t.Errorf("%v %+v", err, l)
	}
	// An hour of setting up, once, still pays at 20.00 less; two and a half do not.
	if l, err = buy.New(needs, withHands(t, "20", rows...), scarfing("1", "2.5")); err != nil || l.Timber[0].Scarfed != nil || l.Cost.String() != "120.00" ||
		l.Bound.String() != "100.00" || l.Timber[0].Proven || !strings.Contains(l.Timber[0].NotScarfed, "setting up") {
		t.Errorf("%v %+v", err, l.Timber)
	}
}

// A plank longer than any board is scarfed whatever it costs, also where the yard scarfs nothing else; without a rate the row of the
// sheet that is missing is named. What boards give whole is then cut whole, and the list says why.
func TestAScarfThatMustBe(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "4500"}, [3]string{"150", "30", "2900"}))
	rows := []string{"40 160 3000 5"}
	for _, only := range []bool{false, true} {
		needs[0].Pieces.Scarf.OnlyLonger, needs[1].Pieces.Scarf.OnlyLonger = only, only
		l, err := buy.New(needs, withHands(t, "100", rows...), scarfing("3", "0"))
		if err != nil {
			t.Fatal(err)
		}
		if s := l.Timber[0].Scarfed; s == nil || s.Count != 1 || s.Must != 1 || s.Saves != nil || s.Labour.String() != "300.00" || l.Timber[0].Bound.String() != "345.00" {
			t.Errorf("%+v", l.Timber[0])
		}
	}
	var missing *sheet.MissingPriceError
	if _, err := buy.New(needs, withHands(t, "", rows...), scarfing("3", "0")); !asMissing(err, &missing) || len(missing.Items) != 1 || missing.Items[0].Item != "shipwright" || !slices.Equal(missing.Items[0].For, []string{"scarf_plank"}) {
		t.Errorf("%v", err)
	}
	needs[1].Pieces.Scarf.OnlyLonger = false
	l, err := buy.New(needs[1:], withHands(t, "", "40 160 3000 15", "40 160 2000 1"), scarfing("3", "0"))
	if err != nil || l.Timber[0].Scarfed != nil || l.Cost.String() != "45.00" || !strings.Contains(l.Timber[0].NotScarfed, "no rate for shipwright") {
		t.Errorf("%v %+v", err, l.Timber)
	}
	l, err = buy.New(needs[1:], withHands(t, "20", "40 160 3000 15", "40 160 2000 1"), buy.Rules{EndTrim: dec("20")})
	if err != nil || l.Timber[0].Scarfed != nil || !strings.Contains(l.Timber[0].NotScarfed, "no step counted by scarfs has hours") {
		t.Errorf("%v %+v", err, l.Timber)
	}
	// Longer than two boards give, and a joint.
	long := mayScarf(planksOf(t, [3]string{"150", "30", "5600"}))
	if _, err := buy.New(long, withHands(t, "20", rows...), scarfing("1", "0")); !asMissing(err, &missing) {
		t.Errorf("%v", err)
	}
}

// What the bill counts already is replaced by what the plan makes: glue and hours stand once.
func TestThePlansScarfsTakeThePlaceOfTheBills(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "4500"}))
	needs[0].Pieces.Scarf.Counted = 1
	glue := bill.Line{ID: needs[0].Pieces.Scarf.Glue.Line, Material: bill.Glue, Item: "epoxy", Driver: "scarfs", Member: needs[0].Member, Remedy: boat.RenewPlank, Net: of("0.02", quantity.Litre), Gross: of("0.03", quantity.Litre)}
	needs = append([]bill.Line{glue}, needs...)
	r := scarfing("1", "2")
	three, err := quantity.Of(dec("3"), quantity.Hour)
	if err != nil {
		t.Fatal(err)
	}
	r.Labour.Work = []step.Work{{Step: r.Labour.Steps.Steps[1], Counted: quantity.Count(1), Hours: three, Figure: "step/scarf_plank/hours"}}
	for _, c := range []struct {
		boards        string
		hours, litres string
	}{{"40 160 3000 5", "3.00", "0.03"}, {"40 160 5000 5", "", "0.00"}} {
		l, err := buy.New(needs, withHands(t, "20", c.boards), r)
		if err != nil {
			t.Fatal(err)
		}
		work, _, err := l.Planned(needs, r.Labour)
		if err != nil || c.hours == "" && len(work) != 0 || c.hours != "" && (len(work) != 1 || work[0].Hours.String() != c.hours) {
			t.Errorf("%+v %v", work, err)
		}
		if len(l.Added) != 0 || l.Shares[0].Gross.String() != c.litres {
			t.Errorf("%+v", l.Shares)
		}
		if again, _, err := l.SharesAt(needs, withHands(t, "20", c.boards), withHands(t, "20", c.boards), r); err != nil || !slices.Equal(costs(again), costs(l.Shares)) {
			t.Errorf("%v %v", costs(again), err)
		}
	}
}

func costs(all []buy.Share) []string {
	out := make([]string, len(all))
	for i, s := range all {
		out[i] = s.Cost.String()
	}
	return out
}

func asMissing(err error, to **sheet.MissingPriceError) bool {
	m, ok := err.(*sheet.MissingPriceError) //nolint:errorlint // it is handed back as it is
	*to = m
	return ok
}

// all that a list comes to with its hours, minor units.
func allOf(t *rapid.T, l buy.List, needs []bill.Line, c sheet.Content, r buy.Rules) *big.Rat {
	work, _, err := l.Planned(needs, r.Labour)
	if err != nil {
		t.Fatal(err)
	}
	sum := big.NewRat(l.Cost.Minor(), 1)
	for _, w := range work {
		rate, _ := c.Labour(w.Trade)
		sum.Add(sum, new(big.Rat).Mul(w.Hours.Value().Shift(2).Rat(), rate.UnitPrice()))
	}
	return sum
}

// Permitting scarfs never raises what boards, goods and hours come to, and dearer hours never lower it; no floor is above its plan;
// every plank is cut once, whole or of two parts that lie over each other by the taper; the ripping list cuts the same; what boards
// cost is split to the cent.
func TestScarfsNeverRaiseTheCost(t *testing.T) {
	c := withHands(t, "20", "40 200 5000 10", "40 150 4000 6", "34 240 3000 4")
	rapid.Check(t, func(rt *rapid.T) {
		var sizes [][3]string
		for range rapid.IntRange(1, 4).Draw(rt, "planks") {
			sizes = append(sizes, [3]string{fmt.Sprint(rapid.IntRange(100, 140).Draw(rt, "width")), "28", fmt.Sprint(rapid.IntRange(1700, 4800).Draw(rt, "length"))})
		}
		plain := planksOf(t, sizes...)
		may := mayScarf(planksOf(t, sizes...))
		bare := buy.Rules{Kerf: dec("3"), EndTrim: dec("20")}
		last := allOf(rt, must(rt, plain, c, bare), plain, c, bare)
		for _, hours := range []string{"1.3", "0.37"} { // the fewer the cheaper, and none dearer than without
			r := scarfing(hours, "0.25")
			l := must(rt, may, c, r)
			all := allOf(rt, l, may, c, r)
			if all.Cmp(last) > 0 {
				rt.Fatalf("%s at %s hours a scarf, %s with dearer or none", all.FloatString(2), hours, last.FloatString(2))
			}
			heldOnce(rt, l, may, c, r)
			last = all
		}
	})
}

func must(t *rapid.T, needs []bill.Line, c sheet.Content, r buy.Rules) buy.List {
	l, err := buy.New(needs, c, r)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func heldOnce(t *rapid.T, l buy.List, needs []bill.Line, c sheet.Content, r buy.Rules) {
	sum, labour := int64(0), int64(0)
	for _, s := range l.Shares {
		sum += s.Cost.Minor()
	}
	if sum != l.Cost.Minor() {
		t.Fatalf("shares of %d, cost %d", sum, l.Cost.Minor())
	}
	held := map[string]decimal.Decimal{}
	for _, g := range l.Timber {
		if g.Scarfed != nil {
			labour += g.Scarfed.Labour.Minor()
			for _, j := range g.Scarfed.Joints {
				if !j.To.Sub(j.From).Equal(g.Scarfed.Taper) || j.Second.LessThan(dec("768")) || j.First.LessThan(dec("768")) {
					t.Fatalf("%+v", j)
				}
				held[j.Line] = held[j.Line].Sub(g.Scarfed.Taper)
			}
		}
		if own := g.Cost.Minor(); g.Scarfed == nil && g.Bound.Minor() > own || g.Scarfed != nil && g.Bound.Minor() > own+g.Scarfed.Labour.Minor() {
			t.Fatalf("a floor of %s over %s", g.Bound, g.Cost)
		}
		for _, cut := range g.Cuts {
			for _, p := range cut.Pieces {
				i := slices.IndexFunc(needs, func(n bill.Line) bool { return n.ID == p.Line })
				each := p.PartMM
				if each.IsZero() {
					each = needs[i].Pieces.Length.Value().Shift(3)
				}
				held[p.Line] = held[p.Line].Add(each.Mul(decimal.NewFromInt(p.Count * cut.Strips)))
			}
		}
		if g.Proof == cutting.Limit && g.Proven {
			t.Fatal("proven at a limit")
		}
	}
	if labour != 0 && l.ScarfLabour.Minor() != labour {
		t.Fatalf("labour %s, of the groups %d", l.ScarfLabour, labour)
	}
	for _, n := range needs {
		if want := n.Pieces.Length.Value().Shift(3); !held[n.ID].Equal(want) {
			t.Fatalf("%s mm cut of %s, %s wanted", held[n.ID], n.ID, want)
		}
	}
	if _, err := ripping.Lists(l, needs, r); err != nil {
		t.Fatal(err)
	}
}
