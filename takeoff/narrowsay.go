package takeoff

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

func mm(x float64) *float64 { x = quantity.Thousandth(x); return &x }

// kinds of measurement, one and several.
var kinds = map[string][2]string{OnePoint: {"point", "points"}, OneStation: {"station", "stations"}, OnePattern: {"pattern", "patterns"}}

// alsoUnknown says how many measurements are not weighed; nothing where all are.
func alsoUnknown(all []Unweighed) string {
	var said []string
	for _, kind := range []string{OnePoint, OneStation, OnePattern} {
		count := 0
		for _, u := range all {
			if u.Kind == kind {
				count += len(u.Of)
			}
		}
		switch count {
		case 0:
		case 1:
			said = append(said, "1 "+kinds[kind][0])
		default:
			said = append(said, fmt.Sprintf("%d %s", count, kinds[kind][1]))
		}
	}
	if said == nil {
		return ""
	}
	return " What others would bring is not known: " + strings.Join(said, ", ") + "."
}

// say rounds the volumes and puts the measurement into words.
func (n *Narrowing) say(b Basis) {
	for _, v := range []*Volumes{&n.Now, &n.After} {
		v.Low, v.High = litre(v.Low), litre(v.High)
	}
	places := n.places()
	cubic := func(m3 float64) string { return strconv.FormatFloat(m3, 'f', places, 64) }
	brings := fmt.Sprintf("the timber for the laminates, now known to lie between %s and %s m3, would then be known between %s and %s, a range narrower by %.0f %%.", cubic(n.Now.Low), cubic(n.Now.High), cubic(n.After.Low), cubic(n.After.High), percentOff(n.Now.width(), n.After.width()))
	switch n.Kind {
	case OnePoint:
		side := string(n.Side)
		if n.Side == boat.Both {
			side = "on both sides"
		}
		n.Detail = fmt.Sprintf("Measure one more point at station %d %s, about %s along the girth from the rabbet (height %s, half-breadth %s): %s",
			*n.StationNo, side, b.length(*n.AtMM), b.length(*n.HeightMM), b.length(*n.HalfBreadthMM), brings)
	case OneStation:
		n.Detail = fmt.Sprintf("Measure one more station %s aft of station 0, midway in the widest spacing, both sides: %s", b.length(*n.XMM), brings)
	case OnePattern:
		n.Detail = fmt.Sprintf("Take a pattern of frame %d %s, a dozen points from heel to head: %s", *n.FrameNo, n.Side, brings)
	default:
		n.Detail = fmt.Sprintf("No one further measurement of the shape narrows the timber for the laminates by as much as a hundredth of its range: it lies between %s and %s m3.", cubic(n.Now.Low), cubic(n.Now.High))
	}
	n.Detail += alsoUnknown(n.NotWeighed)
}

// percentOff is by how much of itself a range gets narrower, per cent.
func percentOff(now, after float64) float64 {
	if !(now > 0) {
		return 0
	}
	return 100 * (now - after) / now
}

// places are how many decimals of a cubic metre show what the measurement brings, as far as the volumes have them.
func (n *Narrowing) places() int {
	const least, most, digits = 4, 6, 10
	places := least
	for places < most && n.Now.width()-n.After.width() > 0 && (n.Now.width()-n.After.width())*math.Pow10(places) < digits {
		places++
	}
	return places
}

// litre rounds cubic metres to the millionth, for a range that is narrower than what is shown must not vanish.
func litre(m3 float64) float64 { return quantity.Snap(quantity.Thousandth(m3*1000) / 1000) }
