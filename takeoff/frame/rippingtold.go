package frame

import (
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/bend"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// teller says why thicknesses were chosen, frame by frame.
type teller struct {
	jobs   []Job
	needs  []bend.Need
	limits []limit
	plan   bend.Plan
	rules  rules.Rules
}

func (w teller) tell(out *Ripping) {
	out.Why = w.overTheBoat()
	for i, p := range w.plan.Pieces {
		f := RippedFrame{Member: w.jobs[i].Frame.Member(), Thickness: p.Thickness, Laminates: p.Laminates, Bends: p.Bends, Why: w.why(i)}
		if piece := w.jobs[i].Piece; piece != nil {
			f.Piece = piece.Name
		} else if of := w.jobs[i].Frame; of.MouldedHead.Sign() > 0 {
			f.AtHead = bend.Laminates(w.needs[i].Depth.Sub(of.Moulded).Add(of.MouldedHead), p.Thickness)
		}
		f.Thinner, f.Thicker = otherwise(p.Thinner), otherwise(p.Thicker)
		if p.Thicker != nil {
			f.Change = w.change(i)
		}
		out.Frames = append(out.Frames, f)
	}
}

func otherwise(i *bend.Instead) *RippedOtherwise {
	if i == nil {
		return nil
	}
	return &RippedOtherwise{i.Thickness, i.Laminates, i.Bends}
}

// overTheBoat says why these thicknesses and no others.
func (w teller) overTheBoat() string {
	var shown []string
	for _, t := range w.plan.Thicknesses {
		shown = append(shown, w.rules.Shown(t))
	}
	say := strings.Join(shown, " and ") + " for all frames"
	if out := w.leftOut(); len(out) == len(w.jobs) {
		return say + ", the thinnest that the yard rips, and too thick for every one of them."
	} else if len(out) > 0 {
		say = strings.Join(shown, " and ") + " for all frames but " + w.names(out) + ", for whose bends nothing that the yard rips is thin enough and which decide nothing"
	}
	switch held := w.held(w.plan.Pieces[w.first()].Thicker); {
	case len(w.plan.Thicknesses) > 1:
		return say + fmt.Sprintf(", as the rules allow up to %d different thicknesses: no other choice makes fewer laminates.", w.rules.DifferentLaminates)
	case len(w.rules.Rips) == 1:
		return say + ": the yard rips nothing else."
	case len(held) == 0:
		return say + ": the thickest that the yard rips, and their bends take it."
	default:
		return say + fmt.Sprintf(": one thickness is the fewest, and the next thicker, %s, is too thick for %s.",
			w.rules.Shown(w.plan.Pieces[w.first()].Thicker.Thickness), w.names(held))
	}
}

// first frame that is made of the thinnest chosen.
func (w teller) first() int {
	for i, p := range w.plan.Pieces {
		if p.Thickness.Equal(w.plan.Thicknesses[0]) {
			return i
		}
	}
	return 0
}

// leftOut are the frames for which nothing that the yard rips is thin enough.
func (w teller) leftOut() []int {
	var out []int
	for i, p := range w.plan.Pieces {
		if !p.Bends {
			out = append(out, i)
		}
	}
	return out
}

// held are the frames in the choice whose bends do not take a thickness.
func (w teller) held(thicker *bend.Instead) []int {
	var out []int
	if thicker == nil {
		return nil
	}
	for i, l := range w.limits {
		if w.plan.Pieces[i].Bends && !l.straight && l.thickest.LessThan(thicker.Thickness) {
			out = append(out, i)
		}
	}
	return out
}

// names of frames, the first few of them.
func (w teller) names(of []int) string {
	const most = 3
	var out []string
	for _, i := range of {
		if m := w.jobs[i].Frame.Member().String(); !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	more := len(out) - most
	say := strings.Join(out[:min(most, len(out))], ", ")
	if more > 0 {
		say += fmt.Sprintf(" and %d more", more)
	}
	return say
}

// why one frame has its thickness.
func (w teller) why(i int) string {
	p, l := w.plan.Pieces[i], w.limits[i]
	if !p.Bends {
		return fmt.Sprintf("nothing that the yard rips is thin enough: its bends take at most %s, and it decides nothing for the others", millimetres(l.thickest))
	}
	own := "it is straight and any thickness lies to it"
	if !l.straight {
		own = fmt.Sprintf("its tightest laminate bends to a radius of %s at the low end of its range, which takes up to %s", millimetres(l.radius), millimetres(l.thickest))
	}
	if p.Thicker != nil && p.Thicker.Bends {
		return own + "; the thickness is the boat's"
	}
	return own
}

// change says what it would take for a frame to be made of the next thicker.
func (w teller) change(i int) string {
	p := w.plan.Pieces[i]
	held := w.held(p.Thicker)
	shown := w.rules.Shown(p.Thicker.Thickness)
	if len(held) == 0 || len(held) == 1 && held[0] == i || !p.Thicker.Bends {
		if p.Thicker.Bends {
			return fmt.Sprintf("%s makes no fewer laminates.", shown)
		}
		return fmt.Sprintf("%s needs a radius of %s at the low end of the tightest laminate's range: measure more points round this bend, or choose a smaller moulded depth where it is a bilge.",
			shown, millimetres(p.Thicker.Thickness.Mul(w.limits[i].ratio)))
	}
	return fmt.Sprintf("%s would do here, and is too thick for %s: better measured bends there, or rules that allow one more different thickness.", shown, w.names(held))
}

// millimetres as people are told them, not more than there are.
func millimetres(d decimal.Decimal) string { return d.RoundDown(2).String() + " mm" }
