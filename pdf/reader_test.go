package pdf_test

import (
	"bytes"
	"fmt"
	"math/big"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"ribband/pdf"
)

// compressed writes an estimate as it is handed over.
func compressed(t *testing.T, e pdf.Estimate) []byte {
	t.Helper()
	file, err := pdf.WriteEstimate(e)
	if err != nil {
		t.Fatal(err)
	}
	wellFormed(t, file)
	return file
}

func TestReadersFindNoFault(t *testing.T) {
	needTool(t, "qpdf")
	for name, e := range states() {
		if out := tool(t, compressed(t, e), "qpdf", "--check", "FILE"); strings.Contains(strings.ToLower(out), "warning") {
			t.Errorf("%s: %s", name, out)
		}
	}
}

func TestFontsAreEmbedded(t *testing.T) {
	out := tool(t, compressed(t, ugly()), "pdffonts", "FILE")
	lines := strings.Split(strings.TrimSpace(out), "\n")[2:]
	if len(lines) != 2 {
		t.Errorf("%d faces, want two:\n%s", len(lines), out)
	}
	for _, l := range lines {
		// name, type (two words), encoding, embedded, subset, unicode, object
		if f := strings.Fields(l); len(f) < 7 || f[1] != "CID" || f[4] != "yes" || f[6] != "yes" {
			t.Errorf("not embedded with its characters: %s", l)
		}
	}
}

func TestPropertiesAreRead(t *testing.T) {
	out := tool(t, compressed(t, demo()), "pdfinfo", "FILE")
	for _, want := range []string{
		`Title: +Estimate for Grey Plover`, `Author: +Ebbing Reach Boat Yard`, `Subject: +Estimate 2026-014, revision 2`,
		`Page size: +595.28 x 841.89 pts \(A4\)`,
	} {
		if !regexp.MustCompile(want).MatchString(out) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	letter := demo()
	letter.PageSize = pdf.Letter
	if out := tool(t, compressed(t, letter), "pdfinfo", "FILE"); !strings.Contains(out, "612 x 792 pts (letter)") {
		t.Errorf("not Letter:\n%s", out)
	}
}

var (
	amountAtEnd = regexp.MustCompile(`(−?[\d,]+\.\d\d)$`)
	cents       = strings.NewReplacer(",", "", ".", "", "−", "-")
)

// The amounts a reader sees add up to the totals a reader sees: lines to their
// step, steps to the price before tax, that and the tax to the price.
func TestPrintedAmountsAddUp(t *testing.T) {
	for name, e := range map[string]pdf.Estimate{"issued": demo(), "three": withOptions(3), "700 lines": withLines(700)} {
		t.Run(name, func(t *testing.T) {
			out := tool(t, compressed(t, e), "pdftotext", "-layout", "FILE", "-")
			step, net, gross := new(big.Int), new(big.Int), new(big.Int)
			listing, options := false, 0
			for _, l := range strings.Split(strings.ReplaceAll(out, "\f", "\n"), "\n") {
				l = strings.TrimSpace(l)
				if strings.HasSuffix(l, "Amount, USD") {
					listing = true
					continue
				}
				m := amountAtEnd.FindString(l)
				if !listing || m == "" {
					continue
				}
				v, ok := new(big.Int).SetString(cents.Replace(m), 10)
				if !ok {
					t.Fatalf("cannot read %q", l)
				}
				meets := func(sum *big.Int) {
					if sum.Cmp(v) != 0 {
						t.Errorf("%q, but what stands above it comes to %v cents", l, sum)
					}
				}
				switch {
				case strings.Contains(l, "This step"):
					meets(step)
					net.Add(net, v)
					step.SetInt64(0)
				case strings.Contains(l, "All steps, before tax"):
					meets(net)
					gross.Set(v)
				case strings.Contains(l, "State sales tax"):
					gross.Add(gross, v)
				case strings.Contains(l, "Price, tax included, USD"):
					meets(gross)
					options++
					net.SetInt64(0)
					listing = false
				default:
					step.Add(step, v)
				}
			}
			if options != len(e.Options) {
				t.Errorf("%d totals read, want %d", options, len(e.Options))
			}
		})
	}
}

// What another program reads out of the file is what was put in.
func TestTextIsReadBack(t *testing.T) {
	out := oneSpace(tool(t, compressed(t, demo()), "pdftotext", "-raw", "FILE", "-"))
	for _, want := range said(demo()) {
		if !strings.Contains(out, oneSpace(want)) {
			t.Errorf("not read back: %q", want)
		}
	}
}

// The margins of both papers in points, and how far a letter's ink may reach
// over the width it is set with: a few tenths of a point at these sizes.
const (
	leftMargin, rightMargin, edgeMargin = 54, 50, 28
	overhang                            = 2
)

func TestNoInkInTheMargins(t *testing.T) {
	needTool(t, "pdftoppm")
	for name, e := range states() {
		if name == "700 lines" || name == "thirty options" {
			continue // the same layout on more pages
		}
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			tool(t, compressed(t, e), "pdftoppm", "-r", "72", "-gray", "FILE", filepath.Join(dir, "page"))
			sheets, _ := filepath.Glob(filepath.Join(dir, "*.pgm"))
			if len(sheets) == 0 {
				t.Fatal("nothing was rendered")
			}
			for _, path := range sheets {
				w, h, pixels := gray(t, path)
				ink := 0
				for i, v := range pixels {
					if v > 250 {
						continue
					}
					ink++
					x, y := i%w, i/w
					if x < leftMargin-overhang || x > w-rightMargin+overhang || y < edgeMargin || y > h-edgeMargin {
						t.Errorf("%s: ink at %d, %d points", filepath.Base(path), x, y)
						break
					}
				}
				if ink == 0 {
					t.Errorf("%s is blank", filepath.Base(path))
				}
			}
		})
	}
}

// gray reads a portable graymap: one byte a pixel, row by row.
func gray(t *testing.T, path string) (w, h int, pixels []byte) {
	t.Helper()
	raw, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var limit int
	if _, err := fmt.Fscanf(bytes.NewReader(raw), "P5\n%d %d\n%d\n", &w, &h, &limit); err != nil || limit != 255 || len(raw) < w*h {
		t.Fatalf("%s is no graymap: %v", path, err)
	}
	return w, h, raw[len(raw)-w*h:]
}
