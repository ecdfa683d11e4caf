package buy_test

import (
	"fmt"
	"math"
	"math/big"
)

// stuff is a ware that rectangles are cut from: sheets, so many in a pack, or a roll of which a pack is so long; longest is what comes
// off a roll at once, 0 for any length.
type stuff struct {
	width, length int64
	each          int64
	pack          *big.Rat // mm of a roll, nil of sheets
	longest       int64
}

// rect is one rectangle.
type rect struct {
	w, l int64
	turn bool
}

const never = math.MaxInt64 / 8

// strips are the depths of strips, one beside another, that hold each set of rectangles in two stages, each strip with a kerf behind it:
// rectangles side by side in the room of a strip, no strip deeper than most.
func strips(all []rect, room, kerf, most int64, along bool) []int64 {
	one := make([]int64, 1<<len(all))
	for set := 1; set < len(one); set++ {
		one[set] = never
		for ways := range 1 << len(all) {
			wide, deep, ok := -kerf, int64(0), true
			for i, r := range all {
				if set>>i&1 == 0 {
					ok = ok && ways>>i&1 == 0
					continue
				}
				w, l := r.w, r.l
				if ways>>i&1 == 1 {
					if ok = ok && r.turn; !ok {
						break
					}
					w, l = l, w
				}
				if along {
					w, l = l, w
				}
				wide, deep = wide+w+kerf, max(deep, l)
			}
			if ok && wide <= room && deep <= most {
				one[set] = min(one[set], deep+kerf)
			}
		}
	}
	out := make([]int64, len(one))
	for set := 1; set < len(out); set++ {
		out[set] = never
		for part := set; part > 0; part = (part - 1) & set {
			if one[part] < never && out[set&^part] < never {
				out[set] = min(out[set], one[part]+out[set&^part])
			}
		}
	}
	return out
}

// packs are how many packs of some stuff each set of rectangles takes.
func (s stuff) packs(all []rect, kerf int64) []int64 {
	out := make([]int64, 1<<len(all))
	if s.pack != nil {
		most := s.longest
		if most == 0 {
			most = never
		}
		for set, deep := range strips(all, s.width, 0, most, false) {
			if out[set] = never; deep < never {
				n := new(big.Rat).Quo(big.NewRat(deep, 1), s.pack)
				n.Add(n, big.NewRat(1, 1)).Sub(n, new(big.Rat).SetFrac64(1, 1_000_000_000))
				out[set] = new(big.Int).Quo(n.Num(), n.Denom()).Int64()
			}
		}
		return out
	}
	across, along := strips(all, s.width, kerf, s.length, false), strips(all, s.length, kerf, s.width, true)
	for set := 1; set < len(out); set++ {
		out[set] = never
		for part := set; part > 0; part = (part - 1) & set {
			if (across[part] <= s.length+kerf || along[part] <= s.width+kerf) && out[set&^part] < never {
				out[set] = min(out[set], 1+out[set&^part])
			}
		}
	}
	for set, n := range out {
		if n < never {
			out[set] = (n + s.each - 1) / s.each
		}
	}
	return out
}

// lookSheets goes through every way of parting rectangles among the wares of stuff, and all numbers of packs from there.
func (y *tinyYard) lookSheets(all []rect, of []stuff, kerf int64) {
	y.goods, y.total = -1, -1
	y.counts = make([]int64, len(y.wares))
	takes := make([][]int64, len(of))
	for i, s := range of {
		takes[i] = s.packs(all, kerf)
	}
	least := make([]int64, len(y.wares))
	seen := map[string]bool{}
	var part func(i, left int)
	part = func(i, left int) {
		if i == len(of) {
			if key := fmt.Sprint(least); left == 0 && !seen[key] {
				seen[key] = true
				y.from(0, least)
			}
			return
		}
		for set := left; ; set = (set - 1) & left {
			if n := takes[i][set]; n < never {
				least[i] = n
				part(i+1, left&^set)
			}
			if set == 0 {
				break
			}
		}
		least[i] = 0
	}
	part(0, 1<<len(all)-1)
}

// from goes through numbers of wares from the least; of wares with numbers of a need all that hold it.
func (y *tinyYard) from(i int, least []int64) {
	if i == len(y.wares) {
		need := int64(0)
		if len(y.needed) > 0 {
			need = y.needed[0]
		}
		for k, w := range y.wares {
			if len(w.gives) > 0 {
				need -= y.counts[k] * w.gives[0]
			}
		}
		if need <= 0 {
			y.weigh()
		}
		return
	}
	for n := least[i]; n <= max(y.most, least[i]+3); n++ {
		if _, sold := y.wares[i].each(n); sold || n == 0 {
			y.counts[i] = n
			y.from(i+1, least)
		}
	}
	y.counts[i] = 0
}
