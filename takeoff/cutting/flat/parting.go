package flat

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/cutting/internal/simplex"
)

// So many ways to part a case are tried, with so many pivots each side.
const (
	triedParts = 24
	partPivots = 50
)

// candidate is a way to part a case: at most so many counted or more, where the program has a value between.
type candidate struct {
	counted
	most         int64
	value, first float64 // first puts what has not been tried before what has
	score        float64
}

// near gives the candidate for a value that is not whole.
func near(c counted, value, first float64) candidate {
	return candidate{counted: c, most: int64(math.Floor(value)), value: value, first: first}
}

// choose is what to part a case by: what costs most on both sides, as far as a few pivots tell. false when the program's answer has
// whole numbers of all that is counted.
func (v *prover) choose(n *node) (counted, int64, bool) {
	list := v.candidates(n)
	if len(list) == 0 {
		return counted{}, 0, false
	}
	for i, c := range list {
		list[i].score = v.guess(c)
	}
	slices.SortStableFunc(list, func(a, b candidate) int { return cmp.Compare(b.score, a.score) })
	v.lp.Save(&v.trial)
	best, most := list[0], -1.0
	for i, c := range list[:min(len(list), triedParts)] {
		t := v.tried[c.counted]
		if t == nil {
			t = &trials{}
			v.tried[c.counted] = t
		}
		score := c.score
		if t.n < sureTrials || i < 2 {
			few, many := v.bound(n, c.counted)
			down, up := v.try(c.counted, few, c.most), v.try(c.counted, c.most+1, many)
			off := c.value - float64(c.most)
			t.n, t.down, t.up = t.n+1, t.down+down/off, t.up+up/(1-off)
			score = down * up
		}
		if score > most {
			best, most = c, score
		}
		if v.over() {
			break
		}
	}
	return best.counted, best.most, true
}

// trials are what parting by something has cost each side so far, for the whole of one counted.
type trials struct{ n, down, up float64 }

// After so many trials what they cost on average is believed.
const sureTrials = 4

// guess is what parting costs, both sides multiplied, by trials so far.
func (v *prover) guess(c candidate) float64 {
	off := c.value - float64(c.most)
	if t := v.tried[c.counted]; t != nil && t.n > 0 {
		return t.down / t.n * off * t.up / t.n * (1 - off)
	}
	return c.first + math.Min(off, 1-off)
}

// try is what one side costs more, as far as a few pivots tell; much where the side is closed.
func (v *prover) try(c counted, few, many int64) float64 {
	base, top := v.lp.Cost(), float64(v.target)/v.norm
	v.set(c, few, many)
	v.lp.Fresh()
	status := v.lp.Dual(partPivots, top)
	cost := v.lp.Cost()
	v.lp.Restore(&v.trial)
	if status == simplex.Infeasible || cost > top {
		return 2*math.Max(0, top-base) + 1e-3
	}
	return math.Max(1e-6, cost-base)
}

// candidates are all that the program has no whole number of.
func (v *prover) candidates(n *node) []candidate {
	x := v.lp.Values()
	off := func(a float64) float64 { return math.Abs(a - math.Round(a)) }
	var out []candidate
	for k := range v.stock {
		sum := 0.0
		for i, f := range v.forms {
			if f.stock == k {
				sum += x[v.used[i]]
			}
		}
		c := counted{ofStock, k, 0}
		if few, _ := v.bound(n, c); off(sum) > nearWhole && sum > float64(few) {
			out = append(out, near(c, sum, 3))
		}
	}
	for i := range v.forms {
		if u := x[v.used[i]]; v.bothWays() && off(u) > nearWhole {
			out = append(out, near(counted{ofForm, i, 0}, u, 2))
		}
	}
	for g, group := range v.groups {
		strips, slots := make([]float64, len(v.at[g])), make([]float64, len(v.at[g]))
		for j, t := range v.strips {
			if t.group == g {
				strips[t.level] += x[v.stripCol[j]]
			}
		}
		for j, c := range v.cuts {
			for _, p := range c.slots {
				if v.forms[c.form].group == g {
					slots[p.thing] += float64(x[v.cutCol[j]] * float64(p.n))
				}
			}
		}
		low, high := 0.0, 0.0
		for i := len(v.lays[group.lay].levels) - 1; i >= 0; i-- {
			low, high = low+strips[i], high+slots[i]
			if math.Floor(high+nearWhole) < low-nearWhole {
				out = append(out, near(counted{ofStrips, g, i}, min(low, math.Floor(low)+1-nearWhole), 1))
			}
		}
	}
	return out
}
