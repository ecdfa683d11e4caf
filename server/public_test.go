package main

import (
	"path/filepath"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// The links that are printed begin with the address that people come by. Where nobody could sign in safely the start
// says so and prints none; an address that cannot be one ends it.
func TestLinksBeginWithTheAddressThatPeopleComeBy(t *testing.T) {
	for _, c := range []struct {
		what  string
		args  []string
		begin string // of the links; empty for none
	}{
		{"this machine alone", nil, "http://127.0.0.1:"},
		{"behind https", []string{"-public", "https://yard.example"}, "https://yard.example/enter/rbd_"},
		{"every address of the machine", []string{"-listen", "0.0.0.0:0"}, ""},
	} {
		s := start(t, append([]string{"-demo", "-database", filepath.Join(t.TempDir(), "demo.db")}, c.args...)...)
		said := s.screen.String()
		links := strings.Count(said, "/enter/rbd_")
		switch {
		case c.begin == "" && (links != 0 || !strings.Contains(said, "nobody can sign in to the pages: beyond this machine that needs https")):
			t.Errorf("%s: the start says\n%s", c.what, said)
		case c.begin != "" && (links != len(auth.Roles()) || strings.Count(said, " "+c.begin) < links || strings.Contains(said, "nobody can sign in")):
			t.Errorf("%s: the start says\n%s", c.what, said)
		}
		s.halt()
	}
	said := &spoken{}
	err := run(t.Context(), []string{"-listen", "127.0.0.1:0", "-public", "http://yard.example", "-database", filepath.Join(t.TempDir(), "yard.db")}, func(string) string { return "" }, said)
	if err == nil || !strings.Contains(err.Error(), "https") {
		t.Errorf("people are said to come by plain http from elsewhere, and the start says %v\n%s", err, said)
	}
}
