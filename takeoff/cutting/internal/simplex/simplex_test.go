package simplex_test

import (
	"math"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/internal/simplex"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize/convex/lp" //nolint:misspell // its own name
)

// program is min c'x, A x >= b, 0 <= x <= hi, with whole data so that both methods see the same numbers.
type program struct {
	a     [][]float64
	b     []float64
	c, hi []float64
}

func random(r *rand.Rand) program {
	m, n := 2+r.Intn(5), 3+r.Intn(8)
	p := program{b: make([]float64, m)}
	for i := range m {
		row := make([]float64, n)
		for j := range row {
			row[j] = float64(r.Intn(4))
		}
		row[r.Intn(n)]++
		p.a = append(p.a, row)
		p.b[i] = float64(1 + r.Intn(20))
	}
	for range n {
		p.c = append(p.c, float64(1+r.Intn(9)))
		p.hi = append(p.hi, float64(3+r.Intn(30)))
	}
	return p
}

// model makes p with a dear column for what is missing in each row, as the cutting does.
func (p program) model() (l *simplex.LP, first int) { return p.on(simplex.New) }

func (p program) on(start func(b []float64) *simplex.LP) (l *simplex.LP, first int) {
	l = start(p.b)
	head, unit := make([]int, len(p.b)), make([]int, len(p.b))
	for i := range p.b {
		unit[i] = l.Add([]int32{int32(i)}, []float64{-1}, 0, 0, math.Inf(1))
		head[i] = l.Add([]int32{int32(i)}, []float64{1}, 1000, 0, math.Inf(1))
	}
	first = l.Columns()
	for j := range p.c {
		var rows []int32
		var vals []float64
		for i := range p.b {
			if p.a[i][j] != 0 {
				rows, vals = append(rows, int32(i)), append(vals, p.a[i][j])
			}
		}
		l.Add(rows, vals, p.c[j], 0, p.hi[j])
	}
	l.Begin(head, unit)
	return l, first
}

// oracle is the same program for gonum: slacks for rows and for upper bounds, and the dear columns.
func (p program) oracle(t *testing.T) float64 {
	m, n := len(p.b), len(p.c)
	a := mat.NewDense(m+n, 2*n+2*m, nil)
	b, c := make([]float64, m+n), make([]float64, 2*n+2*m)
	for i := range m {
		for j := range n {
			a.Set(i, j, p.a[i][j])
		}
		a.Set(i, n+i, -1)
		a.Set(i, 2*n+m+i, 1)
		c[2*n+m+i] = 1000
		b[i] = p.b[i]
	}
	for j := range n {
		a.Set(m+j, j, 1)
		a.Set(m+j, n+m+j, 1)
		b[m+j], c[j] = p.hi[j], p.c[j]
	}
	best, _, err := lp.Simplex(c, a, b, 1e-10, nil)
	if err != nil {
		t.Skipf("gonum: %v", err)
	}
	return best
}

// The primal method finds what gonum's finds; after bounds move, the dual method finds what a fresh start finds.
func TestAgainstGonum(t *testing.T) {
	compared := 0
	for seed := range 400 {
		r := rand.New(rand.NewSource(int64(seed)))
		p := random(r)
		l, first := p.model()
		if s := l.Primal(1000); s != simplex.Optimal {
			t.Fatalf("seed %d: status %d", seed, s)
		}
		t.Run("", func(t *testing.T) {
			if want := p.oracle(t); math.Abs(l.Cost()-want) > 1e-6*math.Max(1, want) {
				t.Errorf("seed %d: %v, gonum %v", seed, l.Cost(), want)
			}
			compared++
		})
		for range 3 {
			j := r.Intn(len(p.c))
			p.hi[j] = float64(r.Intn(int(p.hi[j]) + 1))
			l.SetBounds(first+j, 0, p.hi[j])
		}
		l.Fresh()
		if s := l.Dual(1000, math.Inf(1)); s != simplex.Optimal {
			t.Fatalf("seed %d: dual status %d", seed, s)
		}
		fresh, _ := p.model()
		fresh.Primal(1000)
		if math.Abs(l.Cost()-fresh.Cost()) > 1e-6*math.Max(1, fresh.Cost()) {
			t.Errorf("seed %d: dual %v, afresh %v", seed, l.Cost(), fresh.Cost())
		}
	}
	if compared < 350 {
		t.Errorf("only %d of 400 compared", compared)
	}
}

// A program without a point has a ray along which the duals prove ever more.
func TestRay(t *testing.T) {
	l := simplex.New([]float64{5})
	slack := l.Add([]int32{0}, []float64{-1}, 0, 0, math.Inf(1))
	x := l.Add([]int32{0}, []float64{2}, 3, 0, 10)
	l.Begin([]int{x}, []int{slack})
	l.SetBounds(x, 0, 2)
	l.Fresh()
	if s := l.Dual(10, math.Inf(1)); s != simplex.Infeasible {
		t.Fatalf("status %d", s)
	}
	// with y the value of a piece, 5 y + 2 (3 - 2 y) is a bound once y > 3/2
	bound := func(y float64) float64 { return 5*y + 2*math.Min(0, 3-2*y) }
	if a, b := bound(l.Duals(10)[0]), bound(l.Duals(1000)[0]); !(b > a && b > 500) {
		t.Errorf("%v at 10, %v at 1000 along the ray", a, b)
	}
}
