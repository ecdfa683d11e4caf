package flat

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// addCut takes a layout of a sheet into the program; false when it stands there already.
func (s *search) addCut(c cut) bool {
	key := fmt.Sprint("c", c)
	if s.seen[key] || len(c.slots) == 0 {
		return false
	}
	f := s.forms[c.form]
	one := 1.0
	if s.stock[f.stock].Roll() {
		one = float64(s.lays[s.groups[f.group].lay].levels[c.slots[0].thing]) / s.deepest()
	}
	rows, vals := []int32{int32(len(s.classes) + f.stock)}, []float64{one}
	for _, p := range c.slots {
		rows, vals = append(rows, int32(s.base[f.group]+p.thing)), append(vals, -float64(p.n))
	}
	s.seen[key] = true
	s.cuts = append(s.cuts, c)
	s.cutCol = append(s.cutCol, s.lp.Add(rows, vals, 0, 0, math.Inf(1)))
	return true
}

// addStrip takes a strip into the program; false when it stands there already.
func (s *search) addStrip(t strip) bool {
	key := fmt.Sprint("s", t)
	if s.seen[key] || len(t.stacks) == 0 {
		return false
	}
	count := s.counts(t)
	rows, vals := []int32{}, []float64{}
	for _, c := range count {
		rows, vals = append(rows, int32(c.thing)), append(vals, float64(c.n))
	}
	rows, vals = append(rows, int32(s.base[t.group]+t.level)), append(vals, 1)
	s.seen[key] = true
	s.strips = append(s.strips, t)
	s.gives = append(s.gives, count)
	s.stripCol = append(s.stripCol, s.lp.Add(rows, vals, 0, 0, math.Inf(1)))
	return true
}

// counts is what a strip gives, by class.
func (s *search) counts(t strip) []pick {
	var out []pick
	for _, k := range t.stacks {
		for _, p := range k.parts {
			h := s.lays[s.groups[t.group].lay].shapes[p.thing]
			n := k.n * p.n * h.n
			if i := slices.IndexFunc(out, func(q pick) bool { return q.thing == int(h.class) }); i >= 0 {
				out[i].n += n
			} else {
				out = append(out, pick{int(h.class), n})
			}
		}
	}
	slices.SortFunc(out, func(a, b pick) int { return cmp.Compare(a.thing, b.thing) })
	return out
}
