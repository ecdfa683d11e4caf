package flat_test

import (
	"errors"
	"math/rand"
	"slices"
	"testing"

	"ribband/takeoff/cutting/flat"

	"github.com/google/go-cmp/cmp"
)

// The order of stock and pieces changes nothing.
func TestOrderChangesNothing(t *testing.T) {
	for seed := range 20 {
		r := rand.New(rand.NewSource(int64(1000 + seed)))
		l := drawn(r, 5+r.Intn(30))
		want := solve(t, l, little)
		m := l
		m.Stock, m.Pieces = slices.Clone(l.Stock), slices.Clone(l.Pieces)
		r.Shuffle(len(m.Stock), func(i, j int) { m.Stock[i], m.Stock[j] = m.Stock[j], m.Stock[i] })
		r.Shuffle(len(m.Pieces), func(i, j int) { m.Pieces[i], m.Pieces[j] = m.Pieces[j], m.Pieces[i] })
		if d := cmp.Diff(want, solve(t, m, little)); d != "" {
			t.Errorf("seed %d: another order, another plan: %s", seed, d)
		}
	}
}

// toTheEnd lets the program of a small list come to its end.
var toTheEnd = flat.Limits{Work: 40_000_000, Pivots: 4_000}

// One more piece never lowers the bound, where the work allowed lets the program come to its end.
func TestAnotherPieceNeverLowersTheBound(t *testing.T) {
	for seed := range 20 {
		r := rand.New(rand.NewSource(int64(2000 + seed)))
		l := drawn(r, 3+r.Intn(15))
		a := solve(t, l, toTheEnd)
		l.Pieces = slices.Clone(l.Pieces)
		if r.Intn(2) == 0 {
			l.Pieces[r.Intn(len(l.Pieces))].Qty++
		} else {
			l.Pieces = append(l.Pieces, flat.Piece{ID: "one more", Width: 4 + r.Int63n(22), Length: 4 + r.Int63n(22), Qty: 1})
		}
		if b := solve(t, l, toTheEnd); b.Bound < a.Bound {
			t.Errorf("seed %d: bound %d, with one more piece %d: %+v", seed, a.Bound, b.Bound, l)
		}
	}
}

// A wider kerf never costs less: a plan for it, its sheets cut by a thinner saw, is a plan for less kerf too.
func TestWiderKerfNeverCostsLess(t *testing.T) {
	proven := 0
	for seed := range 50 {
		r := rand.New(rand.NewSource(int64(3000 + seed)))
		l := drawn(r, 3+r.Intn(10))
		a := solve(t, l, little)
		l.Rules.Kerf += 1 + r.Int63n(2)
		b, err := flat.SolveWithin(l, little)
		if err != nil { // a piece may no longer go on any sheet
			continue
		}
		if b.Cost < a.Bound || a.Proven && b.Cost < a.Cost {
			t.Errorf("seed %d: kerf %d costs %d, one less wide %d..%d", seed, l.Rules.Kerf, b.Cost, a.Bound, a.Cost)
		}
		if a.Proven {
			proven++
		}
	}
	if proven < 12 {
		t.Errorf("only %d of 50 said anything", proven)
	}
}

// A plan is never dearer than shelves, which are a plan themselves.
func TestNeverDearerThanShelves(t *testing.T) {
	cheaper := 0
	for seed := range 30 {
		r := rand.New(rand.NewSource(int64(4000 + seed)))
		l := drawn(r, 5+r.Intn(40))
		shelves, err := flat.Shelves(l)
		if err != nil {
			t.Fatal(err)
		}
		shelves.Proven = shelves.Cost == shelves.Bound
		if err := flat.Check(shelves, l); err != nil {
			t.Errorf("seed %d: %v", seed, err)
		}
		p := solve(t, l, little)
		if p.Cost > shelves.Cost {
			t.Errorf("seed %d: %d, shelves %d", seed, p.Cost, shelves.Cost)
		}
		if p.Cost < shelves.Cost {
			cheaper++
		}
	}
	if cheaper < 5 {
		t.Errorf("only %d of 30 are cheaper than shelves", cheaper)
	}
}

// limit puts limits on what is for sale.
func limit(r *rand.Rand, l flat.List) {
	for i := range l.Stock {
		l.Stock[i].Avail = r.Int63n(4)
		if l.Stock[i].Roll() {
			l.Stock[i].Avail *= 20
		}
	}
}

// With limits on what is for sale the floor is still below what trying everything finds, and where that finds nothing
// neither does Solve.
func TestLimitedAgainstTryingEverything(t *testing.T) {
	cheapest, none := 0, 0
	for seed := range 120 {
		r := rand.New(rand.NewSource(int64(7000 + seed)))
		l := drawn(r, 3+r.Intn(4))
		limit(r, l)
		want := least(l)
		p, err := flat.SolveWithin(l, little)
		switch {
		case want < 0:
			if none++; err == nil {
				t.Errorf("seed %d: a plan where there is none", seed)
			}
		case err != nil: // shelves did not find the one way that there is; counted
		default:
			against(t, seed, p, l, want)
			if p.Cost == want {
				cheapest++
			}
		}
	}
	t.Logf("%d cheapest, %d without a plan", cheapest, none)
	if none < 10 || cheapest+none < 110 {
		t.Errorf("%d cheapest, %d without a plan", cheapest, none)
	}
}

// Limited stock: a plan keeps within it, or the error names what would do, and with that it does.
func TestLimitedStock(t *testing.T) {
	short := 0
	for seed := range 60 {
		r := rand.New(rand.NewSource(int64(5000 + seed)))
		l := drawn(r, 4+r.Intn(12))
		limit(r, l)
		p, err := flat.SolveWithin(l, little)
		if e := (*flat.ShortError)(nil); errors.As(err, &e) {
			short++
			i := slices.IndexFunc(l.Stock, func(s flat.Stock) bool { return s.ID == e.StockID })
			if i < 0 || e.More < 1 {
				t.Errorf("seed %d: %+v", seed, e)
				continue
			}
			l.Stock[i].Avail += e.More
			p, err = flat.SolveWithin(l, little)
		}
		if err != nil {
			t.Errorf("seed %d: %v", seed, err)
			continue
		}
		sound(t, p, l)
	}
	if short < 10 || short > 50 {
		t.Errorf("%d of 60 fell short", short)
	}
}

// That pieces may be cut in pairs never puts the floor above what trying everything finds without.
func TestPairsNeverRaiseTheFloor(t *testing.T) {
	for seed := range 40 {
		r := rand.New(rand.NewSource(int64(6000 + seed)))
		l := drawn(r, 4+r.Intn(3))
		l.Rules.Exact = false
		l.Rules.Kerf = 0
		want := least(l)
		for i := range l.Pieces {
			p := &l.Pieces[i]
			p.Pair = &flat.Size{Width: p.Width, Length: p.Length + p.Length/2}
		}
		p := solve(t, l, little)
		if p.Bound > want {
			t.Errorf("seed %d: bound %d with pairs, %d without", seed, p.Bound, want)
		}
	}
}

// Check is not blind: each kind of damage to a sound plan is seen.
func TestCheckSeesDamage(t *testing.T) {
	l := flat.List{
		Stock:  []flat.Stock{{ID: "s", Width: 1000, Length: 2000, Price: 900, Avail: 2}},
		Pieces: []flat.Piece{{ID: "a", Width: 480, Length: 600, Qty: 6}, {ID: "b", Width: 300, Length: 500, Qty: 3}},
		Rules:  flat.Rules{Kerf: 4, TrimEach: 10, First: flat.Across, Stages: 2},
	}
	part := func(p *flat.Plan) *flat.Part { return &p.Layout[0].Strips[0].Stacks[0].Pieces[0] }
	for name, damage := range map[string]func(*flat.Plan){
		"a piece missing":        func(p *flat.Plan) { p.Layout[0].Strips[0].Stacks = p.Layout[0].Strips[0].Stacks[:0] },
		"a strip too many":       func(p *flat.Plan) { p.Layout[0].Strips[0].N++ },
		"a layout too many":      func(p *flat.Plan) { p.Layout[0].N++ },
		"a stack too narrow":     func(p *flat.Plan) { p.Layout[0].Strips[0].Stacks[0].Width-- },
		"a stack too wide":       func(p *flat.Plan) { p.Layout[0].Strips[0].Stacks[0].Width += 30 },
		"a strip not deep":       func(p *flat.Plan) { p.Layout[0].Strips[0].Depth-- },
		"a strip too deep":       func(p *flat.Plan) { p.Layout[0].Strips[0].Depth += 1000 },
		"an unknown piece":       func(p *flat.Plan) { part(p).PieceID = "x" },
		"a piece turned":         func(p *flat.Plan) { part(p).Turned = true },
		"a piece paired":         func(p *flat.Plan) { part(p).Paired = true },
		"two on top":             func(p *flat.Plan) { part(p).K++ },
		"the other way":          func(p *flat.Plan) { p.Layout[0].First = flat.Along },
		"unknown stock":          func(p *flat.Plan) { p.Layout[0].StockID = "x" },
		"a sheet too few bought": func(p *flat.Plan) { p.Bought[0].N-- },
		"a wrong cost":           func(p *flat.Plan) { p.Bought[0].Cost++ },
		"a wrong sum":            func(p *flat.Plan) { p.Cost++ },
		"a bound above":          func(p *flat.Plan) { p.Bound = p.Cost + 1 },
		"a claim unfounded":      func(p *flat.Plan) { p.Proven = !p.Proven },
	} {
		p := solve(t, l, little)
		damage(&p)
		if flat.Check(p, l) == nil {
			t.Errorf("%s went unseen", name)
		}
	}
	p := solve(t, l, little)
	l.Stock[0].Avail = 1
	if flat.Check(p, l) == nil {
		t.Error("more bought than is for sale went unseen")
	}
}

// Nor is CheckCertificate.
func TestCheckCertificateSeesDamage(t *testing.T) {
	for _, stages := range []int{2, 3} {
		l := flat.List{
			Stock:  []flat.Stock{{ID: "s", Width: 1000, Length: 2000, Price: 900, Avail: -1}, {ID: "r", Width: 700, Price: 50, Per: 100, Avail: -1}},
			Pieces: []flat.Piece{{ID: "a", Width: 480, Length: 600, Qty: 6}, {ID: "b", Width: 300, Length: 500, Qty: 30}},
			Rules:  flat.Rules{Kerf: 4, TrimEach: 10, First: flat.Across, Stages: stages},
		}
		for name, damage := range map[string]func(*flat.Certificate){
			"a higher floor":      func(c *flat.Certificate) { c.Floor++ },
			"a floor below 0":     func(c *flat.Certificate) { c.Floor = -1 },
			"a piece worth more":  func(c *flat.Certificate) { c.Values[0].Value += c.Values[0].Value/8 + 1 },
			"a piece twice":       func(c *flat.Certificate) { c.Values = append(c.Values, c.Values[0]) },
			"worth below nothing": func(c *flat.Certificate) { c.Values[0].Value = -1 },
			"worth past carrying": func(c *flat.Certificate) { c.Values[0].Value = 1 << 56; c.Floor = flat.MaxCost },
			"no scale":            func(c *flat.Certificate) { c.Scale = 0 },
			"values left out":     func(c *flat.Certificate) { c.Values = c.Values[:1] },
			"a unit of seven":     func(c *flat.Certificate) { c.Unit = 7 },
		} {
			p := solve(t, l, little)
			c := p.Certificate
			c.Values = slices.Clone(c.Values)
			damage(&c)
			if flat.CheckCertificate(c, l) == nil {
				t.Errorf("%d stages: %s went unseen", stages, name)
			}
		}
		if stages == 3 {
			c := solve(t, l, little).Certificate
			c.Depths = map[flat.First][]int64{flat.Across: c.Depths[flat.Across][:1]}
			if flat.CheckCertificate(c, l) == nil {
				t.Error("depths left out went unseen")
			}
		}
	}
}

// Whatever numbers a request holds, the answer is a sound plan or a typed error, and no panic.
func FuzzSolve(f *testing.F) {
	f.Add(int64(1), int64(1200), int64(2400), int64(6150), int64(-1), int64(390), int64(790), int64(9), int64(4), int64(10), uint8(2))
	f.Add(int64(0), int64(1), int64(0), int64(-1), int64(0), int64(1)<<62, int64(-5), int64(1)<<40, int64(1)<<62, int64(3), uint8(255))
	f.Add(int64(100), int64(600), int64(0), int64(2500), int64(90), int64(290), int64(450), int64(4), int64(0), int64(0), uint8(7))
	f.Fuzz(func(t *testing.T, per, width, length, price, avail, w, h, qty, kerf, trim int64, how uint8) {
		l := flat.List{
			Stock:  []flat.Stock{{ID: "s", Width: width % 3000, Length: length % 3000, Price: price, Per: per % 2000, Avail: avail}},
			Pieces: []flat.Piece{{ID: "a", Width: w % 3000, Length: h % 3000, Qty: qty % 40, MayTurn: how&1 == 1}, {ID: "b", Width: h % 977, Length: w % 983, Qty: 3}},
			Rules:  flat.Rules{Kerf: kerf, TrimEach: trim, First: []flat.First{flat.Across, flat.Along, flat.Either, "no"}[how>>1&3], Stages: 2 + int(how>>3&1), Exact: how>>4&1 == 1},
		}
		p, err := flat.SolveWithin(l, flat.Limits{Work: 2_000_000, Pivots: 200, Nodes: 20})
		if err == nil {
			sound(t, p, l)
			return
		}
		switch err.(type) {
		case *flat.RequestError, *flat.LargeError, *flat.ShortError:
		default:
			t.Fatalf("%T", err)
		}
	})
}
