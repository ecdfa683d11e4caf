package flat

import (
	"cmp"
	"math"
	"slices"
)

// purchase is numbers of sheets of each stock: cost in units, far the sheets by which it differs from what it is near.
type purchase struct {
	n    []int64
	cost int64
	far  float64
}

// So many purchases are looked at; numbers of one stock are taken up to mostReach away.
const (
	mostPurchases = 30_000
	mostReach     = 25
)

// reachOf is how far from what is near each of so many numbers is taken: so far both ways that all of them together make about
// mostPurchases, at least by one.
func reachOf(stock int) float64 {
	reach := 1
	for reach < mostReach {
		all := 1
		for range stock {
			if all *= 2 * (reach + 1); all > mostPurchases {
				return float64(reach)
			}
		}
		reach++
	}
	return float64(reach)
}

// purchases are whole numbers of sheets near others that cost from low to aim, the cheap and near ones
// first: what sheets a plan has is the largest of its choices, and one that fits in numbers fixed beforehand does not
// end with a sheet too many.
func (s *search) purchases(near []float64, low, aim float64, most int) []purchase {
	var out []purchase
	n := make([]int64, len(s.stock))
	least, top := int64(math.Ceil(float64(low*s.norm)-nearWhole)), int64(math.Floor(float64(aim*s.norm)+nearWhole))
	reach := reachOf(len(s.stock))
	steps := 0
	var walk func(k int, cost int64, far float64)
	walk = func(k int, cost int64, far float64) {
		if steps++; steps > 2*mostPurchases || cost > top {
			return
		}
		if k == len(s.stock) {
			if cost >= least {
				out = append(out, purchase{slices.Clone(n), cost, far})
			}
			return
		}
		v := near[k]
		for c := max(0, math.Floor(v)-reach); c <= math.Ceil(v)+reach; c++ {
			if s.stock[k].Avail >= 0 && c > float64(s.stock[k].Avail) {
				break
			}
			n[k] = int64(c)
			walk(k+1, cost+int64(c)*s.stock[k].price, far+math.Abs(c-v))
		}
	}
	walk(0, 0, 0)
	span := math.Max(1, float64(top-least))
	weight := func(p purchase) float64 { return 10*float64(p.cost-least)/span + p.far }
	slices.SortStableFunc(out, func(a, b purchase) int { return cmp.Compare(weight(a), weight(b)) })
	return out[:min(len(out), most)]
}
