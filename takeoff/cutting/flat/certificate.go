package flat

import (
	"cmp"
	"fmt"
	"math"
	"math/big"
	"slices"
)

// Certificate shows without any search among layouts that no plan costs less than its floor. Each piece has a value; what a
// sheet can hold at most is worth so much, of pieces no thicker than itself, and the sheets of a plan must hold all pieces.
type Certificate struct {
	// Unit divides the price of every sheet times Per, and of every roll; a plan costs a whole number of Unit/Per.
	Unit int64 `json:"unit"`
	// Scale: a value is in Unit/Scale.
	Scale int64 `json:"scale"`
	// Values are what one of each piece is worth; a piece not named is worth nothing.
	Values []Value `json:"values"`
	// Depths at which strips are valued, kerf included, by the way of the first cut: a strip counts as worth what the
	// next deeper one listed can be worth. Two stages need none, the depths of the pieces are taken.
	Depths map[First][]int64 `json:"depths,omitempty"`
	// Cases, where there are any, show the floor in the place of the values alone.
	Cases *Case `json:"cases,omitempty"`
	// Floor is the cost that follows.
	Floor int64 `json:"floor"`
}

// Value is what one piece is worth.
type Value struct {
	PieceID string `json:"piece_id"`
	Value   int64  `json:"value"`
}

// CheckCertificate works a floor out anew from the request and the values alone, and reports when it is below the
// certificate's, or what is wrong with them. V is the most that a sheet can hold, by a table over the length of strips and
// one over their depths. Two floors follow, and the higher counts. The sheets of a plan hold all pieces, so it costs no less than the cheapest numbers
// of sheets whose V add up to sum(number x value). And, where V of no unlimited sheet is above its price, no less than
// sum(number x value) - sum over limited stock of avail x max(0, V - price x Scale/Unit), times Unit/Scale and rounded up to a
// sum that prices of sheets and strips can form. Of a roll the same holds for each length of it.
//
// Where there are cases, each must show the floor by numbers of sheets.
func CheckCertificate(c Certificate, l List) error {
	if c.Unit < 1 || c.Scale < 1 || c.Scale > 1<<52 {
		return fmt.Errorf("unit %d, scale %d", c.Unit, c.Scale)
	}
	value, per, sum := map[string]int64{}, int64(1), new(big.Int)
	for _, v := range c.Values {
		if _, twice := value[v.PieceID]; twice || v.Value < 0 || v.Value > 1<<56 {
			return fmt.Errorf("value %d of piece %q", v.Value, v.PieceID)
		}
		value[v.PieceID] = v.Value
	}
	for _, p := range l.Pieces {
		sum.Add(sum, product(p.Qty, value[p.ID]))
	}
	if sum.BitLen() > 60 {
		return fmt.Errorf("the values add up to %s", sum)
	}
	for _, s := range l.Stock {
		per = max(per, s.Per)
	}
	if dear := ceil(product(max(0, c.Floor), per), big.NewInt(c.Unit)); c.Cases != nil && dear.IsInt64() {
		return c.cased(l, c.Cases, nil, per, dear.Int64())
	}
	var all []holder
	avail, want := make([]int64, len(l.Stock)), sum.Int64()
	for i, s := range l.Stock {
		kinds, err := c.holders(l, i, value, per, nil)
		if err != nil {
			return err
		}
		all = append(all, kinds...)
		if avail[i] = s.Avail; s.Roll() {
			avail[i] = -1 // of lengths the other floor takes account
		}
		over := new(big.Int)
		for _, k := range kinds {
			over = larger(over, k.over(s.Avail, c.Scale))
		}
		if over.Sign() > 0 && s.Avail < 0 {
			sum.SetInt64(-1) // it could hold more than its price, and nothing follows
		}
		sum.Sub(sum, over)
	}
	floor := l.roundUp(sum, c.Scale, c.Unit, per)
	if dear := ceil(product(max(0, c.Floor), per), big.NewInt(c.Unit)); floor < c.Floor && dear.IsInt64() {
		if least, ok, _ := leastHolding(want, dear.Int64(), all, nil, avail, checkedHeld); ok {
			floor = max(floor, l.costOf(least, c.Unit, per))
		}
	}
	if floor < c.Floor || c.Floor < 0 {
		return fmt.Errorf("the floor is %d, not %d", floor, c.Floor)
	}
	return nil
}

// costOf is so many units of unit/per in minor units, rounded up.
func (l List) costOf(units, unit, per int64) int64 {
	cost := ceil(product(units, unit), big.NewInt(per))
	if !cost.IsInt64() {
		return MaxCost
	}
	return min(cost.Int64(), MaxCost)
}

// over is what so many for sale, or one where there is no limit, hold above their price; of a roll what its length does.
func (k holder) over(avail, scale int64) *big.Int {
	v := product(1, k.most)
	v.Sub(v, product(k.price, scale)).Mul(v, big.NewInt(max(1, avail)))
	if k.deep > 0 && v.Sign() > 0 {
		return ceil(v, big.NewInt(k.deep))
	}
	return v
}

// holders are what sheets of a stock hold at most with the first cuts each way, or each strip of a roll. beside is what a
// strip is worth beside its pieces; nil for nothing.
func (c Certificate) holders(l List, at int, value map[string]int64, per int64, beside func(first First, length, depth, thick int64) int64) ([]holder, error) {
	s, out := l.Stock[at], []holder(nil)
	price := s.Price
	if s.Avail == 0 {
		return nil, nil
	}
	if !s.Roll() {
		price *= per
	}
	if price%c.Unit != 0 {
		return nil, fmt.Errorf("stock %s: its price is no whole number of units", s.ID)
	}
	for _, first := range []First{Across, Along} {
		room, deep := s.rooms(l.Rules, first == Along)
		if s.Roll() && first == Along || !s.Roll() && (l.Rules.First != Either && l.Rules.First != first || deep <= l.Rules.Kerf) {
			continue // deep: nothing is left between its trims
		}
		strips, err := c.strips(l, s, first, value)
		if err != nil {
			return nil, err
		}
		for i := range strips {
			if beside != nil {
				strips[i].worth += beside(first, room, strips[i].deep, l.thickest(s))
			}
		}
		if s.Roll() {
			for _, t := range strips {
				out = append(out, holder{stock: at, first: first, price: price / c.Unit * t.deep, most: t.worth, deep: t.deep, many: math.MaxInt64})
			}
			continue
		}
		most := sheetWorth(strips, deep)
		if most >= bigWorth {
			return nil, fmt.Errorf("stock %s: it holds more than is carried", s.ID)
		}
		out = append(out, holder{stock: at, first: first, price: price / c.Unit, most: most, many: math.MaxInt64})
	}
	return out, nil
}

// What is worth so much proves nothing; sums are cut off at it, so that none leaves its range.
const bigWorth = int64(1) << 61

// worthy is a strip of at least a depth, and the most it can be worth.
type worthy struct{ deep, worth int64 }

// sheetWorth is the most that strips across a depth can be worth.
func sheetWorth(strips []worthy, deep int64) int64 {
	f := make([]int64, max(0, deep)+1)
	for _, t := range strips {
		for x := t.deep; x < int64(len(f)); x++ {
			f[x] = max(f[x], min(f[x-t.deep]+t.worth, bigWorth))
		}
	}
	return f[len(f)-1]
}

// laid is a piece as it lies in a strip, with a kerf each way: what it is worth and how often it may lie in one.
type laid struct{ along, deep, value, most int64 }

// strips are the depths that strips of a stock can have, each with the most it can be worth.
func (c Certificate) strips(l List, s Stock, first First, value map[string]int64) ([]worthy, error) {
	room, deepest := s.rooms(l.Rules, first == Along)
	if room <= l.Rules.Kerf {
		return nil, nil
	}
	var all []laid
	for _, p := range l.Pieces {
		if p.Thickness > s.Thickness || p.AlongOnly && first != Along {
			continue
		}
		for _, h := range shapes(p, first == Along) {
			t := laid{h.along + l.Rules.Kerf, h.deep + l.Rules.Kerf, h.n * value[p.ID], (p.Qty + h.n - 1) / h.n}
			if t.along <= room && (deepest == 0 || t.deep <= deepest) && t.most > 0 {
				all = append(all, t)
			}
		}
	}
	slices.SortFunc(all, func(a, b laid) int { return cmp.Compare(a.deep, b.deep) })
	var out []worthy
	if l.Rules.Stages == 2 {
		f := make([]int64, room+1)
		for i, t := range all {
			if i > 0 && l.Rules.Exact && t.deep != all[i-1].deep {
				clear(f)
			}
			fill(f, t.along, t.value, t.most)
			if i+1 == len(all) || all[i+1].deep != t.deep {
				out = append(out, worthy{t.deep, f[room]})
			}
		}
		return out, nil
	}
	return c.stacked(l, s, first, all)
}

// fill lets a thing of a size stand up to most times in each room.
func fill(f []int64, size, value, most int64) {
	if n := int64(len(f)-1) / size; most >= n {
		for x := size; x < int64(len(f)) && value > 0; x++ {
			f[x] = max(f[x], min(f[x-size]+value, bigWorth))
		}
		return
	}
	for k := int64(1); most > 0; k *= 2 { // 1, 2, 4, ... of it together make every number up to most
		k = min(k, most)
		most -= k
		for x := int64(len(f)) - 1; x >= k*size; x-- {
			f[x] = max(f[x], f[x-k*size]+k*value)
		}
	}
}

func product(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }

func larger(a, b *big.Int) *big.Int {
	if a.Cmp(b) < 0 {
		return b
	}
	return a
}

// ceil is the least whole number not below a/b, b above 0.
func ceil(a, b *big.Int) *big.Int {
	q, rest := new(big.Int).QuoRem(a, b, new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	return q
}

// roundUp is the least whole number of minor units that a plan of the list can cost when it costs at least sum/scale units
// of unit/per, and not below 0.
func (l List) roundUp(sum *big.Int, scale, unit, per int64) int64 {
	if sum.Sign() < 0 {
		return 0
	}
	units := ceil(sum, big.NewInt(scale))
	cost := ceil(l.formed(units.Mul(units, big.NewInt(unit)), per), big.NewInt(per))
	if !cost.IsInt64() {
		return MaxCost
	}
	return min(cost.Int64(), MaxCost)
}
