package takeoff

import (
	"fmt"
	"math"

	bending "ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"

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

// weighed is the gross timber of a blank of one thickness over its girth's range, with what cannot be built at the tight end
// of its bends'.
type weighed struct {
	Volumes
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
// at either end of all her bends. Faults, where they are wanted, are those of the tight end.
func (n *narrower) timber(of []*bent, faults *[]bill.Fault) (Volumes, error) {
	if len(of) == 0 {
		return Volumes{}, nil
	}
	rips := make([]decimal.Decimal, len(n.b.Rules.Rips))
	for i, r := range n.b.Rules.Rips {
		rips[i] = r.Thickness
	}
	out := Volumes{math.Inf(1), 0}
	for end := range 2 {
		var needs []bending.Need
		for _, one := range of {
			needs = append(needs, one.ends[end])
		}
		for _, one := range n.fixed {
			needs = append(needs, one.ends[end])
		}
		plan, err := bending.ChooseAmong(needs, rips, n.b.Rules.DifferentLaminates)
		if err != nil {
			return Volumes{}, err
		}
		var sum Volumes
		for i, one := range of {
			w, err := one.of(plan.Pieces[i].Thickness, n.b.Rules)
			if err != nil {
				return Volumes{}, err
			}
			sum.Low, sum.High = sum.Low+w.Low, sum.High+w.High
			if faults != nil && end == 0 {
				*faults = append(*faults, w.faults...)
			}
		}
		out.Low, out.High = min(out.Low, sum.Low), max(out.High, sum.High)
	}
	return out, nil
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
	w := weighed{Volumes: Volumes{math.Inf(1), 0}}
	for _, girth := range [2]float64{b.job.Shape.GirthLow, b.job.Shape.GirthHigh} {
		at := b.job
		at.Shape.GirthHigh = girth
		made, err := at.Make(only, derivation.NewTable())
		if err != nil {
			return weighed{}, fmt.Errorf("%s: %w", at.Frame.Member(), err)
		}
		m3 := grossOf(made)
		w.Low, w.High, w.faults = min(w.Low, m3), max(w.High, m3), made.Faults
	}
	b.weighed[key] = w
	return w, nil
}

// grossOf is the gross volume of a replacement's laminates, m3.
func grossOf(r frame.Replacement) float64 {
	sum := 0.0
	for _, l := range r.Lines {
		if p := l.Pieces; p != nil && l.Material == bill.Timber {
			sum += l.Gross.Value().Mul(p.Thickness).Mul(p.Siding).Mul(p.Length.Value()).Shift(-6).InexactFloat64()
		}
	}
	return sum
}
