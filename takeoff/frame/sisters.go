package frame

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"

	"github.com/shopspring/decimal"
)

// Sisters are the stretches along which a frame is doubled so that each break is reached past by so much, or up to the
// heel or the head; say writes a place along the girth. Those that would meet are one.
//
// A sister is never laid over decay, nor over wood that nobody sounded: both are a *PartsError, as is a frame without a
// break. "Never for decay": US Army, TB 55-1900-201-45/1, undated, on repairs to wooden boats, as shown at
// boatmanuals.tpub.com.
func Sisters(along []finding.Stretch, past decimal.Decimal, say func(decimal.Decimal) string) ([]Part, error) {
	if finding.Any(along, finding.Decayed) {
		return nil, &PartsError{"sister_over_decay", "it was found decayed, and a sister is never laid beside decay: it would rot with it", "Scarf in a part or replace the frame."}
	}
	girth := along[len(along)-1].To
	var out []Part
	for _, s := range finding.Bad(along) {
		p := Part{From: s.From.Sub(past), To: s.To.Add(past), State: s.State}
		if !p.From.IsPositive() {
			p.From = decimal.Zero
		}
		if p.To.GreaterThan(girth) {
			p.To = girth
		}
		if n := len(out); n > 0 && !out[n-1].To.LessThan(p.From) {
			out[n-1].To = p.To
			continue
		}
		out = append(out, p)
	}
	for _, p := range out {
		for _, s := range along {
			if s.State == finding.Unknown && s.From.LessThan(p.To) && p.From.LessThan(s.To) {
				return nil, &PartsError{"sister_over_unknown", "the sister would lie from " + say(p.From) + " to " + say(p.To) + " along its girth, where nobody has sounded it all",
					"Sound it there and put what was found with the job's findings; a sister is never laid beside decay."}
			}
		}
	}
	if out == nil && finding.Any(along, finding.Unknown) {
		return nil, &PartsError{"frame_not_sounded", "it was not sounded all along, so nobody knows what has to be doubled", "Sound it from heel to head and put what was found with the job's findings."}
	}
	if out == nil {
		return nil, &PartsError{"nothing_to_double", "it was found sound, so there is no break to double", "Leave the frame, or put what was found broken with the job's findings."}
	}
	return out, nil
}

// TooMany are the frames of runs of neighbours on a side, longer than most, that are all doubled.
func TooMany(choices map[boat.Member]Choice, most int) map[boat.Member]int {
	out := map[boat.Member]int{}
	for m, c := range choices {
		if c.Remedy != boat.Sister {
			continue
		}
		run := 1
		for _, way := range []int{-1, 1} {
			for no := m.No + way; choices[boat.Member{Kind: m.Kind, No: no, Side: m.Side}].Remedy == boat.Sister; no += way {
				run++
			}
		}
		if run > most {
			out[m] = run
		}
	}
	return out
}
