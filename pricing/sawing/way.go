// Package sawing is how boards are sawn into strips: ripped as they come or resawn into layers first, on edge or lying flat.
// It knows sizes alone, exact in millimetres, and neither prices nor lengths.
package sawing

import (
	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// Way is how strips come out of a board: in Layers one above another, each ripped into Across strips side by side.
type Way struct {
	// Flat says that a strip's thickness lies in the board's; otherwise strips stand on edge, their width in the board's
	// thickness.
	Flat   bool  `json:"flat"`
	Layers int64 `json:"layers"`
	Across int64 `json:"across"`
	// LayerMM is how thick a layer is sawn; of one layer it is the board, and nothing is sawn. AcrossMM is how wide the strips
	// are ripped. Both have their planing on.
	LayerMM  decimal.Decimal `json:"layer_mm"`
	AcrossMM decimal.Decimal `json:"across_mm"`
}

// Strips that one board gives.
func (w Way) Strips() int64 { return w.Layers * w.Across }

// Used is what so many strips take of a board of one layer, across it.
func (w Way) Used(strips int64, kerf decimal.Decimal) decimal.Decimal {
	return w.AcrossMM.Add(kerf).Mul(decimal.NewFromInt(strips))
}

// Strip is how thick and how wide strips leave the saw; a plank or a floor, wider than its board is thick, lies as the board lay.
func (w Way) Strip() (thickness, width decimal.Decimal) {
	if w.Flat || w.AcrossMM.GreaterThan(w.LayerMM) {
		return w.LayerMM, w.AcrossMM
	}
	return w.AcrossMM, w.LayerMM
}

// mostPlaned is up to how many times a laminate's rough thickness a board may have that is planed down to it without being
// resawn: nobody planes most of a board away. Common practice, no source.
var mostPlaned = decimal.NewFromInt(2)

// ThickestPlaned is the thickest board that is planed down to a rough thickness without being resawn, mm.
func ThickestPlaned(rough decimal.Decimal) decimal.Decimal { return rough.Mul(mostPlaned) }

// Best is the way that gives most strips of a board: what a board costs is the same whichever way it is sawn, so that it is
// the cheapest in wood; hours at the saw are not weighed. Where two give as many, the one with fewer layers is taken, then
// the one on edge. Strips lie flat only where that is asked for: on solid pieces it would turn the grain.
func Best(thickness, width decimal.Decimal, p bill.Pieces, flat bool, kerf decimal.Decimal, saw *Resaw) Way {
	best := way(thickness, width, p.Siding, p.Thickness, p.Planing, kerf, saw)
	if !flat {
		return best
	}
	lying := way(thickness, width, p.Thickness, p.Siding, p.Planing, kerf, saw)
	lying.Flat = true
	if rough := p.Thickness.Add(p.Planing); lying.Layers == 1 && thickness.GreaterThan(ThickestPlaned(rough)) {
		return best
	}
	if lying.Strips() > best.Strips() || lying.Strips() == best.Strips() && lying.Layers < best.Layers {
		return lying
	}
	return best
}

// way of strips so tall in the board's thickness and so wide across it.
func way(thickness, width, tall, wide, planing, kerf decimal.Decimal, saw *Resaw) Way {
	w := Way{AcrossMM: wide.Add(planing), LayerMM: thickness}
	if !thickness.LessThan(tall.Add(planing)) {
		w.Layers = 1
	}
	if saw != nil {
		layer := tall.Add(saw.Planing)
		if n := fit(thickness, layer, saw.Kerf); n > 1 {
			w.Layers, w.LayerMM = n, layer
		}
	}
	if w.Layers > 0 {
		w.Across = fit(width, w.AcrossMM, kerf)
	}
	return w
}

// fit is how many parts with a kerf between them come out of a size: floor((size + kerf) / (part + kerf)).
func fit(size, part, kerf decimal.Decimal) int64 {
	n, _ := size.Add(kerf).QuoRem(part.Add(kerf), 0)
	return n.IntPart()
}
