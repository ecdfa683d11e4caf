package buy_test

import (
	"fmt"
	"math/big"
)

// scarfable is one or two planks in a tiny yard with freight, each whole or of two parts.
type scarfable struct {
	lading
	planks []plank
	// strips that a board gives, 0 of cans; lengths that come off it with a kerf behind the last piece, mm.
	strips, room []int64
	wood         []int64 // of each load
	joint        *big.Rat
	glue         int64 // hundredths of a litre without joints
	eachJoint    int64 // and for each
}

// plank is so long and of a wood; whole says that it may not be scarfed.
type plank struct {
	wood, length int64
	whole        bool
}

// What a joint lies over and a part has at least, mm; all lengths are whole fives.
const (
	lap, leastPart, kerfMM = 385, 770, 5
)

// part of a plank: 0 the whole, 1 the first of two, 2 the second.
type part struct{ plank, which int }

// lookScarfs goes through every plank whole or of two parts, every strip for each, every place of the joints in steps of 5 mm, and from
// the boards that takes on every number of everything.
func (y *scarfable) lookScarfs() {
	y.goods, y.total = -1, -1
	seen := map[string]bool{}
	for cut := range 1 << len(y.planks) {
		var parts []part
		joints, ok := [2]int64{}, true
		for i, p := range y.planks {
			if cut>>i&1 == 0 {
				parts = append(parts, part{i, 0})
				continue
			}
			ok = ok && !p.whole
			joints[p.wood]++
			parts = append(parts, part{i, 1}, part{i, 2})
		}
		if !ok {
			continue
		}
		labour := int64(0)
		for _, n := range joints {
			labour += halfUp(new(big.Rat).Mul(y.joint, big.NewRat(n, 1)))
		}
		var strips [][]part
		var of []int
		var put func(k int)
		put = func(k int) {
			if k == len(parts) {
				least := make([]int64, len(y.loads))
				for _, i := range of {
					least[i]++
				}
				for i, n := range least {
					if n > 0 {
						least[i] = (n + y.strips[i] - 1) / y.strips[i]
					}
				}
				key := fmt.Sprint(least, joints)
				if !seen[key] && y.fits(strips, of) {
					seen[key] = true
					y.onwards(least, labour, y.glue+y.eachJoint*(joints[0]+joints[1]))
				}
				return
			}
			for s := range strips {
				if y.wood[of[s]] == y.planks[parts[k].plank].wood {
					strips[s] = append(strips[s], parts[k])
					put(k + 1)
					strips[s] = strips[s][:len(strips[s])-1]
				}
			}
			for i, n := range y.strips {
				if n > 0 && y.wood[i] == y.planks[parts[k].plank].wood {
					strips, of = append(strips, []part{parts[k]}), append(of, i)
					put(k + 1)
					strips, of = strips[:len(strips)-1], of[:len(of)-1]
				}
			}
		}
		put(0)
	}
}

// fits says that some places of the joints leave room on every strip. Of the first part of each plank every length is tried.
func (y *scarfable) fits(strips [][]part, of []int) bool {
	first := make([]int64, len(y.planks))
	var try func(i int) bool
	try = func(i int) bool {
		if i < len(y.planks) {
			both := y.planks[i].length + lap
			for first[i] = leastPart; first[i] <= both-leastPart; first[i] += 5 {
				if y.roomFor(strips, of, first, i) && try(i+1) {
					return true
				}
			}
			return false
		}
		return true
	}
	cut := false
	for _, s := range strips {
		for _, p := range s {
			cut = cut || p.which > 0
		}
	}
	if !cut {
		return y.roomFor(strips, of, first, len(y.planks)-1)
	}
	return try(0)
}

// roomFor says that strips have room for the parts of the planks up to the last.
func (y *scarfable) roomFor(strips [][]part, of []int, first []int64, last int) bool {
	for s, all := range strips {
		takes := int64(0)
		for _, p := range all {
			if p.plank > last {
				continue
			}
			long := y.planks[p.plank].length
			switch p.which {
			case 1:
				long = first[p.plank]
			case 2:
				long += lap - first[p.plank]
			}
			takes += long + kerfMM
		}
		if takes > y.room[of[s]] {
			return false
		}
	}
	return true
}

// onwards goes through all numbers from the least on that hold so much glue.
func (y *scarfable) onwards(least []int64, labour, glue int64) {
	counts := make([]int64, len(least))
	var walk func(i int, glue, goods int64)
	walk = func(i int, glue, goods int64) {
		if y.total >= 0 && goods >= y.total {
			return
		}
		if i < len(counts) {
			for n := least[i]; n <= max(y.most, least[i]+2); n++ {
				if price, sold := y.loads[i].each(n); sold || n == 0 {
					counts[i] = n
					walk(i+1, glue-n*y.loads[i].gives[2], goods+n*price)
				}
			}
			counts[i] = 0
			return
		}
		if glue > 0 {
			return
		}
		y.compare(counts, goods)
	}
	walk(0, glue, labour)
}
