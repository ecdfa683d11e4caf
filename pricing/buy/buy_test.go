package buy_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/pricing/buy"
	"ribband/pricing/internal/exact"
	"ribband/pricing/internal/yard"
	"ribband/pricing/money"
	"ribband/pricing/pack"
	"ribband/pricing/sheet"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/cutting"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/google/go-cmp/cmp"
)

var (
	dec, of                       = exact.Dec, exact.Of
	shop, resawing                = yard.Shop, yard.Resawing
	laminates, goods, prices, oak = yard.Laminates, yard.Goods, yard.Prices, yard.Oak
	drawNeeds, drawSheet          = yard.Needs, yard.Sheet
)

// Hand-worked. A board 8 in wide gives floor((203.2 + 3.175) / (7.9375 + 3.175)) = 18 strips. One of 12 ft has room for
// one piece of 2.6 m on a strip, one of 18 ft (5486.4 - 50.8 + 3.175 = 5438.775) for two (5206.35). 28 pieces take 14
// strips, one board of 18 ft: 2 x 8 x 18 / 12 = 24 board feet at 12.50, 300.00. Two of 12 ft would be 400.00. A strip of 18 ft
// holds two pieces for 300.00 / 18, so that 28 are worth 233.34; prices are whole hundreds, so that no plan is below 300.00.
func TestBoardsWorkedByHand(t *testing.T) {
	c := prices(t, ",timber,A,BFT,12.50,,,white_oak,select,8/4,0-8-0,12-0-0,,\n,timber,A,BFT,12.50,,,white_oak,select,8/4,0-8-0,18-0-0,,\n"+
		",timber,A,BFT,1.00,,,white_oak,select,6/4,0-8-0,18-0-0,,\n,timber,A,BFT,1.00,,,white_oak,common,8/4,0-8-0,18-0-0,,\n")
	l, err := buy.New([]bill.Line{laminates(12, boat.Port, 12, 14, "2.600"), laminates(12, boat.Starboard, 12, 14, "2.600")}, c, shop)
	if err != nil {
		t.Fatal(err)
	}
	g := l.Timber[0]
	// 6/4 is 38.1 mm and does not plane to 38.1; common is another grade.
	if len(l.Timber) != 1 || len(g.Offers) != 2 || g.Offers[0].Strips != 18 || g.Offers[1].Measure != "24.000000" || g.Method != cutting.OneBoard {
		t.Fatalf("%+v", g)
	}
	if l.Cost.String() != "300.00" || g.Cost != l.Cost || l.Bound.String() != "300.00" || !g.Proven || g.Proof != cutting.ByCertificate || g.Boards[0].Count != 1 || g.Boards[0].Used != 14 {
		t.Errorf("cost %s, bound %s, %+v", l.Cost, l.Bound, g.Boards)
	}
	// Four strips are left whole, and of 14 strips 5438.775 - 5206.35 - 3.175 = 229.25 mm each.
	want := []buy.LeftOver{
		{Offer: g.Offers[1].ID, What: "strip", Count: 4, Length: of("5.486", quantity.Metre)},
		{Offer: g.Offers[1].ID, What: "offcut", Count: 14, Length: of("0.229", quantity.Metre)},
	}
	if d := cmp.Diff(want, g.LeftOver); d != "" {
		t.Error(d)
	}
	for _, s := range l.Shares {
		if s.Cost.String() != "150.00" || s.Item != "white_oak select" || s.Kind != sheet.Timber {
			t.Errorf("%+v", s)
		}
	}
}

// A sixty-fourth of an inch decides exactly: the siding with its planing is as thick as the board, and the strips just
// fill its width.
func TestExactToASixtyFourth(t *testing.T) {
	need := laminates(1, boat.Port, 1, 1, "2.000")
	need.Pieces.Siding, need.Pieces.Planing = dec("50.403125"), dec("0.396875") // 1 63/64 and 1/64 in
	need.Pieces.Thickness = dec("6.35")
	// Four strips: 4 (6.35 + 0.396875) + 3 x 3.175 = 36.5125 mm, 1 7/16 in.
	c, err := sheet.FromRows("USD", notation.Inches, []sheet.Row{{Kind: "timber", Unit: "C62", Price: "10", Species: "white_oak", Grade: "select",
		Thickness: "8/4", Width: "1 7/16", StockLength: "96"}})
	if err != nil {
		t.Fatal(err)
	}
	l, err := buy.New([]bill.Line{need}, c, shop)
	if err != nil || l.Timber[0].Offers[0].Strips != 4 {
		t.Fatalf("%+v %v", l.Timber, err)
	}
	need.Pieces.Siding = dec("50.403126")
	var missing *sheet.MissingPriceError
	if _, err := buy.New([]bill.Line{need}, c, shop); !errors.As(err, &missing) {
		t.Errorf("a board a nanometre too thin served: %v", err)
	}
}

// Laminates of two thicknesses never share a board, and both together never take more boards than are for sale.
func TestGroupsApartShareWhatIsForSale(t *testing.T) {
	thick := laminates(2, boat.Port, 1, 1, "2.600")
	thick.Pieces.Thickness = dec("7.9375")
	needs := []bill.Line{laminates(1, boat.Port, 1, 1, "2.600"), thick}
	rows := ",timber,A,C62,100,,,white_oak,select,8/4,0-8-0,12-0-0,,%s\n,timber,B,C62,150,,,white_oak,select,8/4,0-8-0,12-0-0,,%s\n"
	l, err := buy.New(needs, prices(t, fmt.Sprintf(rows, "", "")), shop)
	if err != nil || len(l.Timber) != 2 || l.Cost.String() != "200.00" {
		t.Fatalf("%+v %v", l, err)
	}
	if l, err = buy.New(needs, prices(t, fmt.Sprintf(rows, "1", "")), shop); err != nil || l.Cost.String() != "250.00" {
		t.Errorf("one cheap board for two groups: %s %v", l.Cost, err)
	}
	var short *buy.ShortBoardsError
	if _, err = buy.New(needs, prices(t, fmt.Sprintf(rows, "1", "0")), shop); !errors.As(err, &short) || short.More != 1 || short.Line == "" || !strings.Contains(err.Error(), ": 1 piece of ") || !strings.Contains(err.Error(), " finds no board") {
		t.Errorf("one board for two groups: %v", err)
	}
}

// The group that only the scarce board serves gets it, though it comes later.
func TestScarceBoardGoesWhereNothingElseServes(t *testing.T) {
	wide := laminates(2, boat.Port, 1, 1, "2.600")
	wide.Pieces.Siding = dec("48")
	rows := ",timber,A,C62,100,,,white_oak,select,8/4,0-8-0,12-0-0,,1\n,timber,A,C62,150,,,white_oak,select,7/4,0-8-0,12-0-0,,\n"
	l, err := buy.New([]bill.Line{laminates(1, boat.Port, 1, 1, "2.600"), wide}, prices(t, rows), shop)
	if err != nil || l.Cost.String() != "250.00" {
		t.Errorf("%s %v", l.Cost, err)
	}
}

// A board too short is told with everything else that has no price, and how long one would have to be; a long enough
// one of which none is for sale is told by what it lacks.
// Hand-worked. One cheap board of 18 ft at 80.00 holds two pieces of 2.6 m on each of 18 strips, one of 12 ft at 90.00 one.
// Sided 1 1/2 in 18 pieces are needed: 80.00 off the cheap board, or 90.00. Sided 1 3/4 in 36 are: 80.00, or 180.00. Whoever is
// planned first takes the cheap board; 90.00 + 80.00 is the best of all, and nothing that claims to be a floor may be above
// it: 80.00 + 80.00 is, for neither group can do for less.
func TestGroupsThatWantOneBoardAreWeighedTogether(t *testing.T) {
	c := prices(t, ",timber,A,C62,80.00,,,white_oak,select,8/4,0-8-0,18-0-0,,1\n,timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,,\n")
	few, many := laminates(12, boat.Port, 18, 18, "2.600"), laminates(13, boat.Port, 36, 36, "2.600")
	many.Pieces.Siding = dec("44.45")
	for _, needs := range [][]bill.Line{{few, many}, {many, few}} {
		l, err := buy.New(needs, c, shop)
		if err != nil {
			t.Fatal(err)
		}
		if l.Cost.String() != "170.00" || l.Bound.String() != "160.00" {
			t.Errorf("cost %s, bound %s", l.Cost, l.Bound)
		}
		for _, g := range l.Timber {
			if proven := g.Cost == g.Bound; g.Proven != proven {
				t.Errorf("cost %s, bound %s, proven %t", g.Cost, g.Bound, g.Proven)
			}
		}
	}
}

// Two groups of one board each fill one least order together: no floor may ask for it twice.
func TestLeastOrderIsFilledByAllGroups(t *testing.T) {
	c := prices(t, ",timber,A,C62,90.00,,,white_oak,select,8/4,0-8-0,12-0-0,2,\n")
	few, other := laminates(12, boat.Port, 18, 18, "2.600"), laminates(13, boat.Port, 18, 18, "2.600")
	other.Pieces.Siding = dec("44.45")
	l, err := buy.New([]bill.Line{few, other}, c, shop)
	if err != nil {
		t.Fatal(err)
	}
	// together they need two boards, which are sold
	if l.Bound.String() != "180.00" || l.Cost.String() != "180.00" {
		t.Errorf("cost %s, bound %s", l.Cost, l.Bound)
	}
}

func TestPieceLongerThanAnyBoard(t *testing.T) {
	needs := []bill.Line{laminates(7, boat.Port, 12, 14, "3.700"), goods(1, bill.Glue, "epoxy", "1", "1", quantity.Litre)}
	_, err := buy.New(needs, prices(t, ",timber,A,BFT,12.50,,,white_oak,select,8/4,0-8-0,12-0-0,,\n"), shop)
	var missing *sheet.MissingPriceError
	if !errors.As(err, &missing) || len(missing.Items) != 2 || !strings.Contains(missing.Items[0].Fix, "3750.8 mm (147.67 in) long") || !strings.Contains(missing.Items[0].Fix, "made up of shorter lengths") ||
		!strings.Contains(missing.Items[0].Fix, "the nearest on the sheet, 8/4 thick, 0-8-0 wide and 12-0-0 long, is 93.2 mm (3.67 in) too short") {
		t.Errorf("%+v", missing)
	}
	_, err = buy.New(needs[:1], prices(t, ",timber,A,BFT,12.50,,,white_oak,select,8/4,0-8-0,12-0-0,,\n,timber,B,BFT,12.50,,,white_oak,select,8/4,0-8-0,14-0-0,,0\n"), shop)
	var short *buy.ShortBoardsError
	if !errors.As(err, &short) || short.More < 1 {
		t.Errorf("%v", err)
	}
}

// Everything without a price at once: a species, a grade, a board too thin, an item, an item in a unit of another kind.
func TestAllMissingPricesAtOnce(t *testing.T) {
	teak, wide := laminates(1, boat.Port, 1, 1, "1.000"), laminates(2, boat.Port, 1, 1, "1.000")
	teak.Pieces.Species = "teak"
	wide.Pieces.Siding = dec("60")
	grade := laminates(3, boat.Port, 1, 1, "1.000")
	grade.Pieces.Grade = "clear"
	needs := []bill.Line{teak, wide, grade, laminates(4, boat.Port, 1, 1, "1.000"), goods(1, bill.Glue, "epoxy", "1", "1", quantity.Litre),
		goods(1, bill.Pattern, "ply", "1", "1", quantity.SquareMetre), goods(2, bill.Pattern, "ply", "1", "1", quantity.SquareMetre)}
	c := prices(t, ",timber,A,C62,100,,,white_oak,select,8/4,0-8-0,12-0-0,,\nepoxy,glue,A,KGM,20,,,,,,,,,\n")
	_, err := buy.New(needs, c, shop)
	var missing *sheet.MissingPriceError
	if !errors.As(err, &missing) {
		t.Fatal(err)
	}
	var got []string
	for _, m := range missing.Items {
		got = append(got, m.Item+" for "+strings.Join(m.For, " "))
	}
	want := []string{"teak select for frame/1/port/laminates_timber", "white_oak clear for frame/3/port/laminates_timber",
		"white_oak select for frame/2/port/laminates_timber", "epoxy for frame/1/port/epoxy", "ply for frame/1/port/ply frame/2/port/ply"}
	if d := cmp.Diff(sorted(want), sorted(got)); d != "" {
		t.Error(d)
	}
	for _, says := range []string{"the sheet has this species in grade select", "no wood of this name, and boards as large of white_oak, grade select", "does not convert", "61.6 mm (2.43 in) thick"} {
		if !strings.Contains(fmt.Sprint(missing.Items), says) {
			t.Errorf("nothing says %q in %v", says, missing.Items)
		}
	}
}

// Glue needed in litres is sold by the US gallon and quart. 10 L is 2.64 gallons: two cans of two gallons at 98.40 a
// gallon are 393.60; eleven quarts at 24.00 are 264.00; one can holds 7.57 L and with three quarts comes to 268.80.
func TestPacksWhole(t *testing.T) {
	needs := []bill.Line{goods(1, bill.Glue, "epoxy", "6", "7", quantity.Litre), goods(2, bill.Glue, "epoxy", "2", "3", quantity.Litre)}
	rows := "epoxy,glue,A,GLL,98.40,,2,,,,,,,%s\nepoxy,glue,A,QTL,%s,,1,,,,,,,%s\n"
	for _, x := range []struct {
		gallons, quart, quarts, cost string
		packs                        []int64
		method                       pack.Method
	}{
		{"", "24.00", "", "264.00", []int64{11}, pack.OneRow},
		{"", "40.00", "", "316.80", []int64{1, 3}, pack.SeveralRows},
		{"", "70.00", "", "393.60", []int64{2}, pack.OneRow},
		{"", "24.00", "10", "268.80", []int64{3, 1}, pack.SeveralRows},
		{"1", "24.00", "3", "268.80", []int64{3, 1}, pack.SeveralRows},
	} {
		l, err := buy.New(needs, prices(t, fmt.Sprintf(rows, x.gallons, x.quart, x.quarts)), shop)
		if err != nil {
			t.Fatal(err)
		}
		p := l.Packs[0]
		var counts []int64
		for _, b := range p.Bought {
			counts = append(counts, b.Count)
		}
		if p.Cost.String() != x.cost || p.Method != x.method || !p.Proven || cmp.Diff(x.packs, counts) != "" || p.Bound.Minor() > p.Cost.Minor() || p.Kind != sheet.Glue {
			t.Errorf("%+v: %+v", x, p)
		}
		if a, b := l.Shares[0].Cost, l.Shares[1].Cost; a.Minor()+b.Minor() != p.Cost.Minor() || a.Minor()-3*b.Minor() > 3 || 3*b.Minor()-a.Minor() > 3 {
			t.Errorf("split by net 6 to 2: %s and %s", a, b)
		}
	}
	// 11 quarts are 10.409... L: 0.40 L are left over, told rounded down.
	l, err := buy.New(needs, prices(t, fmt.Sprintf(rows, "", "24.00", "")), shop)
	if err != nil || l.Packs[0].LeftOver.String() != "0.40" {
		t.Errorf("%v %v", l.Packs, err)
	}
	var short *pack.ShortError
	if _, err := buy.New(needs, prices(t, fmt.Sprintf(rows, "1", "24.00", "1")), shop); !errors.As(err, &short) || short.Short.String() != "1.48" {
		t.Errorf("3 gallons less a quart for 10 L: %v", err)
	}
}

func TestLeastOrders(t *testing.T) {
	c := prices(t, ",timber,A,C62,100,,,white_oak,select,8/4,0-8-0,12-0-0,5,\nply,consumable,A,MTK,10,,3,,,,,,12,\n")
	l, err := buy.New([]bill.Line{laminates(1, boat.Port, 1, 1, "2.600"), goods(1, bill.Pattern, "ply", "1", "1.5", quantity.SquareMetre)}, c, shop)
	if err != nil || l.Timber[0].Boards[0].Count != 5 || l.Packs[0].Bought[0].Count != 4 || l.Packs[0].Kind != sheet.Consumable {
		t.Errorf("%+v %v", l, err)
	}
}

func TestNothingNeeded(t *testing.T) {
	l, err := buy.New([]bill.Line{laminates(1, boat.Port, 0, 0, "2.600"), goods(1, bill.Pattern, "ply", "0", "0", quantity.SquareMetre)},
		prices(t, ",timber,A,C62,100,,,white_oak,select,8/4,0-8-0,12-0-0,,\nply,consumable,A,MTK,10,,3,,,,,,12,\n"), shop)
	if err != nil || !l.Cost.IsZero() || !l.Bound.IsZero() || l.Shares[0].Cost != money.Zero("USD") || l.Packs[0].Method != pack.NoPacks {
		t.Errorf("%+v %v", l, err)
	}
	if l, err = buy.New(nil, prices(t, "x,glue,A,LTR,1,,,,,,,,,\n"), shop); err != nil || !l.Cost.IsZero() {
		t.Errorf("%+v %v", l, err)
	}
}

func TestNeedsThatCannotBeRead(t *testing.T) {
	c := prices(t, ",timber,A,C62,100,,,white_oak,select,8/4,0-8-0,12-0-0,,\n")
	for name, spoil := range map[string]func(*bill.Line){
		"no pieces":           func(l *bill.Line) { l.Pieces = nil },
		"no thickness":        func(l *bill.Line) { l.Pieces.Thickness = dec("0") },
		"planing below 0":     func(l *bill.Line) { l.Pieces.Planing = dec("-1") },
		"a length in litres":  func(l *bill.Line) { l.Pieces.Length = of("1", quantity.Litre) },
		"less gross than net": func(l *bill.Line) { l.Gross = quantity.Count(0) },
		"pieces in metres":    func(l *bill.Line) { l.Net, l.Gross = of("1", quantity.Metre), of("1", quantity.Metre) },
		"no item":             func(l *bill.Line) { l.Material = bill.Glue },
	} {
		l := laminates(1, boat.Port, 1, 1, "2.600")
		p := *l.Pieces
		l.Pieces = &p
		spoil(&l)
		var need *buy.NeedError
		if _, err := buy.New([]bill.Line{l}, c, shop); !errors.As(err, &need) || need.Line != l.ID {
			t.Errorf("%s: %v", name, err)
		}
	}
	var need *buy.NeedError
	twice := laminates(1, boat.Port, 1, 1, "2.600")
	if _, err := buy.New([]bill.Line{twice, twice}, c, shop); !errors.As(err, &need) {
		t.Errorf("a need twice: %v", err)
	}
	if _, err := buy.New(nil, c, buy.Rules{Kerf: dec("-1")}); !errors.As(err, &need) {
		t.Errorf("a kerf below nothing: %v", err)
	}
}
