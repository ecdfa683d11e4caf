package buy_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/sawing"
	"ribband/pricing/sheet"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/notation"
)

// Hand-worked. Each plank alone is cheaper whole, 50.00 out of a board of 5 m, than of two parts out of two boards of 3 m: 30.00 and a
// joint at 25.00. But a board of 3 m is wide enough for parts of both, so that two of them and two joints come to 80.00 beside
// their glue: no floor is above that.
func TestScarfsSideBySideAreInTheFloor(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "4500"}, [3]string{"90", "30", "4500"}))
	l, err := buy.New(needs, withHands(t, "25", "40 160 5000 10", "40 260 3000 5"), scarfing("1", "0"))
	if err != nil {
		t.Fatal(err)
	}
	if l.Bound.Minor() > 8000 || l.Bound.Minor() < 3000 {
		t.Errorf("%s, none below %s", l.Cost, l.Bound)
	}
	if s := l.Timber[0].SideBySide; s == nil || s.Counted == nil || flat.CheckCertificate(s.Certificate, *s.Counted) != nil {
		t.Errorf("%+v", s)
	}
}

// Hand-worked. Two planks of 200 come out of one board 80 thick at 60.00, resawn; one of 150 and one of 90 beside each other out of one
// of 260 at 50.00. All apart take 160.00, all side by side 150.00, and 110.00 is possible.
func TestResawnBesideSideBySideIsInTheFloor(t *testing.T) {
	needs := planksOf(t, [3]string{"200", "30", "4500"}, [3]string{"200", "30", "4500"}, [3]string{"150", "30", "4500"}, [3]string{"90", "30", "4500"})
	r := sawn
	r.Resaw = &sawing.Resaw{Kerf: dec("2"), Planing: dec("2")}
	l, err := buy.New(needs, larch(t, "80 210 5000 12", "40 260 5000 10"), r)
	if err != nil {
		t.Fatal(err)
	}
	if l.Bound.Minor() > 11000 || l.Bound.Minor() < 8000 {
		t.Errorf("%s, none below %s", l.Cost, l.Bound)
	}
}

// boardsSold are boards of larch from one mill: thickness, width, length, price of a metre, least number, number for sale or -1.
func boardsSold(t *testing.T, rows ...[6]int) sheet.Content {
	t.Helper()
	var out []sheet.Row
	for _, r := range rows {
		row := sheet.Row{Kind: "timber", Supplier: "A mill", Unit: "MTR", Species: "larch", Grade: "clear", Thickness: fmt.Sprint(r[0]), Width: fmt.Sprint(r[1]), StockLength: fmt.Sprint(r[2]), Price: fmt.Sprint(r[3])}
		if r[4] > 0 {
			row.MinQty = fmt.Sprint(r[4] * r[2] / 1000)
		}
		if r[5] >= 0 {
			row.Available = fmt.Sprint(r[5])
		}
		out = append(out, row)
	}
	c, err := sheet.FromRows("EUR", notation.Millimetres, out)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Hand-worked. Boards of 160 at 50.00 are sold from three on: one for a thick plank, and one for each of two thin ones. These two side by
// side out of one board of 260 at 90.00 would leave the thick one's order at one board.
func TestSideBySideLeavesNoOrderTooSmall(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "45", "4500"}, [3]string{"150", "30", "4500"}, [3]string{"90", "30", "4500"})
	l, err := buy.New(needs, boardsSold(t, [6]int{50, 160, 5000, 10, 3, -1}, [6]int{40, 260, 5000, 18, 0, -1}), sawn)
	if err != nil {
		t.Fatal(err)
	}
	narrow := int64(0)
	for _, g := range l.Timber {
		for _, b := range g.Boards {
			if o, _ := g.Offer(b.Offer); o.WidthMM.IntPart() == 160 {
				narrow += b.Count
			}
		}
	}
	if narrow != 3 || l.Cost.String() != "150.00" || l.Bound.Minor() > 15000 {
		t.Errorf("%d boards, %s, none below %s", narrow, l.Cost, l.Bound)
	}
}

// Hand-worked. Boards of 170 give one strip for the plank of 153 and none for that of 178, so that they are not cut as one group; no
// board holds them side by side. But one strip of a board of 220 holds both end to end, 1200 + 3 + 1400 of 2960 mm: 60.00 at 20 a metre, not 120.00.
func TestPlanksOfTwoWidthsEndToEnd(t *testing.T) {
	needs := planksOf(t, [3]string{"178", "30", "1200"}, [3]string{"153", "30", "1400"})
	l, err := buy.New(needs, boardsSold(t, [6]int{50, 220, 3000, 20, 0, -1}, [6]int{50, 170, 2000, 50, 0, -1}), sawn)
	if err != nil {
		t.Fatal(err)
	}
	if l.Cost.String() != "60.00" || l.Bound.String() != "60.00" || len(l.Timber) != 1 {
		t.Errorf("%s, none below %s", l.Cost, l.Bound)
	}
}

// Hand-worked. A thick plank and two thin ones: two boards of 50 x 180 hold all three at 23.00 each, 1300 and 2100 mm end to end in the
// one, 3000 in the other. By thickness the thin ones would have boards of their own.
func TestThickAndThinPlanksOutOfOneBoard(t *testing.T) {
	needs := planksOf(t, [3]string{"176", "30", "1300"}, [3]string{"170", "30", "3000"}, [3]string{"132", "45", "2100"})
	c := sold(t, "50 180 4000 23 0 -1", "40 180 2000 45 0 -1", "50 250 3000 48 2 2")
	l, err := buy.New(needs, c, sawn)
	if err != nil {
		t.Fatal(err)
	}
	if l.Cost.String() != "46.00" || l.Bound.String() != "46.00" {
		t.Errorf("%s, none below %s", l.Cost, l.Bound)
	}
}

// Hand-worked. Three planks of 900 to 1800 are pooled, because every board gives one strip of each or none, two of them thick and one
// thin. The fourth, thin and narrow, goes beside one of them: 189 and 170 end to end in one board of 310, 152 and 143 beside each
// other in another, 60.00.
func TestThickPooledBesideThin(t *testing.T) {
	needs := planksOf(t, [3]string{"189", "30", "1800"}, [3]string{"170", "45", "900"}, [3]string{"152", "45", "1300"}, [3]string{"143", "30", "800"})
	l, err := buy.New(needs, sold(t, "50 310 3000 30 2 -1", "40 180 4000 57 0 -1"), sawn)
	if err != nil {
		t.Fatal(err)
	}
	if l.Cost.String() != "60.00" || l.Bound.String() != "60.00" {
		t.Errorf("%s, none below %s", l.Cost, l.Bound)
	}
}

// Hand-worked. A board of 40 at 10 a metre for the thin planks is dear, one of 50 x 160 cheap, and a thick plank needs that: what is cheap for all
// stays in the floor, and where thick boards are the dear ones each has its own and that is proved.
func TestThinPlanksKeepTheirBoards(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "45", "4500"}, [3]string{"150", "30", "4500"}, [3]string{"90", "30", "4500"})
	l, err := buy.New(needs, larch(t, "50 160 5000 30", "40 260 5000 10"), sawn)
	if err != nil {
		t.Fatal(err)
	}
	if l.Cost.String() != "200.00" || l.Bound.String() != "200.00" || len(l.Timber) != 2 {
		t.Errorf("%s, none below %s, %d groups", l.Cost, l.Bound, len(l.Timber))
	}
}

// Hand-worked. No board holds the two planks side by side or end to end; but one that is resawn gives one of each, 60.00 at 12 a metre, where
// each by itself takes a board. The same of a thick and a thin plank, which are layers of one board. Neither is sought; no floor may be above.
func TestLayersOfOneBoardAreInTheFloor(t *testing.T) {
	r := sawn
	r.Resaw = &sawing.Resaw{Kerf: dec("2"), Planing: dec("2")}
	for _, planks := range [][][3]string{
		{{"150", "30", "4500"}, {"70", "30", "4500"}},
		{{"150", "40", "4500"}, {"150", "30", "4500"}},
	} {
		l, err := buy.New(planksOf(t, planks...), larch(t, "82 160 5000 12"), r)
		if err != nil {
			t.Fatal(err)
		}
		if l.Bound.Minor() > 6000 || l.Bound.Minor() < 3000 {
			t.Errorf("%v: %s, none below %s", planks, l.Cost, l.Bound)
		}
	}
}

// counted is how many boards a list buys.
func counted(l buy.List) (n int64) {
	for _, g := range l.Timber {
		for _, b := range g.Boards {
			n += b.Count
		}
	}
	return n
}

// sold are boards at a price each: thickness, width, length, price, least number, number for sale or -1.
func sold(t *testing.T, rows ...string) sheet.Content {
	t.Helper()
	var out []sheet.Row
	for _, text := range rows {
		f := strings.Fields(text)
		row := sheet.Row{Kind: "timber", Supplier: "A mill", Unit: "C62", Species: "larch", Grade: "clear", Thickness: f[0], Width: f[1], StockLength: f[2], Price: f[3]}
		if f[4] != "0" {
			row.MinQty = f[4]
		}
		if f[5] != "-1" {
			row.Available = f[5]
		}
		out = append(out, row)
	}
	c, err := sheet.FromRows("EUR", notation.Millimetres, out)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Hand-worked. Boards of 80 x 420 are sold from three on at 57.00. Each of the four planks could have one of its own; the thin ones end to
// end in one leave three, the thick ones end to end as well would leave two, and all end to end in two strips of one board still pay for three.
func TestSetsLaidOneAfterAnotherLeaveNoOrderTooSmall(t *testing.T) {
	needs := planksOf(t, [3]string{"163", "30", "800"}, [3]string{"133", "30", "700"}, [3]string{"147", "45", "800"}, [3]string{"134", "45", "700"})
	l, err := buy.New(needs, sold(t, "40 190 4000 99 0 -1", "80 420 2000 57 3 -1"), sawn)
	if err != nil {
		t.Fatal(err)
	}
	n := counted(l)
	if n != 3 || l.Cost.String() != "171.00" {
		t.Errorf("%d boards, %s", n, l.Cost)
	}
}

// Hand-worked. Two boards are for sale: by width the planks of 200 and 150 take one each, and those of 90 and 50 one more each. 200 + 50 and 150 + 90 lie
// beside each other, 100.00. A fifth of 200 goes into neither.
func TestTooFewBoardsButForSideBySide(t *testing.T) {
	four := [][3]string{{"200", "30", "4500"}, {"150", "30", "4500"}, {"90", "30", "4500"}, {"50", "30", "4500"}}
	needs := planksOf(t, four...)
	c := sold(t, "40 260 5000 50 0 2")
	l, err := buy.New(needs, c, sawn)
	if err != nil {
		t.Fatal(err)
	}
	s := l.Timber[0].SideBySide
	if l.Cost.String() != "100.00" || l.Bound.String() != "100.00" || s == nil || !s.OnlyWay() || len(l.Timber) != 1 {
		t.Errorf("%s, none below %s, %+v", l.Cost, l.Bound, s)
	}
	var short *buy.ShortBoardsError
	if _, err := buy.New(planksOf(t, append(four, four[0])...), c, sawn); !errors.As(err, &short) {
		t.Error(err)
	}
}

// Hand-worked. Thick planks of 150 and 90 lie side by side in one board of 260, thin ones in another; all four in one do not. What laying them all together
// comes to, and the floor of that, is told with its certificate though every plank lies beside another.
func TestTwoSetsSideBySideTellTheirFloorTogether(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "45", "4500"}, [3]string{"90", "45", "4500"}, [3]string{"150", "30", "4500"}, [3]string{"90", "30", "4500"})
	l, err := buy.New(needs, larch(t, "50 260 5000 15", "40 260 5000 10"), sawn)
	if err != nil {
		t.Fatal(err)
	}
	if l.Cost.String() != "125.00" || l.Bound.String() != "125.00" || len(l.Timber) != 2 {
		t.Fatalf("%s, none below %s", l.Cost, l.Bound)
	}
	told := l.Timber[0].SideBySide.OfTheWood
	if told == nil {
		told = l.Timber[1].SideBySide.OfTheWood
	}
	if told == nil || told.Bound.String() != "125.00" || len(told.Lines) != 4 || flat.CheckCertificate(told.Certificate, *told.Counted) != nil {
		t.Errorf("%+v", told)
	}
}
