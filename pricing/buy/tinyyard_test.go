package buy_test

import (
	"math/big"
	"slices"
)

// ware is one thing for sale or in hand in a tiny yard: what each of it gives every need, its prices from so many on in cents, and what
// it weighs and measures as freight counts it. A supplier of -1 is the yard's own rack.
type ware struct {
	supplier    int
	gives       []int64
	avail       int64
	from, price []int64
	kg, m3      *big.Rat
}

// each is what one costs where n are bought; false where so few are not sold.
func (w ware) each(n int64) (price int64, sold bool) {
	return article{avail: w.avail, from: w.from, price: w.price}.each(n)
}

// asking is what a supplier asks for bringing: by the order, a board foot and a kilogram, in cents, each with the sum from which on it
// is not asked, 0 for none.
type asking struct{ order, foot, kg, orderFree, footFree, kgFree int64 }

// tinyYard is everything, and what is needed of each need.
type tinyYard struct {
	wares   []ware
	asked   []asking
	needed  []int64
	most    int64 // of one ware that are worth looking at
	goods   int64 // the cheapest without freight, -1 for none
	total   int64 // and with
	counts  []int64
	feetPer *big.Rat
}

// look goes through every number of every ware for every need.
func (y *tinyYard) look() {
	y.goods, y.total = -1, -1
	left := append([]int64{}, y.needed...)
	y.counts = make([]int64, len(y.wares))
	y.walk(0, 0, left, 0)
}

func (y *tinyYard) walk(i, need int, left []int64, n int64) {
	if i == len(y.wares) {
		for _, l := range left {
			if l > 0 {
				return
			}
		}
		y.weigh()
		return
	}
	w := y.wares[i]
	if need == len(left) {
		y.counts[i] = n
		if _, sold := w.each(n); sold || n == 0 {
			y.walk(i+1, 0, left, 0)
		}
		y.counts[i] = 0
		return
	}
	y.walk(i, need+1, left, n)
	if w.gives[need] == 0 {
		return
	}
	before := left[need]
	for k := int64(1); n+k <= y.most && (w.avail < 0 || n+k <= w.avail); k++ {
		if left[need] <= 0 && slices.ContainsFunc(w.gives[:need], func(g int64) bool { return g > 0 }) {
			break // what is bought beyond all needs stands with the first
		}
		left[need] = before - k*w.gives[need]
		y.walk(i, need+1, left, n+k)
	}
	left[need] = before
}

// weigh looks at what stands in counts.
func (y *tinyYard) weigh() {
	goods := make([]int64, len(y.asked))
	kg, m3 := make([]*big.Rat, len(y.asked)), make([]*big.Rat, len(y.asked))
	bought, sum := make([]bool, len(y.asked)), int64(0)
	for s := range y.asked {
		kg[s], m3[s] = new(big.Rat), new(big.Rat)
	}
	for i, n := range y.counts {
		if n == 0 {
			continue
		}
		price, _ := y.wares[i].each(n)
		sum += n * price
		if s := y.wares[i].supplier; s >= 0 {
			goods[s] += n * price
			bought[s] = true
			times := big.NewRat(n, 1)
			kg[s].Add(kg[s], new(big.Rat).Mul(times, y.wares[i].kg))
			m3[s].Add(m3[s], new(big.Rat).Mul(times, y.wares[i].m3))
		}
	}
	if y.goods < 0 || sum < y.goods {
		y.goods = sum
	}
	for s, a := range y.asked {
		if !bought[s] {
			continue
		}
		if a.orderFree == 0 || goods[s] < a.orderFree {
			sum += a.order
		}
		if a.footFree == 0 || goods[s] < a.footFree {
			sum += roundHalfUp(new(big.Rat).Mul(big.NewRat(a.foot, 1), new(big.Rat).Quo(m3[s], y.feetPer)))
		}
		if a.kgFree == 0 || goods[s] < a.kgFree {
			sum += roundHalfUp(new(big.Rat).Mul(big.NewRat(a.kg, 1), kg[s]))
		}
	}
	if y.total < 0 || sum < y.total {
		y.total = sum
	}
}

func roundHalfUp(r *big.Rat) int64 {
	r.Add(r, big.NewRat(1, 2))
	return new(big.Int).Quo(r.Num(), r.Denom()).Int64()
}
