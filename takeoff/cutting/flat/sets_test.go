package flat_test

import (
	"bufio"
	"fmt"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// set is one list of a published collection, with what is known of its optimum.
type set struct {
	name   string
	list   flat.List
	lb, ub int64
}

// shared reads lists of a folder of $RIBBAND_SHARED/bench/cutting/guillotine. Without the folder the test is left out,
// with RIBBAND_CI it fails.
func shared(t testing.TB, pattern string) []set {
	t.Helper()
	top := os.Getenv("RIBBAND_SHARED")
	if top == "" {
		if os.Getenv("RIBBAND_CI") == "1" {
			t.Fatal("RIBBAND_SHARED names no folder with lists, and RIBBAND_CI=1 asks for every check")
		}
		t.Skip("RIBBAND_SHARED names no folder with lists")
	}
	return sets(t, filepath.Join(top, "bench", "cutting", "guillotine", pattern))
}

func sets(t testing.TB, pattern string) []set {
	t.Helper()
	files, err := filepath.Glob(pattern)
	if err != nil || len(files) == 0 {
		t.Fatalf("no list %s: %v", pattern, err)
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

// readSet reads a list: R width length cost avail, P width length demand, stages says which cuts.
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
		case "stages":
			s.list.Rules.Stages, s.list.Rules.First = int(n[0]), flat.Across
			if strings.Contains(lines.Text(), "first cut either way") {
				s.list.Rules.First = flat.Either
			}
		case "kerf":
			s.list.Rules.Kerf = n[0]
		case "lb":
			s.lb = n[0]
		case "ub":
			s.ub = n[0]
		case "R":
			s.list.Stock = append(s.list.Stock, flat.Stock{ID: fmt.Sprintf("R%02d", len(s.list.Stock)), Width: n[0], Length: n[1], Price: n[2], Avail: n[3]})
		case "P":
			s.list.Pieces = append(s.list.Pieces, flat.Piece{ID: fmt.Sprintf("P%02d", len(s.list.Pieces)), Width: n[0], Length: n[1], Qty: n[2]})
		}
	}
	return s, lines.Err()
}
