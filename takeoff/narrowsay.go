package takeoff

import (
	"fmt"

	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"
)

func mm(x float64) *float64 { x = quantity.Thousandth(x); return &x }

// say rounds the volumes and puts the measurement into words.
func (n *Narrowing) say() {
	for _, v := range []*Volumes{&n.Now, &n.After} {
		v.Low, v.High = litre(v.Low), litre(v.High)
	}
	brings := fmt.Sprintf("the timber for the laminates, now known to lie between %.4f and %.4f m3, would then be known between %.4f and %.4f.", n.Now.Low, n.Now.High, n.After.Low, n.After.High)
	switch n.Kind {
	case OnePoint:
		side := string(n.Side)
		if n.Side == boat.Both {
			side = "on both sides"
		}
		n.Detail = fmt.Sprintf("Measure one more point at station %d %s, about %.0f mm along the girth from the rabbet (height %.0f, half-breadth %.0f mm): %s",
			*n.StationNo, side, *n.AtMM, *n.HeightMM, *n.HalfBreadthMM, brings)
	case OneStation:
		n.Detail = fmt.Sprintf("Measure one more station %.0f mm aft of station 0, midway in the widest spacing, both sides: %s", *n.XMM, brings)
	case OnePattern:
		n.Detail = fmt.Sprintf("Take a pattern of frame %d %s, a dozen points from heel to head: %s", *n.FrameNo, n.Side, brings)
	default:
		n.Detail = fmt.Sprintf("No one further measurement of the shape narrows the timber for the laminates by as much as a hundredth of its range: it lies between %.4f and %.4f m3.", n.Now.Low, n.Now.High)
	}
}

// litre rounds cubic metres to the millionth, for a range that is narrower than what is shown must not vanish.
func litre(m3 float64) float64 { return quantity.Snap(quantity.Thousandth(m3*1000) / 1000) }
