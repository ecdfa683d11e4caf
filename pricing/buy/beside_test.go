package buy_test

import (
	"fmt"
	"slices"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/pricing/ripping"
	"ribband/takeoff/bill"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

var sawn = buy.Rules{Kerf: dec("3"), EndTrim: dec("20"), LeastShort: dec("600")}

// Hand-worked. Planks 150 and 90 mm wide are ripped to 152 and 92; one board of 260 holds both beside each other, 152 + 92 + 3 mm and
// 10 mm over after a second cut, where each by itself would take a board, one or two strips of it. At 10 a metre that is 50.00 in
// place of 100.00, shared by faces: 150 x 4500 and 90 x 4000.
func TestPlanksSideBySide(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "30", "4500"}, [3]string{"90", "30", "4000"})
	c := larch(t, "40 260 5000 10")
	l, err := buy.New(needs, c, sawn)
	if err != nil {
		t.Fatal(err)
	}
	if len(l.Timber) != 1 || l.Cost.String() != "50.00" || l.Bound.String() != "50.00" || !l.Timber[0].Proven {
		t.Fatalf("%+v", l.Timber)
	}
	g := l.Timber[0]
	s := g.SideBySide
	if s == nil || s.Apart.String() != "100.00" || len(s.Layouts) != 1 || len(s.Layouts[0].Strips) != 2 || s.Layouts[0].Rest.String() != "10" {
		t.Fatalf("%+v", s)
	}
	if err := flat.CheckCertificate(s.Certificate, *s.Counted); err != nil {
		t.Error(err)
	}
	if got := costs(l.Shares); !slices.Equal(got, []string{"32.61", "17.39"}) {
		t.Error(got)
	}
	again, _, err := l.SharesAt(needs, c, c, sawn)
	if err != nil || !slices.Equal(costs(again), costs(l.Shares)) {
		t.Errorf("%v %v", again, err)
	}
	list, err := ripping.Lists(l, needs, sawn)
	if err != nil || len(list[0].Boards) != 1 {
		t.Fatalf("%v %+v", err, list)
	}
	b := list[0].Boards[0]
	if len(b.Strips) != 2 || b.Strips[0].WidthMM.String() != "152" || b.Strips[1].WidthMM.String() != "92" || b.Strips[1].Over.String() != "0.957" || len(b.Rest) != 1 || b.Rest[0].WidthMM.String() != "10" {
		t.Errorf("%+v", b)
	}
	left := ripping.Remaining(l, list)
	// 5 m of 40 x 260 are 0.0520 m3, the pieces 4.5 x 0.04 x 0.152 + 4 x 0.04 x 0.092; kept are 957 of 92, the
	// rest of 10 mm is not
	if left[0].BoardsM3 != "0.0520" || left[0].PiecesM3 != "0.0421" || left[0].KeptM3 != "0.0035" || b.Rest[0].Keep == nil || *b.Rest[0].Keep {
		t.Errorf("%+v", left[0])
	}
}

// Hand-worked. Of a board of 260 two lengths of 2400 give planks of 150 and 90 beside each other, 152 + 92 + 3, and three of 80, 3 x 82 + 2 x 3: one board, 50.00.
// Ripped first it gives four of the five, in strips of 152 and of 92. The end of 4960 - 2 x 2403 = 154 mm stays, and 10 and 5 mm of the width after a cut more.
func TestBoardsCrosscutFirst(t *testing.T) {
	needs := planksOf(t, [3]string{"150", "30", "2400"}, [3]string{"90", "30", "2390"}, [3]string{"80", "30", "2400"}, [3]string{"80", "30", "2400"}, [3]string{"80", "30", "2400"})
	l, err := buy.New(needs, larch(t, "40 260 5000 10"), sawn)
	if err != nil {
		t.Fatal(err)
	}
	s := l.Timber[0].SideBySide
	if l.Cost.String() != "50.00" || l.Bound.String() != "50.00" || s == nil || len(s.Layouts) != 1 || len(s.Layouts[0].Lengths) != 2 || s.Layouts[0].Rest.String() != "154" {
		t.Fatalf("%s, none below %s: %+v", l.Cost, l.Bound, s)
	}
	if err := flat.CheckCertificate(s.Certificate, *s.Counted); err != nil {
		t.Error(err)
	}
	list, err := ripping.Lists(l, needs, sawn)
	if err != nil || len(list[0].Boards) != 1 {
		t.Fatalf("%v %+v", err, list)
	}
	b := list[0].Boards[0]
	if len(b.Lengths) != 2 || b.Lengths[0].LengthMM.String() != "2400" || len(b.Rest) != 3 || *b.Rest[2].Keep || b.Rest[2].WidthMM.String() != "260" {
		t.Errorf("%+v", b)
	}
	planks := int64(0)
	for _, s := range b.Strips {
		planks += s.Count
		if s.OfLength < 1 || s.WidthMM.String() == "92" && s.Over.String() != "0.007" || s.WidthMM.String() != "92" && !s.Over.IsZero() {
			t.Errorf("%+v", s)
		}
	}
	// 5 m of 40 x 260 are 0.0520 m3, the pieces 2.4 x 0.04 x (0.152 + 3 x 0.082) + 2.39 x 0.04 x 0.092 = 0.0470; nothing is kept
	if left := ripping.Remaining(l, list)[0]; planks != 5 || left.BoardsM3 != "0.0520" || left.PiecesM3 != "0.0470" || left.KeptM3 != "0.0000" {
		t.Errorf("%d planks, %+v", planks, left)
	}
}

// Clear stretches of boards in hand are boards of their own here too, at nothing; what is bought comes beside them.
func TestSideBySideOffTheRack(t *testing.T) {
	boards, faults := rack.Read(rack.Document{Notation: notation.Millimetres, Boards: []rack.Row{{ID: "R1", Count: 1, Species: "larch", Grade: "clear", Thickness: "38", Width: "260", Length: "5200",
		Clear: []rack.Stretch{{From: "0", To: "2450"}, {From: "2600", To: "5200"}}}}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	needs := planksOf(t, [3]string{"150", "30", "2400"}, [3]string{"90", "30", "2300"}, [3]string{"150", "30", "2550"}, [3]string{"90", "30", "2500"})
	l, err := buy.WithRack(needs, larch(t, "40 260 5000 10"), boards, sawn)
	if err != nil || !l.Cost.IsZero() || !l.Bound.IsZero() || len(l.Timber) != 1 || l.Timber[0].SideBySide == nil || l.Timber[0].SideBySide.PriceScale != 3 || len(l.Timber[0].Boards) != 2 {
		t.Fatalf("%v %+v", err, l.Timber)
	}
	list, err := ripping.Lists(l, needs, sawn)
	if err != nil || len(list[0].Boards) != 2 || list[0].Boards[0].Rack == nil || !list[0].Boards[0].EndTrim.IsZero() {
		t.Errorf("%v %+v", err, list)
	}
}

// A plank longer than every board lies beside others in its two parts.
func TestHalvesSideBySide(t *testing.T) {
	needs := mayScarf(planksOf(t, [3]string{"150", "30", "7000"}, [3]string{"90", "30", "4000"}, [3]string{"90", "30", "2000"}))
	l, err := buy.New(needs, withHands(t, "20", "40 260 5000 10"), scarfing("1", "0"))
	if err != nil {
		t.Fatal(err)
	}
	g := l.Timber[0]
	if len(l.Timber) != 1 || g.SideBySide == nil || g.Cost.String() != "100.00" || g.Scarfed == nil || g.Scarfed.Must != 1 || g.Bound.String() != "120.00" || l.ScarfLabour.String() != "20.00" {
		t.Errorf("%+v %+v", g, g.Scarfed)
	}
	list, err := ripping.Lists(l, needs, scarfing("1", "0"))
	if err != nil {
		t.Fatal(err)
	}
	halves := 0
	for _, b := range list[0].Boards {
		for _, s := range b.Strips {
			for _, p := range s.Pieces {
				if p.Scarf != nil && len(p.Scarf.Boards) > 0 {
					halves++
				}
			}
		}
	}
	if halves != 2 {
		t.Errorf("%+v", list[0].Boards)
	}
}

// Whatever planks and boards there are: side by side never costs more than apart, every plank is cut once, strips and kerfs keep
// within their board and pieces within their strip, and the floor is what its certificate shows, of the lower of both ways.
func TestSideBySideIsSound(t *testing.T) {
	c := withHands(t, "20", "40 260 5000 10", "40 190 4000 7", "34 300 3000 9")
	laid := 0
	rapid.Check(t, func(rt *rapid.T) {
		var sizes [][3]string
		for range rapid.IntRange(2, 5).Draw(rt, "planks") {
			sizes = append(sizes, [3]string{fmt.Sprint(rapid.IntRange(60, 180).Draw(rt, "width")) + rapid.SampledFrom([]string{"", ".35"}).Draw(rt, "and"), fmt.Sprint(rapid.IntRange(28, 33).Draw(rt, "thickness")), fmt.Sprint(rapid.IntRange(800, 3900).Draw(rt, "length"))})
		}
		needs := planksOf(t, sizes...)
		l := must(rt, needs, c, sawn)
		heldOnce(rt, l, needs, c, sawn)
		apart := int64(0)
		for _, n := range needs {
			apart += must(rt, []bill.Line{n}, c, sawn).Cost.Minor()
		}
		if l.Cost.Minor() > apart || l.Bound.Minor() > l.Cost.Minor() {
			rt.Fatalf("%s, apart %d, floor %s", l.Cost, apart, l.Bound)
		}
		for _, g := range l.Timber {
			s := g.SideBySide
			if s == nil {
				continue
			}
			if s.Counted != nil {
				if err := flat.CheckCertificate(s.Certificate, *s.Counted); err != nil {
					rt.Fatal(err)
				}
			}
			if len(s.Layouts) == 0 && s.Cost.Minor() < s.Apart.Minor() || len(s.Layouts) > 0 && (s.Cost.Minor() >= s.Apart.Minor() || g.Bound.Minor() > min(s.Bound.Minor(), s.ApartBound.Minor())) || l.Bound.Minor() > s.Bound.Minor()+rest(l, s.Lines) {
				rt.Fatalf("%+v, floor %s", s, l.Bound)
			}
			if len(s.Layouts) > 0 {
				laid++
			}
			for _, y := range s.Layouts {
				within(rt, y, g, needs)
			}
		}
	})
	if laid == 0 {
		t.Error("nothing was laid side by side")
	}
}

// rest is what the other groups' floors come to.
func rest(l buy.List, lines []string) (sum int64) {
	for _, g := range l.Timber {
		if !slices.Contains(lines, g.Lines[0]) {
			sum += g.Bound.Minor()
		}
	}
	return sum
}

func within(t *rapid.T, y buy.BoardLayout, g buy.Timber, needs []bill.Line) {
	i := slices.IndexFunc(g.Offers, func(o buy.Offer) bool { return o.ID == y.Offer })
	o := g.Offers[i]
	clear := o.LengthMM.Sub(sawn.EndTrim).Sub(sawn.EndTrim)
	if len(y.Strips) > 0 == (len(y.Lengths) > 0) {
		t.Fatalf("ripped first or crosscut first: %+v", y)
	}
	ripped(t, y.Strips, y.Rest, o.WidthMM, clear, o, needs)
	long := y.Rest
	for _, of := range y.Lengths {
		ripped(t, of.Strips, of.Rest, o.WidthMM, of.Length, o, needs)
		long = long.Add(of.Length.Add(sawn.Kerf).Mul(decimal.NewFromInt(of.Count)))
	}
	if len(y.Lengths) > 0 && long.Sub(sawn.Kerf).GreaterThan(clear) {
		t.Fatalf("%s mm of lengths out of %s", long, clear)
	}
}

// ripped looks over strips out of a width and a length, exact.
func ripped(t *rapid.T, strips []buy.LaidStrip, rest, width, clear decimal.Decimal, o buy.Offer, needs []bill.Line) {
	wide := decimal.Zero
	for _, s := range strips {
		wide = wide.Add(s.Width.Add(sawn.Kerf).Mul(decimal.NewFromInt(s.Count)))
		long := decimal.Zero
		for _, p := range s.Pieces {
			n := needs[slices.IndexFunc(needs, func(n bill.Line) bool { return n.ID == p.Line })].Pieces
			if !p.Width.Equal(n.Thickness.Add(n.Planing)) || p.Width.GreaterThan(s.Width) || n.Siding.Add(n.Planing).GreaterThan(o.ThicknessMM) {
				t.Fatalf("%+v out of %+v", p, s)
			}
			long = long.Add(n.Length.Value().Shift(3).Add(sawn.Kerf).Mul(decimal.NewFromInt(p.Count)))
		}
		if long.Add(s.Over).Sub(sawn.Kerf).GreaterThan(clear) {
			t.Fatalf("%s mm of pieces out of %s", long, clear)
		}
	}
	if rest.IsPositive() && len(strips) > 0 {
		wide = wide.Add(rest)
	}
	if len(strips) > 0 && wide.Sub(sawn.Kerf).GreaterThan(width) {
		t.Fatalf("%s mm of strips out of %s", wide, width)
	}
}
