package app

import "testing"

// What was used last stays; the rest goes, oldest use first.
func TestRecentKeepsWhatWasUsedLast(t *testing.T) {
	r := newRecent[int](2)
	r.put("a", 1)
	r.put("b", 2)
	if v, ok := r.get("a"); !ok || v != 1 {
		t.Fatalf("a is %d, %v", v, ok)
	}
	r.put("c", 3) // b was used longest ago
	for key, want := range map[string]bool{"a": true, "b": false, "c": true} {
		if _, ok := r.get(key); ok != want {
			t.Errorf("%s is kept: %v, want %v", key, ok, want)
		}
	}
	r.put("a", 4)
	if v, _ := r.get("a"); v != 4 || r.order.Len() != 2 || len(r.at) != 2 {
		t.Errorf("a is %d, %d kept", v, r.order.Len())
	}
}
