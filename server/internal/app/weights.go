package app

import (
	"strings"

	"ribband/pricing/buy"
	"ribband/takeoff/bill"
	"ribband/takeoff/timber"
	"ribband/takeoff/timber/tally"

	"github.com/shopspring/decimal"
)

// airDry is the moisture content, per cent, that timber on order is weighed at: what specific gravities are stated at.
var airDry = decimal.NewFromInt(12)

// weighed is what the boards bought weigh, with a warning where one is more than a person lifts, and one of woods whose
// weight nobody entered. Boards in hand need no carrying in.
func weighed(list buy.List, woods timber.Catalogue) ([]tally.Load, []bill.Warning, error) {
	var lots []tally.Lot
	for _, t := range list.Timber {
		for _, b := range t.Boards {
			for _, o := range t.Offers {
				if o.ID == b.Offer && o.Rack == nil {
					lots = append(lots, tally.Lot{Species: t.Species, Count: b.Count, Thickness: o.ThicknessMM, Width: o.WidthMM, Widest: o.WidestMM, Length: o.LengthMM})
				}
			}
		}
	}
	loads, unknown, err := tally.Loads(lots, woods, airDry)
	if err != nil {
		return nil, nil, err
	}
	var out []bill.Warning
	for _, l := range loads {
		if l.Heavy != "" {
			out = append(out, bill.Warning{Code: "heavy_boards", Detail: plainName(l.Species) + ": " + l.Heavy, Fix: "Plan the unloading, or ask for shorter boards."})
		}
	}
	if len(unknown) > 0 {
		out = append(out, bill.Warning{Code: "weight_unknown", Detail: "What boards of " + plainName(strings.Join(unknown, ", ")) + " weigh is not known: the yard's species lack the specific gravity.", Fix: "Enter it with its source among the yard's species."})
	}
	return loads, out, nil
}

// densities are what the yard's woods weigh air-dried, kg in a cubic metre, as far as it is known.
func densities(woods timber.Catalogue) map[string]decimal.Decimal {
	out := map[string]decimal.Decimal{}
	for _, s := range woods.Species {
		if d, err := s.DensityAt(airDry); err == nil && d.Sign() > 0 {
			out[strings.ToLower(s.Code)] = d
		}
	}
	return out
}
