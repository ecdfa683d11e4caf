package flat

import (
	"math/rand/v2"
	"slices"
)

// sequences make plans sheet after sheet, each holding as much as it can of what is still wanted by the values that the
// pieces have, until so much work is done or so many plans brought nothing. After each plan what lay in poorly filled
// sheets is worth more. Where few sheets do, this finds what rounding the program's answer does not.
func (s *search) sequences(until int64, r *rand.Rand) {
	values := s.firstValues()
	for idle := 0; idle < mostIdle && !s.settled() && !s.spent() && s.worked() < until; idle++ {
		k := s.sequence(values, r)
		if k == nil {
			return
		}
		s.revalue(values, k, r)
		if plan, ok := k.plan(); ok && (s.best == nil || better(plan, *s.best)) {
			if s.best == nil || plan.Cost < s.best.Cost {
				idle = 0
			}
			s.best = &plan
		}
	}
}

// So many plans in a row may bring nothing before sequences end; with more sheets than mostSheets they are not tried, as
// rounding finds better plans there.
const (
	mostIdle   = 300
	mostSheets = 60
)

// few reports whether the best plan buys so few sheets that sequences are worth while.
func (s *search) few() bool {
	n := int64(0)
	if s.best != nil {
		for _, lot := range s.best.Bought {
			n += lot.N
		}
	}
	return n <= mostSheets
}

// Values of a sequence are whole numbers of this size for the greatest.
const seqScale = 1 << 30

// firstValues are the program's where it is solved, else areas.
func (s *search) firstValues() []float64 {
	out := make([]float64, len(s.classes))
	most := 0.0
	for i := range out {
		if out[i] = float64(s.values[i]); s.values[i] == 0 {
			out[i] = s.area(i) * s.norm / 1e9
		}
		most = max(most, out[i])
	}
	for i := range out {
		out[i] *= seqScale / most
	}
	return out
}

func (p *problem) area(class int) float64 {
	q := p.classes[class].ids[0]
	return float64(q.Width+p.list.Rules.Kerf) * float64(q.Length+p.list.Rules.Kerf)
}

// revalue mixes what each piece has cost in a plan into its value.
func (s *search) revalue(values []float64, k *packing, r *rand.Rand) {
	for _, t := range k.sheets {
		f := s.forms[t.form]
		price, held := float64(s.stock[f.stock].price), 0.0
		given := make([]int64, len(s.classes))
		for _, m := range t.strips {
			if s.stock[f.stock].Roll() {
				price *= float64(m.deep)
			}
			for _, st := range m.stacks {
				for _, p := range st.parts {
					h := s.lays[m.lay].shapes[p.thing]
					given[h.class] += st.n * p.n * h.n
				}
			}
		}
		for i, n := range given {
			held += float64(float64(n) * s.area(i))
		}
		for i, n := range given {
			if n == 0 {
				continue
			}
			now := s.area(i) * price / held
			mix := 0.1 + float64(0.3*r.Float64())
			values[i] = float64((1-mix)*values[i]) + float64(mix*now*s.perUnit(values))
		}
	}
}

// perUnit brings costs to the size of the values.
func (s *search) perUnit(values []float64) float64 {
	worth := 0.0
	for i, c := range s.classes {
		worth += float64(values[i] * float64(c.demand))
	}
	cost := 1.0
	if s.best != nil {
		cost = float64(s.best.Cost) * float64(s.per) / float64(s.unit)
	}
	return worth / cost
}

// sequence makes one plan; nil when what is for sale ran out.
func (s *search) sequence(values []float64, r *rand.Rand) *packing {
	wanted, k := s.wanted(), s.pack()
	whole := make([]int64, len(values))
	for i, v := range values {
		whole[i] = int64(min(max(v*(0.97+float64(0.06*r.Float64())), 1), 1<<40))
	}
	for !s.spent() {
		if !slices.ContainsFunc(wanted, func(n int64) bool { return n > 0 }) {
			return k
		}
		form := s.richest(k, whole, wanted, r)
		if form < 0 || !s.fillOne(k, form, whole, wanted) {
			return nil
		}
	}
	return nil
}

// richest is the form whose best sheet holds most for its price; -1 when none is left that holds anything.
func (s *search) richest(k *packing, values, wanted []int64, r *rand.Rand) int {
	s.fill(values, wanted)
	best, most := -1, 0.0
	for i, f := range s.forms {
		if k.left[f.stock] < 1 {
			continue
		}
		rate := 0.0
		s.each(i, func(v, cost int64) { rate = max(rate, float64(v)/float64(cost)) })
		rate *= 0.95 + float64(0.1*r.Float64())
		if rate > most {
			best, most = i, rate
		}
	}
	return best
}

// fillOne opens one sheet of a form and fills it strip by strip, the deepest of its best layout first; of a roll it cuts
// off one strip. The tables hold the present values. false when nothing went in.
func (s *search) fillOne(k *packing, form int, values, wanted []int64) bool {
	f := s.forms[form]
	g := s.groups[f.group]
	y := s.lays[g.lay]
	roll := s.stock[f.stock].Roll()
	deep := f.deep
	if roll {
		deep = min(deep, k.left[f.stock])
	}
	var t *sheet
	for first := true; ; first = false {
		if !first {
			s.pricers[g.lay].run(values, wanted)
		}
		level := -1
		if roll {
			rate := 0.0
			for i, d := range y.levels {
				if v := float64(s.worth(f.group, i)) / float64(d); d <= deep && v > rate {
					level, rate = i, v
				}
			}
		} else {
			s.outer[form].clear()
			s.across(form, func(level int) int64 { return s.worth(f.group, level) }, y.levels)
			for _, p := range s.outer[form].fill(deep, 0, len(s.outer[form].passes)) {
				level = max(level, p.thing)
			}
		}
		if level < 0 {
			return t != nil
		}
		m := s.make(strip{f.group, level, s.pricers[g.lay].stacks(level, g.room)}, wanted)
		if m == nil {
			return t != nil
		}
		if st, ok := s.pricers[g.lay].(*stacked); ok {
			s.topUp(st, m, level, g.room, values, wanted)
		}
		if t == nil {
			if t = k.open(form, m.deep); t == nil {
				return false
			}
		}
		t.strips = append(t.strips, m)
		t.free -= m.deep
		deep -= m.deep
		if roll {
			return true
		}
	}
}

// topUp puts further stacks into what is left of a strip of three stages.
func (s *search) topUp(st *stacked, m *made, level int, room int64, values, wanted []int64) {
	for {
		left := room - m.along
		if left <= 0 {
			return
		}
		more := s.make(strip{s.groupOf(m.lay, room), level, st.one(level, left, values, wanted)}, wanted)
		if more == nil {
			return
		}
		m.stacks = append(m.stacks, more.stacks...)
		m.along, m.deep = m.along+more.along, max(m.deep, more.deep)
	}
}

func (s *search) groupOf(lay int, room int64) int { return slices.Index(s.groups, group{lay, room}) }
