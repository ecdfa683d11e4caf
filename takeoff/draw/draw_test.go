package draw_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"codeberg.org/go-fonts/liberation/liberationsansbold"
	"codeberg.org/go-fonts/liberation/liberationsansregular"
	"github.com/google/go-cmp/cmp"
	"golang.org/x/image/font"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"ribband/takeoff/draw"
)

func small() *draw.List {
	l := &draw.List{Width: 100, Height: 50.125, Title: "A & B", Desc: "<both>"}
	y := l.Layer("waterlines & more")
	thin := draw.Pen{Width: 0.5, Colour: draw.Ink}
	y.Line(thin, draw.Point{X: 1, Y: 2}, draw.Point{X: 3.14159, Y: -0.001})
	y.Line(thin, draw.Point{X: 1, Y: 3}, draw.Point{X: 4, Y: 3})
	y.Add(
		draw.Path{Points: []draw.Point{{X: 0, Y: 0}, {X: 1, Y: 0}, {X: 1, Y: 1}}, Fill: draw.Ink, Of: "frame/12/port"},
		draw.Text{At: draw.Point{X: 5, Y: 6}, Size: 10, String: `"1<2"`, Halo: true, Bold: true, Anchor: draw.End},
		draw.Path{Points: draw.Box(draw.Point{X: 1, Y: 1}, draw.Point{X: 2, Y: 2}), Closed: true, Pen: draw.ChainDotted(0.5, draw.Ink)},
	)
	return l
}

// The file, byte by byte: what a page inlines and what a yard downloads.
func TestWriteSVG(t *testing.T) {
	var b bytes.Buffer
	if err := draw.WriteSVG(&b, small(), "plan-1"); err != nil {
		t.Fatal(err)
	}
	want := `<svg xmlns="http://www.w3.org/2000/svg" id="plan-1" viewBox="0 0 100 50.13" role="img" aria-labelledby="plan-1-title plan-1-desc" font-family="Liberation Sans, sans-serif" fill="none" stroke-linejoin="round">
<title id="plan-1-title">A &amp; B</title>
<desc id="plan-1-desc">&lt;both&gt;</desc>
<path fill="#ffffff" d="M0 0L100 0 100 50.13 0 50.13Z"/>
<g data-layer="waterlines &amp; more">
<g stroke="#1d2730" stroke-width="0.5">
<path d="M1 2L3.14 0"/>
<path d="M1 3L4 3"/>
</g>
<path data-of="frame/12/port" fill="#1d2730" d="M0 0L1 0 1 1Z"/>
<text x="5" y="6" font-size="10" font-weight="700" text-anchor="end" fill="#1d2730" stroke="#ffffff" stroke-width="2.5" paint-order="stroke">&#34;1&lt;2&#34;</text>
<g stroke="#1d2730" stroke-width="0.5" stroke-dasharray="10 2.5 1.5 2.5">
<path d="M1 1L2 1 2 2 1 2Z"/>
</g>
</g>
</svg>
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Error(diff)
	}
}

// What cannot be written is refused before a byte goes out.
func TestWriteSVGRefuses(t *testing.T) {
	for _, id := range []string{"", "1plan", "-a", "a b", `a"b`, "plän", "a.b", strings.Repeat("a", 65)} {
		var b bytes.Buffer
		var e *draw.IDError
		if err := draw.WriteSVG(&b, small(), id); !errors.As(err, &e) || b.Len() > 0 {
			t.Errorf("id %q: %v after %d bytes", id, err, b.Len())
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e8} {
		var b bytes.Buffer
		l := small()
		l.Layer("sheer").Line(draw.Pen{Width: 1, Colour: draw.Ink}, draw.Point{}, draw.Point{X: v})
		var e *draw.NumberError
		if err := draw.WriteSVG(&b, l, "a"); !errors.As(err, &e) || e.Where != "sheer" || b.Len() > 0 {
			t.Errorf("%v: %v after %d bytes", v, err, b.Len())
		}
	}
}

// read is the text between the tags and the attributes of every element, as a reader of XML finds them.
func read(t testing.TB, file []byte) (text, attrs []string) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(file))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return text, attrs
		}
		if err != nil {
			t.Fatalf("not well-formed: %v\n%s", err, file)
		}
		switch x := token.(type) {
		case xml.StartElement:
			for _, a := range x.Attr {
				if a.Name.Local == "style" || strings.HasPrefix(a.Name.Local, "on") || strings.HasSuffix(a.Name.Local, "href") {
					t.Errorf("attribute %s", a.Name.Local)
				}
				attrs = append(attrs, a.Value)
			}
			if n := x.Name.Local; n == "style" || n == "script" || n == "a" || n == "image" {
				t.Errorf("element %s", n)
			}
		case xml.CharData:
			text = append(text, string(x))
		}
	}
}

// Any text comes back as it went in, apart from what XML cannot hold.
func FuzzTexts(f *testing.F) {
	for _, s := range []string{"Wendeline", `</svg><script>alert("1")</script>`, "a&amp;b", "x\x00y", "\xff\xfe", "]]>", "\u2028\ufffe\U0001F6F6", "tab\tnew\nline\r"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		l := &draw.List{Width: 10, Height: 10, Title: s, Desc: s}
		l.Layer(s).Add(draw.Text{String: s, Size: 10, Of: s},
			draw.Path{Points: []draw.Point{{}, {X: 1}}, Pen: draw.Pen{Width: 1, Colour: draw.Ink}, Of: s})
		var b bytes.Buffer
		if err := draw.WriteSVG(&b, l, "a"); err != nil {
			t.Fatal(err)
		}
		text, attrs := read(t, b.Bytes())
		want := strings.Map(func(r rune) rune {
			if r < ' ' && r != '\t' && r != '\n' && r != '\r' || r >= 0x7f && r < 0xa0 || r == 0xFFFE || r == 0xFFFF {
				return 0xFFFD
			}
			return r
		}, strings.ToValidUTF8(s, "\uFFFD"))
		// Several invalid bytes in a row become as many replacements as there are bytes.
		same := func(got string) bool { return squeeze(got) == squeeze(want) }
		found := 0
		for _, got := range append(text, attrs...) {
			if same(got) {
				found++
			}
		}
		if s != "" && found < 6 {
			t.Errorf("%q stands in the file %d times, want 6 (title, description, layer, text, twice what it shows)", want, found)
		}
	})
}

// squeeze makes one replacement of several in a row.
func squeeze(s string) string {
	for strings.Contains(s, "\uFFFD\uFFFD") {
		s = strings.ReplaceAll(s, "\uFFFD\uFFFD", "\uFFFD")
	}
	return s
}

// The table of widths is that of the font.
func TestTextWidth(t *testing.T) {
	for bold, ttf := range map[bool][]byte{false: liberationsansregular.TTF, true: liberationsansbold.TTF} {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			t.Fatal(err)
		}
		var buf sfnt.Buffer
		for r := ' '; r <= '~'; r++ {
			glyph, err := f.GlyphIndex(&buf, r)
			if err != nil {
				t.Fatal(err)
			}
			advance, err := f.GlyphAdvance(&buf, glyph, fixed.I(1000), font.HintingNone)
			if err != nil {
				t.Fatal(err)
			}
			if got := draw.TextWidth(string(r), 1000, bold); got != float64(advance.Round()) {
				t.Errorf("%q, bold %v: %v, in the font %v", r, bold, got, advance.Round())
			}
		}
	}
}

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text string
		most int
		want []string
	}{
		{"", 3, nil},
		{"  one   two ", 3, []string{"one two"}},
		{"plank and frame and keel", 3, []string{"plank and", "frame and", "keel"}},
		{"plank and frame and keel", 2, []string{"plank and", "frame a…"}},
		{"Unbreakablyname", 3, []string{"Unbreaka", "blyname"}},
	} {
		got := draw.Wrap(c.text, 10, false, 48, c.most)
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%q: %s", c.text, diff)
		}
	}
}

// No line is wider than it may be, unless a single letter is, and no letter is lost while lines are allowed.
func FuzzWrap(f *testing.F) {
	f.Add("The ten worst pairs", 40.0)
	f.Add("\xff\xfe\xfd", 3.0)
	f.Fuzz(func(t *testing.T, s string, width float64) {
		lines := draw.Wrap(s, 10, false, width, 0)
		for _, l := range lines {
			if len([]rune(l)) > 1 && draw.TextWidth(l, 10, false) > width {
				t.Errorf("line %q of %q is wider than %v", l, s, width)
			}
		}
		strip := func(s string) string { return strings.Join(strings.Fields(s), "") }
		if !utf8.ValidString(s) {
			return // broken bytes that lines kept apart may join to a letter here
		}
		if got := strip(strings.Join(lines, "")); got != strip(s) {
			t.Errorf("%q became %q", s, got)
		}
	})
}

func TestSimplified(t *testing.T) {
	const tolerance = 0.05
	var line []draw.Point
	for i := range 181 {
		a := float64(i) * math.Pi / 180
		line = append(line, draw.Point{X: 100 * math.Cos(a), Y: 100 * math.Sin(a)})
	}
	got := draw.Simplified(line, tolerance)
	if got[0] != line[0] || got[len(got)-1] != line[180] {
		t.Error("the ends moved")
	}
	// A chord over the angle a stands R(1 - cos(a/2)) off the circle: 1.81 degrees each side for 0.05 on 100.
	if len(got) < 180/4 || len(got) > 180/1 {
		t.Errorf("%d points stay of 181", len(got))
	}
	for i := 1; i < len(got); i++ {
		mid := math.Hypot((got[i].X+got[i-1].X)/2, (got[i].Y+got[i-1].Y)/2)
		if 100-mid > tolerance+1e-9 {
			t.Errorf("a piece stands %v off", 100-mid)
		}
	}
	straight := []draw.Point{{X: 0}, {X: 1}, {X: 2}, {X: 3}}
	if diff := cmp.Diff([]draw.Point{{X: 0}, {X: 3}}, draw.Simplified(straight, 0)); diff != "" {
		t.Error(diff)
	}
}

// Whatever is written reads at 4.5 to 1 on paper: WCAG 2.2, success criterion 1.4.3 (W3C, 2023), the formula of its
// glossary. Strokes need 3 to 1 (1.4.11).
func TestContrast(t *testing.T) {
	for colour, least := range map[draw.Colour]float64{
		draw.Ink: 4.5, draw.Accent: 4.5, draw.Vermillion: 3, draw.BluishGreen: 3, draw.Blue: 3,
	} {
		if got := 1.05 / (luminance(t, colour) + 0.05); got < least {
			t.Errorf("%s on paper: %.2f to 1, want %v", colour, got, least)
		}
	}
}

func luminance(t *testing.T, c draw.Colour) float64 {
	t.Helper()
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := parseHex(string(c)[1+2*i : 3+2*i])
		if err != nil {
			t.Fatal(err)
		}
		if v <= 0.04045 {
			v /= 12.92
		} else {
			v = math.Pow((v+0.055)/1.055, 2.4)
		}
		sum += weight * v
	}
	return sum
}

func parseHex(s string) (float64, error) {
	n := 0
	for _, r := range s {
		d := strings.IndexRune("0123456789abcdef", r)
		if d < 0 {
			return 0, errors.New("not a figure: " + string(r))
		}
		n = 16*n + d
	}
	return float64(n) / 255, nil
}
