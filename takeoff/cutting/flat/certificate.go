package flat

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
)

// Certificate shows without any search that no plan costs less than its floor. Each piece has a value; if no sheet can
// hold pieces worth more than its price, all pieces together are worth no more than the sheets of any plan.
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
	// Floor is the cost that follows.
	Floor int64 `json:"floor"`
}

// Value is what one piece is worth.
type Value struct {
	PieceID string `json:"piece_id"`
	Value   int64  `json:"value"`
}

// CheckCertificate works a floor out anew from the request and the values alone, and reports when it is below the
// certificate's, or what is wrong with them. With V
// the most that a sheet can hold, by a table over the length of strips and one over their depths: sum(number x value)
// - sum over limited stock of avail x max(0, V - price x Scale/Unit) is a floor, times Unit/Scale and rounded up to a
// sum that prices of sheets and strips can form. V of an unlimited sheet must not be above its price. Of a roll the same holds for each length of it.
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
	for _, s := range l.Stock {
		over, err := c.over(l, s, value, per)
		if err != nil {
			return err
		}
		if over.Sign() > 0 && s.Avail < 0 {
			return fmt.Errorf("stock %s: it could hold more than its price", s.ID)
		}
		if over.Sign() > 0 {
			sum.Sub(sum, over)
		}
	}
	if floor := l.roundUp(sum, c.Scale, c.Unit, per); floor < c.Floor || c.Floor < 0 {
		return fmt.Errorf("the floor is %d, not %d", floor, c.Floor)
	}
	return nil
}

// over is what all of a stock for sale, or one sheet where there is no limit, can hold above its price.
func (c Certificate) over(l List, s Stock, value map[string]int64, per int64) (*big.Int, error) {
	most, price := new(big.Int), s.Price
	if s.Avail == 0 {
		return most, nil
	}
	if !s.Roll() {
		price *= per
	}
	if price%c.Unit != 0 {
		return nil, fmt.Errorf("stock %s: its price is no whole number of units", s.ID)
	}
	for _, first := range []First{Across, Along} {
		if s.Roll() && first == Along || !s.Roll() && l.Rules.First != Either && l.Rules.First != first {
			continue
		}
		if _, deep := s.rooms(l.Rules, first == Along); !s.Roll() && deep <= l.Rules.Kerf {
			continue // nothing is left between its trims
		}
		strips, err := c.strips(l, s, first, value)
		if err != nil {
			return nil, err
		}
		if _, deep := s.rooms(l.Rules, first == Along); sheetWorth(strips, deep) >= bigWorth {
			return nil, fmt.Errorf("stock %s: it holds more than is carried", s.ID)
		}
		cost := product(price/c.Unit, c.Scale)
		if s.Roll() {
			for _, t := range strips {
				v := product(1, t.worth)
				if v.Sub(v, new(big.Int).Mul(cost, big.NewInt(t.deep))); v.Sign() > 0 {
					most = larger(most, ceil(v.Mul(v, big.NewInt(max(1, s.Avail))), big.NewInt(t.deep)))
				}
			}
			continue
		}
		_, deep := s.rooms(l.Rules, first == Along)
		v := product(1, sheetWorth(strips, deep))
		most = larger(most, v.Sub(v, cost).Mul(v, big.NewInt(max(1, s.Avail))))
	}
	return most, nil
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
