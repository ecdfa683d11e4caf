package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"ribband/pdf"
	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/mould"
)

// ScaleMM is a point in millimetres: 1/72 in.
const scaleMM = 25.4 / 72

// onPaperMM is how far a drawn point may lie from where it belongs, mm: the file holds hundredths of a point, 0.0035 mm.
const onPaperMM = 0.01

// laidDown is the mould of one of the demo boat's frames.
func laidDown(t testing.TB, no int, side boat.Side, face frame.Face) mould.Mould {
	t.Helper()
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	o := hulltest.Read(t, &d.Hull)
	h := hulltest.Fit(t, o)
	frames, wrong := frame.Read(d.Frames)
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	f, s, err := takeoff.Basis{Hull: h, Frames: frames}.Shaped(boat.Member{Kind: boat.Frame, No: no, Side: side})
	if err != nil {
		t.Fatal(err)
	}
	f.MouldingFace = face
	m, err := mould.Of(mould.Given{Frame: f, Section: s, Notation: o.Notation, Waterlines: mould.Waterlines(o)})
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func fullSize(m mould.Mould, size pdf.SheetSize) pdf.FullSize {
	return pdf.FullSize{Boat: "Wendeline", Date: "2026-10-05", Revision: "1", Note: "Invented", Mould: m, Paper: size,
		CreatedAt: time.Date(2026, 10, 5, 12, 0, 0, 0, time.UTC)}
}

type dot struct{ x, y float64 }

type piece struct{ a, b dot }

func (p piece) length() float64 { return math.Hypot(p.b.x-p.a.x, p.b.y-p.a.y) }

// page is what is read out of a sheet's content, in millimetres from its lower left corner.
type page struct {
	name           string // "row A, column 1"; empty on the first
	faying         []piece
	inner, crosses []piece
	all            []piece
}

var (
	drawnLine = regexp.MustCompile(`(?m)^([\d.]+) w$|^([-\d.]+) ([-\d.]+) m ([-\d.]+) ([-\d.]+) l S$`)
	sheetName = regexp.MustCompile(`row [A-Z]+, column \d+`)
)

// sheetsOf reads the strokes of every sheet, told apart by their width.
func sheetsOf(t testing.TB, f pdf.FullSize) []page {
	t.Helper()
	file, err := pdf.WriteFullSizeUncompressed(f)
	if err != nil {
		t.Fatal(err)
	}
	wellFormed(t, file)
	words := pages(t, file)
	var out []page
	for _, m := range pageStream.FindAllSubmatch(file, -1) {
		if bytes.HasPrefix(m[1], []byte("/CIDInit")) {
			continue
		}
		p := page{name: sheetName.FindString(strings.Join(words[len(out)], " "))}
		width := ""
		for _, l := range drawnLine.FindAllSubmatch(m[1], -1) {
			if len(l[1]) > 0 {
				width = string(l[1])
				continue
			}
			var v [4]float64
			for i := range v {
				v[i], _ = strconv.ParseFloat(string(l[2+i]), 64)
				v[i] *= scaleMM
			}
			s := piece{dot{v[0], v[1]}, dot{v[2], v[3]}}
			p.all = append(p.all, s)
			switch width {
			case "1.00":
				p.faying = append(p.faying, s)
			case "0.60":
				p.inner = append(p.inner, s)
			case "0.45":
				p.crosses = append(p.crosses, s)
			}
		}
		out = append(out, p)
	}
	return out
}

// registers are the middles of a sheet's crosses by corner: lower left, lower right, upper right, upper left.
func (p page) registers(t testing.TB) (out [4]dot) {
	t.Helper()
	if len(p.crosses) != 8 {
		t.Fatalf("%s has %d strokes of crosses, want 8", p.name, len(p.crosses))
	}
	for i := range out {
		level, upright := p.crosses[2*i], p.crosses[2*i+1]
		if level.a.y != level.b.y || upright.a.x != upright.b.x {
			t.Fatalf("%s: the cross %v %v is not square", p.name, level, upright)
		}
		out[i] = dot{upright.a.x, level.a.y}
	}
	return out
}

// rowColumn of a sheet, rows from above.
func rowColumn(t testing.TB, name string) (row, column int) {
	t.Helper()
	var letters string
	if _, err := fmt.Sscanf(strings.Replace(name, ",", " ,", 1), "row %s , column %d", &letters, &column); err != nil {
		t.Fatalf("%q: %v", name, err)
	}
	for _, r := range letters {
		row = 26*row + int(r-'A') + 1
	}
	return row, column
}

// assembled lays all sheets together by their crosses alone, as somebody at a bench does, and gives where each one's lower
// left corner comes to lie. Where two sheets share two crosses, both have to meet.
func assembled(t testing.TB, all []page) []dot {
	t.Helper()
	type cell struct{ row, column int }
	at := map[cell]int{}
	for i, p := range all {
		r, c := rowColumn(t, p.name)
		at[cell{r, c}] = i
	}
	where := make([]dot, len(all))
	laid := map[int]bool{0: true}
	shared := map[cell][2][2]int{ // the crosses of this sheet and of its neighbour that are the same
		{0, 1}: {{1, 0}, {2, 3}}, {0, -1}: {{0, 1}, {3, 2}}, {1, 0}: {{0, 3}, {1, 2}}, {-1, 0}: {{3, 0}, {2, 1}},
	}
	for queue := []int{0}; len(queue) > 0; queue = queue[1:] {
		i := queue[0]
		r, c := rowColumn(t, all[i].name)
		mine := all[i].registers(t)
		for step, pairs := range shared {
			j, there := at[cell{r + step.row, c + step.column}]
			if !there {
				continue
			}
			its := all[j].registers(t)
			place := func(k int) dot {
				return dot{where[i].x + mine[pairs[k][0]].x - its[pairs[k][1]].x, where[i].y + mine[pairs[k][0]].y - its[pairs[k][1]].y}
			}
			a, b := place(0), place(1)
			if off := math.Hypot(a.x-b.x, a.y-b.y); off > onPaperMM {
				t.Errorf("%s and %s: with one cross on the other, the second misses by %.4f mm", all[i].name, all[j].name, off)
			}
			if !laid[j] {
				laid[j], where[j] = true, a
				queue = append(queue, j)
			}
		}
	}
	if len(laid) != len(all) {
		t.Fatalf("%d sheets of %d hang together by two crosses", len(laid), len(all))
	}
	return where
}

// Laid together by their crosses, the sheets show the frame in its true size: every end of every stroke of either face lies
// on the face, and all of the face is there.
func TestSheetsAreTrue(t *testing.T) {
	for _, c := range []struct {
		no   int
		side boat.Side
		face frame.Face
		size pdf.SheetSize
	}{{17, boat.Port, frame.Forward, pdf.SheetA4}, {17, boat.Starboard, frame.Forward, pdf.SheetA3}, {2, boat.Port, frame.Aft, pdf.SheetA4}, {33, boat.Starboard, frame.Aft, pdf.SheetA4}} {
		m := laidDown(t, c.no, c.side, c.face)
		all := sheetsOf(t, fullSize(m, c.size))[1:]
		where := assembled(t, all)
		origin := wherePaperBegins(t, m, all, where)
		for _, f := range []struct {
			what string
			true []hull.Point
			of   func(page) []piece
		}{{"faying face", m.Faying, func(p page) []piece { return p.faying }}, {"inner face", m.Inner, func(p page) []piece { return p.inner }}} {
			var face []dot
			for _, q := range f.true {
				face = append(face, dot{m.Across(q.Y), q.Z})
			}
			worst, drawn := 0.0, 0.0
			var strokes []piece
			for i, p := range all {
				for _, s := range f.of(p) {
					a := dot{s.a.x + where[i].x - origin.x, s.a.y + where[i].y - origin.y}
					b := dot{s.b.x + where[i].x - origin.x, s.b.y + where[i].y - origin.y}
					worst = max(worst, offFace(face, a), offFace(face, b))
					strokes = append(strokes, piece{a, b})
					drawn += s.length()
				}
			}
			// Each sheet that one is laid against adds what the file rounds off.
			if most := onPaperMM + 0.0035*math.Sqrt(float64(len(all))); worst > most {
				t.Errorf("frame %d %s, %s: an end lies %.4f mm off, %.4f allowed", c.no, c.side, f.what, worst, most)
			}
			missing := 0
			for _, q := range face {
				near := math.Inf(1)
				for _, s := range strokes {
					near = min(near, offFace([]dot{s.a, s.b}, q))
				}
				if near > 0.03 {
					missing++
				}
			}
			if missing > 0 {
				t.Errorf("frame %d %s: %d points of the %s are on no sheet", c.no, c.side, missing, f.what)
			}
			t.Logf("frame %d %s on %d sheets of %s: %s worst %.4f mm, %.0f mm drawn", c.no, c.side, len(all), c.size, f.what, worst, drawn)
		}
	}
}

// wherePaperBegins is where the plane's zero lies when the first sheet's corner does: by the rabbet end of the faying face,
// which is the end of a stroke on one sheet that no other stroke goes on from.
func wherePaperBegins(t testing.TB, m mould.Mould, all []page, where []dot) dot {
	t.Helper()
	for i, p := range all {
		for _, s := range p.faying {
			first, second := m.Faying[0], m.Faying[1]
			want := dot{m.Across(second.Y) - m.Across(first.Y), second.Z - first.Z}
			if math.Hypot(s.b.x-s.a.x-want.x, s.b.y-s.a.y-want.y) < 0.006 {
				origin := dot{s.a.x + where[i].x - m.Across(first.Y), s.a.y + where[i].y - first.Z}
				// It is the rabbet's piece where the next one follows as well.
				ok := false
				third := m.Faying[2]
				for _, n := range p.faying {
					ok = ok || math.Hypot(n.b.x+where[i].x-origin.x-m.Across(third.Y), n.b.y+where[i].y-origin.y-third.Z) < 0.01
				}
				if ok {
					return origin
				}
			}
		}
	}
	t.Fatal("the rabbet end of the faying face is on no sheet")
	return dot{}
}

func offFace(face []dot, p dot) float64 {
	least := math.Inf(1)
	for i := 1; i < len(face); i++ {
		a, b := face[i-1], face[i]
		dx, dy := b.x-a.x, b.y-a.y
		w := 0.0
		if l := dx*dx + dy*dy; l > 0 {
			w = min(1, max(0, ((p.x-a.x)*dx+(p.y-a.y)*dy)/l))
		}
		least = min(least, math.Hypot(p.x-a.x-w*dx, p.y-a.y-w*dy))
	}
	return least
}

// In the overlap neighbours show the same strokes: with crosses on crosses the faying face of one lies on the other's.
func TestOverlapsShowTheSame(t *testing.T) {
	m := laidDown(t, 17, boat.Port, frame.Forward)
	all := sheetsOf(t, fullSize(m, pdf.SheetA4))[1:]
	where := assembled(t, all)
	looked := 0
	for i := range all {
		for j := range all {
			for _, s := range all[i].faying {
				a := dot{s.a.x + where[i].x - where[j].x, s.a.y + where[i].y - where[j].y}
				if i == j || !within(all[j], a) {
					continue
				}
				near := math.Inf(1)
				for _, o := range all[j].faying {
					near = min(near, offFace([]dot{o.a, o.b}, a))
				}
				looked++
				if near > 0.02 {
					t.Errorf("%s shows %v of %s %.4f mm elsewhere", all[j].name, a, all[i].name, near)
				}
			}
		}
	}
	if looked == 0 {
		t.Error("no stroke lies in an overlap, so nothing was looked at")
	}
}

// within reports whether a point lies well inside of what a sheet shows: beyond its crosses by less than half the overlap.
func within(p page, q dot) bool {
	low, high := dot{math.Inf(1), math.Inf(1)}, dot{math.Inf(-1), math.Inf(-1)}
	for _, s := range p.crosses {
		low = dot{min(low.x, s.a.x), min(low.y, s.a.y)}
		high = dot{max(high.x, s.b.x), max(high.y, s.b.y)}
	}
	return q.x > low.x && q.x < high.x && q.y > low.y && q.y < high.y
}

// The square on the first sheet is 100 mm, in the file and as a printer's program draws it.
func TestControlSquare(t *testing.T) {
	for _, size := range []pdf.SheetSize{pdf.SheetA4, pdf.SheetA3} {
		f := fullSize(laidDown(t, 9, boat.Port, frame.Forward), size)
		sides := 0
		for _, s := range sheetsOf(t, f)[0].all {
			if math.Abs(s.length()-100) <= onPaperMM {
				sides++
			}
		}
		if sides != 4 {
			t.Errorf("%s: %d strokes of 100 mm on the first sheet, want the 4 of a square", size, sides)
		}
		t.Run("drawn on "+string(size), func(t *testing.T) {
			needTool(t, "pdftoppm")
			file, err := pdf.WriteFullSize(f)
			if err != nil {
				t.Fatal(err)
			}
			dir := t.TempDir()
			tool(t, file, "pdftoppm", "-r", "300", "-gray", "-f", "1", "-l", "1", "FILE", filepath.Join(dir, "page"))
			found, _ := filepath.Glob(filepath.Join(dir, "*.pgm"))
			w, h, pixels := gray(t, found[0])
			// A side is a row of pixels dark over nearly 100 mm; the square stands in the lower right corner.
			const mm = 300 / 25.4
			left, right := longDark(h, func(y int) []byte { return pixels[y*w : y*w+w] }, 99*mm)
			top, bottom := longDark(w, func(x int) []byte {
				out := make([]byte, h)
				for y := range out {
					out[y] = pixels[y*w+x]
				}
				return out
			}, 99*mm)
			for what, got := range map[string]float64{"upright": right - left, "across": bottom - top} {
				if math.Abs(got-100*mm) > 1 {
					t.Errorf("the square is %.1f pixels %s, 100 mm are %.1f", got, what, 100*mm)
				}
			}
		})
	}
}

// longDark is the middle of the first and of the last line of pixels that is dark over so many.
func longDark(n int, line func(int) []byte, over float64) (first, last float64) {
	var dark []int
	for i := range n {
		run, most := 0, 0
		for _, v := range line(i) {
			if v < 160 {
				run++
			} else {
				run = 0
			}
			most = max(most, run)
		}
		if float64(most) >= over && float64(most) <= over*1.03 {
			dark = append(dark, i)
		}
	}
	if len(dark) == 0 {
		return 0, 0
	}
	middle := func(list []int, step int) float64 {
		sum, count := float64(list[0]), 1.0
		for k := 1; k < len(list) && list[k] == list[k-1]+step; k++ {
			sum, count = sum+float64(list[k]), count+1
		}
		return sum / count
	}
	back := make([]int, len(dark))
	for k, v := range dark {
		back[len(dark)-1-k] = v
	}
	return middle(dark, 1), middle(back, -1)
}

// The first sheet says what to heed, every sheet which it is, and all strokes stay off the printer's margin.
func TestSheetsSayWhatToHeed(t *testing.T) {
	m := laidDown(t, 17, boat.Port, frame.Forward)
	m.Cautions = []string{"A caution of the mould."}
	for _, size := range []pdf.SheetSize{pdf.SheetA4, pdf.SheetA3, "", "letter"} {
		f := fullSize(m, size)
		file, err := pdf.WriteFullSizeUncompressed(f)
		if err != nil {
			t.Fatal(err)
		}
		again, _ := pdf.WriteFullSizeUncompressed(f)
		if !bytes.Equal(file, again) {
			t.Errorf("%q: written twice, it differs", size)
		}
		words := pages(t, file)
		first := oneSpace(strings.Join(words[0], " "))
		for _, want := range []string{"Frame 17 port, full size, of Wendeline", "print again without scaling", "try it against the boat", "for the surveyor to say", "A caution of the mould.", "Seen from the forward face", "each side is 100.0 mm", "Date 2026-10-05, revision 1"} {
			if !strings.Contains(first, want) {
				t.Errorf("%q: the first sheet does not say %q:\n%s", size, want, first)
			}
		}
		bevels := strings.Count(flat(words[1:]), ", bevel ")
		if bevels != len(m.Marks) {
			t.Errorf("%q: %d bevels are written, %d marks", size, bevels, len(m.Marks))
		}
		all := sheetsOf(t, f)
		seen := map[string]bool{}
		for i, p := range all {
			if (p.name == "") != (i == 0) || seen[p.name] {
				t.Errorf("%q: sheet %d is named %q", size, i, p.name)
			}
			seen[p.name] = true
			if i > 0 && !strings.Contains(strings.Join(words[i], " "), fmt.Sprintf("sheet %d of %d", i, len(all)-1)) {
				t.Errorf("%q: sheet %d does not say so", size, i)
			}
			for _, s := range p.all {
				for _, q := range []dot{s.a, s.b} {
					if q.x < 9.99 || q.y < 9.99 {
						t.Errorf("%q: sheet %d has a stroke to %v", size, i, q)
					}
				}
			}
		}
	}
	a4, a3 := len(sheetsOf(t, fullSize(m, pdf.SheetA4))), len(sheetsOf(t, fullSize(m, pdf.SheetA3)))
	if a3 >= a4 {
		t.Errorf("%d sheets of A3, %d of A4", a3, a4)
	}
	var none *mould.NoSectionError
	if _, err := pdf.WriteFullSize(pdf.FullSize{}); !errors.As(err, &none) {
		t.Errorf("nothing to draw: %v", err)
	}
}

// With RIBBAND_OUT set the sheets are left there to be looked at.
func TestLeaveSheets(t *testing.T) {
	dir := os.Getenv("RIBBAND_OUT")
	if dir == "" {
		t.Skip("RIBBAND_OUT is not set, so no sheets are left to be looked at")
	}
	for _, size := range []pdf.SheetSize{pdf.SheetA4, pdf.SheetA3} {
		file, err := pdf.WriteFullSize(fullSize(laidDown(t, 17, boat.Port, frame.Forward), size))
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, "frame-"+string(size)+".pdf"), file, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
