// Package heard collects for tests what a program or its log says while it says it. Only tests import it.
package heard

import (
	"bytes"
	"sync"
)

// Text is what was said so far. The zero Text is silence; it may be written and read at once.
type Text struct {
	mu   sync.Mutex
	said bytes.Buffer
}

// Write hears some more.
func (t *Text) Write(p []byte) (int, error) {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.said.Write(p)
}

// String is all of it.
func (t *Text) String() string {
	t.mu.Lock()
	defer t.mu.Unlock()
	return t.said.String()
}
