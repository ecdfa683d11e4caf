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
	// Scarfed are those of pieces that may be made of two, Parts those of such parts.
	Scarfed []Dual `json:"scarfed,omitempty"`
	Parts   []Dual `json:"parts,omitempty"`
	// Floor is the cost that follows.
	Floor int64 `json:"floor"`
}

// Dual is what one piece of a length is worth.
type Dual struct {
	Length int64 `json:"length"`
	Value  int64 `json:"value"`
}

// CheckCertificate works a certificate's floor out anew from the request alone, and reports where it claims more. With
// V the most that one strip of a board can hold, with what is worth keeping of it: sum(number x value) - sum over limited boards of avail x
// max(0, strips x V - price x Scale/Unit) is a floor, times Unit/Scale and rounded up to a whole Unit; a board
// without limit must not have strips x V above its price. A strip never holds more of a length than are asked for, or of a part
// than joints could use. A piece that may be scarfed is worth no more than any two parts of it and their joint.
func CheckCertificate(c Certificate, stock []Stock, pieces []Piece, r Rules) error {
	need, scarf, longest := map[int64]int64{}, map[int64]int64{}, int64(0)
	for _, p := range pieces {
		if p.Qty == 0 { // no joint of it is paid for
			continue
		}
		if p.MayScarf && r.Scarf != nil {
			scarf[p.Length] += p.Qty
		} else {
			need[p.Length] += p.Qty
		}
	}
	if c.Step < 1 || c.Unit < 1 || c.Scale < 1 {
		return fmt.Errorf("step %d, unit %d, scale %d", c.Step, c.Unit, c.Scale)
	}
	parts, err := c.checkParts(stock, scarf, r)
	if err != nil {
		return err
	}
	shortest := shortestOf(need, scarf, parts)
	serves := func(s Stock) bool {
		return s.room(r) >= shortest+r.Kerf && s.Avail != 0 && (s.Avail < 0 || s.Avail >= s.Least)
	}
	for _, s := range stock {
		if serves(s) { // others, however long, take no room in the table
			longest = max(longest, s.room(r))
		}
	}
	if longest/c.Step > mostCells {
		return fmt.Errorf("step %d of %d", c.Step, longest)
	}
	if k := r.Keep; k != nil && (k.Rate%c.Unit != 0 || product(k.worth(longest-r.Kerf)/c.Unit, c.Scale).BitLen() > 62) {
		return fmt.Errorf("unit %d, and left-overs of %d", c.Unit, k.Rate)
	}
	sum := new(big.Int)
	for _, of := range []struct {
		duals []Dual
		need  map[int64]int64
	}{{c.Duals, need}, {c.Scarfed, scarf}, {c.Parts, nil}} {
		for i, d := range of.duals {
			sum.Add(sum, product(of.need[d.Length], d.Value))
			if d.Value < 0 || i > 0 && d.Length >= of.duals[i-1].Length || d.Length+r.Kerf < c.Step || sum.BitLen() > 62 {
				return fmt.Errorf("dual %d: length %d, value %d", i, d.Length, d.Value)
			}
		}
	}
	// what the steps cut off a board is left over of it too, so that boards of which they cut off as much share a table
	rooms, tables := map[int64]int64{}, map[int64][]int64{}
	cutOff := func(s Stock) int64 {
		if r.Keep == nil {
			return 0
		}
		return s.room(r) % c.Step
	}
	for _, s := range stock {
		if serves(s) {
			rooms[cutOff(s)] = max(rooms[cutOff(s)], s.room(r)/c.Step)
		}
	}
	for past, cells := range rooms {
		most := make([]int64, cells+1)
		if r.Keep != nil {
			for x := range most {
				most[x] = r.Keep.worth(int64(x)*c.Step+past-r.Kerf) / c.Unit * c.Scale
			}
		}
		c.fill(most, c.Duals, need, r.Kerf)
		c.fill(most, c.Scarfed, scarf, r.Kerf)
		c.fill(most, c.Parts, parts, r.Kerf)
		tables[past] = most
	}
	for _, s := range stock {
		if !serves(s) {
			continue
		}
		over := product(tables[cutOff(s)][s.room(r)/c.Step], s.Strips)
		if over.Sub(over, product(s.Price/c.Unit, c.Scale)); s.Price%c.Unit != 0 || over.Sign() > 0 && s.Avail < 0 {
			return fmt.Errorf("stock %s: a board could hold more than its price", s.ID)
		}
		if over.Sign() > 0 {
			sum.Sub(sum, over.Mul(over, big.NewInt(s.Avail)))
		}
	}
	if floor := roundUp(sum, c.Scale, c.Unit); floor < c.Floor {
		return fmt.Errorf("the floor is %d, not %d", floor, c.Floor)
	}
	return nil
}

// mostHeld is past what any room may hold: what all pieces are worth together is less, so that a board that holds so much and costs
// no less is dearer than the floor.
const mostHeld = int64(1) << 62

// fill puts lengths into the most that each room holds, each as often as a strip may hold it.
func (c Certificate) fill(most []int64, duals []Dual, held map[int64]int64, kerf int64) {
	for _, d := range duals {
		size := (d.Length + kerf) / c.Step
		n := min(held[d.Length], int64(len(most)-1)/size)
		for k := int64(1); n > 0; k *= 2 { // 1, 2, 4, ... of it together make every number up to n
			k = min(k, n)
			n -= k
			for x := int64(len(most)) - 1; x >= k*size; x-- {
				with := mostHeld // of a part, which no sum of what is asked for limits, the value may be past all range
				if d.Value <= (mostHeld-most[x-k*size])/k {
					with = most[x-k*size] + k*d.Value
				}
				most[x] = max(most[x], with)
			}
		}
	}
}

// shortestOf are the least length of which any are wanted.
func shortestOf(wanted ...map[int64]int64) int64 {
	least := int64(MaxLength + 1)
	for _, of := range wanted {
		for length, n := range of {
			if n > 0 {
				least = min(least, length)
			}
		}
	}
	return least
}

// checkParts goes through every place of a joint and gives how many of each part joints could use. It shares no code with
// Solve: every length a board gives, the least part and the whole number of steps are tried as one part of each piece.
func (c Certificate) checkParts(stock []Stock, scarf map[int64]int64, r Rules) (map[int64]int64, error) {
	use := map[int64]int64{}
	if r.Scarf == nil || r.Scarf.Step < 1 {
		return use, nil
	}
	worth, longest := map[int64]int64{}, int64(0)
	for _, d := range c.Parts {
		worth[d.Length] = d.Value
	}
	for _, s := range stock {
		longest = max(longest, s.Length-2*r.TrimEach)
	}
	for length, n := range scarf {
		value, both := int64(0), length+r.Scarf.Length
		for _, d := range c.Scarfed {
			if d.Length == length {
				value = d.Value
			}
		}
		ends := []int64{r.Scarf.Least}
		for _, s := range stock {
			ends = append(ends, s.Length-2*r.TrimEach)
		}
		for k := (both - min(longest, both-r.Scarf.Least)) / r.Scarf.Step; k*r.Scarf.Step <= min(longest, both-r.Scarf.Least); k++ {
			ends = append(ends, k*r.Scarf.Step)
		}
		done := map[int64]bool{}
		for _, a := range ends {
			b := both - a
			if min(a, b) < r.Scarf.Least || max(a, b) > longest || done[a] || done[b] {
				continue
			}
			if r.Scarf.Price%c.Unit != 0 {
				return nil, fmt.Errorf("unit %d, and a joint of %d", c.Unit, r.Scarf.Price)
			}
			done[a] = true
			use[a] += n
			use[b] += n
			two := product(r.Scarf.Price/c.Unit, c.Scale)
			if two.Add(two, big.NewInt(worth[a])).Add(two, big.NewInt(worth[b])).Cmp(big.NewInt(value)) < 0 {
				return nil, fmt.Errorf("pieces of %d are worth %d, parts of %d and %d with their joint %s", length, value, a, b, two)
			}
		}
	}
	return use, nil
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

// dualsOf puts the values of items of a sort beside their lengths.
func dualsOf(items []item, values []int64, of sort) []Dual {
	var out []Dual
	if of == whole {
		out = []Dual{}
	}
	for i, it := range items {
		if it.sort == of && values[i] > 0 {
			out = append(out, Dual{it.length, values[i]})
		}
	}
	slices.SortFunc(out, func(a, b Dual) int { return cmp.Compare(b.Length, a.Length) })
	return out
}
