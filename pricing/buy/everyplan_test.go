package buy_test

import (
	"errors"
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"pgregory.net/rapid"
)

// soldBoard is a board of the sheet or in hand, by its price at numbers. Strips are how many of a plank 152 wide one gives.
type soldBoard struct {
	thick, length int64
	strips        int64
	article
}

// everyPlan is the least that planks in two groups by thickness, of lengths in mm, can cost: every way of parting the planks into strips,
// and every board that is thick enough for each strip. -1 where none holds.
func everyPlan(groups [2][]int64, thick [2]int64, boards []soldBoard) int64 {
	var planks [][2]int64 // length and thickness, thickest first, so that a strip's board is thick enough for what comes after
	for g := len(groups) - 1; g >= 0; g-- {
		for _, long := range groups[g] {
			planks = append(planks, [2]int64{long + 3, thick[g] + 2})
		}
	}
	best := int64(-1)
	strips := make([]int64, len(boards))
	cost := func() {
		sum := int64(0)
		for i, b := range boards {
			count := (strips[i] + b.strips - 1) / b.strips
			if count == 0 {
				continue
			}
			least, sold := b.least(count)
			if !sold {
				return
			}
			sum += least
		}
		if best < 0 || sum < best {
			best = sum
		}
	}
	var put func(at int, room []int64)
	put = func(at int, room []int64) {
		if at == len(planks) {
			cost()
			return
		}
		p := planks[at]
		for k := range room {
			if room[k] >= p[0] {
				room[k] -= p[0]
				put(at+1, room)
				room[k] += p[0]
			}
		}
		for i, b := range boards {
			if free := b.length - 40 + 3; b.thick >= p[1] && free >= p[0] {
				strips[i]++
				put(at+1, append(append([]int64(nil), room...), free-p[0]))
				strips[i]--
			}
		}
	}
	put(0, nil)
	return best
}

// Against every plan there is, of few planks in two groups that share boards which are sold from a number on, cheaper by the number, in few
// or in hand: no floor is above the cheapest, none that is called proven costs more, and where a group by itself fails there is none.
func TestTimberAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		thick := [2]int64{30, 45}
		boards := []soldBoard{{40, 1000, 1, article{avail: -1, from: []int64{0}, price: []int64{99}}}}
		for range rapid.IntRange(1, 2).Draw(rt, "boards") {
			b := soldBoard{thick: rapid.SampledFrom([]int64{40, 50, 50}).Draw(rt, "thick"), length: 1000 * rapid.Int64Range(2, 5).Draw(rt, "long"), strips: rapid.Int64Range(1, 2).Draw(rt, "strips"),
				article: article{avail: rapid.Int64Range(-1, 5).Draw(rt, "avail")}}
			from, price := rapid.Int64Range(0, 3).Draw(rt, "from"), rapid.Int64Range(20, 90).Draw(rt, "price")
			for range rapid.IntRange(1, 2).Draw(rt, "breaks") {
				b.from, b.price = append(b.from, from), append(b.price, price)
				from, price = max(from, 1)+rapid.Int64Range(1, 2).Draw(rt, "more"), price-rapid.Int64Range(-2, 15).Draw(rt, "off")
			}
			boards = append(boards, b)
		}
		var rows []sheet.Row
		for i, b := range boards {
			for k := range b.from {
				row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.strips*155 + 2), StockLength: fmt.Sprint(b.length), Price: fmt.Sprint(b.price[k])}
				if b.from[k] > 0 {
					row.MinQty = fmt.Sprint(b.from[k])
				}
				if b.avail >= 0 {
					row.Available = fmt.Sprint(b.avail)
				}
				rows = append(rows, row)
			}
		}
		c, err := sheet.FromRows("EUR", notation.Millimetres, rows)
		if err != nil {
			rt.Fatal(err)
		}
		var inHand rack.Rack
		if rapid.Bool().Draw(rt, "rack") {
			held := soldBoard{50, 1000 * rapid.Int64Range(1, 4).Draw(rt, "held"), 1, article{avail: 1, from: []int64{0}, price: []int64{0}}}
			read, bad := rack.Read(rack.Document{Notation: notation.Millimetres, Boards: []rack.Row{{ID: "R1", Count: 1, Species: "larch", Grade: "clear", Thickness: "50", Width: "160", Length: fmt.Sprint(held.length)}}})
			if len(bad) > 0 {
				rt.Fatal(bad)
			}
			inHand, boards = read, append(boards, held)
		}
		var sizes [][3]string
		var groups [2][]int64
		for g := range groups {
			for range rapid.IntRange(g^1, 2).Draw(rt, "planks") {
				long := 100 * rapid.Int64Range(5, 30).Draw(rt, "length")
				groups[g] = append(groups[g], long)
				sizes = append(sizes, [3]string{"150", fmt.Sprint(thick[g]), fmt.Sprint(long)})
			}
		}
		best := everyPlan(groups, thick, boards)
		l, err := buy.WithRack(planksOf(t, sizes...), c, inHand, sawn)
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			if best >= 0 && len(groups[1]) == 0 {
				rt.Fatalf("%v, and %d is possible of %+v, %+v", err, best, boards, groups)
			}
			return
		}
		if err != nil {
			rt.Fatal(err)
		}
		sums(rt, l)
		if best < 0 || l.Cost.Minor() < best*100 || l.Bound.Minor() > best*100 || len(groups[1]) == 0 && l.Cost.Minor() != best*100 {
			rt.Fatalf("%s, none below %s, and %d is the least of %+v, %+v\n%+v", l.Cost, l.Bound, best, boards, groups, l.Timber)
		}
	})
}
