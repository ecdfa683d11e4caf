package main

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"ribband/server/internal/heard"
)

// spoken is what the program says, while it says it.
type spoken struct{ heard.Text }

// await is the first match's group, as soon as it is said.
func (s *spoken) await(t *testing.T, pattern string) string {
	t.Helper()
	wanted := regexp.MustCompile(pattern)
	for range 600 {
		if m := wanted.FindStringSubmatch(s.String()); m != nil {
			return m[1]
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("the server never said %s; it said:\n%s", pattern, s.String())
	return ""
}

// demoServer runs the whole program as -demo does, on a port and a database of its own.
func demoServer(t *testing.T) (address string, said *spoken) {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	said = &spoken{}
	ended := make(chan error, 1)
	args := []string{"-demo", "-listen", "127.0.0.1:0", "-database", filepath.Join(t.TempDir(), "demo.db")}
	go func() { ended <- run(ctx, args, func(string) string { return "" }, said) }()
	t.Cleanup(func() {
		stop()
		if err := <-ended; err != nil {
			t.Errorf("the server ended with %v", err)
		}
	})
	return said.await(t, `listening on (\S+)`), said
}

// Every example of the README runs as it stands there, in its order, in one shell.
func TestTheReadmesExamplesRun(t *testing.T) {
	for _, tool := range []string{"bash", "curl"} {
		if _, err := exec.LookPath(tool); err != nil {
			if os.Getenv("RIBBAND_CI") != "" {
				t.Fatalf("%s is needed here: %v", tool, err)
			}
			t.Skipf("the README's examples need %s, which is not on this machine", tool)
		}
	}
	readme, err := os.ReadFile("../README.md")
	if err != nil {
		t.Fatal(err)
	}
	var script strings.Builder
	blocks := regexp.MustCompile("(?s)```sh\n(.*?)```").FindAllSubmatch(readme, -1)
	for _, b := range blocks {
		script.Write(b[1])
	}
	if len(blocks) < 6 {
		t.Fatalf("the README has %d examples; the walk has more", len(blocks))
	}
	address, said := demoServer(t)
	// The examples write their PDFs where they stand, so they stand in a copy of what they read.
	folder := t.TempDir()
	if err := os.CopyFS(filepath.Join(folder, "seed", "data"), os.DirFS("../seed/data")); err != nil {
		t.Fatal(err)
	}
	shell := exec.Command("bash", "-eu", "-o", "pipefail")
	shell.Dir = folder
	shell.Env = append(os.Environ(), "RIBBAND="+address, "TOKEN="+said.await(t, `lead\s+(rbd_\S+)`))
	shell.Stdin = strings.NewReader(script.String())
	out, err := shell.CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	for _, want := range []string{
		`"girth_mm":`, // the measures
		"inches, in the middle, run from 0 to 11", // the cell that cannot be right
		`"cell":"sheer_height","text":"34"`,       // the cell of a pasted table that cannot be right
		`"id":"frame/12/port/laminates","value":"14"`,
		`"bound":{"amount":`,
		`"status":"issued"`,
		`"option_name":"Ten pairs amidships"`, // what was accepted
		`"confirmation":{"entered":15,`,
		"\n\"total\",,,", // the last row of the reconciliation
		`"reason":"unit_price"`,
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("the examples do not show %s; they show\n%s", want, out)
		}
	}
	for _, name := range []string{"draft.pdf", "estimate.pdf"} {
		b, err := os.ReadFile(filepath.Join(folder, name))
		if err != nil || !bytes.HasPrefix(b, []byte("%PDF-")) {
			t.Errorf("%s is not a PDF: %v", name, err)
		}
		// kept where somebody is to look at it
		if out := os.Getenv("RIBBAND_OUT"); out != "" {
			if err := os.WriteFile(filepath.Join(out, name), b, 0o644); err != nil {
				t.Error(err)
			}
		}
	}
}
