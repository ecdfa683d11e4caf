package app

import (
	"strings"

	"ribband/pricing/buy"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// BoardName names a board of a buy list in a job's own notation, whatever the sheet and the rack are written in: species,
// grade, sizes and supplier of one for sale; what is chalked on one in hand, with the stretch of it that is meant.
func BoardName(t buy.Timber, offer string, in notation.Notation) string {
	for _, o := range t.Offers {
		switch {
		case o.ID != offer:
		case o.Rack != nil:
			return handName(in, *o.Rack)
		default:
			name := plainName(t.Species) + ", " + t.Grade + ", " + sizeIn(in, o)
			if o.Supplier != "" {
				name += ", " + o.Supplier
			}
			return name
		}
	}
	return offer
}

// handName is a board in hand, or a clear stretch of one.
func handName(in notation.Notation, on buy.OnRack) string {
	name := "in hand: " + on.ID
	if on.FromMM != nil && on.ToMM != nil {
		name += ", clear from " + inNotation(in, *on.FromMM) + " to " + inNotation(in, *on.ToMM)
	}
	return name
}

// sizeIn are the sizes of a board; quarters of an inch stay as the trade says them.
func sizeIn(in notation.Notation, o buy.Offer) string {
	thick := o.Thickness
	if !strings.HasSuffix(thick, "/4") || strings.Contains(thick, " ") {
		thick = inNotation(in, o.ThicknessMM)
	}
	size := thick + " thick, " + across(in, o) + ", " + inNotation(in, o.LengthMM) + " long"
	if o.Rack != nil {
		size = handName(in, *o.Rack) + "; " + size
	}
	return size
}

// across is how wide a board is; of one of random width also how wide it is reckoned.
func across(in notation.Notation, o buy.Offer) string {
	wide := inNotation(in, o.WidthMM) + " wide"
	if o.RandomWidth() {
		wide = inNotation(in, o.NarrowestMM) + " to " + inNotation(in, o.WidestMM) + " wide as they come, reckoned " + wide
	}
	return wide
}

// SizeIn is a rough size as a tape is read.
func SizeIn(in notation.Notation, thickness, width, length decimal.Decimal) string {
	return inNotation(in, thickness) + " thick, " + inNotation(in, width) + " wide, " + inNotation(in, length) + " long"
}

// inNotation is an exact length as a tape is read.
func inNotation(in notation.Notation, mm decimal.Decimal) string { return drawing.AsRead(in, inMM(mm)) }
