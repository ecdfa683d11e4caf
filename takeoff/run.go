package takeoff

import (
	"errors"
	"fmt"
	"math"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/spare"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// nearlyStraight, mm: a bend of a kilometre's radius or more is no bend to a boatbuilder (it rises 0.5 mm in 2 m), and
// is taken for a straight frame.
const nearlyStraight = 1e6

// cusp, mm, stands for the radius of a bend so tight that the section has a point there.
const cusp = 1e-3

// Run is the takeoff of a basis. Frames that nothing was measured of are refused together (*UnmeasuredError), targets
// that cannot be known by *TargetError, a species without a value that is needed by *timber.MissingValueError. What
// cannot be built comes back as faults in the bill.
func Run(b Basis) (Result, error) {
	stands, err := b.stands()
	if err != nil {
		return Result{}, err
	}
	plans, err := b.plans(stands)
	if err != nil {
		return Result{}, err
	}
	ripping, shop, err := b.rip(plans)
	if err != nil {
		return Result{}, err
	}
	t := derivation.NewTable()
	out := Result{
		Ripping: ripping,
		Bill:    bill.Bill{Lines: []bill.Line{}, Measures: []bill.Measure{}, Faults: []bill.Fault{}, Warnings: []bill.Warning{}},
		Frames:  make([]frame.Measures, len(b.Frames)),
	}
	out.Bill.Warnings = append(out.Bill.Warnings, b.ofTheBoat(stands)...)
	var weights []derivation.Input
	var unsounded []boat.Member
	var bad []damaged
	var screwed fastenings
	paired, listed := map[string]bool{}, map[string]bool{}
	for i, f := range b.Frames {
		if out.Frames[i], err = b.measures(stands[i]); err != nil {
			return Result{}, fmt.Errorf("%s: %w", f.Member(), err)
		}
		choice, ok := b.Remedies[f.Member()]
		if err := b.strapped(stands[i], choice, t, &out.Bill); err != nil {
			return Result{}, fmt.Errorf("%s: %w", f.Member(), err)
		}
		if !ok || choice.Remedy == boat.Leave {
			damage, sounded, err := b.left(stands[i])
			if err != nil {
				return Result{}, err
			}
			bad = append(bad, damage)
			if !sounded {
				unsounded = append(unsounded, f.Member())
			}
			continue
		}
		wood, err := b.wood(f.Member(), choice)
		if err != nil {
			return Result{}, err
		}
		plan := plans[f.Member()]
		if w, ok := restricted(wood, b.Species); ok && !listed[wood.Code] {
			listed[wood.Code] = true
			out.Bill.Warnings = append(out.Bill.Warnings, w)
		}
		if w, doubtful := gluePair(wood, b.Rules.Glue.Item); doubtful && plan.steamed == nil && !paired[wood.Code] {
			paired[wood.Code] = true
			out.Bill.Warnings = append(out.Bill.Warnings, w)
		}
		if !plan.whole() {
			stands[i].shape.Record(t, f)
		}
		done, err := plan.make(b.Rules, shop, t)
		if err != nil {
			return Result{}, fmt.Errorf("%s: %w", f.Member(), err)
		}
		out.Bill.Faults = append(out.Bill.Faults, plan.faults...)
		out.Scarfs = append(out.Scarfs, plan.scarfs...)
		for _, r := range done {
			out.Bill.Lines = append(out.Bill.Lines, r.Lines...)
			out.Bill.Measures = append(out.Bill.Measures, r.Measures...)
			out.Bill.Faults = append(out.Bill.Faults, r.Faults...)
			weights = append(weights, t.Ref("W", r.WeightFigure))
			if r.MadeUp != nil {
				out.MadeUp = append(out.MadeUp, *r.MadeUp)
			}
			out.steamed(r.Steamed)
		}
		if err := b.fasten(stands[i], choice, wood, plan, t, &out.Bill, &screwed); err != nil {
			return Result{}, fmt.Errorf("%s: %w", f.Member(), err)
		}
		out.Bill.Warnings = append(out.Bill.Warnings, stands[i].doubts()...)
		b.shore(stands[i], choice.Remedy, t, &out.Bill)
	}
	out.Bill.Warnings = append(out.Bill.Warnings, b.damageLeft(bad)...)
	outlinePatterns(stands, out.Bill.Lines)
	floorWeights, err := b.floors(stands, &out, listed, t)
	if err != nil {
		return Result{}, err
	}
	weights = append(weights, floorWeights...)
	plankWeights, err := b.planks(stands, plans, bad, &screwed, &out, listed, paired, t)
	if err != nil {
		return Result{}, err
	}
	weights = append(weights, plankWeights...)
	out.Bill.Faults = append(out.Bill.Faults, b.tooManySisters()...)
	out.Bill.Warnings = append(append(out.Bill.Warnings, b.abreast(out.Scarfs)...), unplaced(out.MadeUp)...)
	out.Bill.Warnings = append(out.Bill.Warnings, append(b.findingsOfNone(), notSounded(unsounded)...)...)
	told, warnings, err := b.fastened(screwed, t)
	if err != nil {
		return Result{}, err
	}
	out.Fastened, out.Bill.Warnings = told, append(out.Bill.Warnings, warnings...)
	if out.NotFastened = b.lacks(screwed); out.NotFastened != nil && (b.Rules.Fastening != nil || screwed.planking != nil) {
		out.Bill.Warnings = append(out.Bill.Warnings, *out.NotFastened)
	}
	if err := errors.Join(spare.Laminates(&out.Bill, t), spare.Items(&out.Bill, t)); err != nil {
		return Result{}, err
	}
	if err := b.steaming(&out, t); err != nil {
		return Result{}, err
	}
	if out.Graded, err = graded(out.Bill.Lines, b.Species, b.Rules); err != nil {
		return Result{}, err
	}
	if out.Gluing, err = b.gluing(&out.Bill, out.MadeUp, paired, t); err != nil {
		return Result{}, err
	}
	if err := b.work(&out, t); err != nil {
		return Result{}, err
	}
	out.Weight = t.Derive("weight", "timber/total_weight", weights)
	out.Figures = t.Figures()
	if out.Figures == nil {
		out.Figures = []derivation.Figure{}
	}
	return out, t.Err()
}

// wood that a frame is to be made of.
func (b Basis) wood(m boat.Member, c frame.Choice) (timber.Species, error) {
	wood, ok := b.Species.Find(c.Species)
	if !ok {
		return wood, document.Faults{{Detail: fmt.Sprintf("%s: the species %q is not known", m, c.Species), Fix: b.Species.Meant(c.Species)}}
	}
	return wood, nil
}

// rip chooses the thicknesses of all that is glued up, and gives the rules that rip only those.
func (b Basis) rip(plans map[boat.Member]plan) (frame.Ripping, rules.Rules, error) {
	var jobs []frame.Job
	for _, f := range b.Frames {
		jobs = append(jobs, plans[f.Member()].jobs...)
	}
	return frame.Rip(jobs, b.Rules)
}

// work: the hours of the steps, and whether every need has a step that uses it up.
func (b Basis) work(out *Result, t *derivation.Table) error {
	work, err := b.Steps.Hours(out.Bill.Measures, t)
	if err != nil {
		return err
	}
	out.Work = work
	if out.Work == nil {
		out.Work = []step.Work{}
	}
	var hours []derivation.Input
	for _, w := range work {
		hours = append(hours, t.Ref("H", w.Figure))
	}
	out.TotalHours = t.Derive("hours", "step/total_hours", hours)
	asked := map[string]bool{}
	for _, l := range out.Bill.Lines {
		if _, ok := b.Steps.For(step.Driver(l.Driver), l.Member.Kind, l.Zone, l.Remedy); ok || asked[l.Driver] {
			continue
		}
		asked[l.Driver] = true
		out.Bill.Faults = append(out.Bill.Faults, bill.Fault{
			Code: "no_step", Figure: l.NetFigure,
			Detail: fmt.Sprintf("No step of the library is counted by %s, so nobody uses up the %s of %s.", l.Driver, l.Material, l.Member),
			Fix:    "Add a step counted by " + l.Driver + " to the step library.",
		})
	}
	return nil
}

// shape is what a frame sees of the hull's section.
func shape(s *hull.Section, f frame.Frame) (frame.Shape, error) {
	length, width, err := s.EnclosingRectangle(f.Moulded.InexactFloat64())
	if err != nil {
		return frame.Shape{}, err
	}
	out := frame.Shape{
		Girth: s.Girth.MM, GirthLow: s.Girth.Low / s.Girth.MM, GirthHigh: s.Girth.High / s.Girth.MM,
		Bilge: bend(s.Straight, s.Bilge), Hollow: bend(s.Straight, s.Hollow),
		Enclosing: length * width, Long: length, Broad: width, RestsOn: s.RestsOn, Points: s.Points, Doubtful: s.Doubtful,
	}
	for _, k := range s.Knuckles() {
		out.Knuckles = append(out.Knuckles, frame.Knuckle{Name: k.Name, At: k.S, Turn: k.Turn})
	}
	most, err := s.GreatestBevel(f.Body())
	var alone *hull.NoLinesError
	if errors.As(err, &alone) {
		return out, nil
	}
	out.Bevel, out.BevelKnown = most.Angle, err == nil
	return out, err
}

func bend(straight bool, b hull.Bend) frame.Bend {
	r := b.Radius()
	switch {
	case straight || math.IsInf(r.MM, 0) || quantity.Snap(r.MM) >= nearlyStraight:
		return frame.Bend{}
	case quantity.Snap(r.MM) < cusp:
		return frame.Bend{Radius: cusp, At: b.S, Low: 1, High: 1}
	}
	return frame.Bend{Radius: r.MM, At: b.S, Low: r.Low / r.MM, High: r.High / r.MM}
}
