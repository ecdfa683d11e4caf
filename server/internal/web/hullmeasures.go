package web

import (
	"math"
	"strconv"

	"ribband/server/internal/app"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// lengths writes lengths as the table of offsets does.
type lengths struct{ in notation.Notation }

// Name of the notation, and Example a length in it.
func (l lengths) Name() string    { return l.in.Name() }
func (l lengths) Example() string { return l.in.Example() }

// nearest, below and above round to what the notation is written to as a rule.
func (l lengths) nearest(mm float64) string { return l.write(mm, math.Round) }

func (l lengths) write(mm float64, round func(float64) float64) string {
	grain := l.in.DefaultGrain().MM()
	if grain == 0 {
		grain = 1
	}
	const slack = 1e-6 // of a grain: a whole number of them is not moved on by the last digit of a float
	n := round(mm / grain)
	if whole := math.Round(mm / grain); math.Abs(mm/grain-whole) < slack {
		n = whole
	}
	length, err := notation.FromMM(n * grain)
	if err != nil {
		return ""
	}
	return l.in.Format(length)
}

// span is a figure with the range that it lies in; a range that does not show is not written.
type span struct{ Value, Low, High string }

// Wide reports whether the range shows.
func (s span) Wide() bool { return s.Low != s.High }

// of is a length with its range, the ends rounded outwards.
func (l lengths) of(r app.Ranged) span {
	return span{l.nearest(r.Value), l.write(r.Low, math.Floor), l.write(r.High, math.Ceil)}
}

// decimals is a figure with its range, the ends rounded outwards.
func decimals(value, low, high float64, places int) span {
	scale := math.Pow10(places)
	const slack = 1e-6 // of the last place
	text := func(v float64) string {
		if math.Round(v*scale) == 0 {
			v = 0 // without a minus
		}
		return grouped(strconv.FormatFloat(v, 'f', places, 64))
	}
	return span{text(value), text(math.Floor(low*scale+slack) / scale), text(math.Ceil(high*scale-slack) / scale)}
}

// Measured is the boat's shape in figures.
type Measured struct {
	MeasuredTo string
	Grain      string
	Assumed    bool
	Waterline  string
	Areas      []areaRow
	Rules      []ruleOf
	Bays       []baysOf
	Stations   []stationRow
	Frames     []frameRow
	NotCounted []app.NotCounted
	Cautions   []string
	Warnings   []string
	Volumes    []volumeRow
	Fair       *app.Fairness
	Rows       []fairRow
}

// areaRow is planking of one side, or of both, counted one way.
type areaRow struct {
	What         string
	Whole        span
	Below, Above *span
}

// ruleOf is what the trade's rule makes of one side.
type ruleOf struct {
	Side                                boat.Side
	How                                 string // the rule, where it is not the one that the stations allow
	Area, Differs, Because              string
	Volume, VolumeDiffers, VolumeReason string
	Surface, Enclosed                   span
	Rule, VolumeRule                    string
}

// baysOf are the bays between the frames of one side.
type baysOf struct {
	Side boat.Side
	Rows []bay
}

type bay struct {
	From, To     int
	FromAt, ToAt string
	Area         span
}

// fairRow is one offset judged.
type fairRow struct {
	app.OffsetJudged
	Off string
}

func measuredOf(m app.Measures, in lengths) Measured {
	out := Measured{MeasuredTo: m.Measured, Grain: m.Grain, Assumed: m.GrainAssumed, NotCounted: m.NotCounted, Fair: m.Fairness}
	for _, w := range m.Warnings {
		out.Warnings = append(out.Warnings, w.Detail+" What to do: "+w.Fix)
	}
	if m.Areas != nil {
		out.Waterline, out.Cautions = in.nearest(m.Areas.WaterlineMM), m.Areas.Cautions
	}
	out.Areas, out.Volumes = areaRows(m, in), volumeRows(m, in)
	for _, f := range m.Frames {
		out.Frames = append(out.Frames, frameRowOf(f, in))
	}
	for _, s := range m.Stations {
		out.Stations = append(out.Stations, stationRowOf(s, in))
	}
	percent := func(p float64) string {
		switch text := grouped(strconv.FormatFloat(p, 'f', 2, 64)); {
		case text == minus+"0.00":
			return "0.00"
		case p > 0 && text != "0.00":
			return "+" + text
		default:
			return text
		}
	}
	for _, s := range m.Surface {
		sums := func(how string, a app.AreaByRule, v app.VolumeByRule) {
			out.Rules = append(out.Rules, ruleOf{Side: s.Side, How: how, Surface: in.area(s.AreaM2), Enclosed: in.volume(s.VolumeM3), Rule: a.Rule, VolumeRule: v.Rule,
				Area: in.area(app.Ranged{Value: a.AreaM2}).Value, Differs: percent(a.DiffersPct), Because: a.Because,
				Volume: in.volume(app.Ranged{Value: v.VolumeM3}).Value, VolumeDiffers: percent(v.DiffersPct), VolumeReason: v.Because})
		}
		sums("", s.ByRule, s.VolumeByRule)
		if s.ByTrapezoids.Rule != s.ByRule.Rule {
			sums(" by trapezoids", s.ByTrapezoids, s.VolumeByTrapezoids)
		}
	}
	for _, z := range m.Zones {
		if n := len(out.Bays); n == 0 || out.Bays[n-1].Side != z.Side {
			out.Bays = append(out.Bays, baysOf{Side: z.Side})
		}
		b := &out.Bays[len(out.Bays)-1]
		b.Rows = append(b.Rows, bay{z.FromFrame, z.ToFrame, in.nearest(z.FromXMM), in.nearest(z.ToXMM), in.smallArea(app.Ranged{Value: z.AreaM2, Low: z.AreaLowM2, High: z.AreaHighM2})})
	}
	if m.Fairness != nil {
		for _, o := range m.Fairness.Worst {
			out.Rows = append(out.Rows, fairRow{o, in.nearest(math.Abs(o.OffMM)) + " " + string(o.Way)})
		}
	}
	return out
}

// areaRows are the sides one by one, each as far as it was measured, and both together: their ranges added, which is the
// widest that both may be out by.
func areaRows(m app.Measures, in lengths) []areaRow {
	var out []areaRow
	var whole, below, above app.Ranged
	add := func(to *app.Ranged, r app.Ranged) {
		to.Value, to.Low, to.High = to.Value+r.Value, to.Low+r.Low, to.High+r.High
	}
	for i, s := range m.Surface {
		row := areaRow{What: capital(string(s.Side)), Whole: in.area(s.AreaM2)}
		add(&whole, s.AreaM2)
		if m.Areas != nil {
			w := m.Areas.Sides[i]
			low, high := app.Ranged{Value: w.BelowM2, Low: w.BelowLowM2, High: w.BelowHighM2}, app.Ranged{Value: w.AboveM2, Low: w.AboveLowM2, High: w.AboveHighM2}
			add(&below, low)
			add(&above, high)
			row.cut(low, high, in)
		}
		out = append(out, row)
		if s.OutsideAreaM2 != nil {
			out = append(out, areaRow{What: capital(string(s.Side)) + ", outside of plank", Whole: in.area(*s.OutsideAreaM2)})
		}
		if s.WithEnds != nil {
			row := areaRow{What: capital(string(s.Side)) + ", with her ends", Whole: in.area(s.WithEnds.AreaM2)}
			if m.Areas != nil && m.Areas.Sides[i].WithEnds != nil {
				row.cut(m.Areas.Sides[i].WithEnds.BelowM2, m.Areas.Sides[i].WithEnds.AboveM2, in)
			}
			out = append(out, row)
		}
	}
	if len(m.Surface) > 1 {
		row := areaRow{What: "Both sides", Whole: in.area(whole)}
		if m.Areas != nil {
			row.cut(below, above, in)
		}
		out = append(out, row)
	}
	return out
}

func (r *areaRow) cut(below, above app.Ranged, in lengths) {
	b, a := in.area(below), in.area(above)
	r.Below, r.Above = &b, &a
}
