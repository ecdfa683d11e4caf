package money

import (
	"errors"
	"math/big"
	"sort"

	"github.com/shopspring/decimal"
)

// ErrWeights: weights that an amount cannot be split by.
var ErrWeights = errors.New("an amount is split by weights that are not negative, of ordinary size, and not all zero")

// Split divides m in proportion to the weights by the largest remainder: each share is first cut down to a whole
// minor unit, then the units left over go one each to the largest parts cut off, the earlier share first when they
// are equal.
//
// The shares add to m exactly, each is within one minor unit of its exact part, a weight of zero gets nothing, and
// the shares of -m are those of m with the sign turned. ErrWeights when the weights cannot be used.
func (m Money) Split(weights []decimal.Decimal) ([]Money, error) {
	parts, total, err := common(weights)
	if err != nil {
		return nil, err
	}
	size := new(big.Int).Abs(big.NewInt(m.minor))
	shares := make([]int64, len(parts))
	rest := make([]*big.Int, len(parts))
	left := size.Int64()
	for i, w := range parts {
		q, r := new(big.Int).QuoRem(new(big.Int).Mul(size, w), total, new(big.Int))
		shares[i], rest[i] = q.Int64(), r
		left -= shares[i]
	}
	for _, i := range byRemainder(rest)[:left] {
		shares[i]++
	}
	out := make([]Money, len(shares))
	for i, s := range shares {
		if m.minor < 0 {
			s = -s
		}
		out[i] = Money{s, m.currency}
	}
	return out, nil
}

// common brings the weights to whole numbers of one scale and adds them.
func common(weights []decimal.Decimal) (parts []*big.Int, total *big.Int, err error) {
	least := int32(0)
	for _, w := range weights {
		if _, ok := bounded(w); !ok || w.IsNegative() {
			return nil, nil, ErrWeights
		}
		least = min(least, w.Exponent())
	}
	total = new(big.Int)
	for _, w := range weights {
		p := new(big.Int).Mul(w.Coefficient(), power10(w.Exponent()-least))
		parts = append(parts, p)
		total.Add(total, p)
	}
	if total.Sign() == 0 {
		return nil, nil, ErrWeights
	}
	return parts, total, nil
}

// byRemainder is the indices ordered by falling remainder, ties by index. There are always fewer units left over
// than there are remainders above zero.
func byRemainder(rest []*big.Int) []int {
	order := make([]int, len(rest))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return rest[order[a]].Cmp(rest[order[b]]) > 0 })
	return order
}
