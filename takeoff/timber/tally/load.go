package tally

import (
	"errors"
	"fmt"

	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Lot is Count boards alike of a wood, rough sizes in exact millimetres.
type Lot struct {
	Species                  string
	Count                    int64
	Thickness, Width, Length decimal.Decimal
	// Widest that one of them may come; zero where all are as wide.
	Widest decimal.Decimal
}

// Load is what boards of one wood weigh together, and the heaviest of them.
type Load struct {
	Species     string          `json:"species"`
	Boards      int64           `json:"boards"`
	M3          decimal.Decimal `json:"m3"`
	MoisturePct decimal.Decimal `json:"moisture_pct"`
	DensityKgM3 decimal.Decimal `json:"density_kg_m3"`
	Kg          decimal.Decimal `json:"kg"`
	Lb          decimal.Decimal `json:"lb"`
	HeaviestKg  decimal.Decimal `json:"heaviest_board_kg"`
	HeaviestLb  decimal.Decimal `json:"heaviest_board_lb"`
	// Heavy is there where the heaviest board is more than one person lifts.
	Heavy  string `json:"heavy,omitempty"`
	Source string `json:"source"`
}

// Loads weighs lots by wood at a moisture content, per cent, in the order in which the woods first come. Woods whose weight the
// catalogue does not know are left out, and named in unknown.
func Loads(lots []Lot, woods timber.Catalogue, moisture decimal.Decimal) (loads []Load, unknown []string, err error) {
	type sum struct{ volume, most decimal.Decimal }
	sums, at := []sum{}, map[string]int{}
	for _, x := range lots {
		i, ok := at[x.Species]
		if !ok {
			i = len(loads)
			at[x.Species], loads, sums = i, append(loads, Load{Species: x.Species, MoisturePct: moisture}), append(sums, sum{})
		}
		m3 := x.Thickness.Mul(x.Width).Mul(x.Length).Shift(-9)
		loads[i].Boards += x.Count
		sums[i].volume = sums[i].volume.Add(m3.Mul(decimal.NewFromInt(x.Count)))
		sums[i].most = decimal.Max(sums[i].most, m3, x.Thickness.Mul(x.Widest).Mul(x.Length).Shift(-9))
	}
	kept := []Load{}
	for i, l := range loads {
		wood, ok := woods.Find(l.Species)
		density, err := wood.DensityAt(moisture)
		var missing *timber.MissingValueError
		if !ok || errors.As(err, &missing) {
			unknown = append(unknown, l.Species)
			continue
		}
		if err != nil {
			return nil, nil, fmt.Errorf("%s: %w", l.Species, err)
		}
		kg, heaviest := sums[i].volume.Mul(density), sums[i].most.Mul(density)
		l.M3, l.DensityKgM3 = sums[i].volume.Round(volumePlaces), density.Round(weightPlaces)
		l.Kg, l.Lb = kg.Round(weightPlaces), kg.DivRound(poundKg, weightPlaces)
		l.HeaviestKg, l.HeaviestLb = heaviest.Round(weightPlaces), heaviest.DivRound(poundKg, weightPlaces)
		l.Source = wood.GravityAt12.Source + " (" + plainMark(wood.GravityAt12.Mark) + ")"
		if heaviest.GreaterThan(OneHandKg) {
			l.Heavy = fmt.Sprintf("The heaviest board weighs %s kg (%s lb), more than one person should lift even where all is at hand (%s): more hands, rollers or a hoist. Fresh-sawn timber is heavier still.", l.HeaviestKg, l.HeaviestLb, oneHandSource)
		}
		kept = append(kept, l)
	}
	return kept, unknown, nil
}
