package buy_test

import (
	"fmt"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/ripping"
	"ribband/pricing/sawing"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/step"

	"pgregory.net/rapid"
)

// atTheBandsaw is the shop with a bandsaw, and hours for a metre of it and for setting it up.
func atTheBandsaw(metre, setup string) buy.Rules {
	r := resawing()
	r.Labour.Steps.Steps = []step.Step{{Code: "resaw", Name: "Resaw", Trade: "yard_hand", Driver: step.Resawn, PerUnitH: dec(metre), Factor: dec("1"), SetupH: dec(setup)}}
	return r
}

// Hand-worked, with the boards of TestThickBoardsAreResawnWhereThatIsCheaper. Two boards of 8/4 for 190.00 are sawn into five layers
// each: 5 x 7.9375 + 4 x 1.5875 = 46.0375 of 50.8 mm, so that the fifth is cut off as well, 5 cuts of 3.6576 m, 36.576 m in both. At 20.00 an
// hour and 0.01 h a metre that is 0.37 h, 7.40, less than the 10.00 that four boards of 4/4 cost more; at 0.02 h it is 14.60, and with half
// an hour of setting up 17.40. Without a rate, or without such a step, wood alone decides. What goods cannot be below stays 190.00.
func TestHoursAtTheBandsawAreWeighed(t *testing.T) {
	need := laminates(12, boat.Port, 72, 72, "2.600")
	need.Pieces.Siding = dec("19.05")
	boards := ",timber,A,C62,50.00,,,white_oak,select,4/4,0-8-0,12-0-0,,\n,timber,A,C62,95.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\n"
	rate := "yard_hand,labour,,HUR,20.00,,,,,,,,,\n"
	for _, x := range []struct {
		rows         string
		rules        buy.Rules
		cost, labour string
		hours        string
	}{
		{boards + rate, atTheBandsaw("0.01", "0"), "190.00", "7.40", "0.37"},
		{boards + rate, atTheBandsaw("0.02", "0"), "200.00", "", ""},
		{boards + rate, atTheBandsaw("0.01", "0.5"), "200.00", "", ""},
		{boards, atTheBandsaw("0.02", "0"), "190.00", "", "0.73"},
		{boards + rate, resawing(), "190.00", "", ""},
	} {
		l, err := buy.New([]bill.Line{need}, prices(t, x.rows), x.rules)
		if err != nil {
			t.Fatal(err)
		}
		labour := ""
		if l.ResawLabour.Sign() > 0 {
			labour = l.ResawLabour.String()
		}
		g := l.Timber[0]
		if l.Cost.String() != x.cost || labour != x.labour || l.Bound.String() != "190.00" || g.Proven != (x.cost == "190.00") || !l.Total.IsZero() {
			t.Errorf("%s with labour %q, none below %s, want %s with %q", l.Cost, labour, l.Bound, x.cost, x.labour)
		}
		if (g.Resawn != nil) != (x.cost == "190.00") || g.Resawn != nil && g.Resawn.String() != "36.576" {
			t.Errorf("%s: the bandsaw runs %v", l.Cost, g.Resawn)
		}
		work, figures, err := l.Planned([]bill.Line{need}, x.rules.Labour)
		if err != nil {
			t.Fatal(err)
		}
		if x.hours == "" && len(work) > 0 || x.hours != "" && (len(work) != 1 || len(figures) != 1 || work[0].Hours.String() != x.hours || work[0].Figure != "step/resaw/hours_as_planned") {
			t.Errorf("%s: %+v", l.Cost, work)
		}
		if l.Shares[0].Cost != l.Cost {
			t.Errorf("%s shared of %s", l.Shares[0].Cost, l.Cost)
		}
	}
}

// Boards that would cost more hours than wood are ripped as they come where that is cheapest, and the list says why: one board of 8/4 on
// edge gives 18 strips, of which 20 take two, 190.00; resawn one would do.
func TestBoardsAreRippedAsTheyComeWhereHoursAreDear(t *testing.T) {
	need := laminates(12, boat.Port, 20, 20, "2.600")
	need.Pieces.Siding = dec("19.05")
	rows := ",timber,A,C62,95.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\nyard_hand,labour,,HUR,20.00,,,,,,,,,\n"
	for hours, cost := range map[string]string{"0.1": "95.00", "0.5": "190.00"} {
		r := atTheBandsaw(hours, "0")
		l, err := buy.New([]bill.Line{need}, prices(t, rows), r)
		if err != nil {
			t.Fatal(err)
		}
		g := l.Timber[0]
		if l.Cost.String() != cost || l.Bound.String() != "95.00" || (g.NotResawn != "") != (cost == "190.00") {
			t.Errorf("%s above %s, %q", l.Cost, l.Bound, g.NotResawn)
		}
		lists, err := ripping.Lists(l, []bill.Line{need}, r)
		if err != nil {
			t.Fatal(err)
		}
		if layers := lists[0].Boards[0].Way.Layers; (layers > 1) != (cost == "95.00") {
			t.Errorf("%s: %d layers", cost, layers)
		}
	}
}

// A dearer hour never makes boards with their hours cheaper, and hours never raise them above boards bought by their wood alone.
func TestADearerHourNeverSaves(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		need := laminates(12, boat.Port, 1, rapid.IntRange(1, 120).Draw(r, "pieces"), "2.600")
		need.Pieces.Siding = dec("19.05")
		rows := fmt.Sprintf(",timber,A,C62,%d,,,white_oak,select,4/4,0-8-0,12-0-0,,\n,timber,A,C62,%d,,,white_oak,select,8/4,0-8-0,12-0-0,,\n",
			rapid.IntRange(20, 60).Draw(r, "thin"), rapid.IntRange(40, 200).Draw(r, "thick"))
		weighed := func(rate int) (all, bound int64) {
			rows := rows
			if rate > 0 {
				rows += fmt.Sprintf("yard_hand,labour,,HUR,%d,,,,,,,,,\n", rate)
			}
			l, err := buy.New([]bill.Line{need}, prices(t, rows), atTheBandsaw("0.02", "0.25"))
			if err != nil {
				r.Fatal(err)
			}
			if l.Bound.Minor() > l.Cost.Minor() {
				r.Fatalf("%s above %s", l.Bound, l.Cost)
			}
			return l.Cost.Minor() + l.ResawLabour.Minor(), l.Bound.Minor()
		}
		rate := rapid.IntRange(1, 60).Draw(r, "rate")
		cheap, floor := weighed(rate)
		dear, same := weighed(rate + rapid.IntRange(1, 40).Draw(r, "more"))
		wood, _ := weighed(0)
		if dear < cheap || cheap < wood || floor != same {
			r.Fatalf("at %d %d above %d, dearer %d above %d, by wood alone %d", rate, cheap, floor, dear, same, wood)
		}
	})
}

// Thin laminates of 900 find room in a board of the thick ones' at 53.00 where it is resawn; ripped as it comes one of 55.00 takes them, for
// fewer hours. The floor stays that of goods for each of the two, and the list's is their sum.
func TestFloorsOfGoodsStayWithEachKind(t *testing.T) {
	var needs []bill.Line
	for i, of := range [][4]string{{"6", "28", "0.900", "16"}, {"14", "60", "2.800", "24"}} {
		var count int
		if _, err := fmt.Sscan(of[3], &count); err != nil {
			t.Fatal(err)
		}
		n := laminates(10+i, boat.Port, count, count, of[2])
		n.Pieces.Species, n.Pieces.Grade, n.Pieces.Thickness, n.Pieces.Siding, n.Pieces.Planing = "larch", "clear", dec(of[0]), dec(of[1]), dec("2")
		needs = append(needs, n)
	}
	c := sold(t, "65 60 3000 56 0 -1", "65 60 3000 53 2 -1", "52 60 4400 55 0 -1", "52 60 4400 55 2 -1", "65 100 2000 52 2 1")
	c.Items = append(c.Items, prices(t, "yard_hand,labour,,HUR,37.00,,,,,,,,,\n").Items...)
	r := sawn
	r.Resaw = &sawing.Resaw{Kerf: dec("3")}
	r.Labour.Steps.Steps = []step.Step{{Code: "resaw", Name: "Resaw", Trade: "yard_hand", Driver: step.Resawn, PerUnitH: dec("0.01"), Factor: dec("1")}}
	l, err := buy.New(needs, c, r)
	if err != nil {
		t.Fatal(err)
	}
	sum := int64(0)
	for _, g := range l.Timber {
		sum += g.Bound.Minor()
	}
	if sum != l.Bound.Minor() || l.Bound.String() != "477.00" || l.Cost.String() != "479.00" {
		t.Errorf("%s, none below %s, of the two %d\n%s", l.Cost, l.Bound, sum, toldOf(l))
	}
}
