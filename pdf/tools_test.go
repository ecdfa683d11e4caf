package pdf_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// needTool skips the test when a program that reads PDF files is not installed.
// Where RIBBAND_CI=1 says that everything must run, it fails instead.
func needTool(t *testing.T, name string) {
	t.Helper()
	if _, err := exec.LookPath(name); err == nil {
		return
	}
	if os.Getenv("RIBBAND_CI") == "1" {
		t.Fatalf("%s is not installed, and RIBBAND_CI=1 asks for every check: install poppler-utils and qpdf", name)
	}
	t.Skipf("%s is not installed; the check that reads the file with it is left out", name)
}

// tool runs a program on a file and returns what it prints.
func tool(t *testing.T, file []byte, name string, args ...string) string {
	t.Helper()
	needTool(t, name)
	path := filepath.Join(t.TempDir(), "estimate.pdf")
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = path
		}
	}
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", name, err, out)
	}
	return string(out)
}
