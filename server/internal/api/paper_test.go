package api_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// onCI says that every tool has to be there.
const onCI = "RIBBAND_CI"

// onPaper reads what stands on a PDF, as a test of its own, which is skipped where there is no pdftotext.
func onPaper(t *testing.T, pdf []byte, read func(t *testing.T, text string)) {
	t.Helper()
	t.Run("on paper", func(t *testing.T) { read(t, printed(t, pdf)) })
}

// printed is the text of a PDF as pdftotext reads it.
func printed(t testing.TB, pdf []byte) string {
	t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv(onCI) != "" {
			t.Fatal("pdftotext is not here, and " + onCI + " says that it has to be")
		}
		t.Skip("what stands on paper is read back by pdftotext, which is not on this machine")
	}
	path := filepath.Join(t.TempDir(), "estimate.pdf")
	if err := os.WriteFile(path, pdf, 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.CommandContext(t.Context(), tool, "-layout", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// grouped is an amount as it stands on paper, digits in threes.
func grouped(amount string) string {
	whole, cents, found := strings.Cut(amount, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if found {
		return whole + "." + cents
	}
	return whole
}
