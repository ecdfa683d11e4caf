package cutting_test

import (
	"errors"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// solve solves and has every plan looked over.
func solve(t require, stock []cutting.Stock, pieces []cutting.Piece, r cutting.Rules) cutting.Plan {
	t.Helper()
	return solveWithin(t, stock, pieces, r, cutting.Usual)
}

// little keeps the tests that draw many lists short; what they say holds whatever the limits are.
var little = cutting.Limits{Work: 4_000_000, Pivots: 500, Nodes: 60, Layouts: 1_000}

func solveWithin(t require, stock []cutting.Stock, pieces []cutting.Piece, r cutting.Rules, limits cutting.Limits) cutting.Plan {
	t.Helper()
	plan, err := cutting.SolveWithin(stock, pieces, r, limits)
	if err != nil {
		t.Fatalf("%v", err)
	}
	if err := cutting.Check(plan, stock, pieces, r); err != nil {
		t.Fatalf("%v\n%+v", err, plan)
	}
	if err := cutting.CheckCertificate(plan.Certificate, stock, pieces, r); err != nil {
		t.Fatalf("%v\n%+v", err, plan)
	}
	if c := plan.Certificate.Floor; plan.Proof == cutting.ByCertificate && c != plan.Net() || plan.Proof == cutting.Exhausted && plan.Bound != plan.Net() || c > plan.Bound {
		t.Fatalf("floor %d, bound %d, cost %d, proof %s", c, plan.Bound, plan.Cost, plan.Proof)
	}
	return plan
}

type require interface {
	Helper()
	Fatalf(format string, args ...any)
}

// Hand-worked, lengths in mm. Three laminates of 1500 and three of 900 with a kerf of 5, 20 off each end. A board of
// 3000 has room 3000 - 40 + 5 = 2965 and takes 1505 + 905 = 2410 on a strip, so three strips; two of 1500 need 3010
// and do not go. At 2 strips a board that is 2 boards of 30.00. A board of 4000, room 3965, takes 1505 x 2 + 905 =
// 3915, then 1505 + 905 x 2 = 3315: two strips, one board, but at 61.00. The certificate: a laminate of 1500 is worth the
// 15.00 of a strip, since no strip of 3000 holds two, and 3 x 15.00 = 45.00; that it is 60.00 is found by search.
func TestHandWorkedPlan(t *testing.T) {
	stock := []cutting.Stock{
		{ID: "3000", Length: 3000, Price: 3000, Strips: 2, Avail: -1},
		{ID: "4000", Length: 4000, Price: 6100, Strips: 2, Avail: -1},
	}
	pieces := []cutting.Piece{{"a", 1500, 3, false}, {"b", 900, 3, false}}
	got := solve(t, stock, pieces, cutting.Rules{Kerf: 5, TrimEach: 20})
	want := cutting.Plan{
		Method: cutting.OneBoard,
		Bought: []cutting.Lot{{"3000", 2, 4, 3, 6000}},
		Cuts:   []cutting.Cut{{"3000", 3, []cutting.Count{{"a", 1, 0}, {"b", 1, 0}}, 2965 - 2410 - 5}},
		Cost:   6000, Bound: 6000, Proof: cutting.Exhausted, Certificate: got.Certificate,
	}
	if got.Certificate.Floor != 4500 || !got.Proven() {
		t.Errorf("%+v", got.Certificate)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
	stock[1].Price = 5900
	if got := solve(t, stock, pieces, cutting.Rules{Kerf: 5, TrimEach: 20}); got.Cost != 5900 || got.Bought[0].StockID != "4000" {
		t.Errorf("the cheaper board was not taken: %+v", got)
	}
}

// A strip filled to the last: three pieces of 1000 with two kerfs of 5 and no trim are 3010 long.
func TestKerfIsCountedBetweenPieces(t *testing.T) {
	pieces := []cutting.Piece{{"a", 1000, 3, false}}
	r := cutting.Rules{Kerf: 5}
	if p := solve(t, []cutting.Stock{{"s", 3010, 100, 1, -1, 0}}, pieces, r); p.Bought[0].Boards != 1 || p.Cuts[0].Offcut != 0 || p.Bound != p.Cost {
		t.Errorf("3010 takes three: %+v", p)
	}
	if p := solve(t, []cutting.Stock{{"s", 3009, 100, 1, -1, 0}}, pieces, r); p.Bought[0].Boards != 2 {
		t.Errorf("3009 takes two: %+v", p)
	}
}

func TestLimitsOnWhatIsForSale(t *testing.T) {
	pieces := []cutting.Piece{{"long", 2800, 2, false}, {"short", 1000, 4, false}}
	stock := []cutting.Stock{
		{ID: "long board", Length: 3000, Price: 5000, Strips: 1, Avail: 2},
		{ID: "short board", Length: 2100, Price: 2000, Strips: 1, Avail: -1},
	}
	p := solve(t, stock, pieces, cutting.Rules{Kerf: 5})
	if p.Method != cutting.SeveralBoards || p.Cost != 2*5000+2*2000 {
		t.Errorf("two long boards and two short ones were expected: %+v", p)
	}
	stock[0].Avail = 1
	var short *cutting.ShortError
	if _, err := cutting.Solve(stock, pieces, cutting.Rules{Kerf: 5}); !errors.As(err, &short) || short.Piece.ID != "long" ||
		short.Short != 1 || short.StockID != "long board" || short.Boards != 1 {
		t.Errorf("one long board short: %v", err)
	}
	stock[1].Avail, stock[0].Avail = 1, 2
	if _, err := cutting.Solve(stock, pieces, cutting.Rules{Kerf: 5}); !errors.As(err, &short) || short.Piece.ID != "short" || short.Boards != 1 {
		t.Errorf("one short board short: %v", err)
	}
	pieces[0].Length = 3001
	if _, err := cutting.Solve(stock, pieces, cutting.Rules{Kerf: 5, TrimEach: 10}); !errors.As(err, &short) || short.NeedsLength != 3021 || short.Longest != 2980 {
		t.Errorf("a piece too long for any board: %v", err)
	}
	if _, err := cutting.Solve(nil, pieces, cutting.Rules{}); !errors.As(err, &short) {
		t.Errorf("no boards at all: %v", err)
	}
}

func TestLeastOrder(t *testing.T) {
	stock := []cutting.Stock{{"bundle", 3000, 1000, 1, -1, 10}, {"single", 3000, 3000, 1, -1, 0}}
	if p := solve(t, stock, []cutting.Piece{{"a", 2000, 2, false}}, cutting.Rules{}); p.Bought[0] != (cutting.Lot{"single", 2, 2, 2, 6000}) {
		t.Errorf("two single boards are cheaper than a bundle of ten: %+v", p)
	}
	if p := solve(t, stock, []cutting.Piece{{"a", 2000, 4, false}}, cutting.Rules{}); p.Bought[0] != (cutting.Lot{"bundle", 10, 10, 4, 10000}) {
		t.Errorf("a bundle is cheaper than four single boards: %+v", p)
	}
}

func TestNothingToCut(t *testing.T) {
	p := solve(t, nil, []cutting.Piece{{"a", 100, 0, false}}, cutting.Rules{})
	if p.Method != cutting.Nothing || p.Cost != 0 || p.Bound != 0 {
		t.Errorf("%+v", p)
	}
}

func TestNumbersOutOfRange(t *testing.T) {
	good, a := cutting.Stock{"s", 3000, 100, 1, -1, 0}, cutting.Piece{"a", 100, 1, false}
	for name, c := range map[string]struct {
		s []cutting.Stock
		p []cutting.Piece
		r cutting.Rules
	}{
		"a board twice":         {[]cutting.Stock{good, good}, nil, cutting.Rules{}},
		"a piece twice":         {[]cutting.Stock{good}, []cutting.Piece{a, a}, cutting.Rules{}},
		"a board of nothing":    {[]cutting.Stock{{"s", 0, 100, 1, -1, 0}}, nil, cutting.Rules{}},
		"a board for nothing":   {[]cutting.Stock{{"s", 10, 0, 1, -1, 0}}, nil, cutting.Rules{}},
		"no strips":             {[]cutting.Stock{{"s", 10, 1, 0, -1, 0}}, nil, cutting.Rules{}},
		"minus two for sale":    {[]cutting.Stock{{"s", 10, 1, 1, -2, 0}}, nil, cutting.Rules{}},
		"a kerf below nothing":  {[]cutting.Stock{good}, []cutting.Piece{a}, cutting.Rules{Kerf: -1}},
		"a trim of light years": {[]cutting.Stock{good}, []cutting.Piece{a}, cutting.Rules{TrimEach: 1 << 62}},
		"a piece of nothing":    {[]cutting.Stock{good}, []cutting.Piece{{"a", 0, 1, false}}, cutting.Rules{}},
		"minus one piece":       {[]cutting.Stock{good}, []cutting.Piece{{"a", 1, -1, false}}, cutting.Rules{}},
		"too many pieces":       {[]cutting.Stock{good}, []cutting.Piece{a, {"b", 1, cutting.MaxPieces, false}}, cutting.Rules{}},
		"a cost past carrying":  {[]cutting.Stock{{"s", 3000, cutting.MaxPrice, 1, -1, 0}}, []cutting.Piece{{"a", 1, cutting.MaxPieces, false}}, cutting.Rules{}},
	} {
		var bad *cutting.RequestError
		if _, err := cutting.Solve(c.s, c.p, c.r); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// Lengths at the edge of their range do not wrap round.
func TestLargestNumbers(t *testing.T) {
	stock := []cutting.Stock{{"s", cutting.MaxLength, 1_000_000_000, cutting.MaxStrips, -1, 0}}
	p := solve(t, stock, []cutting.Piece{{"a", cutting.MaxLength, cutting.MaxPieces, false}}, cutting.Rules{Kerf: cutting.MaxLength})
	if p.Bought[0].Boards != cutting.MaxPieces/cutting.MaxStrips || p.Bound != p.Cost {
		t.Errorf("%+v", p.Bought)
	}
}

type list struct {
	stock  []cutting.Stock
	pieces []cutting.Piece
	rules  cutting.Rules
}

// lists draws shop-like lists. Every piece goes on every board, so that a plan exists while boards are unlimited.
func lists(limited bool) *rapid.Generator[list] {
	return rapid.Custom(func(t *rapid.T) list {
		l := list{rules: cutting.Rules{Kerf: rapid.Int64Range(0, 8).Draw(t, "kerf"), TrimEach: rapid.Int64Range(0, 60).Draw(t, "trim")}}
		for i := range rapid.IntRange(1, 6).Draw(t, "boards") {
			s := cutting.Stock{
				ID: string(rune('A' + i)), Length: rapid.Int64Range(1800, 6000).Draw(t, "length"), Price: rapid.Int64Range(1, 90_000).Draw(t, "price"),
				Strips: rapid.Int64Range(1, 12).Draw(t, "strips"), Avail: -1, Least: rapid.Int64Range(0, 3).Draw(t, "least"),
			}
			if limited {
				s.Avail = rapid.Int64Range(-1, 12).Draw(t, "avail")
			}
			l.stock = append(l.stock, s)
		}
		for i := range rapid.IntRange(1, 20).Draw(t, "kinds") {
			l.pieces = append(l.pieces, cutting.Piece{ID: string(rune('a' + i)), Length: rapid.Int64Range(1, 1680).Draw(t, "piece"), Qty: rapid.Int64Range(0, 25).Draw(t, "qty")})
		}
		return l
	})
}

// Every plan is valid, cuts every piece once, and its bound is not above its cost; the order of the list changes
// nothing.
func TestPlansAreValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lists(false).Draw(t, "list")
		plan := solveWithin(t, l.stock, l.pieces, l.rules, little)
		r := rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed")))
		stock, pieces := append([]cutting.Stock{}, l.stock...), append([]cutting.Piece{}, l.pieces...)
		r.Shuffle(len(stock), func(i, j int) { stock[i], stock[j] = stock[j], stock[i] })
		r.Shuffle(len(pieces), func(i, j int) { pieces[i], pieces[j] = pieces[j], pieces[i] })
		if d := cmp.Diff(plan, solveWithin(t, stock, pieces, l.rules, little)); d != "" {
			t.Fatalf("another order, another plan: %s", d)
		}
	})
}

// With limits a plan is valid, or the error names boards that make one when they are added.
func TestLimitedPlansAreValid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lists(true).Draw(t, "list")
		plan, err := cutting.SolveWithin(l.stock, l.pieces, l.rules, little)
		var short *cutting.ShortError
		if errors.As(err, &short) {
			for i := range l.stock {
				if l.stock[i].ID == short.StockID {
					l.stock[i].Avail += short.Boards
				}
			}
			solveWithin(t, l.stock, l.pieces, l.rules, little)
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		if err := cutting.Check(plan, l.stock, l.pieces, l.rules); err != nil {
			t.Fatal(err)
		}
	})
}

// A wider kerf never lowers the bound, as long as every piece goes on every board. (Where a short and cheap board is
// shorter than the mean piece, the formula's rate may fall faster than the pieces grow; the bound holds all the same.)
func TestWiderKerfNeverLowersTheBound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lists(false).Draw(t, "list")
		wider := l.rules
		wider.Kerf += rapid.Int64Range(0, 20).Draw(t, "wider")
		a, b := cutting.Bound(l.stock, l.pieces, l.rules), cutting.Bound(l.stock, l.pieces, wider)
		if b < a {
			t.Fatalf("kerf %d bounds at %d, kerf %d at %d", l.rules.Kerf, a, wider.Kerf, b)
		}
	})
}

// naive is first-fit decreasing piece by piece, as the books tell it.
func naive(s cutting.Stock, pieces []cutting.Piece, r cutting.Rules) (strips int64) {
	var single []int64
	for _, p := range pieces {
		for range p.Qty {
			single = append(single, p.Length)
		}
	}
	for i := range single {
		for j := i + 1; j < len(single); j++ {
			if single[j] > single[i] {
				single[i], single[j] = single[j], single[i]
			}
		}
	}
	var room []int64
next:
	for _, p := range single {
		for i := range room {
			if room[i] >= p+r.Kerf {
				room[i] -= p + r.Kerf
				continue next
			}
		}
		room = append(room, s.Length-2*r.TrimEach+r.Kerf-p-r.Kerf)
	}
	return int64(len(room))
}

// A plan never needs more strips of a single board than the piece-by-piece rule, and its boards are no dearer.
func TestNeverDearerThanPieceByPiece(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := lists(false).Draw(t, "list")
		l.stock = l.stock[:1]
		plan := solveWithin(t, l.stock, l.pieces, l.rules, little)
		b := l.stock[0]
		boards := (naive(b, l.pieces, l.rules) + b.Strips - 1) / b.Strips
		if boards > 0 {
			boards = max(boards, b.Least)
		}
		if plan.Cost > boards*b.Price {
			t.Fatalf("%d, piece by piece %d", plan.Cost, boards*b.Price)
		}
	})
}

// Check is not blind: each kind of damage to a sound plan is seen.
func TestCheckSeesDamage(t *testing.T) {
	stock := []cutting.Stock{{"s", 3000, 1000, 2, 3, 0}}
	pieces := []cutting.Piece{{"a", 1400, 4, false}, {"b", 500, 2, false}}
	r := cutting.Rules{Kerf: 4, TrimEach: 10}
	for name, damage := range map[string]func(*cutting.Plan){
		"a piece missing":  func(p *cutting.Plan) { p.Cuts[0].Pieces[0].K-- },
		"a piece too many": func(p *cutting.Plan) { p.Cuts[0].Pieces[0].K++ },
		"a strip too many": func(p *cutting.Plan) { p.Cuts[0].N++ },
		"a board too few":  func(p *cutting.Plan) { p.Bought[0].Boards-- },
		"more than for sale": func(p *cutting.Plan) {
			p.Bought[0].Boards = 4
			p.Bought[0].Strips = 8
			p.Bought[0].Cost = 4000
			p.Cost = 4000
		},
		"a wrong cost":         func(p *cutting.Plan) { p.Cost++ },
		"a bound above":        func(p *cutting.Plan) { p.Bound = p.Cost + 1 },
		"an unknown board":     func(p *cutting.Plan) { p.Cuts[0].StockID = "x" },
		"nothing bought":       func(p *cutting.Plan) { p.Bought = nil },
		"a board listed twice": func(p *cutting.Plan) { p.Bought = append(p.Bought, p.Bought[0]); p.Cost *= 2 },
	} {
		plan := solve(t, stock, pieces, r)
		damage(&plan)
		if err := cutting.Check(plan, stock, pieces, r); err == nil {
			t.Errorf("%s was not seen", name)
		}
	}
	long := cutting.Rules{Kerf: 4, TrimEach: 400}
	if err := cutting.Check(solve(t, stock, pieces, r), stock, pieces, long); err == nil {
		t.Error("a strip that is too full was not seen")
	}
}
