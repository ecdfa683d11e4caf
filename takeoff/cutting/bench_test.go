package cutting_test

import (
	"fmt"
	"math/rand"
	"os"
	"slices"
	"strings"
	"testing"
	"time"

	"ribband/takeoff/cutting"
)

// measure solves lists once each and reports the share proved at the known optimum, times, and first-fit decreasing's
// cost as a ratio.
func measure(b *testing.B, lists []set, limits cutting.Limits) {
	for range b.N {
		var took []time.Duration
		proven, wrong := 0, 0
		var dearer []float64
		for _, s := range lists {
			start := time.Now()
			p, err := cutting.SolveWithin(s.list.stock, s.list.pieces, s.list.rules, limits)
			took = append(took, time.Since(start))
			if err != nil {
				b.Fatal(err)
			}
			if err := cutting.Check(p, s.list.stock, s.list.pieces, s.list.rules); err != nil {
				b.Fatal(err)
			}
			if err := cutting.CheckCertificate(p.Certificate, s.list.stock, s.list.pieces, s.list.rules); err != nil {
				b.Fatal(err)
			}
			if p.Proven() {
				proven++
			} else {
				b.Logf("%s: %d..%d, known %d..%d, %v", s.name, p.Bound, p.Cost, s.lb, s.ub, took[len(took)-1].Round(time.Millisecond))
			}
			if s.ub > 0 && (p.Bound > s.ub || p.Cost < s.lb) {
				wrong++
			}
			// without any work allowed the plan is first-fit decreasing's
			f, err := cutting.SolveWithin(s.list.stock, s.list.pieces, s.list.rules, cutting.Limits{})
			if err != nil {
				b.Fatal(err)
			}
			dearer = append(dearer, float64(f.Cost)/float64(p.Cost))
		}
		slices.Sort(took)
		ms := func(d time.Duration) float64 { return d.Seconds() * 1000 }
		b.ReportMetric(float64(proven)/float64(len(lists)), "proved")
		b.ReportMetric(float64(wrong), "false")
		b.ReportMetric(ms(took[len(took)/2]), "ms-median")
		b.ReportMetric(ms(took[len(took)*95/100]), "ms-p95")
		b.ReportMetric(ms(took[len(took)-1]), "ms-max")
		slices.Sort(dearer)
		b.ReportMetric(dearer[len(dearer)/2], "ffd/here-median")
		b.ReportMetric(dearer[0], "ffd/here-least")
		b.ReportMetric(dearer[len(dearer)-1], "ffd/here-most")
	}
}

// ample is about ten seconds of work on a machine of 2026.
var ample = cutting.Limits{Work: 8_000_000_000, Pivots: 300_000, Nodes: 100_000, Layouts: 100_000}

func BenchmarkShopLists(b *testing.B) { measure(b, sets(b, "multi-open/[rsu]*.txt"), cutting.Usual) }
func BenchmarkMadeLists(b *testing.B) { measure(b, made(30), cutting.Usual) }

// The long ones take minutes and run when RIBBAND_LONG is set.
func BenchmarkLongCertLists(b *testing.B) {
	long(b)
	measure(b, sets(b, "multi-open/cert*.txt"), ample)
}
func BenchmarkLongOpenLists(b *testing.B) { long(b); measure(b, sets(b, "open/*.txt"), ample) }
func BenchmarkLongMadeLists(b *testing.B) { long(b); measure(b, made(200), cutting.Usual) }

func long(b *testing.B) {
	b.Helper()
	if os.Getenv("RIBBAND_LONG") == "" {
		b.Skip("takes minutes: set RIBBAND_LONG")
	}
}

// made draws lists of a shop: 6 to 50 lengths of 300 to 3600 mm, 1 to 24 of each; 3 to 10 boards of 1800 to 6000 mm at
// prices about their length's; kerf 3 to 5, trim 10 to 40; in every third list 1 to 6 shorts of the rack at a tenth.
func made(n int) []set {
	var out []set
	for seed := 1; seed <= n; seed++ {
		r := rand.New(rand.NewSource(int64(seed)))
		for {
			l := list{rules: cutting.Rules{Kerf: 3 + r.Int63n(3), TrimEach: 10 + r.Int63n(31)}}
			rate, longest := 0.4+r.Float64(), int64(0)
			for i, have := 3+r.Intn(8), map[int64]bool{}; len(have) < i; {
				length := 1800 + 100*r.Int63n(43)
				if have[length] {
					continue
				}
				have[length] = true
				longest = max(longest, length)
				l.stock = append(l.stock, cutting.Stock{ID: fmt.Sprint("S", length), Length: length, Price: int64(float64(length) * rate * (0.9 + 0.35*r.Float64())), Strips: 1, Avail: -1})
			}
			if seed%3 == 0 {
				for i := range 1 + r.Intn(6) {
					length := 600 + r.Int63n(1801)
					l.stock = append(l.stock, cutting.Stock{ID: fmt.Sprint("R", i), Length: length, Price: max(1, int64(float64(length)*rate/10)), Strips: 1, Avail: 1})
				}
			}
			most := int64(0)
			for i, have := 6+r.Intn(45), map[int64]bool{}; len(have) < i; {
				length := 300 + r.Int63n(3301)
				if !have[length] {
					have[length], most = true, max(most, length)
					l.pieces = append(l.pieces, cutting.Piece{ID: fmt.Sprint("P", length), Length: length, Qty: 1 + r.Int63n(24)})
				}
			}
			if most <= longest-2*l.rules.TrimEach {
				out = append(out, set{name: fmt.Sprint("made ", seed), list: l})
				break
			}
		}
	}
	return out
}

// arcs writes a list as the plain arc-flow model: one flow along the room for all boards, leaving at each board's end.
func arcs(l list) string {
	room, most := make([]int64, len(l.stock)), int64(0)
	for k, s := range l.stock {
		room[k] = s.Length - 2*l.rules.TrimEach + l.rules.Kerf
		most = max(most, room[k])
	}
	reached := make([]bool, most+1)
	reached[0] = true
	in, out := map[int64][]string{}, map[int64][]string{}
	cover := make([][]string, len(l.pieces))
	var ints []string
	arc := func(from, to int64, name string) {
		out[from], in[to] = append(out[from], name), append(in[to], name)
		ints = append(ints, name)
	}
	order := make([]int, len(l.pieces))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return int(l.pieces[b].Length - l.pieces[a].Length) })
	for _, i := range order {
		size := l.pieces[i].Length + l.rules.Kerf
		for x := int64(0); x+size <= most; x++ {
			if reached[x] {
				reached[x+size] = true
				name := fmt.Sprintf("a%d_%d", i, x)
				arc(x, x+size, name)
				cover[i] = append(cover[i], name)
			}
		}
	}
	var stops []int64
	for x, ok := range reached {
		if ok || slices.Contains(room, int64(x)) {
			stops = append(stops, int64(x))
		}
	}
	for i := 1; i < len(stops)-1; i++ {
		arc(stops[i], stops[i+1], fmt.Sprintf("w%d", stops[i]))
	}
	var text strings.Builder
	text.WriteString("min\n obj: ")
	for k, s := range l.stock {
		name := fmt.Sprintf("n%d", k)
		ints = append(ints, name)
		out[room[k]] = append(out[room[k]], name)
		fmt.Fprintf(&text, "+ %d %s\n ", s.Price, name)
	}
	text.WriteString("\nSubject To\n")
	for _, x := range stops[1:] {
		fmt.Fprintf(&text, " f%d: %s - %s = 0\n", x, strings.Join(in[x], "\n + "), strings.Join(out[x], "\n - "))
	}
	for i, p := range l.pieces {
		fmt.Fprintf(&text, " c%d: %s >= %d\n", i, strings.Join(cover[i], "\n + "), p.Qty)
	}
	text.WriteString("Bounds\n")
	for k, s := range l.stock {
		if s.Avail >= 0 {
			fmt.Fprintf(&text, " n%d <= %d\n", k, s.Avail)
		}
	}
	fmt.Fprintf(&text, "Generals\n %s\nEnd\n", strings.Join(ints, "\n "))
	return text.String()
}

// BenchmarkLongBesideCBC solves shop lists here and with cbc on the arc-flow model in one run. cbc has ten
// seconds of processor time for each, so that the ratios of those that it does not solve are too small.
func BenchmarkLongBesideCBC(b *testing.B) {
	long(b)
	path := cbc(b)
	lists := sets(b, "multi-open/[rsu]*.txt")
	for range b.N {
		var ratio []float64
		for _, s := range lists {
			start := time.Now()
			p, err := cutting.Solve(s.list.stock, s.list.pieces, s.list.rules)
			ours := time.Since(start)
			if err != nil {
				b.Fatal(err)
			}
			lp := arcs(s.list)
			start = time.Now()
			got := ask(b, path, lp, 10)
			theirs := time.Since(start)
			ratio = append(ratio, theirs.Seconds()/ours.Seconds())
			b.Logf("%s: here %v, cbc %v (%d, here %d)", s.name, ours.Round(time.Millisecond), theirs.Round(time.Millisecond), got, p.Cost)
			if got >= 0 && p.Proven() && got != p.Cost {
				b.Errorf("%s: cbc %d, here %d", s.name, got, p.Cost)
			}
		}
		slices.Sort(ratio)
		b.ReportMetric(ratio[len(ratio)/2], "cbc/here-median")
		b.ReportMetric(ratio[0], "cbc/here-worst")
	}
}

// planked draws lists of planking: 4 to 14 kinds of plank of 4 to 8 m, most of them longer than the boards of 3 to 6 m, all of
// which may be scarfed, and a few short pieces that may not; a joint takes 12 times 22 to 32 mm and costs an hour or two.
func planked(n int) []set {
	var out []set
	for seed := 1; seed <= n; seed++ {
		r := rand.New(rand.NewSource(int64(seed)))
		l := list{rules: cutting.Rules{Kerf: 4, TrimEach: 25}}
		for i := range 2 + r.Int63n(4) {
			length := 3000 + 300*r.Int63n(11)
			l.stock = append(l.stock, cutting.Stock{ID: fmt.Sprint("S", i), Length: length, Price: length*(9+r.Int63n(4))/10 + i, Strips: 1 + r.Int63n(2), Avail: -1})
		}
		l.stock = append(l.stock, cutting.Stock{ID: "S", Length: 4800, Price: 5600, Strips: 1, Avail: -1})
		joint := 12 * (22 + r.Int63n(11))
		l.rules.Scarf = &cutting.Scarf{Price: 3000 + 100*r.Int63n(50), Length: joint, Least: 1000 + joint, Step: 200}
		for i := range 4 + r.Intn(11) {
			l.pieces = append(l.pieces, cutting.Piece{ID: fmt.Sprint("P", i), Length: 4000 + 10*r.Int63n(401), Qty: 2, MayScarf: true})
		}
		for i := range 1 + r.Intn(4) {
			l.pieces = append(l.pieces, cutting.Piece{ID: fmt.Sprint("Q", i), Length: 400 + r.Int63n(1600), Qty: 1 + r.Int63n(8)})
		}
		out = append(out, set{name: fmt.Sprint("planked ", seed), list: l})
	}
	return out
}

func BenchmarkPlankedLists(b *testing.B) { measure(b, planked(20), cutting.Usual) }

// keptLists are the made lists with left-overs from 600 mm on worth half of the cheapest board's price for their length.
func keptLists(n int) []set {
	out := made(n)
	for i := range out {
		l := &out[i].list
		rate := int64(1 << 40)
		for _, s := range l.stock {
			rate = min(rate, 100*s.Price/s.Length/2)
		}
		l.rules.Keep = &cutting.Keep{Least: 600, Rate: rate, Per: 100}
	}
	return out
}

func BenchmarkKeptLists(b *testing.B) { measure(b, keptLists(30), cutting.Usual) }
