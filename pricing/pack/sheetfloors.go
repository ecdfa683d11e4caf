package pack

import (
	"errors"
	"math"
	"slices"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
)

// sheetFloor is what no plan of a choice costs less than, with what shows it.
type sheetFloor struct {
	floor       int64
	at          prices
	list        flat.List
	certificate flat.Certificate
}

func (f sheetFloor) shown(c money.Currency) (Floor, error) {
	out := Floor{Certificate: f.certificate, Counted: f.list}
	if f.at.scale > 1 {
		out.PriceScale = f.at.scale
	}
	var err error
	if f.at.paid > 0 {
		if out.Paid, err = money.New(f.at.paid, c); err != nil {
			return out, err
		}
	}
	out.Least, err = money.New(f.floor, c)
	return out, err
}

// floor is what a plan at these prices costs at least where the cutting's costs at least bound: what is paid in any case, and
// whole packs beyond it.
func (y *laying) floor(at prices, bound int64) int64 {
	var kinds []int64
	for _, k := range at.packs {
		if k >= 0 {
			kinds = append(kinds, y.packs[k].price.Minor())
		}
	}
	return at.paid + formable(bound/at.scale, kinds)
}

// weigh plans every choice of prices and every pairing, and keeps the cheapest plan and the floors of all.
func (y *laying) weigh() error {
	at := y.lowest()
	err := y.tryAll(at)
	if !y.best.found && (err != nil || y.plain()) {
		return err
	}
	if err != nil { // too few were found for some pairing, which proves nothing
		if err = y.tryAll(at.endless()); err != nil {
			return err
		}
	}
	lowest := y.floors
	if y.plain() || y.best.found && y.best.cost <= leastOf(lowest) {
		return nil
	}
	choices, all := y.choices()
	y.floors = nil
	for _, at := range choices {
		if y.best.found && at.paid >= y.best.cost { // what least orders cost alone is no less than what was found
			list, _ := y.list(at, nil, true)
			y.floors = append(y.floors, sheetFloor{at.paid, at, list, flat.Certificate{Unit: 1, Scale: 1, Values: []flat.Value{}}})
			continue
		}
		var large *flat.LargeError
		var short *flat.ShortError
		failed := y.tryAll(at)
		if errors.As(failed, &short) { // found too few, which proves nothing; with as many as are wanted the floor stands
			began := len(y.floors)
			failed = y.tryAll(at.endless())
			if most := y.everything(at); most >= 0 { // a floor above what all for sale costs leaves no plan
				y.floors = append(y.floors[:began:began], slices.DeleteFunc(slices.Clone(y.floors[began:]), func(f sheetFloor) bool { return f.floor > most })...)
			}
		}
		if failed != nil && !errors.As(failed, &large) {
			all, err = false, failed
		}
	}
	if !y.best.found {
		return err
	}
	if !all || len(y.floors) == 0 || leastOf(y.floors) <= leastOf(lowest) {
		y.floors = lowest
	}
	return nil
}

func leastOf(floors []sheetFloor) int64 {
	least := int64(math.MaxInt64)
	for _, f := range floors {
		least = min(least, f.floor)
	}
	return least
}

// tryAll plans a choice of prices without pairs, and with every pairing: for each a floor of plans in which every pair is laid
// together or apart, and where that is below the best plan, plans of all its pairs, of those that the floor's own plan lays
// together, and of those of the best plan before. No floor stands where one was not found.
func (y *laying) tryAll(at prices) (err error) {
	before, began := y.best.pairs, len(y.floors)
	defer func() {
		if err != nil { // those of some pairings are no floor
			y.floors = y.floors[:began]
		}
	}()
	list, why := y.list(at, nil, true)
	if why != "" {
		return &flat.RequestError{What: "request", Reason: why}
	}
	lone, err := flat.SolveWithin(list, sheetLimits)
	if err != nil {
		return err
	}
	if err := y.takeSawn(laidOut{list: list, plan: lone}); err != nil {
		return err
	}
	if len(y.pairings) == 0 {
		y.floors = append(y.floors, sheetFloor{y.floor(at, lone.Bound), at, list, lone.Certificate})
	}
	for _, pairs := range y.pairings {
		list, why := y.list(at, pairs, true)
		if why != "" {
			return &flat.RequestError{What: "request", Reason: why}
		}
		loose, err := flat.SolveWithin(list, sheetLimits)
		if err != nil {
			return err
		}
		y.floors = append(y.floors, sheetFloor{y.floor(at, loose.Bound), at, list, loose.Certificate})
		for _, some := range []map[int]laidPair{pairs, y.laidTogether(loose, pairs), before} {
			if y.best.found && y.best.cost <= leastOf(y.floors[began:]) || len(some) == 0 {
				continue
			}
			if list, why := y.list(at, some, false); why == "" {
				if plan, failed := flat.SolveWithin(list, sheetLimits); failed == nil {
					_ = y.takeSawn(laidOut{list: list, plan: plan, pairs: some}) // one found before stands
				}
			}
		}
	}
	return nil
}

// takeSawn takes a plan of a list in which nothing is lost to the saw for the sake of its rolls. Where that has sheets as well they
// would be cut with what a saw takes of them: the rolls are then planned by themselves, and all with the saw.
func (y *laying) takeSawn(p laidOut) error {
	kerf := y.kerf.Ceil().IntPart()
	rolls := slices.DeleteFunc(slices.Clone(p.list.Stock), func(s flat.Stock) bool { return !s.Roll() })
	if p.list.Rules.Kerf == kerf || len(rolls) == len(p.list.Stock) {
		y.take(p)
		return nil
	}
	all, sawn := p.list.Stock, p
	var err error
	if p.list.Stock = rolls; len(rolls) > 0 {
		if p.plan, err = flat.SolveWithin(p.list, sheetLimits); err == nil {
			y.take(p)
		}
	}
	sawn.list.Stock, sawn.list.Rules.Kerf = all, kerf
	if sawn.plan, err = flat.SolveWithin(sawn.list, sheetLimits); err == nil {
		y.take(sawn)
	}
	return err
}

// laidTogether are the pairs that a plan lays together.
func (y *laying) laidTogether(plan flat.Plan, pairs map[int]laidPair) map[int]laidPair {
	together := map[string]bool{}
	for _, l := range plan.Layout {
		for _, s := range l.Strips {
			for _, t := range s.Stacks {
				for _, p := range t.Pieces {
					together[p.PieceID] = together[p.PieceID] || p.Paired
				}
			}
		}
	}
	out := map[int]laidPair{}
	for i, two := range pairs {
		first := i
		if two.second {
			first = two.with
		}
		if together[y.need.Lines[first].ID] {
			out[i] = two
		}
	}
	return out
}
