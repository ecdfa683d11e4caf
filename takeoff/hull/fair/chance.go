package fair

import (
	"math"
	"sync"
)

const (
	// draws is how many curves that fit, and how many refits, a range is read
	// from.
	draws = 100
	// chanceSeed is where the draws begin. They are the same for every section,
	// so a section written twice has one range, and any machine gives the same.
	chanceSeed = 0x5eed
)

// chance is one draw of everything that the points leave open: independent
// numbers with mean 0 and variance 1, normally distributed.
type chance struct {
	drive [knots]float64 // of the prior
	first [free]float64  // error of the rows that know of the free movements
	rows  [knots]float64 // error of those that do not
	ends  [2]float64     // error of the two end points along the curve
}

// chances are those of the curves drawn and, apart from them, of the refits.
type chances struct{ curves, refits [draws]chance }

var theChances = sync.OnceValue(func() *chances {
	c, r := &chances{}, random(chanceSeed)
	for i := range draws {
		for _, one := range []*chance{&c.curves[i], &c.refits[i]} {
			for _, v := range [][]float64{one.drive[:], one.first[:], one.rows[:], one.ends[:]} {
				for j := range v {
					v[j] = r.normal()
				}
			}
		}
	}
	return c
})

// random is the generator of G. L. Steele, D. Lea and C. H. Flood, Fast
// splittable pseudorandom number generators, 2014 (constants from memory; the
// study of this package's ranges would not hold with a bad one).
type random uint64

// uniform lies above 0 and at most at 1.
func (r *random) uniform() float64 {
	*r += 0x9e3779b97f4a7c15
	x := uint64(*r)
	x = (x ^ x>>30) * 0xbf58476d1ce4e5b9
	x = (x ^ x>>27) * 0x94d049bb133111eb
	x ^= x >> 31
	return (float64(x>>11) + 1) / (1 << 53)
}

// normal is by the polar form of two uniform numbers, one of which is unused.
func (r *random) normal() float64 {
	away := math.Sqrt(-2 * math.Log(r.uniform()))
	return away * math.Cos(2*math.Pi*r.uniform())
}
