// Package yard is what tests of buying buy for: needs, prices and boards in hand of invented yards, fixed and drawn.
package yard

import (
	"fmt"

	"ribband/pricing/internal/exact"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Laminates of 1/4 in oak, sided 1 1/2 in, planed 1/16 in.
func Laminates(frame int, side boat.Side, net, gross int, length string) bill.Line {
	m := boat.Member{Kind: boat.Frame, No: frame, Side: side}
	return bill.Line{
		ID: m.Path() + "/laminates_timber", Material: bill.Timber, Driver: "laminates", Member: m, Remedy: boat.ReplaceLaminated,
		Pieces: &bill.Pieces{Species: "white_oak", Grade: "select", Thickness: exact.Dec("6.35"), Siding: exact.Dec("38.1"), Planing: exact.Dec("1.5875"),
			Length: exact.Of(length, quantity.Metre)},
		Net: quantity.Count(int64(net)), Gross: quantity.Count(int64(gross)),
	}
}

// Goods are a need of what is bought in packs.
func Goods(frame int, m bill.Material, item, net, gross string, u quantity.Unit) bill.Line {
	at := boat.Member{Kind: boat.Frame, No: frame, Side: boat.Port}
	return bill.Line{ID: at.Path() + "/" + item, Material: m, Item: item, Driver: "glue_line_m2", Member: at, Remedy: boat.ReplaceLaminated,
		Net: exact.Of(net, u), Gross: exact.Of(gross, u)}
}

// Needs are frames of laminates with their glue, drawn.
func Needs(t *rapid.T) []bill.Line {
	var needs []bill.Line
	for i := range rapid.IntRange(0, 14).Draw(t, "frames") {
		net := rapid.IntRange(1, 14).Draw(t, "net")
		l := Laminates(i+1, boat.Port, net, net+rapid.IntRange(0, 3).Draw(t, "lost"), fmt.Sprintf("%d.%03d", rapid.IntRange(1, 2).Draw(t, "m"), rapid.IntRange(0, 999).Draw(t, "mm")))
		l.Pieces.Thickness = rapid.SampledFrom([]decimal.Decimal{exact.Dec("6.35"), exact.Dec("4.7625"), exact.Dec("7.9375")}).Draw(t, "thickness")
		l.Pieces.Siding = rapid.SampledFrom([]decimal.Decimal{exact.Dec("38.1"), exact.Dec("44.45")}).Draw(t, "siding")
		needs = append(needs, l)
		litres := rapid.IntRange(1, 300).Draw(t, "centilitres")
		needs = append(needs, Goods(i+1, bill.Glue, "epoxy", fmt.Sprintf("%d.%02d", litres/100, litres%100), fmt.Sprintf("%d.%02d", litres/100+1, litres%100), quantity.Litre))
	}
	return needs
}
