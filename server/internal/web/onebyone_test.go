package web_test

import "testing"

// oneByOne leaves a long test out of a short run: it asks one thing after another, so that a run which looks for what goes
// wrong side by side learns nothing from it.
func oneByOne(t *testing.T) {
	t.Helper()
	if testing.Short() {
		t.Skip("asks one thing after another")
	}
}
