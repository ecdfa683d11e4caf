package buy_test

import (
	"math/big"
	"slices"
)

// load is one thing for sale or in hand in a tiny yard that counts every part of a coin: the pieces that one gives to each of two groups of
// laminates and how much it holds of each of two cans, its prices from so many on in the smallest coin, and what one measures and weighs.
// A seller of -1 is the yard's own rack.
type load struct {
	key         string
	seller      int
	gives       [4]int64
	avail       int64
	from, price []int64
	m3, kg      *big.Rat
}

// each is what one costs where n are bought, the lowest price that n comes up to; false where so few or so many are not sold.
func (l load) each(n int64) (price int64, sold bool) {
	for k, from := range l.from {
		if n >= from && (!sold || l.price[k] < price) {
			price, sold = l.price[k], true
		}
	}
	return price, sold && (l.avail < 0 || n <= l.avail)
}

// fee is what is asked for one order, cubic metre or kilogram in the smallest coin, nil for nothing, and the sum of the
// seller's goods from which on it is not asked, 0 for none.
type fee struct {
	each *big.Rat
	free int64
}

// lading is a tiny yard: what is for sale, what sellers ask by the order, by measure and by weight, and what is needed.
type lading struct {
	loads  []load
	asks   [][3]fee
	needed [4]int64
	most   int64 // of one thing that are looked at
	goods  int64 // the cheapest without its freight, -1 for none
	total  int64 // and with it
}

// freight is what each seller asks for so many of everything, each row rounded once, half a coin up.
func (y *lading) freight(counts []int64) (all []int64) {
	for s, rows := range y.asks {
		bought, goods, m3, kg := int64(0), int64(0), new(big.Rat), new(big.Rat)
		for i, l := range y.loads {
			if l.seller != s || counts[i] == 0 {
				continue
			}
			price, _ := l.each(counts[i])
			n := big.NewRat(counts[i], 1)
			bought, goods = 1, goods+counts[i]*price
			m3.Add(m3, new(big.Rat).Mul(n, l.m3))
			kg.Add(kg, new(big.Rat).Mul(n, l.kg))
		}
		sum := int64(0)
		for k, of := range []*big.Rat{big.NewRat(bought, 1), m3, kg} {
			if f := rows[k]; f.each != nil && (f.free == 0 || goods < f.free) {
				sum += halfUp(new(big.Rat).Mul(of, f.each))
			}
		}
		all = append(all, sum)
	}
	return all
}

// halfUp is the nearest whole number, a half up; of what is not below nothing.
func halfUp(r *big.Rat) int64 {
	twice := new(big.Rat).Add(new(big.Rat).Add(r, r), big.NewRat(1, 1))
	return new(big.Int).Quo(twice.Num(), new(big.Int).Mul(twice.Denom(), big.NewInt(2))).Int64()
}

// compare keeps what so many come to, alone and with their freight, where that is less than before.
func (y *lading) compare(counts []int64, goods int64) {
	if y.goods < 0 || goods < y.goods {
		y.goods = goods
	}
	for _, f := range y.freight(counts) {
		goods += f
	}
	if y.total < 0 || goods < y.total {
		y.total = goods
	}
}

// look goes through every number of everything.
func (y *lading) look() {
	y.goods, y.total = -1, -1
	counts := make([]int64, len(y.loads))
	var walk func(i int, goods int64)
	walk = func(i int, goods int64) {
		if y.total >= 0 && goods >= y.total { // no freight is below nothing
			return
		}
		if i < len(y.loads) {
			walk(i+1, goods)
			for n := int64(1); n <= y.most; n++ {
				if price, sold := y.loads[i].each(n); sold {
					counts[i] = n
					walk(i+1, goods+n*price)
				}
			}
			counts[i] = 0
			return
		}
		if !y.holds(counts) {
			return
		}
		y.compare(counts, goods)
	}
	walk(0, 0)
}

// holds says that so many of everything do for all needs: cans add up, and boards can be parted between the two groups.
func (y *lading) holds(counts []int64) bool {
	left := y.needed
	for i, n := range counts {
		left[2] -= n * y.loads[i].gives[2]
		left[3] -= n * y.loads[i].gives[3]
	}
	if left[2] > 0 || left[3] > 0 {
		return false
	}
	var part func(i int, first, second int64) bool
	part = func(i int, first, second int64) bool {
		if first <= 0 && second <= 0 {
			return true
		}
		if i == len(counts) {
			return false
		}
		of := y.loads[i].gives
		for n := int64(0); n <= counts[i]; n++ {
			if part(i+1, first-n*of[0], second-(counts[i]-n)*of[1]) {
				return true
			}
		}
		return false
	}
	return part(0, left[0], left[1])
}

// within says that so many of everything were looked at.
func (y *lading) within(counts []int64) bool {
	return !slices.ContainsFunc(counts, func(n int64) bool { return n > y.most })
}
