package cutting_test

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"ribband/takeoff/cutting"
)

// cbc is the general solver of Debian's package coinor-cbc. Without it the test is left out, with RIBBAND_CI it fails.
func cbc(t testing.TB) string {
	t.Helper()
	path, err := exec.LookPath("cbc")
	if err != nil {
		if os.Getenv("RIBBAND_CI") == "1" {
			t.Fatal("cbc is not installed, and RIBBAND_CI=1 asks for every check: install coinor-cbc")
		}
		t.Skip("cbc is not installed")
	}
	return path
}

// join adds the parts that pieces may be made of, as pieces without an id, and gives for each piece and part the numbers of joints
// that give or take it.
func (l *list) join(cost, ints *[]string) map[int][]string {
	out := map[int][]string{}
	if l.rules.Scarf == nil {
		return out
	}
	at := map[int64]int{}
	whole := l.pieces
	l.pieces = slices.Clone(whole)
	for i, p := range whole {
		for w, ab := range halves(*l, p) {
			z := fmt.Sprintf("z%d_%d", i, w)
			*ints, *cost = append(*ints, z), append(*cost, fmt.Sprintf("%d %s", l.rules.Scarf.Price, z))
			out[i] = append(out[i], z)
			for _, a := range ab {
				j, ok := at[a]
				if !ok {
					j = len(l.pieces)
					at[a] = j
					l.pieces = append(l.pieces, cutting.Piece{Length: a})
				}
				l.pieces[j].Qty += p.Qty
				if ab[0] == ab[1] {
					out[j] = append(out[j], "-2 "+z)
					l.pieces[j].Qty += p.Qty
					break
				}
				out[j] = append(out[j], "-1 "+z)
			}
		}
	}
	return out
}

// model writes a job as every layout of every board, in the LP format: n boards, x strips, b whether any are bought.
func model(l list) string {
	var rows, bounds, ints []string
	var cost []string
	joined := l.join(&cost, &ints)
	cover := make([][]string, len(l.pieces))
	for k, s := range l.stock {
		cost = append(cost, fmt.Sprintf("%d n%d", s.Price, k))
		ints = append(ints, fmt.Sprintf("n%d b%d", k, k))
		strips, count := []string{}, 0
		var fill func(i int, room int64, have []int64)
		fill = func(i int, room int64, have []int64) {
			if i < len(l.pieces) {
				size := l.pieces[i].Length + l.rules.Kerf
				for n := int64(0); n <= l.pieces[i].Qty && n*size <= room; n++ {
					fill(i+1, room-n*size, append(have[:len(have):len(have)], n))
				}
				return
			}
			for i, n := range have {
				if n < l.pieces[i].Qty && l.pieces[i].Length+l.rules.Kerf <= room {
					return // a piece more would go on
				}
			}
			x := fmt.Sprintf("x%d_%d", k, count)
			count++
			for i, n := range have {
				if n > 0 {
					cover[i] = append(cover[i], fmt.Sprintf("%d %s", n, x))
				}
			}
			strips, ints = append(strips, x), append(ints, x)
		}
		if room := s.Length - 2*l.rules.TrimEach + l.rules.Kerf; room > 0 {
			fill(0, room, nil)
		}
		if len(strips) > 0 {
			rows = append(rows, fmt.Sprintf("s%d: %s - %d n%d <= 0", k, strings.Join(strips, " + "), s.Strips, k))
		}
		most := int64(1000)
		if s.Avail >= 0 {
			most = s.Avail
		}
		rows = append(rows, fmt.Sprintf("m%d: n%d - %d b%d <= 0", k, k, most, k), fmt.Sprintf("l%d: n%d - %d b%d >= 0", k, k, s.Least, k))
		bounds = append(bounds, fmt.Sprintf("b%d <= 1", k))
	}
	for i, p := range l.pieces {
		with, need := joined[i], p.Qty
		if len(cover[i])+len(with) == 0 {
			return ""
		}
		if p.ID == "" { // a part is only wanted for joints
			need = 0
		}
		text := strings.Join(append(cover[i], with...), " + ")
		rows = append(rows, fmt.Sprintf("c%d: %s >= %d", i, strings.ReplaceAll(text, "+ -", "- "), need))
	}
	return "min\n obj: " + strings.Join(cost, " + ") + "\nSubject To\n " + strings.Join(rows, "\n ") +
		"\nBounds\n " + strings.Join(bounds, "\n ") + "\nGenerals\n " + strings.Join(ints, "\n ") + "\nEnd\n"
}

// asks gives what cbc finds, -1 when it finds that there is no plan.
func ask(t testing.TB, path, lp string, seconds int) int64 {
	t.Helper()
	dir := t.TempDir()
	file, out := filepath.Join(dir, "job.lp"), filepath.Join(dir, "out")
	if err := os.WriteFile(file, []byte(lp), 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Duration(seconds+30)*time.Second)
	defer cancel()
	said, err := exec.CommandContext(ctx, path, file, "sec", fmt.Sprint(seconds), "ratio", "0", "allow", "0", "solve", "solution", out).CombinedOutput()
	if ctx.Err() != nil {
		return -2
	}
	if err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	text, err := os.ReadFile(out)
	if err != nil {
		t.Fatalf("%v: %s", err, said)
	}
	line, _, _ := strings.Cut(string(text), "\n")
	if strings.Contains(line, "nfeasible") {
		return -1
	}
	_, number, ok := strings.Cut(line, "objective value")
	value := 0.0
	if _, err := fmt.Sscan(number, &value); !ok || err != nil || !strings.HasPrefix(line, "Optimal") {
		return -2 // it ran out of time
	}
	return int64(math.Round(value))
}

// 500 random small jobs, with limits, strips and least orders in every other one: no proof is false, no plan is missed.
// Outside CI the first 40.
func TestAgainstCBC(t *testing.T) {
	path := cbc(t)
	jobs := 40
	if os.Getenv("RIBBAND_CI") == "1" {
		jobs = 500
	}
	proven, plans := 0, 0
	for seed := range jobs {
		l := small(rand.New(rand.NewSource(int64(10_000+seed))), 6, 4, 5, seed%2 == 0)
		want := int64(-1)
		if lp := model(l); lp != "" {
			want = ask(t, path, lp, 20)
		}
		if want == -2 {
			continue
		}
		_, err := cutting.Solve(l.stock, l.pieces, l.rules)
		var short *cutting.ShortError
		if errors.As(err, &short) || want < 0 {
			if !errors.As(err, &short) || want >= 0 {
				t.Errorf("seed %d: cbc %d, got %v", seed, want, err)
			}
			continue
		}
		plans++
		plan := solve(t, l.stock, l.pieces, l.rules)
		if plan.Proven() {
			proven++
		}
		if plan.Bound > want || plan.Cost < want || plan.Proven() && plan.Cost != want {
			t.Errorf("seed %d: cbc %d, got %d, bound %d, %s", seed, want, plan.Cost, plan.Bound, plan.Proof)
		}
	}
	t.Logf("%d jobs, %d with a plan, %d proven", jobs, plans, proven)
	if proven < plans {
		t.Errorf("%d of %d plans not proven", plans-proven, plans)
	}
}
