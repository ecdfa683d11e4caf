// Package published reads figures of published sources for tests, and for nothing else: it opens files, which no
// package that computes may do.
package published

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// Table is the rows of testdata/published/<source>/<file>, each cell under its column's name; the source's SOURCE.md
// stands beside it and says where the figures are from. A table without rows ends the test. It is read from the
// folder of a package two levels below the root, in which Go runs that package's tests.
func Table(t testing.TB, source, file string) []map[string]string {
	t.Helper()
	f, err := os.Open(filepath.Join("..", "..", "testdata", "published", source, file))
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	}()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil || len(all) < 2 {
		t.Fatalf("%s/%s: %d rows, %v", source, file, len(all), err)
	}
	var out []map[string]string
	for _, cells := range all[1:] {
		row := map[string]string{}
		for i, name := range all[0] {
			row[name] = cells[i]
		}
		out = append(out, row)
	}
	return out
}
