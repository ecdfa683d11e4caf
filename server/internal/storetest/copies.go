package storetest

import (
	"os"
	"path/filepath"
	"sync"
	"testing"

	"ribband/server/internal/store"
)

// Copies hands out one content of a database again and again. Where the database is a file the content is made once and
// copied; on a server it is made anew each time.
type Copies struct {
	once sync.Once
	file []byte
}

// Into puts the content, which fill makes in an empty database, into p.
func (c *Copies) Into(t testing.TB, p Place, fill func(Place)) {
	t.Helper()
	if p.Engine != store.SQLite {
		fill(p)
		return
	}
	c.once.Do(func() {
		first := SQLite(t)
		fill(first)
		whole := filepath.Join(t.TempDir(), "whole.db") // what the write-ahead log still holds comes along
		if _, err := first.Raw(t).ExecContext(t.Context(), "VACUUM INTO ?", whole); err != nil {
			t.Fatal(err)
		}
		var err error
		if c.file, err = os.ReadFile(whole); err != nil {
			t.Fatal(err)
		}
	})
	if len(c.file) == 0 {
		t.Fatal("the content to copy was not made")
	}
	if err := os.WriteFile(p.Address, c.file, 0o600); err != nil {
		t.Fatal(err)
	}
}
