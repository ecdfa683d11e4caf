package pdf_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"ribband/pdf"
)

func TestFacesHaveTheTradesSigns(t *testing.T) {
	for _, r := range "½⅛⅜⅝⅞¼¾×°€£–—′″éÅš−…□ØøßąłčžşőΩμ§²³±" {
		if !pdf.HasGlyph(r) {
			t.Errorf("no glyph for %q in both faces", r)
		}
	}
	for _, r := range []rune{'船', 0, 0x1FAB5, -1, 0x10000, 0xFFFD} {
		if pdf.HasGlyph(r) {
			t.Errorf("%q is said to have a glyph", r)
		}
	}
}

func TestClean(t *testing.T) {
	for _, c := range []struct {
		name, in, out string
		replaced      bool
	}{
		{"trade text stays", "2 7⁄8″ × ¾ in, 54° bevel", "2 7⁄8″ × ¾ in, 54° bevel", false},
		{"decomposed letters are joined", "e\u0301 A\u030a s\u030c", "é Å š", false},
		{"beyond the basic plane", "🪵 oak", "□ oak", true},
		{"no glyph", "船 boat", "□ boat", true},
		{"control", "a\x00b\x1bc", "a□b□c", true},
		{"writing direction", "safe\u202egnp.exe", "safe□gnp.exe", true},
		{"right to left", "שלום", "□□□□", true},
		{"bad bytes", "a\xffb\xc3", "a□b□", true},
		{"surrogate bytes", "\xed\xa0\x80", "□□□", true},
		{"invisible runes are dropped", "a\u200bb\u00adc\ufeffd\u2060e", "abcde", false},
		{"line breaks are one kind", "a\r\nb\rc\u2028d", "a\nb\nc\nd", false},
		{"spaces without glyph", "a\tb\u3000c", "a b c", false},
		{"no-break spaces stay so", "5\u202fkg 6\u00a0kg", "5\u00a0kg 6\u00a0kg", false},
		{"no-break hyphen", "re\u2011caulk", "re-caulk", false},
		{"a mark without a letter", "\u0301x", "□x", true},
		{"a tower of marks", "z" + strings.Repeat("\u0351", 40), "z\u0351\u0351□", true},
		{"alias of page numbers", "{nb}", "{nb}", false},
	} {
		out, replaced := pdf.Clean(c.in)
		if out != c.out || replaced != c.replaced {
			t.Errorf("%s: %q gives %q, %v; want %q, %v", c.name, c.in, out, replaced, c.out, c.replaced)
		}
	}
}

func TestReplacedCharactersAreExplained(t *testing.T) {
	const note = "□ stands for a character that this document's typeface cannot print."
	e := demo()
	if strings.Contains(flat(pages(t, written(t, e))), note) {
		t.Error("the note stands where nothing was replaced")
	}
	e.Terms = append(e.Terms, "Plank 🪵")
	if text := flat(pages(t, written(t, e))); !strings.Contains(text, note) || !strings.Contains(text, "Plank □") {
		t.Error("a character is replaced without a note")
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		name, in string
		width    int
		want     []string
	}{
		{"nothing", "", 100, nil},
		{"only white", " \n \n", 100, nil},
		{"fits", "one plank", 100, []string{"one plank"}},
		{"breaks at spaces", "one plank more", 50, []string{"one plank", "more"}},
		{"keeps no-break spaces", "at 12\u00a0kg", 30, []string{"at", "12\u00a0kg"}},
		{"keeps line breaks", "a\n\n\n\nb\n", 100, []string{"a", "", "b"}},
		{"breaks behind a hyphen", "timber-framing", 50, []string{"timber-", "framing"}},
		{"breaks a word that has none", "aaaaaaaaaaaa", 30, []string{"aaaaa", "aaaaa", "aa"}},
		{"one letter a line when not even that fits", "oak", 1, []string{"o", "a", "k"}},
		{"keeps a stroke and its mark together", "a/\u0353b c", 1, []string{"a", "/\u0353", "b", "c"}},
	} {
		got := pdf.Wrap(c.in, c.width)
		if strings.Join(got, "|") != strings.Join(c.want, "|") || len(got) != len(c.want) {
			t.Errorf("%s: %q", c.name, got)
		}
	}
}

// FuzzWrap: no line is wider than asked, unless one letter is; no letter is lost.
func FuzzWrap(f *testing.F) {
	for _, s := range awkward {
		f.Add(s, 40)
	}
	f.Fuzz(func(t *testing.T, s string, width int) {
		width = max(1, min(width, 600))
		clean, _ := pdf.Clean(s)
		lines := pdf.Wrap(s, width)
		for _, l := range lines {
			base := 0
			for _, r := range l {
				if pdf.Width(string(r)) > 0 {
					base++
				}
			}
			if got := pdf.Width(l); got > float64(width) && base > 1 {
				t.Errorf("%q is %v wide, not %d", l, got, width)
			}
		}
		strip := func(s string) string { return strings.NewReplacer(" ", "", "\n", "").Replace(s) }
		if got := strings.Join(lines, ""); strip(got) != strip(clean) || !utf8.ValidString(got) {
			t.Errorf("%q came out as %q", clean, got)
		}
	})
}

func TestGrouped(t *testing.T) {
	for in, want := range map[string]string{
		"0": "0", "0.00": "0.00", "7.5": "7.5", "999.99": "999.99", "1000": "1,000", "12345.60": "12,345.60",
		"999999999999.999999": "999,999,999,999.999999", "-40.00": "−40.00", "-1234567.89": "−1,234,567.89",
		"007": "007", "": "", "-": "-", "1.": "1.", ".5": ".5", "1e6": "1e6", "1,000": "1,000", "12 h": "12 h", "--5": "--5",
	} {
		if got := pdf.Grouped(in); got != want {
			t.Errorf("%q gives %q, want %q", in, got, want)
		}
	}
}
