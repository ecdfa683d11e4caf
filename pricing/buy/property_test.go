package buy_test

import (
	"errors"
	"fmt"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func sorted(s []string) []string { return slices.Sorted(slices.Values(s)) }

// Over invented yards: the shares add to the cost; the cost is the sum of boards and packs; no bound is above its
// cost; every gross laminate is cut exactly once, from a board that is long, wide and thick enough; no more is bought
// than is for sale, all groups together; the order of needs and of the sheet changes no cost.
func TestListsAreSound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		needs, c := drawNeeds(t), drawSheet(t)
		l, err := buy.New(needs, c, shop)
		var boards *buy.ShortBoardsError
		var packs *pack.ShortError
		if errors.As(err, &boards) || errors.As(err, &packs) {
			return
		}
		var missing *sheet.MissingPriceError
		if errors.As(err, &missing) {
			tooShort(t, missing, needs, c)
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		sums(t, l)
		bought := map[string]int64{}
		for _, g := range l.Timber {
			sound(t, g, needs, c, bought)
		}
		for _, it := range c.Items {
			if n := bought[it.Supplier]; it.Available >= 0 && n > it.Available {
				t.Fatalf("%d of %d boards of %s bought", n, it.Available, it.Label())
			}
		}
		slices.Reverse(needs)
		slices.Reverse(c.Items)
		again, err := buy.New(needs, c, shop)
		if err != nil || again.Cost != l.Cost || again.Bound != l.Bound {
			t.Fatalf("turned round: %s and %s, %v", l.Cost, again.Cost, err)
		}
	})
}

// tooShort: timber is only said to be missing when no board of it holds the longest piece between the trims.
func tooShort(t *rapid.T, missing *sheet.MissingPriceError, needs []bill.Line, c sheet.Content) {
	for _, m := range missing.Items {
		if m.Kind != sheet.Timber {
			t.Fatalf("%s is on the sheet and is missed", m.Item)
		}
		longest := decimal.Zero
		for _, n := range needs {
			if slices.Contains(m.For, n.ID) {
				longest = decimal.Max(longest, n.Pieces.Length.Value().Shift(3))
			}
		}
		for _, it := range c.Items {
			if it.Kind == sheet.Timber && it.StockLength.MM().GreaterThanOrEqual(longest.Add(shop.EndTrim).Add(shop.EndTrim)) {
				t.Fatalf("%s holds %s mm and is missed", it.Label(), longest)
			}
		}
	}
}

func sums(t *rapid.T, l buy.List) {
	var shares, groups, bound int64
	for _, s := range l.Shares {
		if s.Cost.Sign() < 0 || s.Line == "" {
			t.Fatalf("share %+v", s)
		}
		shares += s.Cost.Minor()
	}
	for _, g := range l.Timber {
		var boards int64
		for _, b := range g.Boards {
			boards += b.Cost.Minor()
			if b.Cost.Minor() != b.Count*b.Price.Minor() {
				t.Fatalf("%+v", b)
			}
		}
		if boards != g.Cost.Minor() || g.Bound.Minor() > g.Cost.Minor() {
			t.Fatalf("boards %d, cost %s, bound %s", boards, g.Cost, g.Bound)
		}
		groups, bound = groups+g.Cost.Minor(), bound+g.Bound.Minor()
		if s := g.SideBySide; s != nil && len(s.Layouts) == 0 && s.Lines[0] == g.Lines[0] { // told of all planks of a wood, counted once
			bound -= max(0, s.ApartBound.Minor()-s.Bound.Minor())
		}
	}
	for _, p := range l.Packs {
		if p.Bound.Minor() > p.Cost.Minor() || p.LeftOver.Value().IsNegative() {
			t.Fatalf("%+v", p)
		}
		groups, bound = groups+p.Cost.Minor(), bound+p.Bound.Minor()
	}
	if shares != l.Cost.Minor() || groups != l.Cost.Minor() || bound != l.Bound.Minor() {
		t.Fatalf("cost %s: shares %d, groups %d, bounds %d of %s", l.Cost, shares, groups, bound, l.Bound)
	}
}

// sound looks over the boards of one group in exact millimetres, from the sheet and the needs alone.
func sound(t *rapid.T, g buy.Timber, needs []bill.Line, c sheet.Content, bought map[string]int64) {
	left, length := map[string]int64{}, map[string]decimal.Decimal{}
	for _, n := range needs {
		if slices.Contains(g.Lines, n.ID) {
			left[n.ID], _ = n.Gross.Int()
			length[n.ID] = n.Pieces.Length.Value().Shift(3)
			if !n.Pieces.Thickness.Equal(g.Thickness) || !n.Pieces.Siding.Equal(g.Siding) {
				t.Fatalf("%s is in the wrong group", n.ID)
			}
		}
	}
	supplier, used := map[string]sheet.Item{}, map[string]int64{}
	for _, o := range g.Offers {
		for _, it := range c.Items {
			if it.Kind == sheet.Timber && it.Supplier == o.Supplier {
				supplier[o.ID] = it
			}
		}
	}
	for _, cut := range g.Cuts {
		used[cut.Offer] += cut.Strips
		along := decimal.Zero
		for _, p := range cut.Pieces {
			left[p.Line] -= p.Count * cut.Strips
			along = along.Add(length[p.Line].Add(shop.Kerf).Mul(decimal.NewFromInt(p.Count)))
		}
		if along.GreaterThan(supplier[cut.Offer].StockLength.MM().Sub(shop.EndTrim).Sub(shop.EndTrim).Add(shop.Kerf)) {
			t.Fatalf("a strip of %s is too full: %s", cut.Offer, along)
		}
	}
	for line, n := range left {
		if n != 0 {
			t.Fatalf("%s: %d pieces not cut", line, n)
		}
	}
	for _, b := range g.Boards {
		it := supplier[b.Offer]
		bought[it.Supplier] += b.Count
		strips := b.Strips / b.Count
		// All strips and the kerfs between them are no wider than the board, and one more would be.
		across := g.Thickness.Add(g.Planing).Add(shop.Kerf)
		wide := it.Width.MM().Add(shop.Kerf)
		if across.Mul(decimal.NewFromInt(strips)).GreaterThan(wide) || !across.Mul(decimal.NewFromInt(strips+1)).GreaterThan(wide) ||
			it.Thickness.MM().LessThan(g.Siding.Add(g.Planing)) || used[b.Offer] > b.Strips || used[b.Offer] != b.Used {
			t.Fatalf("%d boards of %s give %d strips", b.Count, b.Offer, b.Strips)
		}
	}
}

// Against every choice there is, on small needs: no whole packs off the sheet cost less.
func TestPacksAreTheCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cans, content := drawCans(t)
		need := rapid.Int64Range(1, 40).Draw(t, "litres")
		best := int64(-1)
		var all func(i int, left, cost int64)
		all = func(i int, left, cost int64) {
			if left <= 0 && (best < 0 || cost < best) {
				best = cost
			}
			if i == len(cans) {
				return
			}
			for n := int64(0); n <= 43 && (n <= cans[i].avail || cans[i].avail < 0); n++ {
				if n == 0 || n >= cans[i].least {
					all(i+1, left-n*cans[i].size, cost+n*cans[i].price*cans[i].size)
				}
			}
		}
		all(0, need, 0)
		l, err := buy.New([]bill.Line{goods(1, bill.Glue, "epoxy", "0", fmt.Sprint(need), quantity.Litre)}, content, shop)
		var short *pack.ShortError
		if errors.As(err, &short) && best < 0 {
			return
		}
		if err != nil || best < 0 || l.Cost.Minor() != best*100 || !l.Packs[0].Proven || l.Shares[0].Cost != l.Cost {
			t.Fatalf("%+v for %d L of %+v: %v, the cheapest is %d", l.Packs, need, cans, err, best)
		}
	})
}

// can is a row of the sheet in whole litres, dollars a litre, packs and packs.
type can struct{ size, price, least, avail int64 }

func drawCans(t *rapid.T) ([]can, sheet.Content) {
	var cans []can
	var rows []sheet.Row
	for i := range rapid.IntRange(1, 3).Draw(t, "rows") {
		c := can{rapid.Int64Range(1, 12).Draw(t, "size"), rapid.Int64Range(1, 60).Draw(t, "price"), rapid.Int64Range(0, 3).Draw(t, "least"),
			rapid.Int64Range(-1, 6).Draw(t, "avail")}
		row := sheet.Row{Item: "epoxy", Kind: "glue", Supplier: fmt.Sprint("C", i), Unit: "LTR", Price: fmt.Sprint(c.price), PackSize: fmt.Sprint(c.size)}
		if c.least > 0 {
			row.MinQty = fmt.Sprint(c.least * c.size)
		}
		if c.avail >= 0 {
			row.Available = fmt.Sprint(c.avail)
		}
		rows, cans = append(rows, row), append(cans, c)
	}
	content, err := sheet.FromRows("USD", notation.Millimetres, rows)
	if err != nil {
		t.Fatal(err)
	}
	return cans, content
}
