// Package simplex is a bounded revised simplex for linear programs whose columns arrive while it runs: least cost'x
// with A x = b and lo <= x <= hi. It keeps the inverse of the basis densely up to some hundred rows, above as sparse factors.
//
// Every product is rounded by itself before it is added, float64(a * b): a processor that does both in one step would find its way
// to another answer, and the same list would be cut otherwise on another machine.
//
// It works in floating point and decides nothing: who needs certainty takes the duals, turns them into integers and
// adds up again. The work done is counted in multiplications, so that a limit on it is the same on every machine.
package simplex

import (
	"math"
	"slices"
)

// Tolerances of the method. The callers' costs and right sides are of the order of 1 to 1e6.
const (
	feasible = 1e-9 // how far outside its bounds a variable may lie
	dualTol  = 1e-9 // how negative a reduced cost may be
	pivotTol = 1e-8 // the least element to pivot on
	fresh    = 120  // pivots between two fresh inverses
	freshLU  = 60   // the same where exchanges are kept one by one
	manyRows = 150  // above, a dense inverse costs more than sparse factors
	shiftBy  = 1e-6 // what costs are shifted by where the dual method stands still
)

// Status says how a run ended.
type Status int

// The statuses.
const (
	Optimal Status = iota
	// Infeasible: the dual method found a ray; Duals then holds duals already moved along it.
	Infeasible
	// CutOff: the dual method passed the cost it was told to stop at.
	CutOff
	// Stopped: the pivots it was given ran out, or the numbers gave no pivot.
	Stopped
)

// Where a variable stands.
const (
	atLower int8 = iota
	atUpper
	basic
)

// LP is a program and the state of the method on it.
type LP struct {
	n      int
	b      []float64
	start  []int32 // column j is entries start[j] to start[j+1]
	rows   []int32
	vals   []float64
	cost   []float64
	lo     []float64
	hi     []float64
	at     []int8
	head   []int // the variable that is basic in each row
	inv    []float64
	lu     *factors // in place of inv where there are many rows
	swaps  []swapped
	xb     []float64
	unit   []int // a column with a single entry for each row, to mend a basis with
	since  int
	ray    []float64
	sparse bool
	// Work counts multiplications, Pivots changes of basis.
	Work   int64
	Pivots int

	y, alpha, rho []float64
	list          []candidate
	edges         devex
	shifted       []float64 // the costs as they are, while Dual has shifted them
}

func (p *LP) refresh() int {
	if p.sparse {
		return freshLU
	}
	return fresh
}

// New is a program without columns. unit names, for each row, the index that a column with that row alone will get.
func New(b []float64) *LP {
	return with(b, len(b) > manyRows)
}

func with(b []float64, sparse bool) *LP {
	n := len(b)
	p := &LP{n: n, b: append([]float64{}, b...), start: []int32{0}, xb: make([]float64, n), sparse: sparse,
		head: make([]int, n), unit: make([]int, n), y: make([]float64, n), alpha: make([]float64, n), rho: make([]float64, n)}
	if !sparse {
		p.inv = make([]float64, n*n)
	}
	return p
}

// Add appends a column, out of the basis and at its lower bound, and gives its index.
func (p *LP) Add(rows []int32, vals []float64, cost, lo, hi float64) int {
	p.rows, p.vals = append(p.rows, rows...), append(p.vals, vals...)
	p.start = append(p.start, int32(len(p.rows)))
	p.cost, p.lo, p.hi, p.at = append(p.cost, cost), append(p.lo, lo), append(p.hi, hi), append(p.at, atLower)
	return len(p.cost) - 1
}

// Columns is how many there are.
func (p *LP) Columns() int { return len(p.cost) }

// Begin takes a first basis, one variable for each row; unit gives a column of one entry for each row.
func (p *LP) Begin(head, unit []int) bool {
	copy(p.unit, unit)
	for j := range p.at {
		if p.at[j] == basic {
			p.at[j] = atLower
		}
	}
	for r, j := range head {
		p.head[r], p.at[j] = j, basic
	}
	return p.invert()
}

// SetBounds moves the bounds of a variable; one that is out of the basis goes along.
func (p *LP) SetBounds(j int, lo, hi float64) {
	p.lo[j], p.hi[j] = lo, hi
	if p.at[j] == atUpper && math.IsInf(hi, 1) {
		p.at[j] = atLower
	}
}

// Bounds of a variable.
func (p *LP) Bounds(j int) (lo, hi float64) { return p.lo[j], p.hi[j] }

// SetCost changes a cost.
func (p *LP) SetCost(j int, c float64) { p.cost[j] = c }

// Fresh computes the basic variables anew after bounds have moved.
func (p *LP) Fresh() { p.solveBasics() }

// Values are all variables.
func (p *LP) Values() []float64 {
	x := make([]float64, len(p.cost))
	for j := range x {
		if p.at[j] != basic {
			x[j] = p.nonbasic(j)
		}
	}
	for r, j := range p.head {
		x[j] = p.xb[r]
	}
	return x
}

// Value is one variable, for those that are asked for few of many.
func (p *LP) Value(j int) float64 {
	if p.at[j] != basic {
		return p.nonbasic(j)
	}
	return p.xb[slices.Index(p.head, j)]
}

// Basic is the variable that is basic in a row.
func (p *LP) Basic(r int) (j int, x float64) { return p.head[r], p.xb[r] }

// Cost of the present point.
func (p *LP) Cost() float64 {
	sum := 0.0
	for j, c := range p.cost {
		if c != 0 && p.at[j] != basic {
			sum += float64(c * p.nonbasic(j))
		}
	}
	for r, j := range p.head {
		sum += float64(p.cost[j] * p.xb[r])
	}
	return sum
}

// Duals of the present basis; after Infeasible, moved along the ray far enough to gain as much as is asked.
func (p *LP) Duals(gain float64) []float64 {
	y := append([]float64{}, p.multipliers()...)
	if p.ray != nil {
		for i := range y {
			y[i] += float64(gain * p.ray[i])
		}
	}
	return y
}

func (p *LP) nonbasic(j int) float64 {
	if p.at[j] == atUpper {
		return p.hi[j]
	}
	return p.lo[j]
}

// multipliers are y = c_B B^-1.
func (p *LP) multipliers() []float64 {
	clear(p.y)
	if p.sparse {
		for r, j := range p.head {
			p.y[r] = p.cost[j]
		}
		p.backward(p.y)
		return p.y
	}
	for r, j := range p.head {
		c := p.cost[j]
		if c == 0 {
			continue
		}
		row := p.inv[r*p.n : (r+1)*p.n]
		for i, v := range row {
			p.y[i] += float64(c * v)
		}
		p.Work += int64(p.n)
	}
	return p.y
}

// dot is y times column j.
func (p *LP) dot(y []float64, j int) float64 {
	a, b := p.start[j], p.start[j+1]
	sum := 0.0
	rows := p.rows[a:b]
	vals := p.vals[a:b][:len(rows)]
	for t, r := range rows {
		sum += float64(y[r] * vals[t])
	}
	return sum
}

// Head is the variable that is basic in each row.
func (p *LP) Head() []int { return p.head }

// Row is a row of the basis' inverse, to be read before the basis changes.
func (p *LP) Row(r int) []float64 {
	if !p.sparse {
		return p.inv[r*p.n : (r+1)*p.n]
	}
	x := make([]float64, p.n)
	x[r] = 1
	p.backward(x)
	return x
}

// Right is the right sides, which may be changed in place before Fresh.
func (p *LP) Right() []float64 { return p.b }
