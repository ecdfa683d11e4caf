package simplex_test

import (
	"math"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/internal/simplex"
)

// covering is a program like those of long lists: many rows, layouts of a few of them.
func covering(r *rand.Rand, rows, layouts int) program {
	p := program{b: make([]float64, rows)}
	for i := range rows {
		p.b[i] = float64(1 + r.Intn(3))
		p.a = append(p.a, make([]float64, layouts))
	}
	for j := range layouts {
		p.c, p.hi = append(p.c, float64(20+r.Intn(20))), append(p.hi, float64(5+r.Intn(20)))
		for range 2 + r.Intn(5) {
			p.a[r.Intn(rows)][j]++
		}
	}
	return p
}

// farFromUnit is how far the basis times a row of its inverse is from a row of the unit matrix.
func farFromUnit(p program, l *simplex.LP, first, r int) (far float64) {
	row := l.Row(r)
	for q, j := range l.Head() {
		sum := 0.0
		switch {
		case j >= first:
			for i := range p.b {
				sum += row[i] * p.a[i][j-first]
			}
		case j%2 == 0: // what is over in row j/2
			sum = -row[j/2]
		default: // what is missing
			sum = row[j/2]
		}
		if q == r {
			sum--
		}
		far = math.Max(far, math.Abs(sum))
	}
	return far
}

// With sparse factors both methods find what they find with a dense inverse, also after going back to a state from which
// others went on, and the factors stay those of the basis.
func TestSparseAgainstDense(t *testing.T) {
	for seed := range 40 {
		r := rand.New(rand.NewSource(int64(seed)))
		p := covering(r, 5+r.Intn(60), 20+r.Intn(150))
		s, first := p.on(simplex.NewSparse)
		d, _ := p.on(simplex.NewDense)
		same := func(what string) {
			t.Helper()
			if a, b := s.Cost(), d.Cost(); math.Abs(a-b) > 1e-7*math.Max(1, b) {
				t.Fatalf("seed %d, %s: sparse %v, dense %v", seed, what, a, b)
			}
			for k := range p.b {
				if far := farFromUnit(p, s, first, k); far > 1e-7 {
					t.Fatalf("seed %d, %s: row %d of the inverse out by %g", seed, what, k, far)
				}
			}
		}
		run := func(l *simplex.LP, what string) {
			t.Helper()
			if a, b := l.Dual(5000, math.Inf(1)), l.Primal(5000); a != simplex.Optimal || b != simplex.Optimal {
				t.Fatalf("seed %d, %s: status %d, %d", seed, what, a, b)
			}
		}
		if a, b := s.Primal(5000), d.Primal(5000); a != simplex.Optimal || b != simplex.Optimal {
			t.Fatalf("seed %d: status %d, %d", seed, a, b)
		}
		same("at first")
		cost := s.Cost()
		var top, below simplex.State
		s.Save(&top)
		for turn := range 3 {
			for range 4 {
				j := r.Intn(len(p.c))
				hi := float64(r.Intn(3))
				s.SetBounds(first+j, 0, hi)
				d.SetBounds(first+j, 0, hi)
			}
			s.Fresh()
			d.Fresh()
			run(s, "bounds moved")
			run(d, "bounds moved")
			same("bounds moved")
			if turn == 0 {
				s.Save(&below)
				lower := s.Cost()
				s.Restore(&top) // another branch from the top must not change what is kept of the first
				s.SetBounds(first+r.Intn(len(p.c)), 0, 0)
				s.Fresh()
				run(s, "another branch")
				s.Restore(&below)
				if s.Cost() != lower {
					t.Fatalf("seed %d: back at %v, was %v", seed, s.Cost(), lower)
				}
				same("back")
			}
		}
		if s.Restore(&top); s.Cost() != cost {
			t.Fatalf("seed %d: back at the top %v, was %v", seed, s.Cost(), cost)
		}
	}
}

// A basis that is singular is mended, and the program still comes to its optimum.
func TestSingularBasisIsMended(t *testing.T) {
	l := simplex.NewSparse([]float64{2, 3, 4})
	inf := math.Inf(1)
	var unit []int
	for i := range int32(3) {
		unit = append(unit, l.Add([]int32{i}, []float64{1}, 10, 0, inf))
	}
	a := l.Add([]int32{0, 1}, []float64{1, 1}, 3, 0, inf)
	b := l.Add([]int32{0, 1}, []float64{2, 2}, 5, 0, inf)
	if l.Begin([]int{a, b, unit[2]}, unit) {
		t.Error("two columns alike pass for a basis")
	}
	if s := l.Primal(100); s != simplex.Optimal || math.Abs(l.Cost()-55) > 1e-9 {
		t.Errorf("status %d, cost %v, want 55", s, l.Cost())
	}
}
