package cutting_test

import (
	"errors"
	"math/rand"
	"os"
	"slices"
	"testing"

	"ribband/takeoff/cutting"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// Hand-worked, mm and cents, no kerf. Three pieces of 1000 from boards of 2000 for 20.00 or of 3000 for 31.00. One of 3000 costs
// 31.00 and leaves nothing; two of 2000 cost 40.00 and leave one of 1000. At 1.00 for each 100 mm from 900 on that is worth 10.00,
// and the net of two boards is 30.00; from 1100 on it is worth nothing.
func TestLeftOversThatAreKept(t *testing.T) {
	stock := []cutting.Stock{{"2000", 2000, 2000, 1, -1, 0}, {"3000", 3000, 3100, 1, -1, 0}}
	pieces := []cutting.Piece{{"a", 1000, 3, false}}
	r := cutting.Rules{Keep: &cutting.Keep{Least: 900, Rate: 90, Per: 90}}
	r.Keep.Rate, r.Keep.Per = 90, 100
	if p := solve(t, stock, pieces, r); p.Cost != 3100 || p.Kept != 0 || !p.Proven() {
		t.Errorf("at 0.90 for 100 mm: cost %d, kept %d, %s", p.Cost, p.Kept, p.Proof)
	}
	r.Keep.Rate = 99
	if p := solve(t, stock, pieces, r); p.Cost != 4000 || p.Kept != 990 || p.Net() != 3010 || p.Bound != 3010 || !p.Proven() {
		t.Errorf("cost %d, kept %d, bound %d, %s", p.Cost, p.Kept, p.Bound, p.Proof)
	}
	r.Keep.Least = 1100
	if p := solve(t, stock, pieces, r); p.Cost != 3100 || p.Kept != 0 || !p.Proven() {
		t.Errorf("cost %d, kept %d, %s", p.Cost, p.Kept, p.Proof)
	}
	var bad *cutting.RequestError
	r.Keep.Least, r.Keep.Rate = 900, 100
	if _, err := cutting.Solve(stock, pieces, r); !errors.As(err, &bad) || bad.Reason != "its strips uncut would be worth as much as the board costs: a rate of at most 99 would do" {
		t.Errorf("a board worth its price again: %v", err)
	}
	for _, k := range []cutting.Keep{{}, {Least: 1}, {Least: 1, Per: 1, Rate: -1}, {Least: 1, Per: 1, Rate: 1 << 62}, {Least: -1, Per: 1}} {
		if _, err := cutting.Solve(stock, pieces, cutting.Rules{Keep: &k}); !errors.As(err, &bad) {
			t.Errorf("%+v: %v", k, err)
		}
	}
}

// keeping draws jobs small enough to try everything, whose left-overs are worth up to nine tenths of their price.
func keeping(seed int64, kinds, boards int, qty int64, all bool) list {
	r := rand.New(rand.NewSource(seed))
	l := small(r, kinds, boards, qty, all)
	l.rules.Keep = &cutting.Keep{Least: 50 + r.Int63n(500), Per: 10 + r.Int63n(90)}
	most := int64(1 << 30)
	for _, s := range l.stock {
		if n := (s.Length - 2*l.rules.TrimEach) / l.rules.Keep.Per; n > 0 {
			most = min(most, (s.Price-1)/s.Strips/n)
		}
	}
	l.rules.Keep.Rate = most * r.Int63n(10) / 10
	return l
}

// leastNet tries every way to fill strips one after another, with every choice of pieces, and what is left of each kept. -1 when
// there is no plan. Lists with least orders are not for it.
func leastNet(l list) int64 {
	worth := func(length int64) int64 {
		if length < l.rules.Keep.Least {
			return 0
		}
		return length / l.rules.Keep.Per * l.rules.Keep.Rate
	}
	type key struct{ left, used string }
	seen := map[string]int64{}
	var next func(left, used []int64) int64
	next = func(left, used []int64) int64 {
		first := slices.IndexFunc(left, func(n int64) bool { return n > 0 })
		if first < 0 {
			net := int64(0)
			for k, s := range l.stock {
				n := (used[k] + s.Strips - 1) / s.Strips
				if s.Avail >= 0 && n > s.Avail {
					return -1
				}
				net += n*s.Price - (n*s.Strips-used[k])*worth(s.Length-2*l.rules.TrimEach)
			}
			return net
		}
		at := key{string(bytesOf(left)), string(bytesOf(used))}
		id := at.left + "|" + at.used
		if v, ok := seen[id]; ok {
			return v
		}
		best := int64(-1)
		for k, s := range l.stock {
			var fill func(i int, room int64, rest []int64)
			fill = func(i int, room int64, rest []int64) {
				if i == len(rest) {
					u := slices.Clone(used)
					u[k]++
					if v := next(rest, u); v >= 0 {
						if v -= worth(max(0, room-l.rules.Kerf)); best < 0 || v < best {
							best = v
						}
					}
					return
				}
				least := int64(0)
				if i == first {
					least = 1
				}
				size := l.pieces[i].Length + l.rules.Kerf
				for n := least; n <= rest[i] && n*size <= room; n++ {
					r := slices.Clone(rest)
					r[i] -= n
					fill(i+1, room-n*size, r)
				}
			}
			fill(first, s.Length-2*l.rules.TrimEach+l.rules.Kerf, left)
		}
		seen[id] = best
		return best
	}
	var left []int64
	for _, p := range l.pieces {
		left = append(left, p.Qty)
	}
	return next(left, make([]int64, len(l.stock)))
}

func bytesOf(n []int64) (out []byte) {
	for _, v := range n {
		out = append(out, byte(v), byte(v>>8))
	}
	return out
}

// On jobs small enough to try everything, the net of a proven plan is the least of all. 300 in CI, else the first 100.
func TestKeptAgainstEveryPlan(t *testing.T) {
	jobs := 100
	if os.Getenv("RIBBAND_CI") == "1" {
		jobs = 300
	}
	proven, plans, keep := 0, 0, 0
	for seed := range jobs {
		l := keeping(int64(seed), 3, 3, 2, seed%2 == 0)
		for i := range l.stock {
			l.stock[i].Least = 0
		}
		want := leastNet(l)
		plan, err := cutting.Solve(l.stock, l.pieces, l.rules)
		var short *cutting.ShortError
		if want < 0 || errors.As(err, &short) {
			if !errors.As(err, &short) || want >= 0 {
				t.Errorf("seed %d: least %d, got %v", seed, want, err)
			}
			continue
		}
		plans++
		plan = solve(t, l.stock, l.pieces, l.rules)
		if plan.Bound > want || plan.Net() < want || plan.Proven() && plan.Net() != want {
			t.Errorf("seed %d: least %d, got %d, bound %d, %s", seed, want, plan.Net(), plan.Bound, plan.Proof)
		}
		if plan.Proven() {
			proven++
		}
		if plan.Kept > 0 {
			keep++
		}
	}
	t.Logf("%d of %d plans proven, %d with something kept", proven, plans, keep)
	if proven < plans || keep < plans/4 {
		t.Errorf("%d of %d plans proven, %d with something kept", proven, plans, keep)
	}
}

// A higher rate never raises the least net, a longer least length never lowers it, and keeping at no rate changes nothing.
func TestKeepingMovesAsItShould(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := keeping(rapid.Int64().Draw(t, "seed"), 5, 3, 5, false)
		net := func(k *cutting.Keep) int64 {
			with := l
			with.rules.Keep = k
			p := solve(t, with.stock, with.pieces, with.rules)
			if !p.Proven() {
				t.Skip("not proven")
			}
			return p.Net()
		}
		k := *l.rules.Keep
		of, without := net(&k), net(nil)
		if of > without {
			t.Fatalf("%d kept, %d without", of, without)
		}
		longer, none := k, k
		longer.Least += rapid.Int64Range(1, 500).Draw(t, "longer")
		if n := net(&longer); n < of {
			t.Fatalf("%d, from a longer length on %d", of, n)
		}
		if none.Rate = 0; net(&none) != without {
			t.Fatalf("%d at no rate, %d without", net(&none), without)
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

// Both at once: pieces that may be scarfed and left-overs that are kept. Scarfing and keeping never make the net higher.
func TestKeptAndScarfedTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := keeping(rapid.Int64().Draw(t, "seed"), 4, 3, 3, false)
		with := list{l.stock, slices.Clone(l.pieces), l.rules}
		with.rules.Scarf = &cutting.Scarf{Price: rapid.Int64Range(0, 40).Draw(t, "price"), Length: 50, Least: 150, Step: 400}
		for i := range with.pieces {
			with.pieces[i].MayScarf = true
		}
		if _, err := cutting.Solve(l.stock, l.pieces, l.rules); err != nil {
			t.Skip("no plan")
		}
		a, b := solve(t, l.stock, l.pieces, l.rules), solve(t, with.stock, with.pieces, with.rules)
		if a.Proven() && b.Proven() && b.Net() > a.Net() {
			t.Fatalf("%d whole, %d scarfed", a.Net(), b.Net())
		}
		if a.Proven() && b.Bound > a.Net() {
			t.Fatalf("floor %d, a plan of %d", b.Bound, a.Net())
		}
	})
}

// Lists of a shop whose left-overs are worth half of the cheapest board's price are proved within the usual limits. In CI all
// 30, else the first 8.
func TestKeptListsAreProved(t *testing.T) {
	n := 8
	if os.Getenv("RIBBAND_CI") == "1" {
		n = 30
	}
	for _, s := range keptLists(n) {
		if p := solve(t, s.list.stock, s.list.pieces, s.list.rules); !p.Proven() {
			t.Errorf("%s: %d..%d by %s", s.name, p.Bound, p.Net(), p.Proof)
		}
	}
}
