package buy_test

import (
	"errors"
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"
	"ribband/takeoff/step"

	"pgregory.net/rapid"
)

// Against every plan there is, of few planks of one thickness out of boards that a bandsaw takes layers off, sold from a number on, cheaper
// by the number or in few, and boards in hand, with hours at the saw and without: no floor is above the cheapest, and no list below it.
func TestPlanksInLayersAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		saw := &bandsaw{rapid.Int64Range(1, 4).Draw(rt, "sawkerf"), rapid.Int64Range(0, 6).Draw(rt, "planing")}
		r := sawn
		r.Resaw = &sawing.Resaw{Kerf: dec(fmt.Sprint(saw.kerf)), Planing: dec(fmt.Sprint(saw.planing))}
		rows := []sheet.Row{{Item: "yard_hand", Kind: "labour", Unit: "HUR", Price: "30"}}
		if hours := rapid.SampledFrom([]string{"", "0.01", "0.3"}).Draw(rt, "hours"); hours != "" {
			r.Labour.Steps.Steps = []step.Step{{Code: "resaw", Name: "Resaw", Trade: "yard_hand", Driver: step.Resawn, PerUnitH: dec(hours), Factor: dec("1"), SetupH: dec("0.2")}}
		}
		var boards []sideSold
		for i := range rapid.IntRange(1, 2).Draw(rt, "boards") {
			b := sideSold{rapid.SampledFrom([]int64{36, 66, 80, 104}).Draw(rt, "thick"), 10 * rapid.Int64Range(10, 34).Draw(rt, "wide"), 1000 * rapid.Int64Range(2, 4).Draw(rt, "long"),
				article{avail: rapid.SampledFrom([]int64{-1, -1, 1, 2}).Draw(rt, "avail")}}
			from, price := rapid.SampledFrom([]int64{0, 0, 2, 3}).Draw(rt, "from"), rapid.Int64Range(20, 90).Draw(rt, "price")
			rows = append(rows, b.onSale(rt, sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.long)}, from, price)...)
			boards = append(boards, b)
		}
		var hand []rack.Row
		if rapid.Bool().Draw(rt, "rack") {
			b := sideSold{rapid.SampledFrom([]int64{36, 80}).Draw(rt, "held thick"), 10 * rapid.Int64Range(10, 34).Draw(rt, "held wide"), 1000 * rapid.Int64Range(2, 3).Draw(rt, "held long"),
				article{avail: 1, from: []int64{0}, price: []int64{rapid.SampledFrom([]int64{0, 11}).Draw(rt, "worth")}}}
			hand, boards = []rack.Row{{ID: "R1", Count: 1, Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), Length: fmt.Sprint(b.long), Worth: fmt.Sprint(b.price[0])}}, append(boards, b)
		}
		c, err := sheet.FromRows("EUR", notation.Millimetres, rows)
		if err != nil {
			rt.Fatal(err)
		}
		held, bad := rack.Read(rack.Document{Notation: notation.Millimetres, Currency: "EUR", Boards: hand})
		if len(bad) > 0 {
			rt.Fatal(bad)
		}
		var planks [][3]int64
		var sizes [][3]string
		wide := int64(170)
		for range rapid.IntRange(2, 3).Draw(rt, "planks") {
			wide -= rapid.Int64Range(0, 50).Draw(rt, "narrower")
			p := [3]int64{wide, 30, 100 * rapid.Int64Range(8, 30).Draw(rt, "length")}
			planks, sizes = append(planks, p), append(sizes, [3]string{fmt.Sprint(p[0]), "30", fmt.Sprint(p[2])})
		}
		best := everyLaying(planks, boards, saw)
		needs := planksOf(t, sizes...)
		l, err := buy.WithRack(needs, c, held, r)
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			return // layers of several widths are in the floor and not sought
		}
		if err != nil {
			rt.Fatal(err)
		}
		heldOnce(rt, l, needs, c, r)
		if best < 0 || l.Bound.Minor() > best*100 || l.Cost.Minor() < best*100 {
			rt.Fatalf("%s, none below %s, and %d is the least of %+v, %v, saw %+v\n%s", l.Cost, l.Bound, best, boards, planks, saw, toldOf(l))
		}
	})
}
