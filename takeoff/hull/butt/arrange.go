package butt

import "math"

// Stuck is a strake for which no butts keep to the rules beside those of the others.
type Stuck struct {
	Strake int
	// Board is what the strake in one piece asks for, mm.
	Board float64
	// Stock is the shortest of longest boards with which the strake would have butts, beside those of the others; 0
	// where no board shorter than the strake does.
	Stock float64
}

// Arrange proposes butts. Strakes of given keep theirs, without a row in the answer's stuck; for the others, from the
// rabbet up, it takes the fewest planks that the stock allows, the foremost as long as may be, and goes back to a strake
// below where one above finds no place; where that helps nowhere, strakes may have one plank more. A strake that finds
// no place at all is left in one piece and told of. The same side always gets the same butts.
func (s *Side) Arrange(given map[int][]float64) (butts [][]float64, stuck []Stuck) {
	a := arrangement{Side: s, butts: make([][]float64, s.strakes), settled: make([]bool, s.strakes), fewest: make([]int, s.strakes)}
	for k, xs := range given {
		if k >= 0 && k < s.strakes {
			a.butts[k], a.settled[k] = xs, true
		}
	}
	for k := range s.strakes {
		if a.settled[k] {
			continue
		}
		n, ok := s.fewest(k)
		if a.fewest[k] = n; !ok || n > 0 && !s.anyAlone(k) {
			a.settled[k] = true
			stuck = append(stuck, Stuck{Strake: k})
		}
	}
	for {
		k, done := a.run()
		if done {
			break
		}
		a.settled[k], a.butts[k] = true, nil
		stuck = append(stuck, Stuck{Strake: k})
	}
	for i := range stuck {
		k := stuck[i].Strake
		stuck[i].Board = s.board(k, s.reach[k].Forward, s.reach[k].Aft)
		stuck[i].Stock = s.needs(k, a.butts)
	}
	return a.butts, stuck
}

// arrangement is the search under way.
type arrangement struct {
	*Side
	butts   [][]float64
	settled []bool
	fewest  []int
	extra   int
	trials  int
	deepest int
}

// run looks for butts of all strakes that are not settled; where there are none it says which strake was the highest
// that was reached.
func (a *arrangement) run() (stuck int, done bool) {
	deepest := 0
	for a.extra = 0; a.extra <= 1; a.extra++ {
		a.trials, a.deepest = a.terms.trials, 0
		if a.strake(0) {
			return 0, true
		}
		deepest = max(deepest, a.deepest)
	}
	return deepest, false
}

// strake finds butts for strake k and all above.
func (a *arrangement) strake(k int) bool {
	for k < a.strakes && a.settled[k] {
		k++
	}
	if k == a.strakes {
		return true
	}
	a.deepest = max(a.deepest, k)
	for n := a.fewest[k]; n <= a.fewest[k]+a.extra; n++ {
		a.butts[k] = nil
		if a.next(k, n, a.reach[k].Forward) {
			return true
		}
	}
	a.butts[k] = nil
	return false
}

// next finds n butts more for strake k, the last one being at from, and then those of the strakes above.
func (a *arrangement) next(k, n int, from float64) bool {
	if n == 0 {
		return (len(a.butts[k]) == 0 || a.longEnough(k, from, a.reach[k].Aft)) && a.held(k, from, a.reach[k].Aft) && a.strake(k+1)
	}
	for i := len(a.places) - 1; i >= 0 && a.places[i] > from; i-- {
		if a.trials--; a.trials < 0 {
			return false
		}
		x := a.places[i]
		if !a.held(k, from, x) || !a.longEnough(k, from, x) || !a.free(k, x, a.butts) {
			continue
		}
		kept := len(a.butts[k])
		a.butts[k] = append(a.butts[k][:kept:kept], x)
		if a.next(k, n-1, x) {
			return true
		}
		a.butts[k] = a.butts[k][:kept]
	}
	return false
}

// fewest is the least number of butts with which every plank of a strake is held by the stock, whatever the rules say;
// false where the stock is shorter than a bay.
func (s *Side) fewest(k int) (n int, ok bool) {
	from, aft := s.reach[k].Forward, s.reach[k].Aft
	for !s.held(k, from, aft) {
		far := from
		for _, x := range s.places {
			if x > from && s.held(k, from, x) {
				far = x
			}
		}
		if far == from {
			return 0, false
		}
		from = far
		n++
	}
	return n, true
}

// anyAlone says whether some butts would do if the strake stood alone.
func (s *Side) anyAlone(k int) bool {
	need := s.needs(k, nil)
	return need > 0 && need <= s.terms.Longest+slack
}

// needs is the least that the longest board of a strake with butts can be, beside the butts of the other strakes; 0
// where no butts keep to the rules.
func (s *Side) needs(k int, butts [][]float64) float64 {
	var free []float64
	for _, x := range s.places {
		if s.free(k, x, butts) {
			free = append(free, x)
		}
	}
	// best[i] is the least that the longest board up to place i can be.
	best := make([]float64, len(free))
	out := math.Inf(1)
	for i, x := range free {
		best[i] = math.Inf(1)
		if s.longEnough(k, s.reach[k].Forward, x) {
			best[i] = s.board(k, s.reach[k].Forward, x)
		}
		for j := i - 1; j >= 0; j-- {
			l := s.board(k, free[j], x)
			if l >= best[i] {
				break // those before ask for longer boards still
			}
			if best[j] < best[i] && s.longEnough(k, free[j], x) {
				best[i] = min(best[i], max(best[j], l))
			}
		}
		if s.longEnough(k, x, s.reach[k].Aft) {
			out = min(out, max(best[i], s.board(k, x, s.reach[k].Aft)))
		}
	}
	if math.IsInf(out, 1) {
		return 0
	}
	return out
}
