package yard

import (
	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/sawing"
)

// Shop: a kerf of 1/8 in, an inch off each end.
var Shop = buy.Rules{Kerf: exact.Dec("3.175"), EndTrim: exact.Dec("25.4")}

// Keeping is the shop with a word on what it keeps.
func Keeping() buy.Rules {
	r := Shop
	r.LeastShort = exact.Dec("600")
	return r
}

// Resawing is the shop with a bandsaw of 1/16 in kerf, whose layers lose 1/16 in to planing.
func Resawing() buy.Rules {
	r := Keeping()
	r.Resaw = &sawing.Resaw{Kerf: exact.Dec("1.5875"), Planing: exact.Dec("1.5875")}
	return r
}
