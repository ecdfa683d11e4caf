package cutting_test

import (
	"errors"
	"fmt"
	"math"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// cheapest tries everything: each strip in turn takes the longest piece left with every choice of others, and the
// numbers of strips of each board that can come of it are all kept. -1 when there is no plan.
func cheapest(l list) int64 {
	states := map[string]map[string][]int64{}
	var strips func(left []int64) map[string][]int64
	strips = func(left []int64) map[string][]int64 {
		key := fmt.Sprint(left)
		if got, ok := states[key]; ok {
			return got
		}
		out := map[string][]int64{}
		first := 0
		for first < len(left) && left[first] == 0 {
			first++
		}
		if first == len(left) {
			out[""] = make([]int64, len(l.stock))
		}
		for k := range l.stock {
			if first == len(left) {
				break
			}
			var fill func(i int, room int64, rest []int64)
			fill = func(i int, room int64, rest []int64) {
				if i == len(left) {
					for _, n := range strips(rest) {
						m := append([]int64{}, n...)
						m[k]++
						out[fmt.Sprint(m)] = m
					}
					return
				}
				least := int64(0)
				if i == first {
					least = 1
				}
				for n := least; n <= left[i] && n*(l.pieces[i].Length+l.rules.Kerf) <= room; n++ {
					next := append([]int64{}, rest...)
					next[i] -= n
					fill(i+1, room-n*(l.pieces[i].Length+l.rules.Kerf), next)
				}
			}
			fill(first, l.stock[k].Length-2*l.rules.TrimEach+l.rules.Kerf, left)
		}
		states[key] = out
		return out
	}
	var need []int64
	for _, p := range l.pieces {
		need = append(need, p.Qty)
	}
	best := int64(-1)
next:
	for _, n := range strips(need) {
		cost := int64(0)
		for k, s := range l.stock {
			boards := (n[k] + s.Strips - 1) / s.Strips
			if boards > 0 {
				boards = max(boards, s.Least)
			}
			if s.Avail >= 0 && boards > s.Avail {
				continue next
			}
			cost += boards * s.Price
		}
		if best < 0 || cost < best {
			best = cost
		}
	}
	return best
}

// small draws a job of a few pieces, with limits, strips and least orders when all is set.
func small(r *rand.Rand, kinds, boards int, qty int64, all bool) list {
	l := list{rules: cutting.Rules{Kerf: r.Int63n(6), TrimEach: r.Int63n(30)}}
	for i := range 1 + r.Intn(boards) {
		s := cutting.Stock{ID: string(rune('A' + i)), Length: 1800 + 100*r.Int63n(20), Price: 100 + r.Int63n(900), Strips: 1, Avail: -1}
		s.Price = s.Length * (90 + r.Int63n(36)) / 1000
		if all {
			s.Strips, s.Least = 1+r.Int63n(3), r.Int63n(3)
			if r.Intn(3) == 0 {
				s.Avail = r.Int63n(4)
			}
		}
		l.stock = append(l.stock, s)
	}
	for i := range 1 + r.Intn(kinds) {
		l.pieces = append(l.pieces, cutting.Piece{ID: string(rune('a' + i)), Length: 300 + r.Int63n(1400), Qty: 1 + r.Int63n(qty)})
	}
	return l
}

// On jobs small enough to try everything, a proven plan costs what the cheapest of all costs, no bound is above it,
// and a job without any plan is refused.
func TestAgainstEveryPlan(t *testing.T) {
	proven, plans := 0, 0
	for seed := range 300 {
		l := small(rand.New(rand.NewSource(int64(seed))), 3, 3, 2, true)
		want := cheapest(l)
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
	}
	t.Logf("%d of %d plans proven", proven, plans)
	if proven < plans {
		t.Errorf("%d of %d plans proven", proven, plans)
	}
}

// shop draws small shop-like lists whose plans are mostly proven.
func shop(t *rapid.T) list {
	return small(rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed"))), 6, 3, 5, false)
}

func proven(t *rapid.T, l list) int64 {
	p := solve(t, l.stock, l.pieces, l.rules)
	if !p.Proven() {
		t.Skip("not proven")
	}
	return p.Cost
}

// What makes a job harder never makes its proven plan cheaper: a piece more, a wider kerf, more trim, a dearer sheet.
func TestHarderIsNeverCheaper(t *testing.T) {
	for name, harder := range map[string]func(*rapid.T, *list){
		"a piece more": func(t *rapid.T, l *list) {
			l.pieces[rapid.IntRange(0, len(l.pieces)-1).Draw(t, "which")].Qty++
		},
		"a new piece": func(t *rapid.T, l *list) {
			l.pieces = append(l.pieces, cutting.Piece{ID: "new", Length: rapid.Int64Range(300, 1700).Draw(t, "length"), Qty: 1})
		},
		"a wider kerf":   func(t *rapid.T, l *list) { l.rules.Kerf += rapid.Int64Range(1, 10).Draw(t, "wider") },
		"more trim":      func(t *rapid.T, l *list) { l.rules.TrimEach += rapid.Int64Range(1, 10).Draw(t, "more") },
		"a dearer board": func(t *rapid.T, l *list) { l.stock[0].Price += rapid.Int64Range(1, 50).Draw(t, "dearer") },
		"a board less":   func(t *rapid.T, l *list) { l.stock = l.stock[:max(1, len(l.stock)-1)] },
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				l := shop(t)
				before := proven(t, l)
				l.stock, l.pieces = append([]cutting.Stock{}, l.stock...), append([]cutting.Piece{}, l.pieces...)
				harder(t, &l)
				var short *cutting.ShortError
				if _, err := cutting.Solve(l.stock, l.pieces, l.rules); errors.As(err, &short) {
					return
				}
				if after := proven(t, l); after < before {
					t.Fatalf("%d before, %d after", before, after)
				}
			})
		})
	}
}

// Whatever the limits are, a plan and a floor stand, and the floor is below what more work proves.
func TestLimitsLeaveAPlan(t *testing.T) {
	for seed := range 40 {
		l := small(rand.New(rand.NewSource(int64(seed))), 12, 4, 9, false)
		full := solve(t, l.stock, l.pieces, l.rules)
		for _, limits := range []cutting.Limits{{}, {Work: 20_000, Pivots: 20, Nodes: 1, Layouts: 5}, {Work: math.MaxInt64 / 4, Pivots: 100_000, Nodes: 3, Layouts: 3}} {
			p, err := cutting.SolveWithin(l.stock, l.pieces, l.rules, limits)
			if err != nil {
				t.Fatal(err)
			}
			if err := errors.Join(cutting.Check(p, l.stock, l.pieces, l.rules), cutting.CheckCertificate(p.Certificate, l.stock, l.pieces, l.rules)); err != nil {
				t.Fatal(err)
			}
			if full.Proven() && (p.Cost < full.Cost || p.Bound > full.Cost) {
				t.Errorf("seed %d: %d..%d, proven %d", seed, p.Bound, p.Cost, full.Cost)
			}
		}
	}
}

// Lengths without a common step: the table is coarse, the plan still holds and the floor stays below it.
func TestLengthsWithoutAStep(t *testing.T) {
	r := cutting.Rules{Kerf: 3_175_001, TrimEach: 25_400_007}
	stock := []cutting.Stock{{"a", 3_657_600_011, 2400, 1, -1, 0}, {"b", 4_876_800_013, 3100, 1, -1, 0}}
	pieces := []cutting.Piece{{"p", 1_203_000_017, 9, false}, {"q", 874_500_019, 12, false}, {"r", 2_311_000_023, 5, false}}
	fine := solve(t, stock, pieces, r)
	if fine.Certificate.Step == 1 {
		t.Errorf("a table over %d cells", stock[1].Length)
	}
	if fine.Cost > cutting.Bound(stock, pieces, r)*13/10 {
		t.Errorf("cost %d, bound %d", fine.Cost, fine.Bound)
	}
}

// The checker sees a certificate that claims more than it shows.
func TestCheckCertificateSeesDamage(t *testing.T) {
	stock := []cutting.Stock{{"s", 3000, 1000, 2, -1, 0}, {"short", 1500, 300, 1, 3, 0}}
	pieces := []cutting.Piece{{"a", 1400, 7, false}, {"b", 500, 9, false}}
	r := cutting.Rules{Kerf: 4, TrimEach: 10}
	for name, damage := range map[string]func(*cutting.Certificate){
		"a higher floor":   func(c *cutting.Certificate) { c.Floor += c.Unit },
		"a value doubled":  func(c *cutting.Certificate) { c.Duals[0].Value *= 2 },
		"a smaller scale":  func(c *cutting.Certificate) { c.Scale /= 2 },
		"a unit too large": func(c *cutting.Certificate) { c.Unit *= 7 },
		"no step":          func(c *cutting.Certificate) { c.Step = 0 },
		"below nothing":    func(c *cutting.Certificate) { c.Duals[0].Value = -1 },
		"a length twice":   func(c *cutting.Certificate) { c.Duals = append(c.Duals[:1:1], c.Duals...) },
	} {
		c := solve(t, stock, pieces, r).Certificate
		damage(&c)
		if cutting.CheckCertificate(c, stock, pieces, r) == nil {
			t.Errorf("%s was not seen", name)
		}
	}
}
