package takeoff

import (
	"fmt"
	"math"
	"slices"
	"strings"

	bending "ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
	"ribband/takeoff/spare"

	"github.com/shopspring/decimal"
)

// bent is a blank to be glued up, with what it asks of the choice of thicknesses where its bends are as tight as they may be,
// and where they are as easy.
type bent struct {
	job  frame.Job
	ends [2]bending.Need
	// weighed by thickness, as it was asked for.
	weighed map[string]weighed
}

// weighed are the laminates of a blank of one thickness at either end of its girth's range, those of less timber first, with
// what cannot be built at the tight end of its bends'.
type weighed struct {
	ends   [2][]bill.Line
	faults []bill.Fault
}

// easiest bounds the multiple of a radius whose range has no high end: nothing bends by then.
const easiest = 1000

func (n *narrower) bend(j frame.Job) (*bent, error) {
	out := &bent{job: j, weighed: map[string]weighed{}}
	var err error
	if out.ends[0], err = j.Need(n.b.Rules); err != nil {
		return nil, err
	}
	easy := j
	easy.Shape.Bilge.Low, easy.Shape.Hollow.Low = min(easiest, j.Shape.Bilge.High), min(easiest, j.Shape.Hollow.High)
	out.ends[1], err = easy.Need(n.b.Rules)
	return out, err
}

// timber is the range of the gross volume of the laminates of frames: with the thicknesses that the boat would be ripped to
// at either end of all her bends, and with those between them. Faults, where they are wanted, are those of the tight end.
//
// The ends alone do not hold what is between them: a depth asks for whole laminates, and a thickness in the middle may fill it
// better, or worse, than both. So every thickness that the yard rips is tried with each bend as near to just taking it as its
// range lets it be.
func (n *narrower) timber(of []*bent, faults *[]bill.Fault) (Volumes, error) {
	if len(of) == 0 {
		return Volumes{}, nil
	}
	rips := make([]decimal.Decimal, len(n.b.Rules.Rips))
	for i, r := range n.b.Rules.Rips {
		rips[i] = r.Thickness
	}
	all := append(slices.Clip(of), n.fixed...)
	out := Volumes{math.Inf(1), 0}
	tried := map[string]bool{}
	for i, needs := range between(all, rips) {
		plan, err := bending.ChooseAmong(needs, rips, n.b.Rules.DifferentLaminates)
		if err != nil {
			return Volumes{}, err
		}
		chosen := plan.Pieces[:len(of)]
		key := thicknesses(chosen)
		if tried[key] {
			continue
		}
		tried[key] = true
		var ends [2][]bill.Line
		for k, one := range of {
			w, err := one.of(chosen[k].Thickness, n.b.Rules)
			if err != nil {
				return Volumes{}, err
			}
			for girth := range ends {
				ends[girth] = append(ends[girth], w.ends[girth]...)
			}
			if faults != nil && i == 0 {
				*faults = append(*faults, w.faults...)
			}
		}
		out.Low, out.High = min(out.Low, spare.Volume(ends[0])), max(out.High, spare.Volume(ends[1]))
	}
	return out, nil
}

// between are the needs of blanks at the tight end of their bends, where they are as near as may be to just taking each of the
// thicknesses, and at the easy end.
func between(of []*bent, rips []decimal.Decimal) [][]bending.Need {
	out := [][]bending.Need{make([]bending.Need, len(of))}
	for i, one := range of {
		out[0][i] = one.ends[0]
	}
	for _, t := range rips {
		at := make([]bending.Need, len(of))
		for i, one := range of {
			at[i] = one.ends[0]
			at[i].Thickest = decimal.Max(at[i].Thickest, t)
			if easy := one.ends[1]; !easy.Straight {
				at[i].Thickest = decimal.Min(at[i].Thickest, easy.Thickest)
			}
		}
		out = append(out, at)
	}
	easy := make([]bending.Need, len(of))
	for i, one := range of {
		easy[i] = one.ends[1]
	}
	return append(out, easy)
}

// thicknesses of pieces, to tell one choice from another.
func thicknesses(of []bending.Piece) string {
	var out strings.Builder
	for _, p := range of {
		out.WriteString(p.Thickness.String())
		out.WriteByte(' ')
	}
	return out.String()
}

// of is the blank glued up of laminates of a thickness.
func (b *bent) of(thickness decimal.Decimal, r rules.Rules) (weighed, error) {
	key := thickness.String()
	if w, ok := b.weighed[key]; ok {
		return w, nil
	}
	only := r
	only.Rips = nil
	for _, rip := range r.Rips {
		if rip.Thickness.Equal(thickness) {
			only.Rips = append(only.Rips, rip)
		}
	}
	var w weighed
	for i, girth := range [2]float64{b.job.Shape.GirthLow, b.job.Shape.GirthHigh} {
		at := b.job
		at.Shape.GirthHigh = girth
		made, err := at.Make(only, derivation.NewTable())
		if err != nil {
			return weighed{}, fmt.Errorf("%s: %w", at.Frame.Member(), err)
		}
		for _, l := range made.Lines {
			if l.Pieces != nil && l.Material == bill.Timber {
				w.ends[i] = append(w.ends[i], l)
			}
		}
		w.faults = made.Faults
	}
	if spare.Volume(w.ends[0]) > spare.Volume(w.ends[1]) { // laminates made up of lengths need not grow with the girth
		w.ends[0], w.ends[1] = w.ends[1], w.ends[0]
	}
	b.weighed[key] = w
	return w, nil
}
