package takeoff

import (
	"cmp"
	"fmt"
	"slices"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"

	"github.com/shopspring/decimal"
)

// laidPlank is a new plank as it is to be, before it is worked out.
type laidPlank struct {
	of   plank.Plank
	made *planking.Renewed // nil of one by hand
}

// place that planks of a strake are told in the order of.
func (l laidPlank) place() float64 {
	switch {
	case l.made != nil:
		return l.made.X0
	case l.of.Placed:
		return l.of.From.InexactFloat64()
	}
	return 0
}

// planks puts the new planks on the bill, and gives the weights of their timber. listed are the restricted woods, paired those doubtful with the glue,
// that were warned of already, left the frames that nothing is done to.
func (b Basis) planks(stands []stand, plans map[boat.Member]plan, left []damaged, screwed *fastenings, out *Result, listed, paired map[string]bool, t *derivation.Table) ([]derivation.Input, error) {
	if len(b.Planks) == 0 {
		return nil, nil
	}
	laid := b.layPlanks(&out.Bill)
	slices.SortStableFunc(laid, func(x, y laidPlank) int {
		return cmp.Or(boat.Compare(x.of.Member(), y.of.Member()), cmp.Compare(x.place(), y.place()))
	})
	at := map[boat.Member]stand{}
	for _, s := range stands {
		at[s.frame.Member()] = s
	}
	var weights []derivation.Input
	nth := map[boat.Member]int{}
	butts, uncounted, garboard, taped := false, false, false, false
	for _, l := range laid {
		m := l.of.Member()
		nth[m]++
		job, ok, err := b.plankJob(l, nth[m], at, plans, &out.Bill)
		if err != nil {
			return nil, err
		}
		if !ok {
			continue
		}
		for _, wood := range job.Woods() {
			if w, is := restricted(wood, b.Species); is && !listed[wood.Code] {
				listed[wood.Code] = true
				out.Bill.Warnings = append(out.Bill.Warnings, w)
			}
		}
		r, err := job.Work(b.Rules, t)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", m, err)
		}
		out.Bill.Lines, out.Bill.Measures = append(out.Bill.Lines, r.Lines...), append(out.Bill.Measures, r.Measures...)
		for _, w := range r.WeightFigures {
			weights = append(weights, t.Ref("W", w))
		}
		if len(r.ScrewFigures) > 0 {
			screwed.planks(b, job, r, t)
		}
		butts = butts || job.Butts > 0
		uncounted = uncounted || b.Rules.Fastening == nil || l.made == nil && !l.of.Placed
		out.Bill.Faults = append(out.Bill.Faults, r.Faults...)
		told := b.newPlank(l, job)
		told.made(r)
		out.Planks = append(out.Planks, told)
		if w, doubtful := gluePair(job.Species, b.Rules.Glue.Item); doubtful && (r.Scarfs > 0 || r.MayScarf) && !paired[job.Species.Code] {
			paired[job.Species.Code] = true
			out.Bill.Warnings = append(out.Bill.Warnings, w)
		}
		out.Bill.Warnings = append(append(out.Bill.Warnings, l.warnings(job)...), r.Warnings...)
		out.Bill.Warnings = append(out.Bill.Warnings, b.hungOnDamage(job, b.crossingsOf(l), at, left)...)
		garboard = garboard || m.No == 1
		taped = taped || l.made == nil
	}
	if len(out.Planks) > 0 {
		out.Bill.Warnings = append(out.Bill.Warnings, planksHoldHer)
	}
	if butts && b.Rules.ButtBlock == nil {
		out.Bill.Warnings = append(out.Bill.Warnings, buttsNotCounted)
	}
	if taped {
		out.Bill.Warnings = append(out.Bill.Warnings, tapedEndsNotCounted)
	}
	if garboard {
		out.Bill.Warnings = append(out.Bill.Warnings, garboardNotCounted)
	}
	if uncounted {
		out.Bill.Warnings = append(out.Bill.Warnings, plankScrewsNotCounted)
	}
	return weights, t.Err()
}

// Cautions of whoever takes planks off, and what is not on the bill (common practice, no source).
var (
	planksHoldHer = bill.Warning{Code: "planks_hold_her_shape",
		Detail: "Planking holds a hull in shape: strakes next to one another that are off together, on one side or abreast on both, let her spread, hog or twist.",
		Fix:    "Shore her and take a few planks off at a time, never neighbours together and never the garboards of both sides; let a surveyor say how many, and in what order."}
	buttsNotCounted = bill.Warning{Code: "butt_blocks_not_counted",
		Detail: "New butts are counted for their hours only: their blocks, and what fastens planks' ends to them, are not on the bill.",
		Fix:    "Enter butt_blocks in the yard's rules."}
	tapedEndsNotCounted = bill.Warning{Code: "taped_ends_not_counted",
		Detail: "On what the ends of a plank by hand stand is not known: their butt blocks, their hours and what fastens the ends are not on the bill.",
		Fix:    "Put them with what the quote names beside the bill, or enter her lines and how she is planked."}
	garboardNotCounted = bill.Warning{Code: "garboard_not_fastened_to_keel",
		Detail: "What fastens a new garboard to keel and deadwood along its lower edge is not on the bill.",
		Fix:    "Put it with what the quote names beside the bill."}
	plankScrewsNotCounted = bill.Warning{Code: "plank_fastenings_not_counted",
		Detail: "What fastens new planks to the frames is not on the bill, or not of all of them.",
		Fix:    "Enter plank_fastenings in the yard's rules, and of a plank by hand from which frame to which it runs."}
)

// layPlanks finds the planks of every side that is renewed; what cannot be is at fault in the bill.
func (b Basis) layPlanks(out *bill.Bill) []laidPlank {
	var all []laidPlank
	fault := func(code string, p plank.Plank, detail, fix string) {
		m := p.Member()
		out.Faults = append(out.Faults, bill.Fault{Code: code, Member: &m, Detail: fmt.Sprintf("Strake %d %s: %s.", p.Strake, p.Side, detail), Fix: fix})
	}
	for _, side := range boat.Sides {
		var of []plank.Plank
		for _, p := range b.Planks {
			switch {
			case p.Side != side:
			case p.ByHand != nil:
				all = append(all, laidPlank{of: p})
			default:
				of = append(of, p)
			}
		}
		if len(of) == 0 {
			continue
		}
		terms, said := b.Planking[side]
		if b.Hull == nil || !said {
			for _, p := range of {
				fault("plank_shape_unknown", p, "what board its plank asks for is not known without the boat's lines and how she is planked",
					"Enter the lines, or tape the plank as it lies: give its length and its width with the round by hand.")
			}
			continue
		}
		p, err := planking.Lay(b.Hull, b.bays(side), terms)
		if err != nil {
			for _, of := range of {
				fault("planking_not_laid", of, err.Error(), "Put how that side is planked anew, or give the plank's size by hand.")
			}
			continue
		}
		made, faults := p.Renew(terms, asked(of))
		for _, f := range faults {
			fault("plank_not_found", of[f.Of], f.Detail, capitalised(f.Fix)+".")
		}
		for i := range made {
			all = append(all, laidPlank{of[made[i].Of], &made[i]})
		}
		out.Warnings = append(out.Warnings, buttsTold(p, terms, of)...)
	}
	return all
}

// buttsTold warns of planks laid among butts that nobody wrote down.
func buttsTold(p *planking.Planking, terms planking.Terms, of []plank.Plank) []bill.Warning {
	var strakes []int
	for _, o := range of {
		if _, given := terms.Butts[o.Strake-1]; !given && o.Strake <= len(p.Strakes) && !slices.Contains(strakes, o.Strake) {
			strakes = append(strakes, o.Strake)
		}
	}
	if strakes == nil {
		return nil
	}
	slices.Sort(strakes)
	names := ""
	for i, k := range strakes {
		if i > 0 {
			names += ", "
		}
		names += fmt.Sprint(k)
	}
	return []bill.Warning{{Code: "butts_not_written", Detail: fmt.Sprintf("Where the planks of strake %s %s butt now is not written down: both ends of a new plank count as new butts, clear only of those that are written down.", names, p.Side),
		Fix: "Look where the butts are, in the strakes beside it too, and put them with how she is planked."}}
}

// bays are the frames of a side as planks butt between them.
func (b Basis) bays(side boat.Side) []butt.Frame {
	var out []butt.Frame
	for _, f := range b.Frames {
		if f.Side == side {
			out = append(out, butt.Frame{No: f.No, X: f.X.InexactFloat64()})
		}
	}
	return out
}

// plankThickness of the finished plank: its own, the planking's, or the frames' planking; 0 where nobody said.
func (b Basis) plankThickness(p plank.Plank) decimal.Decimal {
	if p.Thickness.IsPositive() {
		return p.Thickness
	}
	if t := b.Planking[p.Side].Exact; t.IsPositive() {
		return t
	}
	for _, f := range b.Frames {
		if f.Planking != nil {
			return f.Planking.Thickness
		}
	}
	return decimal.Zero
}
