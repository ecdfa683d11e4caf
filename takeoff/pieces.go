package takeoff

import (
	"errors"
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/rules"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// plan is how the remedy of one frame is done: as one whole frame, or as a piece for each stretch; or the fault that forbids
// it.
type plan struct {
	jobs []frame.Job
	// steamed is the whole frame bent of solid stock, nil where it is glued up.
	steamed *frame.Job
	scarfs  []Scarf
	faults  []bill.Fault
}

// whole reports a frame that is made in one, and not of pieces.
func (p plan) whole() bool {
	return p.steamed != nil || len(p.jobs) == 1 && p.jobs[0].Piece == nil
}

// plans of all frames that are not left.
func (b Basis) plans(stands []stand) (map[boat.Member]plan, error) {
	out := map[boat.Member]plan{}
	for _, s := range stands {
		m := s.frame.Member()
		c, ok := b.Remedies[m]
		if !ok || c.Remedy == boat.Leave {
			continue
		}
		wood, err := b.wood(m, c)
		if err != nil {
			return nil, err
		}
		if out[m], err = b.plan(s, c, wood); err != nil {
			return nil, fmt.Errorf("%s: %w", m, err)
		}
	}
	return out, nil
}

// plan of the remedy of a frame.
func (b Basis) plan(s stand, c frame.Choice, wood timber.Species) (plan, error) {
	whole := frame.Job{Frame: s.frame, Shape: s.shape, Choice: c, Wood: wood}
	switch c.Remedy {
	case boat.ScarfIn:
		return b.scarfIn(s, whole)
	case boat.Sister:
		return b.sister(s, whole)
	case boat.ReplaceSteamed:
		return plan{steamed: &whole}, nil
	}
	return plan{jobs: []frame.Job{whole}}, nil
}

// make works out what the plan takes by the yard's rules, and what is glued up by those that rip what was chosen for the
// boat.
func (p plan) make(yard, shop rules.Rules, t *derivation.Table) ([]frame.Replacement, error) {
	var out []frame.Replacement
	if p.steamed != nil {
		r, err := p.steamed.Steam(yard, t)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	for _, j := range p.jobs {
		r, err := j.Make(shop, t)
		if err != nil {
			return nil, err
		}
		out = append(out, r)
	}
	return out, t.Err()
}

// refused is the fault of a frame to which a remedy cannot be done.
func (s stand) refused(code, detail, fix string) plan {
	m := s.frame.Member()
	return plan{faults: []bill.Fault{{Code: code, Member: &m, Figure: m.Path() + "/girth",
		Detail: fmt.Sprintf("Frame %d %s: %s.", m.No, m.Side, detail), Fix: fix}}}
}

// scarfIn lets new pieces into a frame where it was found broken or decayed.
func (b Basis) scarfIn(s stand, whole frame.Job) (plan, error) {
	rule := b.Rules.Scarf
	if rule == nil {
		return s.refused("no_scarf_rule", "the yard's rules do not say at what slope it scarfs", "Enter the slope of a scarf in the rules."), nil
	}
	along, err := b.along(s)
	if err != nil {
		return plan{}, err
	}
	parts, err := frame.Parts(along, rule.Slope.Mul(s.frame.Moulded), b.Findings.Say)
	var not *frame.PartsError
	if errors.As(err, &not) {
		return s.refused(not.Code, not.Detail, not.Fix), nil
	}
	if err != nil {
		return plan{}, err
	}
	var out plan
	steeper, flatter := b.otherwise(s, along, parts, -1), b.otherwise(s, along, parts, 1)
	for i, p := range parts {
		name := fmt.Sprintf("part_%d", i+1)
		scarfs := b.scarfs(s, p, name)
		b.told(scarfs, steeper, flatter)
		piece := frame.Piece{Name: name, From: p.LowTip, To: p.High, Heel: p.Heel, Head: p.Head, Siding: s.frame.Siding, Scarfs: p.Scarfs()}
		for _, x := range scarfs {
			piece.Faces += x.face
		}
		part := whole
		part.Shape, part.Piece = s.stretch(p.LowTip, p.High), &piece
		out.jobs, out.scarfs = append(out.jobs, part), append(out.scarfs, scarfs...)
	}
	return out, nil
}

// sister doubles a frame where it was found broken.
func (b Basis) sister(s stand, whole frame.Job) (plan, error) {
	rule := b.Rules.Sister
	if rule == nil {
		return s.refused("no_sister_rule", "the yard's rules do not say how it doubles a frame", "Enter the size of a sister and how far it reaches past the damage in the rules."), nil
	}
	along, err := b.along(s)
	if err != nil {
		return plan{}, err
	}
	lengths, err := frame.Sisters(along, rule.Past, b.Findings.Say)
	var not *frame.PartsError
	if errors.As(err, &not) {
		return s.refused(not.Code, not.Detail, not.Fix), nil
	}
	if err != nil {
		return plan{}, err
	}
	siding := s.frame.Siding
	if rule.Siding.IsPositive() {
		siding = rule.Siding
	}
	var out plan
	for i, p := range lengths {
		piece := frame.Piece{Name: fmt.Sprintf("sister_%d", i+1), From: p.From, To: p.To, Siding: siding, Alongside: rule.Glued}
		part := whole
		part.Shape, part.Piece = s.stretch(p.From, p.To), &piece
		out.jobs = append(out.jobs, part)
	}
	return out, nil
}

// stretch is the shape of a part of a frame. Of a frame that was taped, or lies flat on the planking, the places of bends
// are not known, and the tightest of the whole stands for the part's.
func (s stand) stretch(from, to decimal.Decimal) frame.Shape {
	out := s.shape
	a, b := from.InexactFloat64(), to.InexactFloat64()
	out.Girth, out.GirthLow, out.GirthHigh = b-a, 1, 1
	if s.target == nil {
		return out
	}
	bilge, hollow := s.target.Within(a, b)
	out.Bilge, out.Hollow = bend(s.target.Straight, bilge), bend(s.target.Straight, hollow)
	out.Knuckles = nil
	for _, k := range s.shape.Knuckles {
		if a < k.At && k.At < b {
			out.Knuckles = append(out.Knuckles, k)
		}
	}
	var pts []hull.Point
	const looks = 200
	for i := range looks + 1 {
		p := s.target.At(s.target.Share((a + (b-a)*float64(i)/looks) / s.target.Girth.MM))
		pts = append(pts, hull.Point{Y: p.Y, Z: p.Z}, p.Inboard(s.frame.Moulded.InexactFloat64()))
	}
	r := hull.SmallestRectangle(pts)
	out.Enclosing, out.Long, out.Broad = r.Length*r.Width, r.Length, r.Width
	return out
}

// tooManySisters are the faults of frames doubled where too many neighbours are.
func (b Basis) tooManySisters() []bill.Fault {
	if b.Rules.Sister == nil {
		return nil
	}
	runs := frame.TooMany(b.Remedies, b.Rules.Sister.MostTogether)
	var out []bill.Fault
	for _, f := range b.Frames {
		m := f.Member()
		if run, ok := runs[m]; ok {
			out = append(out, bill.Fault{Code: "too_many_sisters", Member: &m, Figure: m.Path() + "/girth",
				Detail: fmt.Sprintf("Frame %d %s: %d neighbouring frames on its side would be doubled; the yard's rules allow %d together.", m.No, m.Side, run, b.Rules.Sister.MostTogether),
				Fix:    "Replace some of them, or scarf parts into them, so that no more than that stand doubled side by side."})
		}
	}
	return out
}
