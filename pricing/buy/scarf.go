package buy

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// Scarfed is which pieces of a group are made of two parts, glued over each other.
type Scarfed struct {
	Joints []Joint `json:"joints"`
	// Count of all joints; Must are those of pieces that no board gives whole.
	Count int64 `json:"count"`
	Must  int64 `json:"must,omitempty"`
	// Taper that two parts lie over each other: of the thickest piece of the group, up to a whole millimetre and one more.
	Taper decimal.Decimal `json:"taper_mm"`
	// Steps are what a joint takes, HoursEach how long without setting up, Each what that costs, exact to 6 places; Labour is that of
	// all joints, rounded once.
	Steps     []string        `json:"steps"`
	HoursEach decimal.Decimal `json:"hours_each"`
	Each      string          `json:"each"`
	Labour    money.Money     `json:"labour"`
	// Saves is by how much the boards of the group cost less than with no more scarfs than must be; nil where no more are made.
	Saves *money.Money `json:"saves,omitempty"`
}

// Joint is Count pieces of the need Line, each of a first part and a second. The joint runs from From to To along the piece, from the
// end of the first part.
type Joint struct {
	Line   string          `json:"line"`
	Count  int64           `json:"count"`
	First  decimal.Decimal `json:"first_mm"`
	Second decimal.Decimal `json:"second_mm"`
	From   decimal.Decimal `json:"from_mm"`
	To     decimal.Decimal `json:"to_mm"`
	// Must: no board gives such a piece whole.
	Must bool `json:"must,omitempty"`
}

// millimetre in nanometres.
const millimetre = 1_000_000

// finestJoint is up to which denominator of a minor unit a joint's price is counted exactly; a finer one is rounded down, so that a
// floor still holds.
const finestJoint = 10_000

// weigh finds what a joint costs, and the scale in which that is a whole number. What stands in the way of weighing it is told, and
// then only what no board gives whole is scarfed: those joints have to be whatever they cost.
func (p *timberPlan) weigh(g groups, t *timberNeed, from source, r Rules) {
	wanted, why := false, ""
	for _, i := range t.lines {
		n := g.needs[i]
		if n.Pieces.Scarf == nil {
			continue
		}
		price, trades := r.Labour.joint(n, from.sheet)
		price.Mul(price, big.NewRat(from.parts(), 1))
		if p.joint == nil || price.Cmp(p.joint) > 0 {
			p.joint, p.hours = price, decimal.Zero
			steps := r.Labour.steps(n)
			for _, s := range steps {
				p.hours = p.hours.Add(s.PerUnitH.Mul(s.Factor))
			}
			p.steps = codes(steps)
		}
		wanted = wanted || !n.Pieces.Scarf.OnlyLonger
		switch {
		case len(trades) > 0:
			why = "the sheet has no rate for " + strings.Join(trades, ", ") + ": a row with that item, kind labour, unit HUR, is needed"
		case price.Sign() == 0:
			why = "no step counted by " + n.Pieces.Scarf.Driver + " has hours for it"
		case len(from.sheet.Item(n.Pieces.Scarf.Glue.Item)) == 0:
			why = "the sheet has no price for " + n.Pieces.Scarf.Glue.Item
		}
	}
	if p.joint == nil {
		return
	}
	if wanted && why != "" {
		p.out.NotScarfed = why
	}
	p.weighs = wanted && why == "" && !from.unscarfed
	if den := p.joint.Denom(); den.IsInt64() && den.Int64() <= finestJoint {
		p.scale *= den.Int64()
	}
}

// mayScarf marks the pieces that may be made of two parts and adds how to the rules of the cutting.
func (p *timberPlan) mayScarf(g groups, t *timberNeed, stock []cutting.Stock, pieces []cutting.Piece, saw cutting.Rules) cutting.Rules {
	if p.joint == nil {
		return saw
	}
	price := new(big.Rat).Mul(p.joint, big.NewRat(p.scale, 1))
	s, any := cutting.Scarf{Price: money.Down(price)}, false
	p.longest = longestCut(stock, saw)
	for k, i := range t.lines {
		of := g.needs[i].Pieces.Scarf
		if of == nil {
			continue
		}
		s.Length = max(s.Length, (nanoUp(of.Taper)+2*millimetre-1)/millimetre*millimetre)
		s.Least = max(s.Least, (nanoUp(of.Least)+2*millimetre-1)/millimetre*millimetre)
		pieces[k].MayScarf = pieces[k].Length > p.longest || p.weighs && !of.OnlyLonger
		any = any || pieces[k].MayScarf
	}
	if !any {
		return saw
	}
	saw.Scarf = &s
	saw = cutting.Stepped(saw, stock, pieces, millimetre)
	p.scarf = saw.Scarf
	return saw
}

// longestCut is the longest piece that boards for sale give whole.
func longestCut(stock []cutting.Stock, saw cutting.Rules) (most int64) {
	for _, s := range stock {
		if s.Avail != 0 {
			most = max(most, s.Length-2*saw.TrimEach)
		}
	}
	return most
}

// tooMany says that too many different parts could be cut.
func tooMany(err error) bool {
	var refused *cutting.RequestError
	return errors.As(err, &refused) && refused.What == "scarf"
}

// fewer lets half as many kinds of piece be scarfed that need not be, the longest of them; false when there are none.
func (p *timberPlan) fewer(pieces []cutting.Piece) bool {
	var may []int
	for k, q := range pieces {
		if q.MayScarf && q.Length <= p.longest {
			may = append(may, k)
		}
	}
	if len(may) == 0 {
		return false
	}
	slices.SortStableFunc(may, func(a, b int) int { return int(max(-1, min(1, pieces[b].Length-pieces[a].Length))) })
	for _, k := range may[len(may)/2:] {
		pieces[k].MayScarf = false
	}
	p.out.NotScarfed = fmt.Sprintf("too many planks of different lengths: scarfs are weighed of the %d longest alone", len(may)/2)
	return true
}

// scarfed writes the plan's joints down.
func (p *timberPlan) scarfed(plan cutting.Plan, pieces []cutting.Piece, c money.Currency) error {
	if len(plan.Joints) == 0 {
		return nil
	}
	s := &Scarfed{Taper: nanoMM(p.scarf.Length), Steps: p.steps, HoursEach: p.hours}
	for _, j := range plan.Joints {
		i := slices.IndexFunc(pieces, func(q cutting.Piece) bool { return q.ID == j.PieceID })
		must := i >= 0 && pieces[i].Length > p.longest
		s.Joints = append(s.Joints, Joint{j.PieceID, j.N, nanoMM(j.First), nanoMM(j.Second), nanoMM(j.From), nanoMM(j.To), must})
		if s.Count += j.N; must {
			s.Must += j.N
		}
	}
	each := new(big.Rat).Quo(p.joint, new(big.Rat).SetInt64(minorUnits(c)))
	s.Each = fixed(each)
	var err error
	s.Labour, err = money.RoundRat(each.Mul(each, big.NewRat(s.Count, 1)), c, money.HalfUp)
	p.out.Scarfed = s
	return err
}

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

// withScarfs is the cheaper of two lists: with scarfs wherever they pay by their hours alone, and with none but those that must be.
// Setting up for them and their glue, which no one joint can be charged with, are in what is compared; so permitting scarfs never
// raises what boards, goods and hours come to. The floor holds for both.
func (g groups) withScarfs(from source, r Rules) (List, error) {
	best, err := g.planned(from, r)
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
		return whole.floorOf(best), nil
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

// floorOf is a list with the floor of another, which stands over plans that it leaves out.
func (l List) floorOf(wider List) List {
	for i := range l.Timber {
		t := &l.Timber[i]
		k := slices.IndexFunc(wider.Timber, func(w Timber) bool { return slices.Equal(w.Lines, t.Lines) })
		if k < 0 {
			t.Bound, t.Proof, t.Proven = money.Zero(l.Currency), cutting.Limit, false
			continue
		}
		w := wider.Timber[k]
		if w.Bound.Minor() < t.Bound.Minor() {
			t.Bound, t.Certificate, t.PriceScale = w.Bound, w.Certificate, w.PriceScale
			t.Proof, t.Proven = cutting.Limit, false
		}
		if w.Scarfed != nil && w.Scarfed.Count > w.Scarfed.Must {
			t.NotScarfed = "setting up for scarfs and their glue would cost more than they save"
		}
	}
	if wider.Bound.Minor() < l.Bound.Minor() {
		l.Bound = wider.Bound
	}
	return l
}

// needScarf lists what is missing for pieces that have to be scarfed, because no board gives them whole: rates of the trades that
// make joints, and the glue.
func (g groups) needScarf(t *timberNeed, all []board, from source, r Rules) []sheet.Missing {
	var out []sheet.Missing
	for _, i := range t.lines {
		n := g.needs[i]
		of := n.Pieces.Scarf
		if of == nil || gives(all, millimetres(n.Pieces.Length), r) {
			continue
		}
		_, trades := r.Labour.joint(n, from.sheet)
		for _, trade := range trades {
			out = append(out, sheet.Missing{Kind: sheet.Labour, Item: trade, Unit: "HUR", For: codes(r.Labour.steps(n)),
				Fix: fmt.Sprintf("a row with item %s, kind labour, unit HUR, is needed", trade)})
		}
		if len(from.sheet.Item(of.Glue.Item)) == 0 && !slices.ContainsFunc(g.packs, func(p *packNeed) bool { return same(p.item, of.Glue.Item) }) {
			out = append(out, sheet.Missing{Kind: sheet.Glue, Item: of.Glue.Item, Unit: "LTR", For: []string{n.ID},
				Fix: fmt.Sprintf("a row with item %s, kind glue, in a unit of volume, for example LTR, is needed", of.Glue.Item)})
		}
	}
	return out
}

// gives says that some board gives a piece so long.
func gives(all []board, length decimal.Decimal, r Rules) bool {
	least := length.Add(r.EndTrim).Add(r.EndTrim)
	return slices.ContainsFunc(all, func(b board) bool {
		return !b.length.LessThan(least) || b.untrimmed && !b.length.LessThan(length)
	})
}

func codes(steps []step.Step) []string {
	out := make([]string, len(steps))
	for i, s := range steps {
		out[i] = s.Code
	}
	return out
}
