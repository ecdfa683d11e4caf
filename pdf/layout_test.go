package pdf_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"ribband/pdf"
)

func TestHeadsAreRepeated(t *testing.T) {
	all := pages(t, written(t, withLines(700)))
	listing := 0
	for i, lines := range all {
		rows := 0
		for _, l := range lines {
			if strings.HasPrefix(l, "Frame ") {
				rows++
			}
		}
		if rows == 0 {
			continue
		}
		listing++
		for _, head := range []string{"Item", "Quantity", "Unit", "Amount, USD"} {
			if !slices.Contains(lines, head) {
				t.Errorf("page %d lists work without the head %q", i+1, head)
			}
		}
	}
	if listing < 10 {
		t.Errorf("700 lines stand on %d pages, so nothing was repeated", listing)
	}
}

// A page that goes on with a step says which step it is.
func TestStepThatGoesOnIsNamed(t *testing.T) {
	all := pages(t, written(t, withLines(700)))
	named := 0
	for i, lines := range all[3:] {
		if !strings.Contains(strings.Join(lines, "\n"), "Frame ") {
			continue
		}
		first := slices.Index(lines, "Amount, USD") + 1
		if !strings.HasPrefix(lines[first], "Frames ") {
			t.Errorf("page %d begins its lines with %q, not with the step they belong to", i+4, lines[first])
		}
		if lines[first+1] == "continued" {
			named++
		}
	}
	if named == 0 {
		t.Error("no step was continued in 700 lines")
	}
}

// The price never stands on a page without a line it is the price of, whatever
// the number of lines.
func TestTotalsAreNotOrphaned(t *testing.T) {
	for n := 1; n <= 75; n++ {
		e := withLines(n)
		e.Options[0].InPlainWords, e.Options[0].Undone = nil, nil
		all := pages(t, written(t, e))
		for i, lines := range all {
			total := slices.Index(lines, "Price, tax included, USD")
			if total < 0 {
				continue
			}
			page := strings.Join(lines[:total], "\n")
			for _, want := range []string{"All steps, before tax", "This step"} {
				if !strings.Contains(page, want) {
					t.Errorf("%d lines: page %d has the price without %q", n, i+1, want)
				}
			}
			if !strings.Contains(page, fmt.Sprintf("Frame %d,", n)) && n%90 != 46 {
				t.Errorf("%d lines: the last line is not on page %d with the price", n, i+1)
			}
		}
	}
}

// Rows of up to four lines are not split; longer ones are, and lose nothing.
func TestRowsAreSplitOnlyWhenLong(t *testing.T) {
	for _, words := range []int{3, 12, 22, 160} {
		e := withLines(60)
		for s := range e.Options[0].Steps {
			for l := range e.Options[0].Steps[s].Lines {
				tag := fmt.Sprintf("%d-%d", s, l)
				e.Options[0].Steps[s].Lines[l].Text = "begin" + tag + strings.Repeat(" plank", words) + " end" + tag
			}
		}
		all := pages(t, written(t, e))
		for s := range e.Options[0].Steps {
			for l := range e.Options[0].Steps[s].Lines {
				tag := fmt.Sprintf("%d-%d", s, l)
				from, to := pageOf(all, "begin"+tag), pageOf(all, "end"+tag)
				if from < 0 || to < from || to > from+1 {
					t.Fatalf("%d words: row %s runs from page %d to %d", words, tag, from+1, to+1)
				}
				if words < 100 && from != to {
					t.Errorf("%d words: row %s is split", words, tag)
				}
			}
		}
		if got := strings.Count(flat(all), "plank"); got < 60*words {
			t.Errorf("%d words: %d of %d printed", words, got, 60*words)
		}
	}
}

// pageOf finds the page that has a word, counted from nought.
func pageOf(all [][]string, word string) int {
	return slices.IndexFunc(all, func(lines []string) bool {
		return slices.ContainsFunc(lines, func(l string) bool { return slices.Contains(strings.Fields(l), word) })
	})
}

// A number broken over two lines would be read as two.
func TestLongestNumbersStayWhole(t *testing.T) {
	all := pages(t, written(t, wide()))
	for _, want := range []string{"999,999,999,999.999999", "−999,999,999,999.99", "123,456,789,012.34"} {
		if !slices.ContainsFunc(all, func(lines []string) bool { return slices.Contains(lines, want) }) {
			t.Errorf("%s is not printed on one line", want)
		}
	}
}

func TestContentsNameTheRightPages(t *testing.T) {
	for _, e := range []pdf.Estimate{demo(), withOptions(3), withOptions(5), withLines(700)} {
		all := pages(t, written(t, e))
		cover := strings.Join(append(slices.Clone(all[0]), all[1]...), "\n")
		checked := 0
		for i, lines := range all[1:] {
			for _, title := range []string{"Terms", "Cautions", "Acceptance"} {
				at := slices.Index(lines, title)
				if at < 0 || at+1 < len(lines) && strings.HasPrefix(lines[at+1], "page\u00a0") {
					continue
				}
				checked++
				if want := fmt.Sprintf("%s\npage\u00a0%d", title, i+2); !strings.Contains(cover, want) {
					t.Errorf("the cover does not say that %s begins on page %d", title, i+2)
				}
			}
		}
		if checked != 3 {
			t.Errorf("%d of 3 sections found", checked)
		}
	}
}

func TestScaleOfRanges(t *testing.T) {
	usd := func(s string) pdf.Amount { return pdf.Amount{Text: s, Currency: "USD"} }
	option := func(low, price, high string) pdf.Option {
		return pdf.Option{RangeLow: usd(low), Gross: usd(price), RangeHigh: usd(high)}
	}
	at, ok := pdf.Scale([]pdf.Option{option("50.00", "60.00", "75.00"), option("0.00", "100.00", "200.00")})
	if !ok || fmt.Sprint(at) != "[[250 300 375] [0 500 1000]]" {
		t.Errorf("got %v, %v", at, ok)
	}
	for name, o := range map[string]pdf.Option{
		"nothing":        {},
		"nought":         option("0", "0.00", "0"),
		"below nought":   option("-1.00", "5.00", "6.00"),
		"no number":      option("about 5", "6", "7"),
		"back to front":  option("9", "8", "7"),
		"two currencies": {RangeLow: usd("1"), Gross: pdf.Amount{Text: "2", Currency: "EUR"}, RangeHigh: usd("3")},
	} {
		if _, ok := pdf.Scale([]pdf.Option{o}); ok {
			t.Errorf("%s: a scale is drawn", name)
		}
	}
}
