package frame

import (
	"fmt"

	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// Ripping is the thicknesses that laminates are ripped to over the boat, and why: the fewest different ones, then the
// fewest laminates in all. Lengths are exact millimetres.
type Ripping struct {
	Thicknesses []decimal.Decimal `json:"thicknesses_mm"`
	// Laminates in all, net.
	Laminates int64  `json:"laminates"`
	Why       string `json:"why"`
	// OneMore is what one more different thickness would bring; nil where it would bring nothing.
	OneMore *OneMore      `json:"one_more,omitempty"`
	Frames  []RippedFrame `json:"frames"`
}

// OneMore is the best choice with one more different thickness.
type OneMore struct {
	Thicknesses []decimal.Decimal `json:"thicknesses_mm"`
	Laminates   int64             `json:"laminates"`
}

// RippedFrame is what one frame, or one piece of it, is glued up of.
type RippedFrame struct {
	Member boat.Member `json:"member"`
	// Piece of it, empty where that is the whole frame.
	Piece     string          `json:"piece,omitempty"`
	Thickness decimal.Decimal `json:"thickness_mm"`
	Laminates int64           `json:"laminates"`
	// AtHead is how many of them reach the head of a frame that tapers; 0 of one that keeps its depth.
	AtHead int64 `json:"laminates_at_head,omitempty"`
	// Bends is false where nothing that the yard rips lies to the frame's bends: it decides nothing, and there is a fault.
	Bends bool   `json:"bends"`
	Why   string `json:"why"`
	// Thinner and Thicker are what the next thicknesses that the yard rips would have meant; absent where it rips none.
	Thinner *RippedOtherwise `json:"thinner,omitempty"`
	Thicker *RippedOtherwise `json:"thicker,omitempty"`
	// Change says what it would take for the next thicker; empty where the yard rips none.
	Change string `json:"change,omitempty"`
}

// RippedOtherwise is a frame glued up of another thickness. Bends is false where that does not lie to its bends.
type RippedOtherwise struct {
	Thickness decimal.Decimal `json:"thickness_mm"`
	Laminates int64           `json:"laminates"`
	Bends     bool            `json:"bends"`
}

// Need is what the job asks of the choice of thicknesses; errors are those of Rip.
func (j Job) Need(r rules.Rules) (bend.Need, error) {
	_, need, err := j.need(r)
	return need, err
}

func (j Job) need(r rules.Rules) (limit, bend.Need, error) {
	b := newBlank(j, r, derivation.NewTable())
	l, err := b.limit()
	if err == nil {
		err = b.t.Err()
	}
	if err != nil {
		return limit{}, bend.Need{}, fmt.Errorf("%s: %w", j.Frame.Member(), err)
	}
	return l, bend.Need{Depth: b.depth(), Thickest: l.thickest, Straight: l.straight}, nil
}

// Rip chooses what laminates are ripped to for all these frames together: of the rules' thicknesses as few different ones
// as can be, or as many as the rules allow, and among those the ones by which there are fewest laminates. The rules that
// come back are the same ones, ripping only what was chosen: by them every frame takes its part of the choice. A frame
// that nothing is thin enough for is left out of it, takes the thinnest chosen, and is at fault alone. Without frames nothing is chosen. A *timber.MissingValueError where
// neither rules nor species say how tight a wood may be bent.
func Rip(jobs []Job, r rules.Rules) (Ripping, rules.Rules, error) {
	out := Ripping{Thicknesses: []decimal.Decimal{}, Frames: []RippedFrame{}}
	if len(jobs) == 0 {
		return out, r, nil
	}
	needs, limits := make([]bend.Need, len(jobs)), make([]limit, len(jobs))
	for i, j := range jobs {
		var err error
		if limits[i], needs[i], err = j.need(r); err != nil {
			return Ripping{}, r, err
		}
	}
	rips := make([]decimal.Decimal, len(r.Rips))
	for i, rip := range r.Rips {
		rips[i] = rip.Thickness
	}
	plan, err := bend.ChooseAmong(needs, rips, r.DifferentLaminates)
	if err != nil {
		return Ripping{}, r, err
	}
	more, err := bend.ChooseAmong(needs, rips, r.DifferentLaminates+1)
	if err != nil {
		return Ripping{}, r, err
	}
	chosen := r
	chosen.Rips = nil
	for _, rip := range r.Rips {
		for _, t := range plan.Thicknesses {
			if rip.Thickness.Equal(t) {
				chosen.Rips = append(chosen.Rips, rip)
			}
		}
	}
	out.Thicknesses, out.Laminates = plan.Thicknesses, plan.Laminates
	if len(more.Thicknesses) > len(plan.Thicknesses) {
		out.OneMore = &OneMore{more.Thicknesses, more.Laminates}
	}
	teller{jobs, needs, limits, plan, r}.tell(&out)
	return out, chosen, nil
}
