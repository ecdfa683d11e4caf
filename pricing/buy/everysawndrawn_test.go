package buy_test

import (
	"fmt"
	"math/big"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/step"

	"pgregory.net/rapid"
)

// drawnSaw is a tiny yard with a bandsaw.
type drawnSaw struct {
	all    []sticks
	boards []sawnBoard
	ids    []string
	sheet  sheet.Content
	hand   rack.Document
	rack   rack.Rack
	needs  []bill.Line
	saw    *bandsaw
	rules  buy.Rules
	height int64    // that goes under the guide, 0 for any
	metre  *big.Rat // hours
	rate   int64    // for one; 0 for none
}

func drawSaw(t *rapid.T) (d drawnSaw) {
	var rows []sheet.Row
	d.hand = rack.Document{Notation: notation.Millimetres, Currency: "EUR"}
	for i := range rapid.IntRange(1, 3).Draw(t, "boards") {
		b := sawnBoard{rapid.SampledFrom([]int64{26, 34, 52, 65, 80}).Draw(t, "thick"), rapid.SampledFrom([]int64{60, 100, 150}).Draw(t, "wide"), rapid.SampledFrom([]int64{2000, 3000, 4400}).Draw(t, "long"), 20,
			article{avail: rapid.SampledFrom([]int64{-1, -1, 1, 2, 3}).Draw(t, "avail")}}
		from, price := rapid.SampledFrom([]int64{0, 0, 0, 2, 3}).Draw(t, "from"), rapid.Int64Range(10, 60).Draw(t, "price")
		rows = append(rows, b.onSale(t, sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.long)}, from, price)...)
		d.boards, d.ids = append(d.boards, b), append(d.ids, fmt.Sprint("M", i))
	}
	if rapid.IntRange(0, 2).Draw(t, "rack") == 0 {
		b := sawnBoard{rapid.SampledFrom([]int64{34, 52, 80}).Draw(t, "held thick"), 100, rapid.SampledFrom([]int64{2000, 3000}).Draw(t, "held long"), 20,
			article{avail: rapid.Int64Range(1, 2).Draw(t, "held"), from: []int64{0}, price: []int64{rapid.SampledFrom([]int64{0, 0, 8}).Draw(t, "worth")}}}
		row := rack.Row{ID: "R1", Count: b.avail, Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: "100", Length: fmt.Sprint(b.long), Worth: fmt.Sprint(b.price[0])}
		if rapid.Bool().Draw(t, "marked") {
			row.Clear, b.long, b.trim = []rack.Stretch{{From: "100", To: fmt.Sprint(b.long - 50)}}, b.long-150, 0
		}
		d.boards, d.ids, d.hand.Boards = append(d.boards, b), append(d.ids, "R1"), append(d.hand.Boards, row)
	}
	var faults error
	if d.rules = sawn; rapid.IntRange(0, 5).Draw(t, "saw") > 0 {
		d.saw = &bandsaw{rapid.Int64Range(1, 3).Draw(t, "sawkerf"), rapid.Int64Range(0, 4).Draw(t, "planing")}
		d.height = rapid.SampledFrom([]int64{0, 0, 90}).Draw(t, "height")
		d.rules.Resaw = &sawing.Resaw{Kerf: dec(fmt.Sprint(d.saw.kerf)), Planing: dec(fmt.Sprint(d.saw.planing)), Height: dec(fmt.Sprint(d.height))}
	}
	d.metre = new(big.Rat)
	if rapid.Bool().Draw(t, "hours") {
		hundredths := rapid.SampledFrom([]int64{1, 4, 20}).Draw(t, "metre")
		d.metre = big.NewRat(hundredths, 100)
		d.rules.Labour.Steps.Steps = []step.Step{{Code: "resaw", Name: "Resaw", Trade: "yard_hand", Driver: step.Resawn, PerUnitH: dec(fmt.Sprintf("0.%02d", hundredths)), Factor: dec("1"), SetupH: dec("0")}}
		if d.rate = rapid.SampledFrom([]int64{0, 20, 37}).Draw(t, "rate"); d.rate > 0 {
			rows = append(rows, sheet.Row{Item: "yard_hand", Kind: "labour", Unit: "HUR", Price: fmt.Sprint(d.rate)})
		}
	}
	if d.sheet, faults = sheet.FromRows("EUR", notation.Millimetres, rows); faults != nil {
		t.Fatal(faults)
	}
	held, bad := rack.Read(d.hand)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	d.rack = held
	kinds := [][3]int64{{6, 40, 1}, {9, 40, 1}, {6, 28, 1}, {14, 60, 1}, {30, 45, 0}, {22, 30, 0}}
	first := rapid.IntRange(0, len(kinds)-1).Draw(t, "kind")
	for g := range rapid.IntRange(1, 2).Draw(t, "groups") {
		kind := kinds[(first+g*rapid.IntRange(1, len(kinds)-1).Draw(t, "other"))%len(kinds)]
		p := sticks{kind[0], kind[1], rapid.SampledFrom([]int64{900, 1400, 1900, 2800}).Draw(t, "length"), rapid.Int64Range(1, 40).Draw(t, "count"), kind[2] == 1}
		if !p.flat {
			p.count = (p.count + 3) / 4
		}
		n := laminates(10+g, boat.Port, int(p.count), int(p.count), fmt.Sprintf("%d.%03d", p.long/1000, p.long%1000))
		n.Pieces.Species, n.Pieces.Grade, n.Pieces.Thickness, n.Pieces.Siding, n.Pieces.Planing = "larch", "clear", dec(fmt.Sprint(p.thick)), dec(fmt.Sprint(p.side)), dec("2")
		if !p.flat {
			n.Driver = string(step.Sawn)
		}
		d.all, d.needs = append(d.all, p), append(d.needs, n)
	}
	return d
}
