package takeoff

import (
	"fmt"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/floor"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// FloorShape is one floor as it is drawn, with what is done to it. Lengths are mm.
type FloorShape struct {
	Member boat.Member
	// Remedy is Leave where none is written down.
	Remedy boat.Remedy
	// Outline is nil where the sections do not tell it; Across and Height are then its size by hand, 0 without, for the reason in
	// Why.
	Outline        *floor.Outline
	Across, Height float64
	Why            string
	// Laminates of one glued up, 0 of others, each so Thick.
	Laminates    int64
	Thick        float64
	ThroatRadius float64
	Grain        floor.Grain
	Short        bool
}

// FloorShapes are the boat's floors as they are drawn. figures are those of the takeoff, by which laminates are told; without
// them none are. Errors are those of Run.
func (b Basis) FloorShapes(figures []derivation.Figure) ([]FloorShape, error) {
	stands, err := b.stands()
	if err != nil {
		return nil, err
	}
	at := map[boat.Member]stand{}
	for _, s := range stands {
		at[s.frame.Member()] = s
	}
	var out []FloorShape
	for _, f := range b.Floors {
		size, err := b.floorSize(f, at)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Member(), err)
		}
		one := FloorShape{Member: f.Member(), Remedy: b.Remedies[f.Member()].Remedy, Outline: size.drawn, Why: size.why, ThroatRadius: f.ThroatRadius.InexactFloat64(), Grain: size.grain}
		if one.Remedy == "" {
			one.Remedy = boat.Leave
		}
		if size.known {
			one.Across, one.Height = size.of.Across, size.of.Height
			one.Short = size.grained(b.Rules.Grain()).Short
		}
		value := func(name string) decimal.Decimal {
			i := slices.IndexFunc(figures, func(x derivation.Figure) bool { return x.ID == f.Member().Path()+name })
			if i < 0 {
				return decimal.Zero
			}
			d, _ := quantity.ParseDecimal(figures[i].Value)
			return d
		}
		one.Laminates, one.Thick = value("/laminates").IntPart(), value("/laminate_thickness").InexactFloat64()
		out = append(out, one)
	}
	return out, nil
}
