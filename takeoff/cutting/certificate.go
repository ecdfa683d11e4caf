package cutting

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"
)

// Certificate shows without any search that no plan costs less than its floor. Each length of piece has a value; if
// no strip can hold pieces worth more than its share of its board, all pieces together are worth no more than the
// boards of any plan.
type Certificate struct {
	// Step that lengths are counted in: pieces rounded down, rooms rounded up to it change nothing for a step that
	// divides them and can only lower the floor otherwise.
	Step int64 `json:"step"`
	// Unit divides every price, so that every plan costs a whole number of it.
	Unit int64 `json:"unit"`
	// Scale: a value is in Unit/Scale.
	Scale int64 `json:"scale"`
	// Duals are the values, longest first; a length not named is worth nothing.
	Duals []Dual `json:"duals"`
	// Floor is the cost that follows.
	Floor int64 `json:"floor"`
}

// Dual is what one piece of a length is worth.
type Dual struct {
	Length int64 `json:"length"`
	Value  int64 `json:"value"`
}

// CheckCertificate works a certificate's floor out anew from the request alone, and reports where it differs. With
// V the most that one strip of a board can hold: sum(number x value) - sum over limited boards of avail x
// max(0, strips x V - price x Scale/Unit) is a floor, times Unit/Scale and rounded up to a whole Unit; a board
// without limit must not have strips x V above its price. A strip never holds more of a length than are asked for.
func CheckCertificate(c Certificate, stock []Stock, pieces []Piece, r Rules) error {
	need, longest := map[int64]int64{}, int64(0)
	for _, p := range pieces {
		need[p.Length] += p.Qty
	}
	for _, s := range stock {
		longest = max(longest, s.room(r))
	}
	if c.Step < 1 || c.Unit < 1 || c.Scale < 1 || longest/c.Step > mostCells {
		return fmt.Errorf("step %d, unit %d, scale %d", c.Step, c.Unit, c.Scale)
	}
	most, sum := make([]int64, longest/c.Step+1), new(big.Int)
	for i, d := range c.Duals {
		size, n := (d.Length+r.Kerf)/c.Step, need[d.Length]
		sum.Add(sum, product(n, d.Value))
		if d.Value < 0 || i > 0 && d.Length >= c.Duals[i-1].Length || size < 1 || sum.BitLen() > 62 {
			return fmt.Errorf("dual %d: length %d, value %d", i, d.Length, d.Value)
		}
		n = min(n, int64(len(most)-1)/size)
		for k := int64(1); n > 0; k *= 2 { // 1, 2, 4, ... of it together make every number up to n
			k = min(k, n)
			n -= k
			for x := int64(len(most)) - 1; x >= k*size; x-- {
				most[x] = max(most[x], most[x-k*size]+k*d.Value)
			}
		}
	}
	for _, s := range stock {
		if s.room(r) <= r.Kerf || s.Avail == 0 || s.Avail > 0 && s.Avail < s.Least {
			continue
		}
		over := product(most[s.room(r)/c.Step], s.Strips)
		if over.Sub(over, product(s.Price/c.Unit, c.Scale)); s.Price%c.Unit != 0 || over.Sign() > 0 && s.Avail < 0 {
			return fmt.Errorf("stock %s: a board could hold more than its price", s.ID)
		}
		if over.Sign() > 0 {
			sum.Sub(sum, over.Mul(over, big.NewInt(s.Avail)))
		}
	}
	if floor := roundUp(sum, c.Scale, c.Unit); floor != c.Floor {
		return fmt.Errorf("the floor is %d, not %d", floor, c.Floor)
	}
	return nil
}

func product(a, b int64) *big.Int { return new(big.Int).Mul(big.NewInt(a), big.NewInt(b)) }

// roundUp is unit times the least whole number not below sum/scale, and not below 0.
func roundUp(sum *big.Int, scale, unit int64) int64 {
	q, rest := new(big.Int).QuoRem(sum, big.NewInt(scale), new(big.Int))
	if rest.Sign() > 0 {
		q.Add(q, big.NewInt(1))
	}
	if q.Sign() < 0 {
		return 0
	}
	if q.Mul(q, big.NewInt(unit)); !q.IsInt64() {
		return MaxCost
	}
	return q.Int64()
}

// dualsOf puts the values of items beside their lengths.
func dualsOf(items []item, values []int64) []Dual {
	out := []Dual{}
	for i, it := range items {
		if values[i] > 0 {
			out = append(out, Dual{it.length, values[i]})
		}
	}
	slices.SortFunc(out, func(a, b Dual) int { return cmp.Compare(b.Length, a.Length) })
	return out
}
