package main

import (
	"bytes"
	"context"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// started is a program that listens.
type started struct {
	t       *testing.T
	screen  *spoken
	stop    context.CancelFunc
	ended   chan error
	address string
}

// patience is how long a start may take on a loaded machine.
const patience = time.Minute

// start runs the program as a user does, on a free port, until it listens.
func start(t *testing.T, args ...string) *started {
	t.Helper()
	ctx, stop := context.WithCancel(context.Background())
	s := &started{t: t, screen: &spoken{}, stop: stop, ended: make(chan error, 1)}
	go func() {
		s.ended <- run(ctx, append([]string{"-listen", "127.0.0.1:0"}, args...), func(string) string { return "" }, s.screen)
	}()
	t.Cleanup(func() { s.halt() })
	listening := regexp.MustCompile(`listening on (http://\S+)`)
	for end := time.Now().Add(patience); time.Now().Before(end); time.Sleep(10 * time.Millisecond) {
		if found := listening.FindStringSubmatch(s.screen.String()); found != nil {
			s.address = found[1]
			return s
		}
		select {
		case err := <-s.ended:
			s.ended <- err
			t.Fatalf("the program ended: %v\n%s", err, s.screen)
		default:
		}
	}
	t.Fatalf("the program does not listen:\n%s", s.screen)
	return nil
}

// halt stops the program as Ctrl-C does and waits for its end.
func (s *started) halt() {
	s.t.Helper()
	s.stop()
	err := <-s.ended
	s.ended <- nil
	if err != nil {
		s.t.Errorf("stopping: %v", err)
	}
}

// ask sends a GET with a token and returns status and body.
func (s *started) ask(path, token string) (int, []byte) {
	s.t.Helper()
	request, err := http.NewRequestWithContext(s.t.Context(), http.MethodGet, s.address+path, nil)
	if err != nil {
		s.t.Fatal(err)
	}
	request.Header.Set("Authorization", "Bearer "+token)
	response, err := http.DefaultClient.Do(request)
	if err != nil {
		s.t.Fatal(err)
	}
	defer response.Body.Close()
	body, err := io.ReadAll(response.Body)
	if err != nil {
		s.t.Fatal(err)
	}
	return response.StatusCode, body
}

// token is the token that was printed for a role.
func (s *started) token(role string) string {
	s.t.Helper()
	found := regexp.MustCompile(`(?m)^  ` + role + `\s+(rbd_\S+)$`).FindStringSubmatch(s.screen.String())
	if found == nil {
		s.t.Fatalf("no token for %s:\n%s", role, s.screen)
	}
	return found[1]
}

// Outside the pages everything answers machines in their own form, the running program as every part of it.
func TestStrayAddressesAnswerMachines(t *testing.T) {
	s := start(t, "-database", filepath.Join(t.TempDir(), "yard.db"))
	for _, path := range []string{"/nope", "/openapi.json", "/api", "//api/v1/jobs", "/jobs/x"} {
		status, body := s.ask(path, "")
		var p struct{ Type string }
		if err := json.Unmarshal(body, &p); err != nil || status != 404 || p.Type != "urn:ribband:problem:not-found" {
			t.Errorf("%s answers %d (%v): %.200s", path, status, err, body)
		}
	}
}

// A second start of the demo finds its data again, and its new tokens replace the old.
func TestTheDemoStartsAndStartsAgain(t *testing.T) {
	database := filepath.Join(t.TempDir(), "demo.db")
	first := start(t, "-demo", "-database", database)
	lead := first.token("lead")
	status, jobs := first.ask("/api/v1/jobs", lead)
	if status != 200 {
		t.Fatalf("the lead's token gets %d: %s", status, jobs)
	}
	for _, role := range []string{"estimator", "accountant", "owner"} {
		first.token(role)
	}
	first.tryThem()
	first.halt()

	second := start(t, "-demo", "-database", database)
	if status, _ := second.ask("/api/v1/jobs", lead); status != 401 {
		t.Errorf("the first start's token gets %d", status)
	}
	if status, again := second.ask("/api/v1/jobs", second.token("lead")); status != 200 || !bytes.Equal(jobs, again) {
		t.Errorf("status %d, jobs\n%s\nwere\n%s", status, again, jobs)
	}
}

// tryThem does what the printed lines do.
func (s *started) tryThem() {
	s.t.Helper()
	lines := regexp.MustCompile(`curl .*Bearer (\S+)' '`+regexp.QuoteMeta(s.address)+`([^']+)'`).FindAllStringSubmatch(s.screen.String(), -1)
	if len(lines) != 4 {
		s.t.Fatalf("%d lines to try, want 4:\n%s", len(lines), s.screen)
	}
	for _, l := range lines {
		if status, body := s.ask(l[2], l[1]); status != 200 {
			s.t.Errorf("%s gets %d: %.300s", l[2], status, body)
		}
	}
}

// Without -demo an empty database gets one yard and shows one token, once.
func TestAnEmptyDatabaseGetsAYardAndOneToken(t *testing.T) {
	database := filepath.Join(t.TempDir(), "yard.db")
	printed := regexp.MustCompile(`rbd_\S+`)
	first := start(t, "-database", database)
	tokens := printed.FindAllString(first.screen.String(), -1)
	slices.Sort(tokens)
	if tokens = slices.Compact(tokens); len(tokens) != 1 { // a link holds it too
		t.Fatalf("%d tokens are printed:\n%s", len(tokens), first.screen)
	}
	status, body := first.ask("/api/v1/rules", tokens[0])
	var rules struct{ Note string }
	if err := json.Unmarshal(body, &rules); err != nil || status != 200 || !strings.Contains(strings.ToLower(rules.Note), "invented") {
		t.Errorf("status %d (%v), the rules say %q", status, err, rules.Note)
	}
	first.halt()
	second := start(t, "-database", database)
	if again := printed.FindAllString(second.screen.String(), -1); len(again) > 0 {
		t.Errorf("the second start prints %d tokens", len(again))
	}
	if status, _ := second.ask("/api/v1/jobs", tokens[0]); status != 200 {
		t.Errorf("the first token gets %d at the second start", status)
	}
	second.halt()

	refusal(t, "a yard that is not the demo's", []string{"-demo", "-listen", "127.0.0.1:0", "-database", database}, "Your yard", "-database")
}

// refusal runs the program, which has to end with an error that says all of the words.
func refusal(t *testing.T, name string, args []string, words ...string) {
	t.Helper()
	t.Run(name, func(t *testing.T) {
		ctx, cancel := context.WithTimeout(t.Context(), patience)
		defer cancel()
		var out spoken
		err := run(ctx, args, func(string) string { return "" }, &out)
		if err == nil {
			t.Fatalf("it runs:\n%s", &out)
		}
		for _, word := range words {
			if !strings.Contains(err.Error()+out.String(), word) {
				t.Errorf("%q does not say %q", err, word)
			}
		}
	})
}

// What cannot work is said in plain words, with what to do.
func TestAStartThatCannotWorkSaysWhy(t *testing.T) {
	busy, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer busy.Close()
	folder := t.TempDir()
	fresh := filepath.Join(folder, "fresh.db")
	letter := filepath.Join(folder, "letter.txt")
	if err := os.WriteFile(letter, []byte("Dear yard, this is no database."), 0o600); err != nil {
		t.Fatal(err)
	}
	free := []string{"-listen", "127.0.0.1:0", "-database"}
	refusal(t, "busy port", []string{"-listen", busy.Addr().String(), "-database", fresh}, busy.Addr().String(), "another program", "-listen")
	if _, err := os.Stat(fresh); err == nil {
		t.Error("a database was made before the port was found busy")
	}
	refusal(t, "no such folder", append(free, filepath.Join(folder, "nowhere", "ribband.db")), "nowhere", "-database")
	refusal(t, "a folder", append(free, folder), folder)
	refusal(t, "an unwritable place", append(free, filepath.Join(folder, strings.Repeat("x", 300))), "cannot be written", "-database")
	refusal(t, "a file that is no database", append(free, letter), letter, "not a database")
	refusal(t, "an unknown database", append(free, "mysql://somewhere/x"), "mysql", "postgres://")
	refusal(t, "an unknown setting", []string{"-colour", "red"}, "colour")
	refusal(t, "a stray word", []string{"demo"}, "demo", "-demo")
	refusal(t, "a port beyond all", []string{"-listen", "127.0.0.1:99999", "-database", fresh}, "99999 is no port", "from 1 to 65535")
	refusal(t, "a port that is no number", []string{"-listen", "127.0.0.1:eighty", "-database", fresh}, "eighty is no port")
	refusal(t, "no port", []string{"-listen", "127.0.0.1", "-database", fresh}, "names no port", "127.0.0.1:8080")
	refusal(t, "an address of others", []string{"-listen", "192.0.2.1:8080", "-database", fresh}, "no such address", "-listen")
	refusal(t, "no PostgreSQL there", append(free, "postgres://yard:hidden@"+closedPort(t)+"/yard?sslmode=disable"), "no server listens there", "-database")
	refusal(t, "no address", []string{"-listen", "nowhere", "-database", fresh}, "-listen")
}

// closedPort is an address of this machine where nobody listens.
func closedPort(t *testing.T) string {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

// What is printed can be opened, also where the program listens on every address of the machine.
func TestThePrintedAddressOpens(t *testing.T) {
	for _, listen := range []string{":0", "0.0.0.0:0", "[::]:0"} {
		s := start(t, "-demo", "-listen", listen, "-database", filepath.Join(t.TempDir(), "yard.db"))
		if status, body := s.ask("/healthz", ""); status != 200 || !strings.HasPrefix(s.address, "http://127.0.0.1:") {
			t.Errorf("%s: %s answers %d: %s", listen, s.address, status, body)
		}
		s.tryThem()
		s.halt()
	}
}

// The environment says what no flag does.
func TestSettingsComeFromFlagsThenFromTheEnvironment(t *testing.T) {
	env := map[string]string{"RIBBAND_LISTEN": "127.0.0.1:9", "RIBBAND_DATABASE": "elsewhere.db"}
	s, err := settingsOf([]string{"-listen", "127.0.0.1:10"}, func(name string) string { return env[name] }, io.Discard)
	if err != nil || s.listen != "127.0.0.1:10" || s.database != "elsewhere.db" || s.demo {
		t.Errorf("settings %+v, %v", s, err)
	}
	s, err = settingsOf(nil, func(string) string { return "" }, io.Discard)
	if err != nil || s.listen != "127.0.0.1:8080" || s.database != "ribband.db" {
		t.Errorf("settings %+v, %v", s, err)
	}
	var help spoken
	if err := run(t.Context(), []string{"-help"}, func(string) string { return "" }, &help); err != nil || !strings.Contains(help.String(), "RIBBAND_LISTEN") || !strings.HasPrefix(help.String(), "Usage of ribband:") {
		t.Errorf("help: %v\n%s", err, &help)
	}
}
