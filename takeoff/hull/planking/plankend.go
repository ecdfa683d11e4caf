package planking

import (
	"math"

	"ribband/takeoff/hull/butt"
)

// PlankEnd is what an end of a new plank stands on: a hood end, a frame, or a butt block between two frames.
type PlankEnd struct {
	X     float64 // mm
	Where string
	// Hood: it ends at the stem, the stern or the transom.
	Hood bool
	// New: the butt was not there. Shared: it is new with another new plank that ends there, and counted with that one.
	New, Shared bool
	// OnFrame: the butt stands on a frame, and has no block.
	OnFrame bool
	// Width of the plank there, over the surface, at the high end of its range, mm.
	Width float64
	// Fore and Aft are the frames that a butt stands between, Room how far apart they stand along the plank, mm; 0 where it does not
	// stand between two.
	Fore, Aft butt.Frame
	Room      float64
}

// ended says what the ends of all new planks of a side stand on.
func (p *Planking) ended(made []Renewed) {
	type place struct {
		strake int
		x      float64
	}
	fresh := map[place]bool{}
	for _, m := range made {
		if m.NewForward {
			fresh[place{m.Strake, m.X0}] = true
		}
		if m.NewAft {
			fresh[place{m.Strake, m.X1}] = true
		}
	}
	for i := range made {
		m := &made[i]
		s := p.Strakes[m.Strake]
		last := len(s.X) - 1
		for j, e := range []struct {
			x     float64
			at    int
			where string
			is    bool
		}{{m.X0, m.From, m.FromWhere, m.NewForward}, {m.X1, m.To, m.ToWhere, m.NewAft}} {
			end := PlankEnd{X: e.x, Where: e.where, Hood: e.at == 0 || e.at == last, New: e.is, Shared: !e.is && fresh[place{m.Strake, e.x}], Width: s.Width(e.at).High}
			if fore, aft, ok := p.bay(e.x); ok && !end.Hood {
				end.Fore, end.Aft, end.OnFrame = fore, aft, fore == aft
				if !end.OnFrame {
					end.Room = s.apart(s.Place(fore.X), s.Place(aft.X))
				}
			}
			m.Ends[j] = end
		}
	}
}

// apart is how far two places of a strake are from one another along its middle, laid flat, mm.
func (s Strake) apart(i, j int) float64 {
	a, b, c, d := s.Lower[i], s.Upper[i], s.Lower[j], s.Upper[j]
	return math.Hypot((c.Y+d.Y-a.Y-b.Y)/2, (c.Z+d.Z-a.Z-b.Z)/2)
}

func (p *Planking) bay(x float64) (fore, aft butt.Frame, ok bool) {
	if p.side == nil {
		return fore, aft, false
	}
	return p.side.Bay(x)
}
