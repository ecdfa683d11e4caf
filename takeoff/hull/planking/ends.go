package planking

import (
	"errors"
	"fmt"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/strake"
)

// Endings are the lines of a table that strakes are carried on to: the stem's forward, the transom's aft.
func Endings(t *offsets.Table) (out []area.Ending) {
	line := func(from []offsets.Profile) (out []area.Profile) {
		for _, p := range from {
			out = append(out, area.Profile{Z: p.Z.MM(), X: p.X.MM()})
		}
		return out
	}
	if len(t.Stem) > 0 {
		out = append(out, area.Ending{Line: line(t.Stem)})
	}
	if len(t.Transom) > 0 {
		out = append(out, area.Ending{Aft: true, Transom: true, Line: line(t.Transom)})
	}
	return out
}

// End is how the strakes of a side end forward or aft.
type End struct {
	Aft, Transom bool
	// Laid: the strakes run to the line. Because and Fix say otherwise why they end at the end station, and what would have
	// to be measured.
	Laid         bool
	Because, Fix string
	// HalfSiding that hood ends close on at a stem, mm: the half-breadth of the rabbet at the end station.
	HalfSiding float64
	Area       hull.Reading // of what lies between the last place at one x and the line
}

// Name of the line at the end.
func (e End) Name() string {
	if e.Aft {
		return "transom"
	}
	return "stem"
}

// on says where hood ends are.
func (e End) on() string {
	if e.Laid {
		return " on the " + e.Name()
	}
	return ""
}

func unmeasured(aft bool) End {
	if aft {
		return End{Aft: true, Transom: true, Because: "the line of the transom was not measured",
			Fix: "measure the transom's line, at two heights or more how far aft of station 0 the planking ends, or a station at the end of the planking"}
	}
	return End{Because: "the line of the stem was not measured", Fix: "measure the stem's line: at two heights or more, up to where the sheer ends, how far from station 0 the rabbet stands"}
}

// shapes lays out all strakes, to the lines that they can be carried on to, and sets p.Ends.
func (p *Planking) shapes(s strake.Surface, t Terms, xs []float64) ([]*strake.Shape, error) {
	p.Ends = [2]End{unmeasured(false), unmeasured(true)}
	lines := append([]area.Ending(nil), t.Ends...)
	for {
		shapes, err := strake.Lay(s, t.Edges, xs, lines...)
		var no *strake.HoodError
		if errors.As(err, &no) && len(lines) > 0 {
			// Without that line; the others stay.
			var kept []area.Ending
			for _, l := range lines {
				if l.Aft != no.Aft {
					kept = append(kept, l)
				}
			}
			if e := &p.Ends[index(no.Aft)]; len(kept) < len(lines) {
				e.Because, e.Fix, lines = no.Detail, no.Fix, kept
				continue
			}
		}
		if err != nil {
			return nil, err
		}
		p.laidTo(s, lines, shapes)
		return shapes, nil
	}
}

func index(aft bool) int {
	if aft {
		return 1
	}
	return 0
}

// laidTo sets the ends that strakes run to.
func (p *Planking) laidTo(s strake.Surface, lines []area.Ending, shapes []*strake.Shape) {
	forward, aft := s.Reach()
	for _, l := range lines {
		e := &p.Ends[index(l.Aft)]
		*e = End{Aft: l.Aft, Transom: l.Transom, Laid: true}
		x := forward
		if l.Aft {
			x = aft
		}
		var rabbet [1]hull.Jet
		if s.Along(x, []float64{0}, rabbet[:]); !l.Transom {
			e.HalfSiding = rabbet[0].Y
		}
	}
	for _, shape := range shapes {
		for _, h := range shape.Hoods {
			e := &p.Ends[index(h.Aft)]
			e.Area.MM += h.Area.MM
			e.Area.Low += h.Area.Low + h.Shared
			e.Area.High += h.Area.High - h.Shared
		}
	}
}

// BeyondError: a butt is given where its strake has no place cut at one x: at a transom that stands within the last station.
type BeyondError struct {
	Strake       int // from 0
	X            float64
	Forward, Aft float64
}

func (e *BeyondError) Error() string {
	return fmt.Sprintf("the butt at %.0f mm in strake %d stands at its hood end; butts stand between %.0f and %.0f mm", e.X, e.Strake+1, e.Forward, e.Aft)
}

// keepWithin leaves out the frames that strakes are not cut at, and refuses butts there: a transom that stands within the
// last station cuts planks off askew. The error is a *BeyondError.
func (p *Planking) keepWithin(shapes []*strake.Shape, butts map[int][]float64) error {
	i, j := shapes[0].Square()
	from, to := shapes[0].X[i], shapes[0].X[j]
	kept := p.Frames[:0]
	for _, f := range p.Frames {
		if f.X >= from && f.X <= to {
			kept = append(kept, f)
		}
	}
	p.Frames = kept
	var within []hull.Measure
	for _, m := range p.Stations {
		if m.X >= from && m.X <= to {
			within = append(within, m)
		}
	}
	p.Stations = within
	for k := range shapes {
		for _, x := range butts[k] {
			if !(x >= from && x <= to) {
				return &BeyondError{k, x, from, to}
			}
		}
	}
	return nil
}

// reaches of the strakes, from hood end to hood end.
func reaches(shapes []*strake.Shape) []butt.Reach {
	out := make([]butt.Reach, len(shapes))
	for k, s := range shapes {
		out[k] = butt.Reach{Forward: s.X[0], Aft: s.X[len(s.X)-1]}
	}
	return out
}
