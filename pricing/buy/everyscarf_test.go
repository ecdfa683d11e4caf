package buy_test

// scarfPlank is a plank as wide and as long, mm, without planing and kerf.
type scarfPlank struct{ wide, long int64 }

// clearBoard is a board by its width, what a strip of it gives in length, mm, and its price at numbers.
type clearBoard struct {
	wide, clear int64
	article
}

// scarfRule is how far two parts lie over each other and how long one is at least, mm, and what a joint costs, hundredths of a cent.
type scarfRule struct{ taper, least, parts int64 }

// scarfLaying is planks being laid in strips of boards, whole or of two parts.
type scarfLaying struct {
	planks []scarfPlank // widest first, so that a strip is as wide as its first
	boards []clearBoard
	rule   scarfRule
	// must is the longest plank that a board gives; longer ones are of two parts.
	must int64

	strips []openStrip
	begun  []openBoard
	count  []int64
	halves []halved
	chosen int // joints of planks that need none

	// best is the least that boards and joints cost, cents, glued the same with glue, whole that with no joints chosen; -1 where there is no plan.
	best, glued, whole int64
}

type (
	openStrip struct{ room, full int64 }
	openBoard struct {
		kind int
		left int64 // of its width
	}
	// halved is a plank of two parts in strips a and b, so long both together and with a kerf each.
	halved struct {
		a, b int
		long int64
	}
)

// scarfings goes through every plan of planks that may be of two parts, wherever the joint comes.
func scarfings(planks []scarfPlank, boards []clearBoard, rule scarfRule) *scarfLaying {
	s := &scarfLaying{planks: planks, boards: boards, rule: rule, count: make([]int64, len(boards)), best: -1, glued: -1, whole: -1}
	for _, b := range boards {
		if b.avail != 0 {
			s.must = max(s.must, b.clear)
		}
	}
	s.put(0)
	return s
}

func (s *scarfLaying) put(at int) {
	if !s.fits() {
		return
	}
	if at == len(s.planks) {
		s.weigh()
		return
	}
	p := s.planks[at]
	s.each(p.wide, 0, func(k int) {
		s.strips[k].full += p.long + 3
		s.put(at + 1)
		s.strips[k].full -= p.long + 3
	})
	if p.long > s.must {
		s.chosen--
	}
	s.chosen++
	s.each(p.wide, 0, func(a int) {
		s.each(p.wide, a+1, func(b int) {
			s.halves = append(s.halves, halved{a, b, p.long + s.rule.taper + 6})
			s.put(at + 1)
			s.halves = s.halves[:len(s.halves)-1]
		})
	})
	s.chosen--
	if p.long > s.must {
		s.chosen++
	}
}

// each takes every strip from a number on that is there, and then a new one of every board begun and not.
func (s *scarfLaying) each(wide int64, from int, then func(k int)) {
	for k := from; k < len(s.strips); k++ {
		then(k) // as wide or wider
	}
	rip := func(o int) {
		if s.begun[o].left < wide+5 {
			return
		}
		s.begun[o].left -= wide + 5
		s.strips = append(s.strips, openStrip{s.boards[s.begun[o].kind].clear + 3, 0})
		then(len(s.strips) - 1)
		s.strips = s.strips[:len(s.strips)-1]
		s.begun[o].left += wide + 5
	}
	for o := range s.begun {
		rip(o)
	}
	for i, b := range s.boards {
		if b.avail < 0 || s.count[i] < b.avail {
			s.count[i]++
			s.begun = append(s.begun, openBoard{i, b.wide + 3})
			rip(len(s.begun) - 1)
			s.begun = s.begun[:len(s.begun)-1]
			s.count[i]--
		}
	}
}

// fits says that some lengths of the parts fill no strip beyond its room: that in no set of strips more has to lie, of a plank with one part
// in it the least, than they have together.
func (s *scarfLaying) fits() bool {
	for set := 1; set < 1<<len(s.strips); set++ {
		over := int64(0)
		for k, y := range s.strips {
			if set>>k&1 == 1 {
				over += y.full - y.room
			}
		}
		for _, h := range s.halves {
			switch set>>h.a&1 + set>>h.b&1 {
			case 1:
				over += s.rule.least + 3
			case 2:
				over += h.long
			}
		}
		if over > 0 {
			return false
		}
	}
	return true
}

func (s *scarfLaying) weigh() {
	sum := (int64(len(s.halves))*s.rule.parts + 50) / 100
	for i, b := range s.boards {
		least, sold := b.least(s.count[i])
		if !sold {
			return
		}
		sum += 100 * least
	}
	if s.best < 0 || sum < s.best {
		s.best = sum
	}
	if len(s.halves) > 0 {
		sum += 100 // a can of glue does for all
	}
	if s.glued < 0 || sum < s.glued {
		s.glued = sum
	}
	if s.chosen == 0 && (s.whole < 0 || sum < s.whole) {
		s.whole = sum
	}
}
