package auth_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/server/internal/auth"
)

// Nothing that is shaped like a token is left in a text for the log, in whatever it stands and however its prefix is
// written; ids and paths stay.
func TestHide(t *testing.T) {
	secret, err := auth.NewSecret()
	if err != nil {
		t.Fatal(err)
	}
	token := secret.Reveal()
	bare := strings.TrimPrefix(token, auth.Prefix)
	for _, text := range []string{
		"/api/v1/" + token, "/api/v1/tokens/" + token + "/more", token[:20], "RBD_" + bare, "/%2572bd_" + bare, bare, "no job \"" + token + "\"",
	} {
		got := auth.Hide(text)
		if strings.Contains(got, bare[:12]) || !strings.Contains(got, "(hidden)") {
			t.Errorf("%q is logged as %q", text, got)
		}
	}
	for _, text := range []string{"/", "/api/v1/jobs/0198c0de-7a52-7d2b-9c3f-2f1e4a5b6c7d/options", "the database does not answer"} {
		if got := auth.Hide(text); got != text {
			t.Errorf("%q is logged as %q", text, got)
		}
	}
	if got := auth.HideCause(errors.New("broken: " + token)); strings.Contains(got, bare[:12]) {
		t.Errorf("a panic is logged as %q", got)
	}
	if got := auth.HideCause(7); got != "7" {
		t.Errorf("a panic with a number is logged as %q", got)
	}
}
