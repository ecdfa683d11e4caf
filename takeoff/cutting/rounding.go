package cutting

import (
	"cmp"
	"math"
	"slices"
)

// row is a row that follows from others. With multipliers u >= 0 of rows sum(a x) >= b, sum(u a) x >= u b for every x,
// and where x >= 0 is whole so does sum(ceil(u a)) x >= ceil(u b): the cuts of Gomory (1958) and Chvatal (1973). The
// multipliers are fractions of one denominator, so that rounding is exact.
type row struct {
	coef []int64
	rhs  int64
	far  float64 // how far the program's answer lies outside
}

// Rows added in one round, how far outside the answer must lie, and the largest number in a row.
const (
	rowsARound  = 12
	leastBroken = 1e-4
	mostCoef    = 1_000_000
)

// cut adds rows that the program's answer breaks; false when it found none.
func (p *packing) cut() bool {
	x, head := p.lp.Values(), p.lp.Head()
	var list []row
	for r, j := range head {
		if math.Abs(x[j]-math.Round(x[j])) < 1e-3 {
			continue
		}
		for _, sign := range []float64{1, -1} {
			if c, ok := p.rounded(p.lp.Row(r), sign, x); ok {
				list = append(list, c)
			}
			p.work += int64(8 * len(p.cols))
		}
	}
	if len(list) == 0 {
		return false
	}
	slices.SortStableFunc(list, func(a, b row) int { return cmp.Compare(b.far, a.far) })
	keep := slices.Clone(head)
	for _, c := range list[:min(len(list), rowsARound)] {
		for j, v := range c.coef {
			if v != 0 {
				p.cols[j] = append(p.cols[j], entry{len(p.rhs), v})
			}
		}
		keep = append(keep, len(p.cols)+len(p.rhs)) // a new row's surplus is basic
		p.rhs = append(p.rhs, c.rhs)
	}
	return p.load(keep)
}

// rounded is the row that a row of the basis' inverse gives; false when the answer keeps it or numbers grow too large.
// Whole parts of multipliers only add whole multiples of rows, so that the fractions are enough.
func (p *packing) rounded(inverse []float64, sign float64, x []float64) (row, bool) {
	u := make([]float64, len(inverse))
	for i, v := range inverse {
		u[i] = math.Max(0, float64(sign*v)-math.Floor(float64(sign*v)+1e-9))
	}
	den, exact := denominator(u)
	times := make([]int64, len(u))
	var b sum
	for i, v := range u {
		v *= float64(den)
		switch {
		case exact:
			times[i] = int64(math.Round(v))
		case p.rhs[i] > 0: // a little less of what is asked for and a little more of what is to be had
			times[i] = int64(v)
		default:
			times[i] = int64(math.Ceil(v))
		}
		b.addProduct(times[i], p.rhs[i])
	}
	c := row{coef: make([]int64, len(p.cols)), rhs: ceilDiv(b.v, den)}
	square, left := 0.0, float64(c.rhs)
	for j, col := range p.cols {
		var a sum
		for _, e := range col {
			a.addProduct(times[e.row], e.v)
		}
		v := ceilDiv(a.v, den)
		if a.past || max(v, -v) > mostCoef {
			return row{}, false
		}
		c.coef[j] = v
		square += float64(float64(v) * float64(v))
		left -= float64(float64(v) * x[j])
	}
	c.far = left / math.Sqrt(square)
	return c, !b.past && left > leastBroken && square > 0 && max(c.rhs, -c.rhs) < 1000*mostCoef
}

// Denominators above this are not looked for.
const (
	mostDenominator = 1_000_000
	anyDenominator  = 1 << 24
)

// denominator of which all fractions are very nearly whole parts; false when it is too large.
func denominator(u []float64) (den int64, ok bool) {
	den = 1
	for _, v := range u {
		w, q := v*float64(den), int64(1)
		for ; math.Abs(float64(w*float64(q))-math.Round(w*float64(q))) > 1e-6*float64(q); q++ {
			if q*den > mostDenominator || q > 400 {
				return anyDenominator, false
			}
		}
		den *= q
	}
	return den, true
}

func ceilDiv(a, b int64) int64 {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}
