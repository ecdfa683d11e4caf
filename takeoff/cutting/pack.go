package cutting

import (
	"math"

	"ribband/takeoff/cutting/internal/simplex"
)

// packing asks whether listed layouts give all pieces from given numbers of strips: an integer program whose cost is
// the number of pieces left out. It is rows sum(a x) >= b in whole numbers over columns that are at least 0. Rows that
// follow from others by rounding are added where they cut the program's answer off.
type packing struct {
	cols    [][]entry // layouts, then a piece left out for each item
	most    []int64   // of each column
	cost    []int64   // of each column, in parts of a piece left out
	room    int64     // what layouts that leave nothing out cost at the most
	rhs     []int64
	layouts int // with the ways to make a piece of two, which come after them
	lp      *simplex.LP
	nodes   int
	work    int64
	limit   int64
	whole   bool    // nothing has been left open
	found   []int64 // numbers of layouts that give every piece
	paid    int     // row of what is paid beside boards, and what a joint counts in it
	joint   int64
}

type entry struct {
	row int
	v   int64
}

// Parts of the work allowed for one packing: at first, and where nothing else is left to try.
const (
	packShare     = 32
	lastPackShare = 4
)

// Rounds of rows added, nodes searched after them, and pivots of one run of the program.
const (
	packRounds = 20
	packNodes  = 3_000
	packPivots = 5_000
)

func newPacking(s *search, layouts []layout, strips []int64, extra int64) *packing {
	p := &packing{layouts: len(layouts) + len(s.splits), limit: s.limits.Work / s.packShare, whole: true}
	for _, it := range s.items {
		p.rhs = append(p.rhs, it.demand)
	}
	row := make([]int, len(strips))
	for k, n := range strips {
		if n > 0 {
			row[k] = len(p.rhs)
			p.rhs = append(p.rhs, -n)
		}
	}
	for _, l := range layouts {
		col := make([]entry, 0, len(l.counts)+1)
		for _, c := range l.counts {
			col = append(col, entry{c.item, c.k})
		}
		p.cols = append(p.cols, append(col, entry{row[l.board], -1}))
		p.most = append(p.most, strips[l.board])
	}
	joints := s.joints
	if s.extra > 0 {
		joints = p.pay(s, layouts, extra)
	}
	p.join(s, joints)
	p.spread(strips, joints)
	for i, it := range s.items {
		p.cols = append(p.cols, []entry{{i, 1}})
		p.most = append(p.most, it.most)
		p.cost = append(p.cost, packScale)
	}
	return p
}

// pay adds the row that joints and cutting into strips take no more than extra, and gives how many joints that leaves.
func (p *packing) pay(s *search, layouts []layout, extra int64) (joints int64) {
	row, each := len(p.rhs), s.joint
	for _, l := range layouts {
		each = gcd(each, s.takes(l))
	}
	each = max(1, each)
	p.rhs = append(p.rhs, -(extra / each))
	for j, l := range layouts {
		if n := s.takes(l) / each; n > 0 {
			p.cols[j] = append(p.cols[j], entry{row, -n})
		}
	}
	p.paid, p.joint = row, s.joint/each
	if s.joint == 0 {
		return s.joints
	}
	return min(s.joints, extra/s.joint)
}

// join adds the ways to make a piece of two, of which so many may be used all together.
func (p *packing) join(s *search, joints int64) {
	for _, sp := range s.splits {
		col := []entry{{sp.item, 1}, {sp.long, -1}, {sp.short, -1}}
		if sp.long == sp.short {
			col = []entry{{sp.item, 1}, {sp.long, -2}}
		}
		if p.joint > 0 {
			col = append(col, entry{p.paid, -p.joint})
		}
		p.cols = append(p.cols, col)
		p.most = append(p.most, min(joints, s.items[sp.item].demand))
	}
}

// Costs are whole numbers in parts of this of a piece left out.
const packScale = 1 << 26

// spread gives layouts small costs, no two quite alike, for the dual method stands still where many are nothing. All
// layouts together cost less than a hundredth of a piece.
func (p *packing) spread(strips []int64, joints int64) {
	total := sum{v: 1 + joints}
	for _, n := range strips {
		total.add(n)
	}
	one, turn := packScale/256/64/total.v, uint32(1)
	if total.past {
		one = 0
	}
	for range p.layouts {
		turn = turn*1664525 + 1013904223
		p.cost = append(p.cost, one*int64(1+turn>>26))
	}
	p.room = one * 64 * total.v
}

// load makes the program afresh from the rows, with a first basis: a column for each row, the rows' surpluses counted on
// after the others.
func (p *packing) load(head []int) bool {
	if p.lp != nil {
		p.work += p.lp.Work
	}
	b := make([]float64, len(p.rhs))
	for i, v := range p.rhs {
		b[i] = float64(v)
	}
	p.lp = simplex.New(b)
	for j, col := range p.cols {
		rows, vals := make([]int32, len(col)), make([]float64, len(col))
		for t, e := range col {
			rows[t], vals[t] = int32(e.row), float64(e.v)
		}
		p.lp.Add(rows, vals, float64(p.cost[j])/packScale, 0, math.Inf(1)) // the boards' rows hold it below most; a column resting there would spoil rounding
	}
	unit := make([]int, len(p.rhs))
	for i := range p.rhs {
		unit[i] = p.lp.Add([]int32{int32(i)}, []float64{-1}, 0, 0, math.Inf(1))
	}
	return p.lp.Begin(head, unit)
}

// solve gives numbers of layouts that give every piece, or shows that there are none; sure is false when it could do
// neither.
func (p *packing) solve() (x []int64, sure bool) {
	head := make([]int, len(p.rhs))
	for i := range head {
		head[i] = len(p.cols) + i
		if i < len(p.cols)-p.layouts {
			head[i] = p.layouts + i
		}
	}
	p.load(head)
	for range packRounds {
		if p.spent() || !p.optimal() {
			return nil, false
		}
		if p.hopeless() {
			return nil, true
		}
		if p.integral() {
			return p.found, true
		}
		if !p.cut() {
			break
		}
	}
	p.node()
	return p.found, p.whole || p.found != nil
}

func (p *packing) spent() bool { return p.work+p.lp.Work > p.limit || p.nodes > packNodes }

func (p *packing) optimal() bool {
	return p.lp.Dual(packPivots, math.Inf(1)) == simplex.Optimal && p.lp.Primal(packPivots) == simplex.Optimal
}

// integral keeps the program's answer when it is whole and leaves nothing out.
func (p *packing) integral() bool {
	v := p.lp.Values()
	x := make([]int64, p.layouts)
	for j := range p.cols {
		n := math.Round(v[j])
		if math.Abs(v[j]-n) > nearWhole || j >= p.layouts && n > 0 {
			return false
		}
		if j < p.layouts {
			x[j] = int64(n)
		}
	}
	p.found = x
	return true
}

// hopeless reports whether integers made of the program's duals prove that something must be left out within the present
// bounds: they prove a cost above what layouts alone can cost.
func (p *packing) hopeless() bool {
	y := p.lp.Duals(0)
	var f sum
	duals := make([]int64, len(y))
	for i, v := range y {
		duals[i] = int64(math.Round(math.Max(0, math.Min(v, 1<<30)) * packScale))
		f.addProduct(duals[i], p.rhs[i])
	}
	for j, col := range p.cols {
		over := sum{v: p.cost[j]}
		for _, e := range col {
			over.addProduct(-duals[e.row], e.v)
		}
		rest, hi := p.lp.Bounds(j)
		if over.v < 0 {
			rest = math.Min(hi, float64(p.most[j]))
		}
		f.addProduct(over.v, int64(rest))
		f.past = f.past || over.past
	}
	p.work += int64(8 * len(p.cols))
	return !f.past && f.v > p.room
}

// node searches the present bounds, the layout nearest below a whole number first.
func (p *packing) node() {
	if p.nodes++; p.spent() {
		p.whole = false
		return
	}
	p.lp.Fresh()
	if !p.optimal() {
		p.whole = false
		return
	}
	if p.hopeless() || p.integral() {
		return
	}
	v := p.lp.Values()
	at := p.fraction(v)
	if at < 0 {
		return // every number is decided, and something is left out
	}
	var state simplex.State
	p.lp.Save(&state)
	lo, hi := p.lp.Bounds(at)
	below := math.Floor(v[at] + nearWhole)
	if below+1 <= hi {
		p.lp.SetBounds(at, below+1, hi)
		p.node()
		if p.found != nil {
			return
		}
		p.lp.Restore(&state)
	}
	p.lp.SetBounds(at, lo, below)
	p.node()
	p.lp.Restore(&state)
}

// fraction is the column to branch on: the one nearest below a whole number, or any that is not decided; -1 for none.
func (p *packing) fraction(v []float64) int {
	best, at, open := 0.0, -1, -1
	for j := range p.cols {
		if part := v[j] - math.Floor(v[j]+nearWhole); part > nearWhole && part > best {
			best, at = part, j
		}
		if lo, hi := p.lp.Bounds(j); open < 0 && lo < hi {
			open = j
		}
	}
	if at < 0 {
		return open
	}
	return at
}
