package flat

import (
	"cmp"
	"slices"
)

// offer makes a plan of layouts and strips and takes it when it is better than the best.
func (s *search) offer(fixed map[item]int64) bool {
	var cuts, strips []item
	for it, n := range fixed {
		switch {
		case n <= 0:
		case it.isCut:
			cuts = append(cuts, it)
		default:
			strips = append(strips, it)
		}
	}
	order := func(a, b item) int { return cmp.Or(cmp.Compare(fixed[b], fixed[a]), cmp.Compare(a.at, b.at)) }
	slices.SortFunc(cuts, order)
	slices.SortFunc(strips, order)
	k := s.pack()
	for _, it := range cuts {
		c := s.cuts[it.at]
		if s.stock[s.forms[c.form].stock].Roll() {
			continue // each strip takes its own length
		}
		for range fixed[it] {
			t := k.open(c.form, 0)
			if t == nil {
				break
			}
			for _, p := range c.slots {
				for range p.n {
					d := s.lays[s.groups[s.forms[c.form].group].lay].levels[p.thing]
					t.slots = append(t.slots, d)
					t.free -= d
				}
			}
		}
	}
	wanted := s.wanted()
	var all []*made
	for _, it := range strips {
		for range fixed[it] {
			if m := s.make(s.strips[it.at], wanted); m != nil {
				all = append(all, m)
			}
		}
	}
	if slices.ContainsFunc(wanted, func(n int64) bool { return n > 0 }) || !k.placeAll(all) {
		return false
	}
	plan, ok := k.plan()
	if !ok || s.best != nil && !better(plan, *s.best) {
		return false
	}
	s.best = &plan
	return true
}

// make is a strip with only the pieces that are still wanted, which it takes; nil when none is.
func (s *search) make(t strip, wanted []int64) *made {
	lay := s.groups[t.group].lay
	m := &made{lay: lay}
	for _, k := range t.stacks {
		for range k.n {
			out, deep := stack{n: 1}, int64(0)
			for _, p := range k.parts {
				h := s.lays[lay].shapes[p.thing]
				n := min(p.n, max(0, (wanted[h.class]+h.n-1)/h.n))
				if n == 0 {
					continue
				}
				wanted[h.class] -= n * h.n
				out.parts = append(out.parts, pick{p.thing, n})
				out.width, deep = max(out.width, h.along), deep+n*h.deep
			}
			if len(out.parts) == 0 {
				continue
			}
			m.along, m.deep = m.along+out.width, max(m.deep, deep)
			if n := len(m.stacks); n > 0 && m.stacks[n-1].width == out.width && slices.Equal(m.stacks[n-1].parts, out.parts) {
				m.stacks[n-1].n++
			} else {
				m.stacks = append(m.stacks, out)
			}
		}
	}
	if len(m.stacks) == 0 {
		return nil
	}
	return m
}
