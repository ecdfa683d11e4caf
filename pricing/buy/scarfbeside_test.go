package buy_test

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sheet"
	"ribband/takeoff/notation"

	"pgregory.net/rapid"
)

// A plank of the oracle: width, thickness and length, and whether it may be of two parts.
type besidePlank struct {
	size   [3]int64
	scarfs bool
}

// everyScarf is the least that planks cost with the labour of their joints, at each for one: every choice of which planks are scarfed, at some
// places, and every laying of the parts and of the planks that are whole. -1 where none holds. Planks that may be scarfed lie in boards ripped first.
func everyScarf(planks []besidePlank, boards []sideSold, each int64) int64 {
	best := int64(-1)
	var choose func(at int, sizes [][3]int64, ripped []bool, joints int64)
	choose = func(at int, sizes [][3]int64, ripped []bool, joints int64) {
		if at == len(planks) {
			order := make([]int, len(sizes))
			for i := range order {
				order[i] = i
			}
			slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(sizes[b][0], sizes[a][0]) })
			var s [][3]int64
			var r []bool
			for _, i := range order {
				s, r = append(s, sizes[i]), append(r, ripped[i])
			}
			if cost := everyLayingOf(s, r, boards, nil); cost >= 0 && (best < 0 || cost+joints*each < best) {
				best = cost + joints*each
			}
			return
		}
		p := planks[at]
		choose(at+1, append(slices.Clone(sizes), p.size), append(slices.Clone(ripped), p.scarfs), joints)
		for first := int64(768); p.scarfs && first <= p.size[2]+384-768; first += 150 {
			a, b := p.size, p.size
			a[2], b[2] = first, p.size[2]+384-first
			choose(at+1, append(slices.Clone(sizes), a, b), append(slices.Clone(ripped), true, true), joints+1)
		}
	}
	choose(0, nil, nil, 0)
	return best
}

// Against every plan there is of few planks of which some may be scarfed: no floor is above the cheapest, whether boards are ripped or crosscut first,
// and of planks of two thicknesses.
func TestScarfsBesideAgainstEveryPlan(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		var boards []sideSold
		rows := []sheet.Row{{Item: "epoxy", Kind: "glue", Unit: "LTR", Price: "1"}}
		for i := range rapid.IntRange(1, 2).Draw(rt, "boards") {
			b := sideSold{rapid.SampledFrom([]int64{40, 50}).Draw(rt, "thick"), 10 * rapid.Int64Range(16, 42).Draw(rt, "wide"), 500 * rapid.Int64Range(2, 6).Draw(rt, "long"),
				article{avail: rapid.Int64Range(-1, 4).Draw(rt, "avail"), from: []int64{0}, price: []int64{rapid.Int64Range(20, 90).Draw(rt, "price")}}}
			row := sheet.Row{Kind: "timber", Supplier: fmt.Sprint("M", i), Unit: "C62", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(b.thick), Width: fmt.Sprint(b.wide), StockLength: fmt.Sprint(b.long), Price: fmt.Sprint(b.price[0])}
			if b.avail >= 0 {
				row.Available = fmt.Sprint(b.avail)
			}
			rows, boards = append(rows, row), append(boards, b)
		}
		each := rapid.Int64Range(0, 40).Draw(rt, "each")
		if each > 0 {
			rows = append(rows, sheet.Row{Item: "shipwright", Kind: "labour", Unit: "HUR", Price: fmt.Sprint(each)})
		}
		c, err := sheet.FromRows("EUR", notation.Millimetres, rows)
		if err != nil {
			rt.Fatal(err)
		}
		var planks []besidePlank
		var sizes [][3]string
		for range rapid.IntRange(2, 3).Draw(rt, "planks") {
			p := besidePlank{[3]int64{rapid.Int64Range(90, 190).Draw(rt, "width"), rapid.SampledFrom([]int64{30, 30, 45}).Draw(rt, "plank"), 100 * rapid.Int64Range(8, 25).Draw(rt, "length")},
				rapid.Bool().Draw(rt, "scarfs")}
			if !slices.ContainsFunc(boards, func(b sideSold) bool {
				return b.avail != 0 && b.thick >= p.size[1]+2 && b.wide >= p.size[0]+2 && b.long-40 >= p.size[2]
			}) {
				rt.Skip("glue of joints that must be made is in the floor")
			}
			planks = append(planks, p)
			sizes = append(sizes, [3]string{fmt.Sprint(p.size[0]), fmt.Sprint(p.size[1]), fmt.Sprint(p.size[2])})
		}
		needs := mayScarf(planksOf(t, sizes...))
		for i := range needs {
			if !planks[i].scarfs {
				needs[i].Pieces.Scarf = nil
			}
		}
		l, err := buy.New(needs, c, scarfing("1", "0"))
		var short *buy.ShortBoardsError
		var missing *sheet.MissingPriceError
		if errors.As(err, &short) || errors.As(err, &missing) {
			return
		}
		if err != nil {
			rt.Fatal(err)
		}
		heldOnce(rt, l, needs, c, scarfing("1", "0"))
		for i := range planks { // without a rate they are not weighed
			planks[i].scarfs = planks[i].scarfs && each > 0
		}
		best := everyScarf(planks, boards, each)
		if best >= 0 && l.Bound.Minor() > best*100 {
			rt.Fatalf("%s and %s of labour, none below %s, and %d is possible of %+v, %v at %d a joint\n%+v", l.Cost, l.ScarfLabour, l.Bound, best, boards, planks, each, l.Timber)
		}
	})
}
