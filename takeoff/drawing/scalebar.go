package drawing

import (
	"math"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/notation"
)

// unit of a scale bar.
type unit struct {
	mm   float64
	name string
}

// barUnit is what a scale bar counts for a table in that notation.
func barUnit(n notation.Notation) unit {
	if n == notation.FeetInchesEighths || n == notation.Inches {
		return unit{304.8, "ft"}
	}
	return unit{1000, "m"}
}

// barLength is the greatest of 1, 2, 5 times a power of ten units that is at most so many millimetres, with the
// number of its parts.
func barLength(u unit, longest float64) (units float64, parts int) {
	if !(longest > 0) || math.IsInf(longest, 0) {
		return 0, 0
	}
	power := math.Pow(10, math.Floor(math.Log10(longest/u.mm)))
	for _, c := range []struct {
		times float64
		parts int
	}{{5, 5}, {2, 4}, {1, 4}} {
		if c.times*power*u.mm <= longest {
			return c.times * power, c.parts
		}
	}
	return power, 4
}

// scaleBar draws the bar with its left upper corner at a place, at most so wide, and gives the Y below it.
func scaleBar(list *draw.List, k look, n notation.Notation, at draw.Point, widest float64) float64 {
	u := barUnit(n)
	units, parts := barLength(u, widest*list.ScaleMM)
	if parts == 0 {
		return at.Y
	}
	y := list.Layer("scale bar")
	whole := units * u.mm / list.ScaleMM
	const height = 5
	top := at.Y + k.small + 3
	for i := range parts {
		from := at.X + whole*float64(i)/float64(parts)
		part := draw.Path{
			Points: draw.Box(draw.Point{X: from, Y: top}, draw.Point{X: from + whole/float64(parts), Y: top + height}),
			Closed: true, Pen: draw.Pen{Width: 0.8, Colour: draw.Ink},
		}
		if i%2 == 0 {
			part.Fill = draw.Ink
		}
		y.Add(part)
	}
	figure := func(v float64) string { return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'f', -1, 64) }
	text := func(x float64, a draw.Anchor, s string) {
		y.Add(draw.Text{At: draw.Point{X: x, Y: at.Y + k.small*0.8}, Anchor: a, Size: k.small, String: s})
	}
	text(at.X, draw.Start, "0")
	text(at.X+whole/2, draw.Middle, figure(units/2))
	text(at.X+whole, draw.Middle, figure(units)+" "+u.name)
	return top + height
}
