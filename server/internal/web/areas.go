package web

import (
	"github.com/shopspring/decimal"

	"ribband/server/internal/app"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
)

// The foot is 0.3048 m exactly, by the international agreement of 1959.
var (
	squareFoot = decimal.RequireFromString("0.09290304")     // m²
	cubicFoot  = decimal.RequireFromString("0.028316846592") // m³
)

// feet reports whether areas and volumes are told in feet, as lengths are.
func (l lengths) feet() bool {
	return l.in == notation.FeetInchesEighths || l.in == notation.Inches
}

// AreaUnit and VolumeUnit are what areas and volumes are told in beside such lengths.
func (l lengths) AreaUnit() string {
	if l.feet() {
		return "ft²"
	}
	return "m²"
}

func (l lengths) VolumeUnit() string {
	if l.feet() {
		return "ft³"
	}
	return "m³"
}

// area is an area in m² with its range, in AreaUnit: to the hundredth of a m² or the tenth of a ft², which is as fine.
func (l lengths) area(r app.Ranged) span { return l.times(r, squareFoot, 2) }

// smallArea is area of a small piece, to one place more.
func (l lengths) smallArea(r app.Ranged) span { return l.times(r, squareFoot, 3) }

// volume is a volume in m³ with its range, in VolumeUnit: to the hundredth of a m³ or the tenth of a ft³.
func (l lengths) volume(r app.Ranged) span { return l.times(r, cubicFoot, 2) }

func (l lengths) times(r app.Ranged, foot decimal.Decimal, places int) span {
	if l.feet() {
		per := foot.InexactFloat64()
		return decimals(r.Value/per, r.Low/per, r.High/per, places-1)
	}
	return decimals(r.Value, r.Low, r.High, places)
}

// GlueArea is a glue line's area, m², in AreaUnit: a thousandth of a m² is a hundredth of a ft².
func (l lengths) GlueArea(area decimal.Decimal) string {
	if l.feet() {
		return grouped(area.DivRound(squareFoot, 2).StringFixed(2))
	}
	return grouped(area.StringFixed(3))
}

// Counted is a quantity with its unit; an area as GlueArea has it.
func (l lengths) Counted(q quantity.Quantity) string {
	if l.feet() && q.Unit() == quantity.SquareMetre {
		return l.GlueArea(q.Value()) + "\u00a0" + l.AreaUnit()
	}
	return counted(q)
}

// volumeRow is a volume, or the plane of the water, with the place of its centre.
type volumeRow struct {
	What   string
	Amount span
	Unit   string
	X, Z   *span // nil where there is none
}

// volumeRows are what each side encloses, and below a waterline what both enclose together with the plane of the water.
func volumeRows(m app.Measures, in lengths) (out []volumeRow) {
	put := func(what string, amount span, unit string, c *app.VolumeCentre) {
		row := volumeRow{What: what, Amount: amount, Unit: unit}
		if c != nil {
			x, z := in.of(app.Ranged{Value: c.XMM, Low: c.XLowMM, High: c.XHighMM}), in.of(app.Ranged{Value: c.ZMM, Low: c.ZLowMM, High: c.ZHighMM})
			row.X, row.Z = &x, &z
		}
		out = append(out, row)
	}
	for _, s := range m.Surface {
		put(capital(string(s.Side))+", to the centreline", in.volume(s.VolumeM3), in.VolumeUnit(), s.Centre)
	}
	w := m.Areas
	if w == nil {
		return out
	}
	put("Both sides, below "+unbroken(in.nearest(w.WaterlineMM)), in.volume(app.Ranged{Value: w.VolumeM3, Low: w.VolumeLowM3, High: w.VolumeHighM3}), in.VolumeUnit(), w.Centre)
	put("Plane of the water there", in.area(app.Ranged{Value: w.WaterplaneM2, Low: w.WaterplaneLowM2, High: w.WaterplaneHighM2}), in.AreaUnit(), nil)
	if w.WaterplaneXMM != nil {
		x := in.of(app.Ranged{Value: *w.WaterplaneXMM, Low: *w.WaterplaneXLowMM, High: *w.WaterplaneXHighMM})
		out[len(out)-1].X = &x
	}
	return out
}
