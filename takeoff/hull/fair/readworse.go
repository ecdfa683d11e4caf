package fair

import "math"

const (
	// The points may have been read worse than they were written, by these
	// multiples of the grain's own error.
	multipleStep = 1.2
	multiples    = 14
	// surelyWorse is the gain in cost from which it is said.
	surelyWorse = 4.0
	// Beyond so many radians over the widest span a bend that the points miss
	// looks like bad reading. Points read very badly make the curve itself turn
	// more; so the corners of the polygon through them are asked as well.
	closeTogether = 0.35
	cornersBelow  = 0.3
)

// scatter is the cost of the best curve for every multiple of the declared
// error, less that of the declared error itself.
type scatter [multiples]float64

// wider is how many steps of the roughness below those of the fit are tried
// here: against a greater error the batten is as much stiffer. The roughness is
// taken in units of the error, so that every multiple has the same choice; else
// a section that wants no roughness at all gains by the finer choice alone.
const wider = 5

// scatter finds what the last fit's points say of their own error.
func (w *Workspace) scatter() scatter {
	var s scatter
	if w.left < 2 {
		return s
	}
	var spread, misfit [roughTried + wider]float64
	for i := range spread {
		spread[i], misfit[i] = w.parts(math.Exp(2 * (roughLow + roughStep*float64(i-wider))))
	}
	// Rows that know nothing of the prior are error alone.
	rows, alone := float64(w.left), 0.0
	for i := free + w.left; i < len(w.holds); i++ {
		e := w.rows[i*stride+asked]
		alone += e * e
		rows++
	}
	for j := range s {
		square := math.Pow(multipleStep, 2*float64(j))
		best := math.Inf(1)
		for i := range spread {
			best = min(best, spread[i]+(misfit[i]+alone)/square)
		}
		s[j] = best + rows*math.Log(square)
	}
	declared := s[0]
	for j := range s {
		s[j] -= declared
	}
	return s
}

// worse is the multiple that the points ask for, and whether they ask for it
// loudly enough to be told.
func (s *scatter) worse() (multiple float64, surely bool) {
	best := 0
	for j, v := range s {
		if v < s[best] {
			best = j
		}
	}
	return math.Pow(multipleStep, float64(best)), s[best] < -surelyWorse
}

// tells says that the points lie close enough to tell bad reading from a bend
// that they miss.
func (q *Quality) tells() bool {
	return q.Few == 0 && (q.Least.Turn <= closeTogether || q.corner <= cornersBelow)
}

// ReadWorse says whether the points of this section scatter more than their
// grain allows, and by how many times: read worse than they were written, or
// one of them wrong. Fit them again with the grain times the multiple. It is
// said only where the points lie close enough together to tell.
func (q *Quality) ReadWorse() (multiple float64, surely bool) {
	multiple, surely = q.scatter.worse()
	if !surely || !q.tells() {
		return 1, false
	}
	return multiple, true
}

// Reading gathers what the sections of one table say of how it was read: one
// section hardly tells, eight do. The zero value is ready.
type Reading struct {
	sum      scatter
	sections int
}

// Add counts a section in where its points lie close enough together to tell.
func (r *Reading) Add(q *Quality) {
	if !q.tells() {
		return
	}
	r.sections++
	for j, v := range q.scatter {
		r.sum[j] += v
	}
}

// Sections is how many were counted in.
func (r *Reading) Sections() int { return r.sections }

// Worse says whether the table was read worse than it was written, and by how
// many times the error that its grain allows.
func (r *Reading) Worse() (multiple float64, surely bool) {
	multiple, surely = r.sum.worse()
	if !surely {
		return 1, false
	}
	return multiple, true
}
