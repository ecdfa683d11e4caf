package flat

import (
	"cmp"
	"slices"
)

// made is a strip with real pieces: along and deep are what they take, each with a kerf.
type made struct {
	lay         int
	along, deep int64
	stacks      []stack
}

// sheet is a sheet being filled. slots are depths that a layout keeps free for strips to come. Off a roll every strip
// is a sheet of its own.
type sheet struct {
	form   int
	strips []*made
	slots  []int64
	free   int64 // depth left beside strips and slots
}

// packing is sheets being filled within what is for sale.
type packing struct {
	*problem
	left   []int64 // sheets or length still for sale, by stock
	sheets []*sheet
}

func (p *problem) pack() *packing {
	k := &packing{problem: p}
	for _, s := range p.stock {
		left := s.Avail
		if left < 0 {
			left = MaxCost
		}
		k.left = append(k.left, left)
	}
	return k
}

// open takes one more sheet of a form, or a length off a roll; nil when none is left.
func (k *packing) open(form int, deep int64) *sheet {
	f := k.forms[form]
	takes := int64(1)
	if k.stock[f.stock].Roll() {
		takes = deep
	}
	if k.left[f.stock] < takes {
		return nil
	}
	k.left[f.stock] -= takes
	s := &sheet{form: form, free: f.deep}
	if k.stock[f.stock].Roll() {
		s.free = deep
	}
	k.sheets = append(k.sheets, s)
	return s
}

// gives reports whether a form gives strips of a lay and length.
func (k *packing) gives(form, lay int, along int64) bool {
	g := k.groups[k.forms[form].group]
	return g.lay == lay && g.room >= along
}

// place puts a strip beside the others of the sheet that has least left; false when none has room.
func (k *packing) place(m *made) bool {
	var at *sheet
	for _, s := range k.sheets {
		if k.gives(s.form, m.lay, m.along) && s.free >= m.deep && (at == nil || s.free < at.free) {
			at = s
		}
	}
	if at == nil {
		return false
	}
	at.free -= m.deep
	at.strips = append(at.strips, m)
	return true
}

// placeInSlot puts a strip into a slot that takes it, of the shortest strips, then the least deep. With the deepest
// strips first no other choice finds slots for more of them: what is free for this one is free for those that follow.
func (k *packing) placeInSlot(m *made) bool {
	var at *sheet
	slot, room := -1, int64(0)
	for _, s := range k.sheets {
		g := k.groups[k.forms[s.form].group]
		if g.lay != m.lay || g.room < m.along || at != nil && g.room > room {
			continue
		}
		for i, d := range s.slots {
			if d >= m.deep && (at == nil || g.room < room || d < at.slots[slot]) {
				at, slot, room = s, i, g.room
			}
		}
	}
	if at == nil {
		return false
	}
	at.free += at.slots[slot] - m.deep
	at.slots = slices.Delete(at.slots, slot, slot+1)
	at.strips = append(at.strips, m)
	return true
}

// placeAll places strips, deepest first: into slots, then wherever there is room, and in the end on further sheets, the
// cheapest for each.
func (k *packing) placeAll(strips []*made) bool {
	slices.SortStableFunc(strips, func(a, b *made) int { return cmp.Compare(b.deep, a.deep) })
	strips = slices.DeleteFunc(strips, k.placeInSlot)
	for _, s := range k.sheets { // slots that nobody took are room
		for _, d := range s.slots {
			s.free += d
		}
		s.slots = nil
	}
	for _, m := range strips {
		if k.place(m) {
			continue
		}
		form := k.cheapest(m)
		if form < 0 {
			return false
		}
		k.open(form, m.deep)
		k.place(m)
	}
	return true
}

// cheapest is the form to open for a strip: the least price for its depth; -1 when none is left.
func (k *packing) cheapest(m *made) int {
	best, least := -1, int64(0)
	for i, f := range k.forms {
		s := k.stock[f.stock]
		if !k.gives(i, m.lay, m.along) || f.deep < m.deep || k.left[f.stock] < 1 || s.Roll() && k.left[f.stock] < m.deep {
			continue
		}
		cost := s.price
		if s.Roll() {
			cost *= m.deep
		}
		if best < 0 || cost < least {
			best, least = i, cost
		}
	}
	return best
}

// cheaper moves what a sheet holds onto cheaper stock that takes it.
func (k *packing) cheaper() {
	for _, s := range k.sheets {
		was := k.forms[s.form]
		if k.stock[was.stock].Roll() {
			continue
		}
		along, deep := int64(0), int64(0)
		for _, m := range s.strips {
			along, deep = max(along, m.along), deep+m.deep
		}
		best, least := s.form, k.stock[was.stock].price
		for i, f := range k.forms {
			t := k.stock[f.stock]
			if t.Roll() || !k.gives(i, k.groups[was.group].lay, along) || f.deep < deep || k.left[f.stock] < 1 {
				continue
			}
			if t.price < least {
				best, least = i, t.price
			}
		}
		if best != s.form {
			k.left[was.stock]++
			k.left[k.forms[best].stock]--
			s.form, s.free = best, k.forms[best].deep-deep
		}
	}
}
