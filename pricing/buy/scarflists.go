package buy

import (
	"errors"
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/takeoff/cutting"
)

// labour of a group's scarfs, minor units.
func (t Timber) labour() int64 {
	if t.Scarfed == nil {
		return 0
	}
	return t.Scarfed.Labour.Minor()
}

// labour of a list's scarfs, minor units.
func (l List) labour() int64 {
	sum := int64(0)
	for _, t := range l.Timber {
		sum += t.labour()
	}
	return sum
}

// scarfsChosen says that a list makes scarfs that need not be.
func (l List) scarfsChosen() bool {
	return slices.ContainsFunc(l.Timber, func(t Timber) bool { return t.Scarfed != nil && t.Scarfed.Count > t.Scarfed.Must })
}

// scarfsSpared says that a list makes scarfs that need not be, were other boards taken for other groups.
func (l List) scarfsSpared() bool {
	return slices.ContainsFunc(l.Timber, func(t Timber) bool {
		return t.Scarfed != nil && slices.ContainsFunc(t.Scarfed.Joints, func(j Joint) bool { return !j.ever })
	})
}

// withScarfs is the cheaper of two lists: with scarfs wherever they pay by their hours alone, and with none but those that must be.
// Setting up for them and their glue, which no one joint can be charged with, are in what is compared; so permitting scarfs never
// raises what boards, goods and hours come to. The floor holds for both.
func (g groups) withScarfs(from source, r Rules) (List, error) {
	best, err := g.planned(from, r)
	var glue *pack.ShortError
	if errors.As(err, &glue) {
		return g.shortOfGlue(glue, err, from, r)
	}
	if err != nil || !best.scarfsChosen() {
		return best, err
	}
	from.unscarfed = true
	whole, failed := g.planned(from, r)
	if failed != nil {
		return best, nil //nolint:nilerr // too few boards are long enough without
	}
	a, err := best.hoursCost(g.needs, r.Labour, from.sheet)
	if err != nil {
		return List{}, err
	}
	b, err := whole.hoursCost(g.needs, r.Labour, from.sheet)
	if err != nil {
		return List{}, err
	}
	a.Add(a, big.NewRat(best.Cost.Minor(), from.parts()))
	if b.Add(b, big.NewRat(whole.Cost.Minor(), from.parts())).Cmp(a) < 0 {
		return whole.floorOf(best, "setting up for scarfs and their glue would cost more than they save"), nil
	}
	for i := range best.Timber {
		t := &best.Timber[i]
		was, ok := whole.costOf(t.Lines)
		if s := t.Scarfed; ok && s != nil && s.Count > s.Must {
			saves, err := was.Sub(t.Cost)
			if err != nil {
				return List{}, err
			}
			s.Saves = &saves
		}
	}
	return best, nil
}

// shortOfGlue is the list with none but the scarfs that must be, where too little of an item is for sale for those that would pay. The
// floor is of these too, since fewer of them may be possible.
func (g groups) shortOfGlue(of *pack.ShortError, err error, from source, r Rules) (List, error) {
	wider, faults := List{Currency: from.sheet.Currency}, error(nil)
	if wider.Timber, faults = g.allTimber(from, r); faults != nil || !wider.scarfsChosen() {
		return List{}, err
	}
	if wider.Timber, faults = g.besides(wider.Timber, from, r); faults != nil {
		return List{}, faults
	}
	if wider.Bound, faults = g.leastBound(wider.Timber, from, r); faults != nil {
		return List{}, faults
	}
	from.unscarfed = true
	whole, faults := g.planned(from, r)
	if faults != nil {
		return List{}, err
	}
	return whole.floorOf(wider, "too little "+of.Item+" is for sale for scarfs that would pay"), nil
}

// costOf is what the groups of some lines cost; not ok where one of them serves others too.
func (l List) costOf(lines []string) (sum money.Money, ok bool) {
	sum, n := money.Zero(l.Currency), 0
	for _, t := range l.Timber {
		if !slices.ContainsFunc(t.Lines, func(id string) bool { return slices.Contains(lines, id) }) {
			continue
		}
		n += len(t.Lines)
		var err error
		if sum, err = sum.Add(t.Cost); err != nil {
			return sum, false
		}
	}
	return sum, n == len(lines)
}

// floorOf is a list with the floor of another, which stands over plans that it leaves out; why they are is told.
func (l List) floorOf(wider List, why string) List {
	for i := range l.Timber {
		t := &l.Timber[i]
		k := slices.IndexFunc(wider.Timber, func(w Timber) bool { return slices.Equal(w.Lines, t.Lines) })
		if k < 0 {
			t.Bound, t.Proof, t.Proven = money.Zero(l.Currency), cutting.Limit, false
			continue
		}
		w := wider.Timber[k]
		if w.Bound.Minor() < t.Bound.Minor() {
			t.Bound, t.Certificate, t.PriceScale, t.JointGrid = w.Bound, w.Certificate, w.PriceScale, w.JointGrid
			t.Proof, t.Proven = cutting.Limit, false
		}
		if w.Scarfed != nil && w.Scarfed.Count > w.Scarfed.Must {
			t.NotScarfed = why
		}
	}
	if wider.Bound.Minor() < l.Bound.Minor() {
		l.Bound = wider.Bound
	}
	return l
}
