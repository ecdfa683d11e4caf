package buy

import (
	"errors"
	"fmt"
	"math/big"
	"slices"
	"strings"

	"ribband/pricing/money"
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
	// Must: no board gives such a piece whole, those gone that other groups took before.
	Must bool `json:"must,omitempty"`
	// ever says that none does whoever takes it.
	ever bool
}

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
		p.unpriced = p.unpriced || len(trades) > 0 || len(from.sheet.Item(n.Pieces.Scarf.Glue.Item)) == 0
		switch {
		case len(trades) > 0:
			why = "the sheet has no rate for " + strings.Join(trades, ", ") + ": a row with that item, kind labour, unit HUR, is needed"
		case price.Sign() == 0:
			why = "no step counted by " + n.Pieces.Scarf.Driver + " has hours for it"
		case len(from.sheet.Item(n.Pieces.Scarf.Glue.Item)) == 0:
			why = "the sheet has no price for " + n.Pieces.Scarf.Glue.Item
			if from.whole != nil && len(from.whole.Item(n.Pieces.Scarf.Glue.Item)) > 0 {
				why = "the suppliers of these boards have no " + n.Pieces.Scarf.Glue.Item
			}
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
	for k, i := range t.lines {
		of := g.needs[i].Pieces.Scarf
		if of == nil {
			continue
		}
		s.Length = max(s.Length, (nanoUp(of.Taper)+2*millimetre-1)/millimetre*millimetre)
		s.Least = max(s.Least, (nanoUp(of.Least)+2*millimetre-1)/millimetre*millimetre)
		pieces[k].MayScarf = !p.unpriced && pieces[k].Length > p.longest || p.weighs && !of.OnlyLonger
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

// longestCut is the longest piece that boards for sale or in hand give whole, whoever sells them and at whatever price, but for those
// that other groups took all of: what some supplier's boards give whole is scarfed only where that is weighed.
func (s source) longestCut(t *timberNeed, r Rules, left taken) (most int64, err error) {
	if s.whole != nil {
		s.sheet = *s.whole
	}
	s.chosen, s.single, s.laden = nil, true, nil
	all, err := s.boards(t.pieces, t.flat, r)
	if err != nil {
		return 0, err
	}
	article, gone := map[string]string{}, taken{}
	for _, it := range s.sheet.Boards(t.pieces.Species, t.pieces.Grade) {
		article[id(s.sheet, it)] = it.Article()
		gone[it.Article()] += left[id(s.sheet, it)]
	}
	for _, b := range all {
		of := gone[article[b.offer.ID]]
		if b.offer.Rack != nil {
			of = left[b.offer.ID]
		}
		if b.avail >= 0 && b.avail <= of {
			continue
		}
		long := nanoDown(b.length)
		if !b.untrimmed {
			long -= 2 * nanoUp(r.EndTrim)
		}
		most = max(most, long)
	}
	return most, nil
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
		s.Joints = append(s.Joints, Joint{j.PieceID, j.N, nanoMM(j.First), nanoMM(j.Second), nanoMM(j.From), nanoMM(j.To), must, i >= 0 && pieces[i].Length > p.ever})
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

func codes(steps []step.Step) []string {
	out := make([]string, len(steps))
	for i, s := range steps {
		out[i] = s.Code
	}
	return out
}
