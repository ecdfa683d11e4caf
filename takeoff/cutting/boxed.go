package cutting

// Values are kept within this of the best so far, of themselves, and wider by boxWider each time that the program wants to
// leave the box, so many times. boxLeast is there for pieces that are worth nothing, of the dearest board's price.
const (
	boxWide  = 0.01
	boxWider = 3
	boxTimes = 5
	boxLeast = 1e-6
)

// boxed solves the program with every value held within a box about the best values so far: a piece left out costs hardly more
// than it is worth, and one too many gives back hardly less (du Merle, Villeneuve, Desrosiers and Hansen, 1999, from memory). From good values that
// is much less to do than from none: layouts that come in are good from the first, and most pivots, which without a box
// move values about between optima, do not happen. On a list of 393 lengths it takes 14 thousand of them in place of 100
// thousand. Then the box is taken away.
func (s *search) boxed() {
	wide := boxWide
	for range boxTimes {
		one := s.norm * float64(s.scale)
		for i, v := range s.duals {
			worth := float64(v) / one
			by := float64(wide*worth) + boxLeast
			s.lp.SetCost(s.missing[i], worth+by)
			s.lp.SetCost(s.over[i], min(0, by-worth))
		}
		if !s.generate(1<<30) || s.outside() < nearWhole {
			break
		}
		wide *= boxWider
	}
	for i := range s.items {
		s.lp.SetCost(s.missing[i], s.dear)
		s.lp.SetCost(s.over[i], 0)
	}
}

// outside is how many pieces the program leaves out or cuts too many.
func (s *search) outside() float64 {
	x, sum := s.lp.Values(), s.uncut()
	for _, j := range s.over {
		sum += x[j]
	}
	return sum
}
