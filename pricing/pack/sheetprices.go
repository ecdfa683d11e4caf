package pack

import (
	"math/big"
	"slices"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
)

// Of each row of sheets or rolls a plan buys either none, or so many that one of its prices holds. Every choice of these is a list
// of its own, and what no plan can cost less than is the least of their floors. A least order is paid in any case: in its list as
// much of the row costs nothing, and only what goes beyond it is paid.

// prices are a choice: each row that is bought at the pack whose price holds, and the stock for the cutting.
type prices struct {
	packs []int // by row into packs; -1 where the row is not bought
	// paid is what least orders cost in any case; it is in no price of the stock.
	paid int64
	// scale multiplies the prices of the stock, so that what is paid already still counts as 1; 1 where nothing is.
	scale int64
	stock []flat.Stock
}

// mostSheetChoices is up to how many choices of prices are weighed; each is planned for every pairing.
const mostSheetChoices = 24

// beyond follows the name of stock of which a least order is paid already.
const beyond = ", beyond the least order"

// lowest is every row at its lowest price, whatever its least order: what no plan costs less than.
func (y *laying) lowest() prices {
	out := prices{scale: 1}
	for _, s := range y.rows {
		least, most := s.breaks[0], int64(0)
		for _, k := range s.breaks {
			if y.packs[k].price.Minor() < y.packs[least].price.Minor() {
				least = k
			}
			if most >= 0 && (y.packs[k].avail < 0 || y.packs[k].avail > most) {
				most = y.packs[k].avail
			}
		}
		out.packs = append(out.packs, least)
		out.stock = append(out.stock, y.stock(s, y.packs[least], y.packs[least].price.Minor(), most, 1))
	}
	return out
}

// plain reports that every row has one price and no least order.
func (y *laying) plain() bool {
	return !slices.ContainsFunc(y.rows, func(s sized) bool { return len(s.breaks) > 1 || y.packs[s.breaks[0]].least > 1 })
}

// choices are those of one price or none for each row, at most so many; false where there are more. A price that holds from one
// pack on stands for none as well.
func (y *laying) choices() (out []prices, all bool) {
	chosen := [][]int{{}}
	for _, s := range y.rows {
		one := s.breaks
		if y.packs[s.breaks[0]].least > 1 {
			one = append([]int{-1}, one...)
		}
		var next [][]int
		for _, k := range one {
			for _, before := range chosen {
				next = append(next, append(slices.Clone(before), k))
			}
		}
		if chosen = next; len(chosen) > mostSheetChoices {
			return nil, false
		}
	}
	for _, packs := range chosen {
		if p := y.at(packs); len(p.stock) > 0 {
			out = append(out, p)
		}
	}
	slices.SortStableFunc(out, func(a, b prices) int { return int(min(1, max(-1, a.paid-b.paid))) })
	return out, true
}

// at is a choice with its stock.
func (y *laying) at(packs []int) prices {
	out := prices{packs: packs, scale: 1}
	for row, k := range packs {
		if k < 0 || y.packs[k].least <= 1 {
			continue
		}
		p, s := y.packs[k], y.rows[row]
		out.paid += p.least * p.price.Minor()
		out.scale += 2 + p.least*s.size.Each
		if s.size.Roll() {
			out.scale += money.Down(new(big.Rat).Quo(new(big.Rat).Mul(s.rollLength(p), big.NewRat(p.least, 1)), big.NewRat(rollPer, 1)))
		}
	}
	for row, k := range packs {
		if k < 0 {
			continue
		}
		p, s := y.packs[k], y.rows[row]
		if p.least <= 1 {
			out.stock = append(out.stock, y.stock(s, p, p.price.Minor(), p.avail, out.scale))
			continue
		}
		given := y.stock(s, p, p.price.Minor(), p.least, 1)
		given.Price = 1
		rest := int64(-1)
		if p.avail >= 0 {
			rest = p.avail - p.least
		}
		more := y.stock(s, p, p.price.Minor(), rest, out.scale)
		more.ID += beyond
		out.stock = append(out.stock, given, more)
	}
	return out
}

// everything is what all that is for sale at these prices costs; -1 where it has no end.
func (y *laying) everything(at prices) int64 {
	sum := int64(0)
	for _, k := range at.packs {
		if k < 0 {
			continue
		}
		if y.packs[k].avail < 0 || y.packs[k].avail > mostMinor/max(1, y.packs[k].price.Minor()) {
			return -1
		}
		sum += y.packs[k].avail * y.packs[k].price.Minor()
	}
	return sum
}

// endless is the choice with no end of what is for sale, but for what is paid in any case.
func (p prices) endless() prices {
	p.stock = slices.Clone(p.stock)
	for i, s := range p.stock {
		given := slices.ContainsFunc(p.stock, func(o flat.Stock) bool { return o.ID == s.ID+beyond })
		if !given {
			p.stock[i].Avail = -1
		}
	}
	return p
}
