package main

import (
	"bytes"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// root is the top of the checkout, seen from here.
const root = ".."

// source is one Go file: the folder of its package below the root, and what it holds.
type source struct {
	folder, name string
	*ast.File
	set *token.FileSet
}

// rooms are packages that only tests import, so that tests of several packages share what they need. What they do
// is judged as what tests do.
var rooms = []string{"pricing/internal/exact", "pricing/internal/published", "pricing/internal/yard", "takeoff/hull/hulltest", "server/internal/heard", "server/internal/storetest"}

func (s source) test() bool {
	return strings.HasSuffix(s.name, "_test.go") || slices.Contains(rooms, s.folder)
}

// at is a place in the source for messages.
func (s source) at(n ast.Node) string { return s.set.Position(n.Pos()).String() }

// sources is every Go file of the module.
func sources(t *testing.T) []source {
	t.Helper()
	var out []source
	set := token.NewFileSet()
	err := filepath.WalkDir(root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if entry.IsDir() && (strings.HasPrefix(entry.Name(), ".") && name != root || entry.Name() == "testdata") {
			return fs.SkipDir
		}
		if !strings.HasSuffix(name, ".go") {
			return nil
		}
		file, err := parser.ParseFile(set, name, nil, parser.ParseComments)
		if err != nil {
			return err
		}
		folder, err := filepath.Rel(root, filepath.Dir(name))
		out = append(out, source{filepath.ToSlash(folder), entry.Name(), file, set})
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func (s source) imports() []string {
	var out []string
	for _, i := range s.Imports {
		out = append(out, strings.Trim(i.Path.Value, `"`))
	}
	return out
}

// under reports whether a package is a folder or below it.
func under(pkg, folder string) bool { return pkg == folder || strings.HasPrefix(pkg, folder+"/") }

func underAny(pkg string, folders ...string) bool {
	return slices.ContainsFunc(folders, func(f string) bool { return under(pkg, f) })
}

// downwards says what a part may import of the module besides itself. The first line that holds a package decides.
var downwards = []struct {
	of  string
	may []string
}{
	{"takeoff/quantity", nil},
	{"takeoff/notation", []string{"takeoff/quantity"}},
	{"takeoff/table", []string{"takeoff/quantity", "takeoff/notation"}},
	{"takeoff/draw", nil},
	{"takeoff/dxf", nil},
	{"takeoff/cutting/flat", []string{"takeoff/cutting"}},
	{"takeoff/cutting", []string{"takeoff/document"}},
	{"takeoff/staging", nil},
	{"takeoff/document", []string{"takeoff/notation"}},
	{"takeoff/derivation", []string{"takeoff/quantity"}},
	{"takeoff/boat", []string{"takeoff/quantity"}},
	{"takeoff/bill", []string{"takeoff/quantity", "takeoff/boat", "takeoff/derivation"}},
	{"takeoff/hull/offsets", []string{"takeoff/boat", "takeoff/notation", "takeoff/quantity", "takeoff/document", "takeoff/table", "takeoff/hull/fair"}},
	{"takeoff/hull", []string{"takeoff/boat", "takeoff/notation", "takeoff/quantity", "takeoff/document"}},
	{"takeoff/rules", []string{"takeoff/timber", "takeoff/fastening", "takeoff/scarf", "takeoff/stagger", "takeoff/bill", "takeoff/glue", "takeoff/notation", "takeoff/quantity", "takeoff/document"}},
	{"takeoff/scarf", nil},
	{"takeoff/stagger", nil},
	{"takeoff/bend", []string{"takeoff/quantity"}},
	{"takeoff/finding", []string{"takeoff/boat", "takeoff/document", "takeoff/notation"}},
	{"takeoff/timber", knowledge},
	{"takeoff/glue", append([]string{"takeoff/timber"}, knowledge...)},
	{"takeoff/fastening", append([]string{"takeoff/timber"}, knowledge...)},
	{"takeoff/coat", append([]string{"takeoff/timber"}, knowledge...)},
	{"takeoff/caulk", knowledge},
	{"takeoff/frame", member},
	{"takeoff/floor", member},
	{"takeoff/strap", member},
	{"takeoff/spare", []string{"takeoff/bill", "takeoff/boat", "takeoff/derivation", "takeoff/quantity", "takeoff/step"}},
	{"takeoff/plank", member},
	{"takeoff/backbone", member},
	{"takeoff/mould", []string{"takeoff/boat", "takeoff/dxf", "takeoff/frame", "takeoff/hull", "takeoff/notation"}},
	{"takeoff/step", []string{"takeoff/boat", "takeoff/bill", "takeoff/derivation", "takeoff/quantity", "takeoff/document", "takeoff/notation"}},
	{"takeoff", []string{"takeoff"}},
	{"pricing/money", []string{"takeoff/quantity"}},
	{"pricing/sheet", append([]string{"pricing/money"}, priced...)},
	{"pricing/rack", append([]string{"pricing/money", "pricing/sheet"}, priced...)},
	{"pricing/flatcut", append([]string{"pricing/money"}, priced...)},
	{"pricing/freight", []string{"pricing/money", "pricing/sheet"}},
	{"pricing/pack", []string{"pricing/flatcut", "pricing/money", "pricing/sheet", "takeoff/bill", "takeoff/boat", "takeoff/cutting", "takeoff/quantity"}},
	{"pricing/sawing", []string{"takeoff/bill"}},
	{"pricing/buy", append([]string{"pricing/money", "pricing/freight", "pricing/pack", "pricing/sawing", "pricing/sheet", "pricing/rack"}, priced...)},
	{"pricing/orders", []string{"pricing/buy", "pricing/freight", "pricing/money", "pricing/sheet"}},
	{"pricing/ripping", []string{"pricing/buy", "pricing/money", "pricing/rack", "pricing/sawing", "takeoff/bill", "takeoff/notation", "takeoff/quantity"}},
	{"pricing/quote", append([]string{"pricing/money", "pricing/sheet", "pricing/rack", "pricing/buy"}, priced...)},
	{"pricing", append([]string{"pricing"}, priced...)},
	{"pdf", []string{"pricing", "takeoff"}},
	{"seed", []string{"pricing", "takeoff"}},
	{"server/internal/store", nil},
	{"server/internal/auth", []string{"server/internal/store"}},
	{"server/internal/app", []string{"server/internal/store", "server/internal/auth", "seed", "pdf", "pricing", "takeoff"}},
	{"server", []string{"server", "seed", "pdf", "pricing", "takeoff"}},
}

var (
	knowledge = []string{"takeoff/bill", "takeoff/quantity", "takeoff/derivation", "takeoff/document", "takeoff/notation"}
	member    = []string{"takeoff/boat", "takeoff/hull", "takeoff/bill", "takeoff/quantity", "takeoff/notation", "takeoff/derivation", "takeoff/document",
		"takeoff/rules", "takeoff/step", "takeoff/spare", "takeoff/timber", "takeoff/scarf", "takeoff/stagger", "takeoff/bend", "takeoff/finding", "takeoff/glue", "takeoff/fastening", "takeoff/caulk", "takeoff/coat"}
	priced = []string{"takeoff/table", "takeoff/bill", "takeoff/boat", "takeoff/cutting", "takeoff/quantity", "takeoff/step", "takeoff/notation", "takeoff/document", "takeoff/derivation"}
)

// Imports run downwards only.
func TestImportsRunDownwards(t *testing.T) {
	for _, s := range sources(t) {
		if s.test() {
			continue
		}
		for _, line := range downwards {
			if !under(s.folder, line.of) {
				continue
			}
			for _, i := range s.imports() {
				pkg, ours := strings.CutPrefix(i, "ribband/")
				if ours && !under(pkg, line.of) && !underAny(pkg, line.may...) {
					t.Errorf("%s/%s imports %s, which %s may not", s.folder, s.name, pkg, line.of)
				}
			}
			break
		}
	}
}

// What only tests may do stays out of everything that is built to run.
func TestRoomsAreImportedByTestsAlone(t *testing.T) {
	found := map[string]bool{}
	for _, s := range sources(t) {
		found[s.folder] = true
		for _, i := range s.imports() {
			if pkg, ours := strings.CutPrefix(i, "ribband/"); ours && slices.Contains(rooms, pkg) && !s.test() {
				t.Errorf("%s/%s imports %s, which is for tests", s.folder, s.name, pkg)
			}
		}
	}
	for _, room := range rooms {
		if !found[room] {
			t.Errorf("there is no package %s", room)
		}
	}
}

// home says which parts may import a library; nobody else does.
var home = map[string][]string{
	"gorm.io":                       {"server/internal/store"},
	"github.com/pressly/goose":      {"server/internal/store"},
	"github.com/jackc/pgx":          {"server/internal/store"},
	"modernc.org":                   {"server/internal/store"},
	"database/sql":                  {"server/internal/store"},
	"github.com/gin-gonic":          {"server/internal/api", "server/internal/web"},
	"net/http":                      {"server"},
	"github.com/jung-kurt/gofpdf":   {"pdf"},
	"codeberg.org/go-fonts":         {"pdf"},
	"gonum.org":                     {"takeoff/hull", "pricing/risk"},
	"github.com/getkin/kin-openapi": {},
}

func TestLibrariesStayAtHome(t *testing.T) {
	for _, s := range sources(t) {
		if s.test() {
			continue
		}
		for _, i := range s.imports() {
			for library, homes := range home {
				if under(i, library) && !underAny(s.folder, homes...) {
					t.Errorf("%s/%s imports %s, which is at home in %v", s.folder, s.name, i, homes)
				}
			}
		}
	}
}

// pure is what computes alone: the same values in, the same values out.
var pure = []string{"takeoff", "pricing", "pdf"}

// worldly is what pure packages do not import; worldlyCalls what they do not call of packages they may.
var (
	worldly      = []string{"net", "os", "log", "syscall", "io/ioutil", "crypto/rand", "testing", "expvar", "plugin", "ribband/server"}
	worldlyCalls = map[string][]string{
		"time": {"Now", "Since", "Until", "Sleep", "After", "Tick", "NewTimer", "NewTicker", "AfterFunc", "Local", "LoadLocation"},
		// drawn from a given seed only
		"rand":    {"Int", "IntN", "Int32", "Int32N", "Int64", "Int64N", "Uint32", "Uint32N", "Uint64", "Uint64N", "UintN", "N", "Float32", "Float64", "NormFloat64", "ExpFloat64", "Perm", "Shuffle"},
		"runtime": {"GOOS", "NumCPU", "GOMAXPROCS"},
	}
)

func TestPurePackagesKnowNothingOfTheWorld(t *testing.T) {
	for _, s := range sources(t) {
		if s.test() || !underAny(s.folder, pure...) {
			continue
		}
		for _, i := range s.imports() {
			if underAny(i, worldly...) || i == "math/rand" {
				t.Errorf("%s/%s imports %s", s.folder, s.name, i)
			}
		}
		ast.Inspect(s.File, func(n ast.Node) bool {
			if pkg, name, ok := selected(n); ok && slices.Contains(worldlyCalls[pkg], name) {
				t.Errorf("%s: %s.%s", s.at(n), pkg, name)
			}
			return true
		})
	}
}

// What computes starts nothing that runs beside it and shares nothing that changes, so the race detector has nothing to
// look for there: .ci/run leaves takeoff and pricing out of it. Values worked out once and never changed may be kept.
func TestWhatComputesDoesOneThingAtATime(t *testing.T) {
	for _, s := range sources(t) {
		if s.test() || !underAny(s.folder, "takeoff", "pricing") {
			continue
		}
		ast.Inspect(s.File, func(n ast.Node) bool {
			if pkg, name, ok := selected(n); ok && (pkg == "atomic" || pkg == "sync" && !strings.HasPrefix(name, "Once")) {
				t.Errorf("%s: %s.%s", s.at(n), pkg, name)
			}
			switch n.(type) {
			case *ast.GoStmt, *ast.SelectStmt, *ast.SendStmt:
				t.Errorf("%s: something runs beside the rest", s.at(n))
			}
			return true
		})
	}
}

// selected takes x.Name apart.
func selected(n ast.Node) (pkg, name string, ok bool) {
	sel, is := n.(*ast.SelectorExpr)
	if !is {
		return "", "", false
	}
	id, is := sel.X.(*ast.Ident)
	if !is {
		return "", "", false
	}
	return id.Name, sel.Sel.Name, true
}

// No float in money: not as a type, not as a number, not by the back door of a library.
func TestNoFloatInPricing(t *testing.T) {
	doors := []string{"InexactFloat64", "Float64", "Float32", "NewFromFloat", "NewFromFloat32", "NewFromFloatWithExponent", "ParseFloat", "FormatFloat", "SetFloat64"}
	for _, s := range sources(t) {
		if s.test() || !under(s.folder, "pricing") || under(s.folder, "pricing/risk") {
			continue
		}
		ast.Inspect(s.File, func(n ast.Node) bool {
			// Of package math only the bounds of whole numbers are none of a float's business.
			if pkg, name, ok := selected(n); ok && (pkg == "math" && !strings.Contains(name, "Int") || pkg == "cmplx") {
				t.Errorf("%s: %s.%s", s.at(n), pkg, name)
			}
			switch x := n.(type) {
			case *ast.Ident:
				if slices.Contains([]string{"float32", "float64", "complex64", "complex128"}, x.Name) {
					t.Errorf("%s: %s", s.at(n), x.Name)
				}
			case *ast.BasicLit:
				if x.Kind == token.FLOAT || x.Kind == token.IMAG {
					t.Errorf("%s: the number %s", s.at(n), x.Value)
				}
			case *ast.SelectorExpr:
				if slices.Contains(doors, x.Sel.Name) {
					t.Errorf("%s: %s", s.at(n), x.Sel.Name)
				}
			}
			return true
		})
	}
}

// The top level is fixed: what else comes belongs below.
func TestTheTopLevelIsFixed(t *testing.T) {
	fixed := []string{"README.md", "DEVELOPERS.md", "LICENSE", "go.mod", "go.sum", "openapi.yaml", "takeoff", "pricing", "pdf", "seed", "server", "testdata"}
	left := regexp.MustCompile(`^(ribband(\.exe)?|.*\.db(-wal|-shm)?|.*\.test|.*\.out|.*\.pdf)$`) // what using it leaves behind, and git ignores
	entries, err := os.ReadDir(root)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if name := e.Name(); !slices.Contains(fixed, name) && !strings.HasPrefix(name, ".") && !left.MatchString(name) {
			t.Errorf("%s does not belong at the top", name)
		}
	}
}

// A file is named for the one idea it holds and stays small enough to be read.
func TestFilesAreSmallAndNamedForWhatTheyHold(t *testing.T) {
	const split = 700
	empty := []string{"utils", "util", "helpers", "helper", "common", "misc", "model", "models", "types", "manager"}
	for _, s := range sources(t) {
		name := strings.TrimSuffix(strings.TrimSuffix(s.name, ".go"), "_test")
		if slices.Contains(empty, name) || slices.Contains(empty, path.Base(s.folder)) {
			t.Errorf("%s/%s says nothing by its name", s.folder, s.name)
		}
		if lines := s.set.File(s.Pos()).LineCount(); lines > split {
			t.Errorf("%s/%s has %d lines; split it at %d", s.folder, s.name, lines, split)
		}
	}
}

// No test is skipped without a reason.
func TestSkippedTestsSayWhy(t *testing.T) {
	for _, s := range sources(t) {
		ast.Inspect(s.File, func(n ast.Node) bool {
			call, ok := n.(*ast.CallExpr)
			if !ok || len(call.Args) > 0 {
				return true
			}
			if _, name, ok := selected(call.Fun); ok && (name == "Skip" || name == "SkipNow") {
				t.Errorf("%s skips without a reason", s.at(n))
			}
			return true
		})
	}
}

// The pure-Go SQLite engine is C turned into Go for one version of its C library; another version corrupts it.
func TestTheSQLiteEngineHasItsOwnLibrary(t *testing.T) {
	tool, err := exec.LookPath("go")
	if err != nil {
		t.Skip("the go tool is not here, and it alone knows where modules lie")
	}
	list := func(module, form string) string {
		out, err := exec.CommandContext(t.Context(), tool, "list", "-m", "-f", form, module).Output()
		if err != nil {
			t.Fatalf("go list -m %s: %v", module, err)
		}
		return strings.TrimSpace(string(out))
	}
	mod, err := os.ReadFile(list("modernc.org/sqlite", "{{.GoMod}}"))
	if err != nil {
		t.Fatal(err)
	}
	pinned := regexp.MustCompile(`(?m)^\s*(?:require )?modernc\.org/libc (v\S+)`).FindSubmatch(mod)
	if pinned == nil {
		t.Fatal("modernc.org/sqlite names no modernc.org/libc")
	}
	if used := list("modernc.org/libc", "{{.Version}}"); !bytes.Equal(pinned[1], []byte(used)) {
		t.Errorf("modernc.org/libc is %s, modernc.org/sqlite needs exactly %s", used, pinned[1])
	}
}
