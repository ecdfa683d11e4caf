package flat

import (
	"math/big"
	"math/bits"
)

// price fills the tables with integer values of classes and keeps what they prove. What a sheet can hold comes out of
// the tables exactly; where one without limit could hold more than its price, all values are scaled down to what it
// allows.
func (s *search) price(values []int64) {
	s.fill(values, s.wanted())
	s.hold(values)
	if s.prove(values, 1, 1) {
		return
	}
	num, den := int64(1), int64(1)
	for i, f := range s.forms {
		t := s.stock[f.stock]
		if t.Avail >= 0 {
			continue
		}
		s.each(i, func(v, cost int64) {
			p := product(cost, s.scale)
			if !p.IsInt64() || v >= bigWorth || product(v, 1).Cmp(p) <= 0 {
				return
			}
			if new(big.Int).Mul(p, big.NewInt(den)).Cmp(product(v, num)) < 0 {
				num, den = p.Int64(), v
			}
		})
	}
	if num == den {
		return
	}
	scaled := make([]int64, len(values))
	for i, v := range values {
		scaled[i] = share(v, num, den)
	}
	s.prove(scaled, num, den)
}

// fill fills the tables of strips, and of sheets with what strips are worth.
func (s *search) fill(values, wanted []int64) {
	for _, p := range s.pricers {
		p.run(values, wanted)
	}
	for i, f := range s.forms {
		if !s.stock[f.stock].Roll() {
			s.outer[i].clear()
			s.acrossSheet(i, func(level int) int64 { return s.worth(f.group, level) })
		}
	}
}

// worth is the most that a strip of a group and level can be worth.
func (s *search) worth(group, level int) int64 {
	g := s.groups[group]
	return s.pricers[g.lay].worth(level, g.room)
}

// acrossSheet puts strips of a form's levels into its table.
func (s *search) acrossSheet(form int, worth func(level int) int64) {
	s.across(form, worth, s.lays[s.groups[s.forms[form].group].lay].least)
}

// across is acrossSheet with strips of a level as deep as depths says.
func (s *search) across(form int, worth func(level int) int64, depths []int64) {
	f := s.forms[form]
	before := int64(0)
	for level, d := range depths {
		v := worth(level)
		if v <= before && !s.list.Rules.Exact { // a strip less deep does as well
			continue
		}
		before = v
		s.outer[form].put(level, d, v, max(1, f.deep))
	}
}

// each calls seen with what a sheet of a form can be worth and its price, or with each level of a roll.
func (s *search) each(form int, seen func(v, cost int64)) {
	f := s.forms[form]
	t := s.stock[f.stock]
	if !t.Roll() {
		seen(s.outer[form].f[f.deep], t.price)
		return
	}
	for level, d := range s.lays[s.groups[f.group].lay].least {
		if d <= f.deep {
			seen(s.worth(f.group, level), t.price*d)
		}
	}
}

// prove keeps values that prove more than the best so far; the tables hold them times den/num. false when a stock
// without limit could hold more than its price.
func (s *search) prove(values []int64, num, den int64) bool {
	sum, fine := new(big.Int), true
	for i, c := range s.classes {
		sum.Add(sum, product(c.demand, values[i]))
	}
	for k, t := range s.stock {
		most := new(big.Int)
		for i, f := range s.forms {
			if f.stock != k {
				continue
			}
			at := 0
			s.each(i, func(v, cost int64) {
				over := product(1, share(v, num, den))
				over.Sub(over, product(cost, s.scale))
				fine = fine && v < bigWorth && (over.Sign() <= 0 || t.Avail >= 0)
				over.Mul(over, big.NewInt(max(1, t.Avail)))
				if t.Roll() && over.Sign() > 0 {
					over = ceil(over, big.NewInt(s.lays[s.groups[f.group].lay].least[at]))
				}
				most = larger(most, over)
				at++
			})
		}
		sum.Sub(sum, most)
	}
	if fine && sum.IsInt64() && sum.Int64() > s.proved {
		s.proved, s.values = sum.Int64(), values
	}
	return fine
}

// share is floor(d x num / den), num <= den.
func share(d, num, den int64) int64 {
	if num == den {
		return d
	}
	hi, lo := bits.Mul64(uint64(d), uint64(num))
	q, _ := bits.Div64(hi, lo, uint64(den))
	return int64(q)
}
