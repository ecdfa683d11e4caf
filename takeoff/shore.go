package takeoff

import (
	"fmt"
	"math"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

// shore asks for a frame to be shored to shape, where its target lies too far off what was found, and counts it.
func (b Basis) shore(s stand, remedy boat.Remedy, t *derivation.Table, out *bill.Bill) {
	if s.difference == nil {
		return
	}
	m, most := s.frame.Member(), s.difference.Greatest
	at, err := quantity.Decimal(most.AtMM, quantity.Millimetre)
	if err != nil {
		return // a place along a finite girth
	}
	d, figure := m.Path()+"/shape_difference", m.Path()+"/shored"
	t.Measured(d, "frame/shape_difference", math.Abs(most.OutboardMM), derivation.Given("x", "frames", s.frame.X, quantity.Millimetre),
		derivation.Given("s", "section", at, quantity.Millimetre))
	shored := t.Derive(figure, "frame/shored", []derivation.Input{t.Ref("d", d), derivation.Given("e", "rules/shape_tolerance", tolerance(b.Rules), quantity.Millimetre)})
	if shored.IsZero() {
		return
	}
	out.Measures = append(out.Measures, bill.Measure{Driver: string(step.Shored), Member: m, Remedy: remedy, Quantity: shored, Figure: figure})
	fix := "Support the hull first and have the surveyor agree to the shape; then shore or draw it there, and only then take the pattern."
	if _, counted := b.Steps.For(step.Shored, m.Kind, "", remedy); !counted {
		fix += " No step of the library is counted by " + string(step.Shored) + ": add one, so that its hours are in the quote."
	}
	out.Warnings = append(out.Warnings, bill.Warning{Code: "shore_to_shape", Member: &m, Fix: fix,
		Detail: fmt.Sprintf("Frame %d %s: shore to shape before the pattern is taken. The shape it is to have (%s) lies up to %.0f mm %s of what was found, %.0f mm along the girth from the rabbet.",
			m.No, m.Side, words[s.frame.Wanted()], math.Abs(most.OutboardMM), way(most), most.AtMM)})
}

// words for a target.
var words = map[frame.Target]string{frame.Faired: "faired", frame.FromLines: "from the lines", frame.BetterSideMirrored: "the better side mirrored", frame.AsFound: "as found"}

func way(o frame.Offset) string {
	if o.OutboardMM < 0 {
		return "inboard"
	}
	return "outboard"
}

// ofTheBoat are the warnings that concern what was measured rather than what is built: they are told whatever is done.
func (b Basis) ofTheBoat(stands []stand) []bill.Warning {
	out := append(ReadWorse(b.Hull), outOfLine(b.Fairness)...)
	out = append(out, Crossed(b.Hull)...)
	for _, w := range b.Patterns.ReadWorse() {
		out = append(out, bill.Warning{Code: "patterns_read_worse",
			Detail: fmt.Sprintf("The patterns written to %s were read worse than that: their points scatter by about %.1f times what this grain allows. Their girths and bends are reckoned with that error, so their ranges are wider.", grainSaid(w.In, w.Grain), w.Times),
			Fix:    fmt.Sprintf("Check the points on the boards; or declare a grain of about %s, which is what they are worth.", aboutSaid(w.In, w.Times*w.Grain))})
	}
	out = append(out, b.stray()...)
	out = append(out, b.missing(stands)...)
	return append(out, b.ofTapes(stands)...)
}

// stray is the warning of patterns whose frames are not entered.
func (b Basis) stray() []bill.Warning {
	have := map[boat.Member]bool{}
	for _, f := range b.Frames {
		have[f.Member()] = true
	}
	var names []string
	for _, m := range b.Patterns.Members() {
		if !have[m] {
			names = append(names, m.String())
		}
	}
	if names == nil {
		return nil
	}
	return []bill.Warning{{Code: "pattern_of_no_frame", Detail: "Patterns are given of frames that are not entered: " + strings.Join(names, ", ") + ".",
		Fix: "Enter these frames, or correct the numbers of the patterns."}}
}

// ofTapes are the warnings of what tapes cannot tell, each once for the boat.
func (b Basis) ofTapes(stands []stand) []bill.Warning {
	var taped, wide, off int
	for _, s := range stands {
		if s.frame.Tape != nil && s.found == nil {
			taped++
			if s.frame.Wanted() != frame.AsFound {
				off++
			}
		}
		if s.shape.Tape != nil && !s.shape.Tape.Bounded() {
			wide++
		}
		if s.found != nil && s.target == nil {
			off++
		}
	}
	var out []bill.Warning
	if taped > 0 {
		out = append(out, bill.Warning{Code: "taped_frames",
			Detail: fmt.Sprintf("Frames and sides known by a tape alone: %d. A tape tells girth and bilge; it tells no hollow, no bevels and no area of the hull.", taped),
			Fix:    "Measure stations along the boat for bevels and areas. Take a pattern of every frame that has a hollow."})
	}
	if wide > 0 {
		out = append(out, bill.Warning{Code: "pattern_stock_bound",
			Detail: fmt.Sprintf("Taped frames and sides: %d. Their pattern stock is a bound that suffices for any frame of their girth, and may be far more than is needed.", wide),
			Fix:    "Tape the straight distance from heel to head, and how far the faying face lies from it."})
	}
	if off > 0 {
		out = append(out, bill.Warning{Code: "difference_not_known",
			Detail: fmt.Sprintf("Frames and sides whose target or found shape was taped: %d. How far the two lie apart is not known, nor whether the hull is to be shored to shape there.", off),
			Fix:    "Take a pattern of these frames, on the better side too where that is mirrored."})
	}
	return out
}
