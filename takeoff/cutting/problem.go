package cutting

import (
	"cmp"
	"slices"
)

// item is all pieces of one length and sort. size is length + kerf in cells.
type item struct {
	length int64
	size   int
	sort   sort
	demand int64
	most   int64 // as many as any plan can use: of parts none is demanded for itself
	ids    []Piece
}

// sort of an item: pieces cut whole, pieces that may be made of two parts, and such parts.
type sort int

const (
	whole sort = iota
	scarfed
	part
)

// sortOf a piece by these rules.
func sortOf(p Piece, r Rules) sort {
	if p.MayScarf && r.Scarf != nil {
		return scarfed
	}
	return whole
}

// board is a stock that serves. room is in cells; price is in units of the problem.
type board struct {
	stock  Stock
	room   int
	price  int64 // less what its strips are worth when nothing is cut from them
	uncut  int64 // what one such strip is worth
	strips int64
	most   int64 // for sale, -1 for no limit
}

// problem is a list reduced: equal lengths together, boards left out that a better one stands in for, prices in units and
// lengths in steps, both the greatest that divide everything. The table is in cells: of a step, or of a coarser scale on
// which the same fits.
type problem struct {
	items   []item // longest first
	boards  []board
	step    int64
	unit    int64
	rules   Rules
	cells   int // the greatest room
	pieces  int64
	splits  []split
	joint   int64 // price of one, in units
	extra   int64 // what joints, and cutting into strips that could be kept, can cost all together, in units
	slack   int64 // by how much a left-over may be longer than its cells
	longest int64 // the greatest room as it is
	joints  int64 // as many as any plan can have
}

// A table over lengths has at most so many cells.
const mostCells = 1 << 21

// reduce gives the problem. exact is false when lengths share no step coarse enough for a table; sizes are then
// rounded down and rooms up, so that what bounds the problem bounds the list, or with inside set the other way round,
// so that a plan of the problem is a plan of the list.
func reduce(stock []Stock, pieces []Piece, r Rules, inside bool) (p *problem, exact bool) {
	p = &problem{rules: r}
	for _, q := range pieces { // longest first, by id
		p.take(q)
	}
	p.split(stock)
	shortest, longest := p.items[len(p.items)-1].length+r.Kerf, int64(0)
	var rooms []int64
	for _, s := range stock {
		if room := s.room(r); room >= shortest && s.sold() {
			longest = max(longest, room)
			p.boards = append(p.boards, board{stock: s, strips: s.Strips, most: s.Avail})
			p.unit = gcd(p.unit, s.Price)
			rooms = append(rooms, room)
		}
	}
	if len(p.boards) == 0 { // nothing has a price then, a joint least of all
		return p, true
	}
	p.longest = longest
	p.boards = undominated(p.boards, r)
	if len(p.splits) > 0 {
		p.unit = gcd(p.unit, r.Scarf.Price)
	}
	for _, it := range p.items {
		p.step = gcd(p.step, it.length+r.Kerf)
	}
	if r.Keep != nil { // left-overs are then told exactly in steps
		p.unit = gcd(p.unit, r.Keep.Rate)
		for _, room := range rooms {
			p.step = gcd(p.step, room)
		}
	}
	if longest/p.step <= mostCells {
		p.inCells()
		return p, true
	}
	p.step = longest/(mostCells/32) + 1
	if r.Keep != nil && !inside {
		p.slack = p.step - 1
	}
	p.round(inside)
	return p, false
}

// take puts pieces to the item of their length and sort.
func (p *problem) take(q Piece) {
	s := sortOf(q, p.rules)
	i := slices.IndexFunc(p.items, func(it item) bool { return it.length == q.Length && it.sort == s })
	if i < 0 {
		i = len(p.items)
		p.items = append(p.items, item{length: q.Length, sort: s})
	}
	it := &p.items[i]
	it.demand += q.Qty
	it.most += q.Qty
	it.ids = append(it.ids, q)
	p.pieces += q.Qty
}

// split adds the parts that pieces may be made of.
func (p *problem) split(stock []Stock) {
	if p.rules.Scarf == nil {
		return
	}
	gives := given(stock, p.rules)
	if len(gives) == 0 {
		return
	}
	at := map[int64]int{}
	number := func(length, most int64) int {
		i, ok := at[length]
		if !ok {
			i = len(p.items)
			at[length] = i
			p.items = append(p.items, item{length: length, sort: part})
		}
		p.items[i].most += most
		return i
	}
	for i, it := range p.items {
		if it.sort != scarfed {
			continue
		}
		for _, a := range p.rules.Scarf.places(it.length, gives[len(gives)-1], gives) {
			p.splits = append(p.splits, split{i, number(a, it.demand), number(it.length+p.rules.Scarf.Length-a, it.demand)})
		}
		p.joints += it.demand
	}
	if len(p.splits) == 0 {
		p.joints = 0
		return
	}
	order := make([]int, len(p.items))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(p.items[b].length, p.items[a].length), cmp.Compare(p.items[a].sort, p.items[b].sort))
	})
	p.arrange(order)
}

// arrange keeps the items of an order, which are at new places then, and the splits of which all are kept.
func (p *problem) arrange(order []int) {
	at := map[int]int{}
	items := make([]item, len(order))
	for to, from := range order {
		at[from], items[to] = to, p.items[from]
	}
	p.items = items
	var splits []split
	for _, s := range p.splits {
		i, ok := at[s.item]
		a, okA := at[s.long]
		b, okB := at[s.short]
		if ok && okA && okB {
			splits = append(splits, split{i, a, b})
		}
	}
	p.splits = splits
}

// bare leaves out items that are rounded down to nothing, which bound nothing. A piece whose parts are left out is worth
// nothing either.
func (p *problem) bare() {
	gone := make([]bool, len(p.items))
	for i, it := range p.items {
		gone[i] = it.size == 0
	}
	for _, s := range p.splits {
		if gone[s.long] || gone[s.short] {
			gone[s.item] = true
		}
	}
	var order []int
	for i := range p.items {
		if !gone[i] {
			order = append(order, i)
		}
	}
	p.arrange(order)
}

// round gives lengths in steps that do not divide them.
func (p *problem) round(inside bool) {
	up := int64(0)
	if inside {
		up = p.step - 1
	}
	for i := range p.items {
		p.items[i].size = int((p.items[i].length + p.rules.Kerf + up) / p.step)
	}
	p.bare()
	for k := range p.boards {
		p.boards[k].room = int(p.boards[k].stock.room(p.rules) / p.step)
	}
	p.settle()
}

// inCells gives every length in cells in which exactly the layouts of the list fit: of the step, or of a coarser scale.
func (p *problem) inCells() {
	sizes, rooms := make([]int64, len(p.items)), make([]int64, len(p.boards))
	for i, it := range p.items {
		sizes[i] = it.length + p.rules.Kerf
	}
	for k, b := range p.boards {
		rooms[k] = b.stock.room(p.rules)
	}
	c, ok := coarsen(sizes, rooms, p.step)
	ok = ok && p.rules.Keep == nil // such cells do not tell how long a left-over is
	for i, size := range sizes {
		p.items[i].size = int(size / p.step)
		if ok {
			p.items[i].size = int(c.size(size))
		}
	}
	for k, room := range rooms {
		p.boards[k].room = int(room / p.step)
		if ok {
			cells, _ := c.room(room, sizes[len(sizes)-1])
			p.boards[k].room = int(cells)
		}
	}
	p.settle()
}

// settle gives prices in units and the size of the table.
func (p *problem) settle() {
	p.unit = max(1, p.unit) // 0 where no board is left and joints cost nothing
	for k := range p.boards {
		b := &p.boards[k]
		b.uncut = p.rules.Keep.worth(b.stock.room(p.rules)-p.rules.Kerf) / p.unit
		b.price = b.stock.Price/p.unit - b.strips*b.uncut
		p.cells = max(p.cells, b.room)
		p.extra = max(p.extra, b.uncut*(p.pieces+p.joints))
	}
	if len(p.splits) > 0 {
		p.joint = p.rules.Scarf.Price / p.unit
		p.extra += p.joint * p.joints
	}
}

// undominated leaves out a board for which another does, without limit, as well and no dearer.
func undominated(boards []board, r Rules) []board {
	slices.SortFunc(boards, func(a, b board) int {
		return cmp.Or(cmp.Compare(a.stock.Price, b.stock.Price), cmp.Compare(b.stock.Length, a.stock.Length), cmp.Compare(b.strips, a.strips), cmp.Compare(a.stock.ID, b.stock.ID))
	})
	var out []board
	for _, b := range boards {
		if !slices.ContainsFunc(out, func(a board) bool {
			return a.most < 0 && a.stock.Least <= max(1, b.stock.Least) && a.stock.Length >= b.stock.Length && a.strips >= b.strips
		}) {
			out = append(out, b)
		}
	}
	return out
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// layout is how strips of one board are cut: counts of items, longest first.
type layout struct {
	board  int
	counts []count
}

type count struct {
	item int
	k    int64
}

// key tells layouts apart.
func (l layout) key() string {
	b := make([]byte, 0, 8+6*len(l.counts))
	put := func(n int64) {
		for ; n >= 128; n >>= 7 {
			b = append(b, byte(n)|128)
		}
		b = append(b, byte(n))
	}
	put(int64(l.board))
	for _, c := range l.counts {
		put(int64(c.item))
		put(c.k)
	}
	return string(b)
}
