package cutting_test

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"ribband/takeoff/cutting"
)

// set is one list of a published or made collection, with what is known of its optimum.
type set struct {
	name   string
	list   list
	lb, ub int64
}

// sets reads the lists of a folder of $RIBBAND_SHARED/bench/cutting. They are measured with and not copied: some of
// them may not be handed on. Without the folder the test is left out, with RIBBAND_CI it fails.
func sets(t testing.TB, pattern string) []set {
	t.Helper()
	top := os.Getenv("RIBBAND_SHARED")
	if top == "" {
		if os.Getenv("RIBBAND_CI") == "1" {
			t.Fatal("RIBBAND_SHARED names no folder with lists, and RIBBAND_CI=1 asks for every check")
		}
		t.Skip("RIBBAND_SHARED names no folder with lists")
	}
	files, err := filepath.Glob(filepath.Join(top, "bench", "cutting", pattern))
	if err != nil || len(files) == 0 {
		t.Fatalf("no list %s under %s: %v", pattern, top, err)
	}
	sort.Strings(files)
	var out []set
	for _, f := range files {
		s, err := readSet(f)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, s)
	}
	return out
}

func readSet(path string) (set, error) {
	text, err := os.ReadFile(path)
	if err != nil {
		return set{}, err
	}
	s := set{name: strings.TrimSuffix(filepath.Base(path), ".txt")}
	lines := bufio.NewScanner(strings.NewReader(string(text)))
	for lines.Scan() {
		f := strings.Fields(lines.Text())
		if len(f) < 2 {
			continue
		}
		n := make([]int64, len(f)-1)
		for i := range n {
			fmt.Sscan(f[i+1], &n[i])
		}
		switch f[0] {
		case "kerf":
			s.list.rules.Kerf = n[0]
		case "trim":
			s.list.rules.TrimEach = n[0]
		case "lb":
			s.lb = n[0]
		case "ub":
			s.ub = n[0]
		case "S":
			s.list.stock = append(s.list.stock, cutting.Stock{ID: fmt.Sprintf("S%03d", len(s.list.stock)), Length: n[0], Price: n[1], Strips: 1, Avail: n[2]})
		case "I":
			s.list.pieces = append(s.list.pieces, cutting.Piece{ID: fmt.Sprintf("I%03d", len(s.list.pieces)), Length: n[0], Qty: n[1]})
		}
	}
	return s, lines.Err()
}

// The shop, rack and user lists are proved, at the optimum that is known of them.
func TestShopListsAreProved(t *testing.T) {
	for _, s := range sets(t, "multi-open/[rsu]*.txt") {
		p := solve(t, s.list.stock, s.list.pieces, s.list.rules)
		if !p.Proven() || p.Cost != s.ub {
			t.Errorf("%s: %d..%d by %s, known %d", s.name, p.Bound, p.Cost, p.Proof, s.ub)
		}
	}
}

// Lists of a shop as they are drawn for the benchmarks are proved, with the certificate's floor below or at the cost. In
// CI all 200, else the first 20.
func TestMadeListsAreProved(t *testing.T) {
	n := 20
	if os.Getenv("RIBBAND_CI") == "1" {
		n = 200
	}
	for _, s := range made(n) {
		if p := solve(t, s.list.stock, s.list.pieces, s.list.rules); !p.Proven() {
			t.Errorf("%s: %d..%d by %s", s.name, p.Bound, p.Cost, p.Proof)
		}
	}
}
