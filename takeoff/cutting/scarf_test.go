package cutting_test

import (
	"errors"
	"math/rand"
	"os"
	"slices"
	"strings"
	"testing"

	"ribband/takeoff/cutting"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Hand-worked, mm and cents. Two planks of 5000, boards of 3000 for 40.00 and of 6000 for 100.00. Whole they take two boards
// of 6000, 200.00. Joined over 400 the two parts are 5400 together: two boards of 3000 for 80.00 and a joint. At 15.00 a joint
// both planks of two parts cost 190.00, at 25.00 the whole ones stay the cheapest at 200.00.
func TestScarfedWhereItPays(t *testing.T) {
	stock := []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}, {"6000", 6000, 10_000, 1, -1, 0}}
	pieces := []cutting.Piece{{"plank", 5000, 2, true}}
	r := cutting.Rules{Kerf: 4, Scarf: &cutting.Scarf{Price: 1500, Length: 400, Least: 1000, Step: 500}}
	p := solve(t, stock, pieces, r)
	if p.Cost != 19_000 || !p.Proven() || len(p.Joints) != 1 || p.Joints[0].N != 2 || p.Joints[0].First+p.Joints[0].Second != 5400 {
		t.Errorf("cost %d, joints %+v, %s", p.Cost, p.Joints, p.Proof)
	}
	r.Scarf.Price = 2500
	if p := solve(t, stock, pieces, r); p.Cost != 20_000 || len(p.Joints) > 0 || !p.Proven() {
		t.Errorf("cost %d, joints %+v, %s", p.Cost, p.Joints, p.Proof)
	}
	// no board of 6000: scarfed whatever it costs
	if p := solve(t, stock[:1], pieces, r); p.Cost != 21_000 || !p.Proven() {
		t.Errorf("cost %d, joints %+v, %s", p.Cost, p.Joints, p.Proof)
	}
}

// A piece too long for any board is refused with the joints, the parts and their price.
func TestTooLongSaysWhatAScarfWouldDo(t *testing.T) {
	stock := []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}
	scarf := &cutting.Scarf{Price: 1500, Length: 400, Least: 1000, Step: 500}
	for _, c := range []struct {
		piece cutting.Piece
		r     cutting.Rules
		want  cutting.InParts
	}{
		{cutting.Piece{"plank", 5000, 2, false}, cutting.Rules{Scarf: scarf}, cutting.InParts{Parts: []int64{2700, 2700}, Joint: 400, Price: 1500, Known: true}},
		{cutting.Piece{"plank", 6001, 2, true}, cutting.Rules{Scarf: scarf}, cutting.InParts{Parts: []int64{2267, 2267, 2267}, Joint: 400, Price: 3000, Known: true, Allowed: true}},
		{cutting.Piece{"plank", 5001, 2, false}, cutting.Rules{}, cutting.InParts{Parts: []int64{2501, 2500}}},
	} {
		_, err := cutting.Solve(stock, []cutting.Piece{c.piece}, c.r)
		var short *cutting.ShortError
		if !errors.As(err, &short) || short.InParts == nil || !cmp.Equal(*short.InParts, c.want) || !strings.Contains(err.Error(), "joint") {
			t.Errorf("%v: %+v", err, short)
		}
	}
}

func TestScarfsOutOfRange(t *testing.T) {
	stock, piece := []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}, []cutting.Piece{{"plank", 2500, 2, true}}
	for name, r := range map[string]cutting.Rules{
		"no rule":                   {},
		"a price below nothing":     {Scarf: &cutting.Scarf{Price: -1, Length: 400, Least: 1000, Step: 500}},
		"a part all joint":          {Scarf: &cutting.Scarf{Length: 400, Least: 400, Step: 500}},
		"a joint below nothing":     {Scarf: &cutting.Scarf{Length: -1, Least: 400, Step: 500}},
		"no step":                   {Scarf: &cutting.Scarf{Length: 400, Least: 1000}},
		"a step of next to nothing": {Scarf: &cutting.Scarf{Length: 400, Least: 500, Step: 1}},
		"more than is carried":      {Scarf: &cutting.Scarf{Price: 1 << 62, Length: 400, Least: 500, Step: 500}},
	} {
		var bad *cutting.RequestError
		if _, err := cutting.Solve(stock, piece, r); !errors.As(err, &bad) {
			t.Errorf("%s: %v", name, err)
		}
	}
	r := cutting.Rules{Scarf: &cutting.Scarf{Length: 400, Least: 500, Step: 1}}
	_, err := cutting.Solve(stock, piece, r)
	if err == nil || !strings.Contains(err.Error(), "a step of 16 would do") {
		t.Errorf("%v", err)
	}
	r.Scarf.Step = 16
	solve(t, stock, piece, r)
}

// twos draws jobs small enough to try everything, in which every other kind of piece may be scarfed.
func twos(seed int64, kinds, boards int, qty int64, all bool) list {
	r := rand.New(rand.NewSource(seed))
	l := small(r, kinds, boards, qty, all)
	l.rules.Scarf = &cutting.Scarf{Price: r.Int63n(40), Length: 20 + r.Int63n(200), Step: 250 + r.Int63n(300)}
	l.rules.Scarf.Least = l.rules.Scarf.Length + 1 + r.Int63n(300)
	for i := range l.pieces {
		if l.pieces[i].MayScarf = i%2 == 0; i == 0 && r.Intn(2) == 0 {
			l.pieces[i].Length += 1000
		}
	}
	return l
}

// halves are all ways to make a piece of two, told anew for the tests: by every length tried one after another.
func halves(l list, p cutting.Piece) (out [][2]int64) {
	s, most := l.rules.Scarf, int64(0)
	gives := func(a int64) bool {
		return slices.ContainsFunc(l.stock, func(b cutting.Stock) bool { return b.Length-2*l.rules.TrimEach == a })
	}
	for _, b := range l.stock {
		most = max(most, b.Length-2*l.rules.TrimEach)
	}
	good := func(a int64) bool { return a%s.Step == 0 || a == s.Least || gives(a) }
	for a := s.Least; p.MayScarf && a <= most; a++ {
		if b := p.Length + s.Length - a; b >= s.Least && b <= a && (good(a) || good(b)) {
			out = append(out, [2]int64{a, b})
		}
	}
	return out
}

// cheapestOfTwo tries every number of every way to make pieces of two, and for each everything. -1 when there is no plan.
func cheapestOfTwo(l list) int64 {
	best := int64(-1)
	var try func(i int, cut list, joints int64)
	try = func(i int, cut list, joints int64) {
		if i == len(l.pieces) {
			if c := cheapest(cut); c >= 0 && (best < 0 || c+joints < best) {
				best = c + joints
			}
			return
		}
		ways := halves(l, l.pieces[i])
		var choose func(w int, left int64, cut list, joints int64)
		choose = func(w int, left int64, cut list, joints int64) {
			if w == len(ways) {
				q := l.pieces[i]
				q.Qty = left
				cut.pieces = append(slices.Clone(cut.pieces), q)
				try(i+1, cut, joints)
				return
			}
			for n := range left + 1 {
				with := cut
				if n > 0 {
					with.pieces = append(slices.Clone(cut.pieces), cutting.Piece{ID: "long", Length: ways[w][0], Qty: n}, cutting.Piece{ID: "short", Length: ways[w][1], Qty: n})
				}
				choose(w+1, left-n, with, joints+n*l.rules.Scarf.Price)
			}
		}
		choose(0, l.pieces[i].Qty, cut, joints)
	}
	try(0, list{stock: l.stock, rules: l.rules}, 0)
	return best
}

// On jobs small enough to try everything, a proven plan with scarfed pieces costs what the cheapest of all costs. 120
// in CI, else the first 40.
func TestScarfedAgainstEveryPlan(t *testing.T) {
	jobs := 40
	if os.Getenv("RIBBAND_CI") == "1" {
		jobs = 120
	}
	proven, plans, withJoints := 0, 0, 0
	for seed := range jobs {
		l := twos(int64(seed), 3, 3, 2, seed%2 == 0)
		want := cheapestOfTwo(l)
		plan, err := cutting.Solve(l.stock, l.pieces, l.rules)
		var short *cutting.ShortError
		if want < 0 || errors.As(err, &short) {
			if !errors.As(err, &short) || want >= 0 {
				t.Errorf("seed %d: cheapest %d, got %v", seed, want, err)
			}
			continue
		}
		plans++
		plan = solve(t, l.stock, l.pieces, l.rules)
		if plan.Bound > want || plan.Cost < want || plan.Proven() && plan.Cost != want {
			t.Errorf("seed %d: cheapest %d, got %d, bound %d, %s", seed, want, plan.Cost, plan.Bound, plan.Proof)
		}
		if plan.Proven() {
			proven++
		}
		if len(plan.Joints) > 0 {
			withJoints++
		}
	}
	t.Logf("%d of %d plans proven, %d with joints", proven, plans, withJoints)
	if proven < plans || withJoints < plans/20 {
		t.Errorf("%d of %d plans proven, %d with joints", proven, plans, withJoints)
	}
}

// Random small jobs with scarfed pieces beside cbc: no proof is false, no plan is missed. 100 in CI, else 25.
func TestScarfedAgainstCBC(t *testing.T) {
	path := cbc(t)
	jobs := 25
	if os.Getenv("RIBBAND_CI") == "1" {
		jobs = 100
	}
	proven, plans, withJoints := 0, 0, 0
	for seed := range jobs {
		l := twos(int64(20_000+seed), 5, 3, 5, seed%2 == 0)
		want := int64(-1)
		if lp := model(l); lp != "" {
			want = ask(t, path, lp, 20)
		}
		if want == -2 {
			continue
		}
		plan, err := cutting.Solve(l.stock, l.pieces, l.rules)
		var short *cutting.ShortError
		if errors.As(err, &short) || want < 0 {
			if !errors.As(err, &short) || want >= 0 {
				t.Errorf("seed %d: cbc %d, got %v", seed, want, err)
			}
			continue
		}
		plans++
		plan = solve(t, l.stock, l.pieces, l.rules)
		if plan.Proven() {
			proven++
		}
		if len(plan.Joints) > 0 {
			withJoints++
		}
		if plan.Bound > want || plan.Cost < want || plan.Proven() && plan.Cost != want {
			t.Errorf("seed %d: cbc %d, got %d, bound %d, %s", seed, want, plan.Cost, plan.Bound, plan.Proof)
		}
	}
	t.Logf("%d jobs, %d with a plan, %d proven, %d with joints", jobs, plans, proven, withJoints)
	if proven < plans {
		t.Errorf("%d of %d plans not proven", plans-proven, plans)
	}
}

// Being allowed to scarf never makes a proven plan dearer; a dearer joint, a longer one, a longer least part on the same places
// never make it cheaper. The order of the list changes nothing.
func TestScarfsMoveAsTheyShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := twos(rapid.Int64().Draw(t, "seed"), 5, 3, 4, false)
		_, err := cutting.Solve(l.stock, l.pieces, l.rules)
		var short *cutting.ShortError
		if errors.As(err, &short) {
			t.Skip("no plan")
		}
		cost := proven(t, l)
		whole := list{l.stock, slices.Clone(l.pieces), l.rules}
		for i := range whole.pieces {
			whole.pieces[i].MayScarf = false
		}
		if _, err := cutting.Solve(whole.stock, whole.pieces, whole.rules); !errors.As(err, &short) {
			if w := proven(t, whole); w < cost {
				t.Fatalf("%d whole, %d when some may be scarfed", w, cost)
			}
		}
		dearer := *l.rules.Scarf
		dearer.Price += rapid.Int64Range(1, 200).Draw(t, "dearer")
		if c := proven(t, list{l.stock, l.pieces, cutting.Rules{Kerf: l.rules.Kerf, TrimEach: l.rules.TrimEach, Scarf: &dearer}}); c < cost {
			t.Fatalf("%d, with dearer joints %d", cost, c)
		}
		finer := *l.rules.Scarf
		if finer.Step%2 == 0 {
			finer.Step /= 2 // every place stays
			if c := proven(t, list{l.stock, l.pieces, cutting.Rules{Kerf: l.rules.Kerf, TrimEach: l.rules.TrimEach, Scarf: &finer}}); c > cost {
				t.Fatalf("%d, with more places %d", cost, c)
			}
		}
		r := rand.New(rand.NewSource(rapid.Int64().Draw(t, "order")))
		stock, pieces := slices.Clone(l.stock), slices.Clone(l.pieces)
		r.Shuffle(len(stock), func(i, j int) { stock[i], stock[j] = stock[j], stock[i] })
		r.Shuffle(len(pieces), func(i, j int) { pieces[i], pieces[j] = pieces[j], pieces[i] })
		if d := cmp.Diff(solve(t, l.stock, l.pieces, l.rules), solve(t, stock, pieces, l.rules)); d != "" {
			t.Fatalf("another order, another plan: %s", d)
		}
	})
}

// Neither checker is blind to what is wrong with joints.
func TestChecksSeeWrongJoints(t *testing.T) {
	stock := []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}
	pieces := []cutting.Piece{{"plank", 5000, 2, true}, {"short", 500, 3, true}}
	r := cutting.Rules{Kerf: 4, Scarf: &cutting.Scarf{Price: 1500, Length: 400, Least: 1000, Step: 500}}
	for name, damage := range map[string]func(*cutting.Plan){
		"a joint for nothing":  func(p *cutting.Plan) { p.Cost -= p.Joints[0].Cost; p.Joints[0].Cost, p.Bound = 0, 0 },
		"a joint left out":     func(p *cutting.Plan) { p.Joints = nil },
		"one too many":         func(p *cutting.Plan) { p.Joints[0].N++ },
		"parts too short":      func(p *cutting.Plan) { p.Joints[0].First-- },
		"a joint elsewhere":    func(p *cutting.Plan) { p.Joints[0].From++ },
		"a piece that may not": func(p *cutting.Plan) { p.Joints[0].PieceID = "short" },
		"another part":         func(p *cutting.Plan) { p.Cuts[0].Pieces[0].Part-- },
	} {
		plan := solve(t, stock, pieces, r)
		plan.Joints = slices.Clone(plan.Joints)
		damage(&plan)
		if cutting.Check(plan, stock, pieces, r) == nil {
			t.Errorf("%s was not seen", name)
		}
	}
	for name, damage := range map[string]func(*cutting.Certificate){
		"a scarfed piece worth more": func(c *cutting.Certificate) { c.Scarfed[0].Value *= 2 },
		"parts worth nothing":        func(c *cutting.Certificate) { c.Parts = nil },
		"parts worth more":           func(c *cutting.Certificate) { c.Parts[0].Value *= 3 },
		"a unit that is no price's":  func(c *cutting.Certificate) { c.Unit *= 2 },
	} {
		c := solve(t, stock, pieces, r).Certificate
		damage(&c)
		if cutting.CheckCertificate(c, stock, pieces, r) == nil {
			t.Errorf("%s was not seen: %+v", name, c)
		}
	}
}

// Where others took every board, joints that cost nothing make no plan either: the list says what is short.
func TestFreeScarfsOfNoBoards(t *testing.T) {
	var short *cutting.ShortError
	_, err := cutting.Solve([]cutting.Stock{{ID: "1.5 m", Length: 1500, Price: 2000, Strips: 2, Avail: 0}}, []cutting.Piece{{ID: "plank", Length: 1200, Qty: 1, MayScarf: true}},
		cutting.Rules{Kerf: 3, TrimEach: 20, Scarf: &cutting.Scarf{Length: 385, Least: 769, Step: 24}})
	if !errors.As(err, &short) || short.StockID != "1.5 m" {
		t.Error(err)
	}
}
