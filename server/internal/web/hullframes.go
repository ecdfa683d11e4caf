package web

import (
	"strconv"

	"ribband/server/internal/app"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
)

// frameRow is one side of one frame: what it measures, what it asks of timber, and how well it is known.
type frameRow struct {
	What, At, RestsOn string
	Girth             span
	Radius, Tightest  bendCell
	// Bevel is the greatest, in degrees from square; empty where it is not known.
	Bevel span
	Well  string // yes, no, or a dash where it cannot be told
	More  *morePoint
}

// bendCell is a radius with its range: None where there is no bend to speak of, Deep where no piece so deep follows it, Open
// where the range has no high end, and Least alone where only the low end stands.
type bendCell struct {
	None, Deep, Open, Least bool
	span
	At     string // along the girth, empty where it is not known
	Hollow bool
}

// radiusOf is a radius as the measures give it.
func (l lengths) radiusOf(value, low, high, at *float64, bend string) bendCell {
	if low == nil {
		return bendCell{None: true}
	}
	out := bendCell{Open: high == nil, Least: value == nil, Hollow: bend == "hollow"}
	r := app.Ranged{Value: *low, Low: *low, High: *low}
	if value != nil {
		r.Value, r.High = *value, *value
	}
	if high != nil {
		r.High = *high
	}
	if out.span = l.of(r); at != nil {
		out.At = l.nearest(*at)
	}
	return out
}

var restsOn = map[boat.RestsOn]string{boat.OnStations: "the lines", boat.OnPattern: "a pattern", boat.OnTape: "a tape"}

func frameRowOf(m frame.Measures, in lengths) frameRow {
	row := frameRow{What: "Frame " + strconv.Itoa(m.Member.No) + " " + string(m.Member.Side), At: in.nearest(m.XMM), RestsOn: restsOn[m.RestsOn],
		Girth:    in.of(app.Ranged{Value: m.GirthMM, Low: m.GirthLowMM, High: m.GirthHighMM}),
		Radius:   in.radiusOf(m.LeastRadiusMM, m.LeastRadiusLowMM, m.LeastRadiusHighMM, m.LeastAtMM, m.Bend),
		Tightest: in.radiusOf(m.TightestRadiusMM, m.TightestRadiusLowMM, m.TightestRadiusHighMM, m.TightestAtMM, m.TightestBend)}
	if m.GreatestBevelDeg != nil {
		r := app.Ranged{Value: *m.GreatestBevelDeg, Low: *m.GreatestBevelDeg, High: *m.GreatestBevelDeg}
		if m.GreatestBevelLowDeg != nil && m.GreatestBevelHighDeg != nil {
			r.Low, r.High = *m.GreatestBevelLowDeg, *m.GreatestBevelHighDeg
		}
		row.Bevel = decimals(r.Value, r.Low, r.High, 1)
	}
	row.Tightest.Deep = row.Tightest.None && !row.Radius.None
	switch {
	case m.Doubtful, len(m.NotShownAtMM) > 0, m.Sharp != nil && !*m.Sharp:
		row.Well = "no"
	case m.Straight, m.Sharp == nil:
		row.Well = "–"
	default:
		row.Well = "yes"
	}
	if p := m.OneMorePoint; p != nil {
		row.More = &morePoint{in.nearest(p.AtMM), in.nearest(p.HalfBreadthMM), in.nearest(p.HeightMM), atSection(p, m.RestsOn)}
	}
	return row
}

// atSection names where one more point of a frame is to be taken.
func atSection(p *frame.OneMorePoint, rests boat.RestsOn) string {
	if p.StationNo != nil {
		return "station " + strconv.Itoa(*p.StationNo) + " " + string(p.Side)
	}
	if rests == boat.OnPattern {
		return "its pattern"
	}
	return "the pattern of the " + string(p.Side) + " side"
}
