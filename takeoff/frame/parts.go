package frame

import (
	"ribband/takeoff/finding"

	"github.com/shopspring/decimal"
)

// Part is a stretch of a frame that a new piece takes the place of, mm along the girth from the rabbet. A new piece that
// does not run to the heel or to the head is let in there by a scarf, whose taper lies beyond the part in the old wood.
type Part struct {
	From, To     decimal.Decimal
	Heel, Head   bool // the piece runs to the heel, to the head
	State        finding.State
	LowTip, High decimal.Decimal // the tips of the tapers in the old wood; the part's own ends where there is no scarf
}

// Scarfs of the part: none, one or two.
func (p Part) Scarfs() int {
	n := 2
	if p.Heel {
		n--
	}
	if p.Head {
		n--
	}
	return n
}

// PartsError: damage that cannot be scarfed out, with what would do.
type PartsError struct{ Code, Detail, Fix string }

func (e *PartsError) Error() string { return e.Detail }

// Parts are the pieces to let in so that everything broken or decayed comes out, where a taper is so long; say writes a
// place along the girth.
//
// A piece whose taper would pass the heel or the head runs to it instead; pieces whose tapers would meet are one. Tapers
// lie in wood that was found sound: anything else is a *PartsError, as is a frame without damage and one of which
// nothing old would be left.
func Parts(along []finding.Stretch, taper decimal.Decimal, say func(decimal.Decimal) string) ([]Part, error) {
	bad := finding.Bad(along)
	if len(bad) == 0 {
		if finding.Any(along, finding.Unknown) {
			return nil, &PartsError{"frame_not_sounded", "it was not sounded all along, so nobody knows what has to come out", "Sound it from heel to head and put what was found with the job's findings."}
		}
		return nil, &PartsError{"nothing_to_take_out", "it was found sound, so there is nothing to scarf out", "Leave the frame, or put what was found broken or decayed with the job's findings."}
	}
	girth := along[len(along)-1].To
	var out []Part
	for _, b := range bad {
		p := Part{From: b.From, To: b.To, State: b.State, LowTip: b.From.Sub(taper), High: b.To.Add(taper)}
		if p.LowTip.Sign() <= 0 {
			p.Heel, p.From, p.LowTip = true, decimal.Zero, decimal.Zero
		}
		if !p.High.LessThan(girth) {
			p.Head, p.To, p.High = true, girth, girth
		}
		if n := len(out); n > 0 && !out[n-1].High.LessThan(p.LowTip) {
			last := &out[n-1]
			last.To, last.High, last.Head = p.To, p.High, p.Head
			if p.State == finding.Decayed {
				last.State = finding.Decayed
			}
			continue
		}
		out = append(out, p)
	}
	if len(out) == 1 && out[0].Scarfs() == 0 {
		return nil, &PartsError{"nothing_old_left", "with a taper of " + say(taper) + " at each end nothing of the old frame would be left", "Replace the whole frame."}
	}
	for _, p := range out {
		for _, t := range [][2]decimal.Decimal{{p.LowTip, p.From}, {p.To, p.High}} {
			for _, s := range along {
				if s.State == finding.Unknown && s.From.LessThan(t[1]) && t[0].LessThan(s.To) {
					return nil, &PartsError{"scarf_into_unknown", "the taper of a scarf lies from " + say(t[0]) + " to " + say(t[1]) + " along its girth, where nobody has sounded it all",
						"Sound it there and put what was found with the job's findings; a scarf holds only in sound wood."}
				}
			}
		}
	}
	return out, nil
}
