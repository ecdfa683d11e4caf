package hull

import (
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
)

// Crossing is a mark that the plank's thickness laid across the centreline, where the planks of both sides meet. It was
// put on the centreline instead.
type Crossing struct {
	Station int
	Side    boat.Side // Both where the sides were written as one
	Cell    string    // as offsets.Mark has it: "rabbet", "wl:1-0-0"
	Over    float64   // mm beyond the centreline
}

// acrossNear is how far across the centreline a mark may come, mm, before it is told of: what a fit to exact lengths leaves.
const acrossNear = 0.05

// Crossed are the marks that were laid across the centreline on the way to this face of the plank: from forward, port
// before starboard. There are none where this face was measured.
func (h *Hull) Crossed() []Crossing { return slices.Clone(h.crossed) }

func crossing(s *offsets.Station, side boat.Side, cell string, over float64) Crossing {
	if s.Mirrored {
		side = boat.Both
	}
	return Crossing{s.No, side, cell, over}
}
