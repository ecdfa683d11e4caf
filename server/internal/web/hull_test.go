package web_test

import (
	"fmt"
	"math"
	"net/url"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"ribband/server/internal/app"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// asked is the address of the page of a job's hull with a question.
func asked(job string, fields ...string) string {
	q := url.Values{}
	for i := 0; i < len(fields); i += 2 {
		q.Set(fields[i], fields[i+1])
	}
	return "/jobs/" + job + "/hull?" + q.Encode()
}

// row is the row of a table that begins with a head, its tags taken out and its cells parted by a bar.
func (a answered) row(t *testing.T, head string) string {
	t.Helper()
	_, rest, ok := strings.Cut(a.body, `<th scope="row">`+head+"</th>")
	if !ok {
		t.Fatalf("no row begins with %q", head)
	}
	row, _, _ := strings.Cut(rest, "</tr>")
	row = strings.NewReplacer("</td><td class=\"num\">", "|", "<td class=\"num\">", "", "</td>", "", "<br>", " ", `<span class="from">`, "", "</span>", "", `<td class="reason">`, "|", "<td>", "|").Replace(row)
	return strings.TrimSpace(row)
}

func (d *desk) lead(t *testing.T) auth.Principal {
	t.Helper()
	who, err := d.Who(t.Context(), d.token(auth.Lead))
	if err != nil {
		t.Fatal(err)
	}
	return who
}

// What the page shows is what the measures are, ranges as ranges, lengths as the table of offsets writes them.
func TestTheHullPageShowsTheMeasures(t *testing.T) {
	d := newDesk(t, "")
	who := d.lead(t)
	height, err := notation.FeetInchesEighths.Parse("3-0-0")
	if err != nil {
		t.Fatal(err)
	}
	mm := height.MM()
	m, err := d.Measures(t.Context(), who, d.yard.Job, &mm)
	if err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Estimator)
	if !strings.Contains(v.get("/jobs/"+d.yard.Job).body, `href="/jobs/`+d.yard.Job+`/hull"`) {
		t.Error("the page of the job does not lead there")
	}
	page := v.get(asked(d.yard.Job, "waterline", "3-0-0"))
	if page.status != 200 {
		t.Fatal(page.status)
	}
	with := func(value, low, high float64) string {
		return fmt.Sprintf("%.2f %.2f to %.2f", value, math.Floor(low*100+1e-6)/100, math.Ceil(high*100-1e-6)/100)
	}
	for i, s := range m.Surface {
		w := m.Areas.Sides[i]
		want := with(s.AreaM2.Value, s.AreaM2.Low, s.AreaM2.High) + "|" + with(w.BelowM2, w.BelowLowM2, w.BelowHighM2) + "|" + with(w.AboveM2, w.AboveLowM2, w.AboveHighM2)
		head := map[boat.Side]string{boat.Port: "Port", boat.Starboard: "Starboard"}[s.Side]
		if got := page.row(t, head); got != want {
			t.Errorf("%s: %q, want %q", head, got, want)
		}
		if got := page.row(t, head+", planking in m²"); !strings.Contains(got, fmt.Sprintf("|%.2f|", s.ByRule.AreaM2)) || !strings.Contains(got, s.ByRule.Because) {
			t.Errorf("the rule beside it: %q", got)
		}
		if got := page.row(t, head+", planking by trapezoids in m²"); !strings.Contains(got, fmt.Sprintf("|%.2f|", s.ByTrapezoids.AreaM2)) || !strings.Contains(got, s.ByTrapezoids.Because) {
			t.Errorf("trapezoids beside it: %q", got)
		}
	}
	first := m.Zones[0]
	if got, want := page.row(t, "1 and 2"), fmt.Sprintf("0-10-0|1-9-6|%.3f|%.3f to %.3f", first.AreaM2, math.Floor(first.AreaLowM2*1000+1e-6)/1000, math.Ceil(first.AreaHighM2*1000-1e-6)/1000); got != want {
		t.Errorf("the first bay: %q, want %q", got, want)
	}
	for _, want := range []string{"none stands out of line", "both sides together enclose", "Planking forward of the first station", "Below and above the height of 3-0-0"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if plain := v.get(asked(d.yard.Job)); strings.Contains(plain.body, ">Below<") || plain.status != 200 {
		t.Error("a waterline nobody asked for")
	}
}

// Every station stands with its girth and least radius, whether her bend is well shown, and where one more point would help.
func TestTheHullPageTellsOfEveryStation(t *testing.T) {
	d := newDesk(t, "")
	m, err := d.Measures(t.Context(), d.lead(t), d.yard.Job, nil)
	if err != nil || len(m.Stations) == 0 {
		t.Fatal(err)
	}
	page := d.in(t, auth.Estimator).get(asked(d.yard.Job))
	const eighth = 25.4 / 8
	mm := func(text string) float64 {
		l, err := notation.FeetInchesEighths.Parse(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
		}
		return l.MM()
	}
	// near says that a cell holds the figure to the eighth, and a range that covers its own by less than an eighth.
	near := func(where, cell string, value, low float64, high *float64) {
		parts := strings.Fields(cell)
		if len(parts) != 4 || math.Abs(mm(parts[0])-value) > eighth/2+1e-3 {
			t.Errorf("%s: %q, and it is %v from %v to %v", where, cell, value, low, high)
			return
		}
		if got := mm(parts[1]); got > low+1e-3 || got < low-eighth {
			t.Errorf("%s: %q begins at %v", where, cell, low)
		}
		if high == nil {
			if parts[2]+parts[3] != "andmore" {
				t.Errorf("%s: %q has no high end", where, cell)
			}
		} else if got := mm(parts[3]); got < *high-1e-3 || got > *high+eighth {
			t.Errorf("%s: %q ends at %v", where, cell, *high)
		}
	}
	more, sharp := 0, 0
	for _, s := range m.Stations {
		where := fmt.Sprintf("Station %d %s", s.StationNo, s.Side)
		cells := strings.Split(page.row(t, where), "|")
		if len(cells) != 7 || cells[1] != fmt.Sprint(s.Points) || math.Abs(mm(cells[0])-s.XMM) > eighth/2 {
			t.Fatalf("%s: %q", where, cells)
		}
		near(where+", girth", cells[2], s.GirthMM, s.GirthLowMM, &s.GirthHighMM)
		if s.Straight {
			if cells[3] != "no bend" {
				t.Errorf("%s is straight: %q", where, cells)
			}
			continue
		}
		near(where+", radius", cells[3], *s.LeastRadiusMM, *s.LeastRadiusLowMM, s.LeastRadiusHighMM)
		place, _, _ := strings.Cut(cells[4], " ")
		if math.Abs(mm(place)-*s.LeastAtMM) > eighth/2+1e-3 || strings.HasSuffix(cells[4], " hollow") != (s.Bend == "hollow") {
			t.Errorf("%s: its place is %q", where, cells[4])
		}
		well := s.Sharp && !s.Doubtful && len(s.NotShownAtMM) == 0
		if (cells[5] == "yes") != well || !well && !strings.HasPrefix(cells[5], "<strong>no</strong>: ") {
			t.Errorf("%s: %q", where, cells[5])
		}
		if well {
			sharp++
		}
		if (cells[6] == "–") != (s.OneMorePoint == nil) {
			t.Fatalf("%s: %q", where, cells[6])
		}
		if p := s.OneMorePoint; p != nil {
			more++
			var at [3]string
			if _, err := fmt.Sscanf(strings.ReplaceAll(cells[6], ",", ""), "%s along the girth near height %s and half-breadth %s", &at[0], &at[1], &at[2]); err != nil {
				t.Fatalf("%s: %q", where, cells[6])
			}
			for i, want := range []float64{p.AtMM, p.HeightMM, p.HalfBreadthMM} {
				if math.Abs(mm(at[i])-want) > eighth/2+1e-3 {
					t.Errorf("%s: %q, and %v is meant", where, cells[6], want)
				}
			}
		}
	}
	t.Logf("%d stations and sides: %d well shown, %d with a place for one more point", len(m.Stations), sharp, more)
	if more == 0 {
		t.Error("no station has a place for one more point, so nothing was shown")
	}
}

// Strakes come from a form, and go along when another question is asked.
func TestTheHullPageLaysStrakesOut(t *testing.T) {
	d := newDesk(t, "")
	s, err := d.StrakesOf(t.Context(), d.lead(t), d.yard.Job, app.StrakesQuestion{Side: boat.Starboard, Strakes: 12, Thickness: 25.4, Stock: []float64{12 * 304.8, 16 * 304.8}})
	if err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Lead)
	page := v.get(asked(d.yard.Job, "strakes", " 12 ", "side", "starboard", "thickness", "0-1-0", "stock", "16-0-0; 12-0-0", "waterline", "2-6-0"))
	if page.status != 200 {
		t.Fatal(page.status)
	}
	garboard := s.Strakes[0]
	got := strings.Split(page.row(t, "1"), "|")
	if len(got) != 10 {
		t.Fatalf("%d cells: %q", len(got), got)
	}
	for i, want := range map[int]float64{1: garboard.BoardWidth.Value, 2: garboard.RoundLower.Value, 6: garboard.WidthLeast.Value, 9: *garboard.BoardThickness} {
		text, _, _ := strings.Cut(got[i], " ")
		l, err := notation.FeetInchesEighths.Parse(text)
		if err != nil || math.Abs(l.MM()-want) > 25.4/16+1e-6 {
			t.Errorf("cell %d is %q, and it is %.2f mm", i, got[i], want)
		}
	}
	if !strings.Contains(got[5], garboard.Butts[0].Where) || !strings.HasPrefix(got[4], fmt.Sprintf("%.0f ", 100*garboard.Spiling.Value)) {
		t.Errorf("%q", got)
	}
	for _, want := range []string{"12 strakes of the starboard side", `<option value="starboard" selected>`, `<input type="hidden" name="strakes" value="12">`, "Plank by plank", s.Cautions[0][:40]} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page has no %q", want)
		}
	}
	if bare := v.get(asked(d.yard.Job, "strakes", "9")); strings.Contains(bare.body, "Butts") || !strings.Contains(bare.body, "9 strakes of the port side") {
		t.Error("without stock there are no butts to tell of")
	}
}

// What cannot be read is told at its field, in words, and all else still stands.
func TestWhatTheHullPageCannotRead(t *testing.T) {
	d := newDesk(t, "")
	v := d.in(t, auth.Estimator)
	for _, c := range []struct {
		fields []string
		status int
		says   string
	}{
		{[]string{"waterline", "914 mm"}, 422, "Waterline: "},
		{[]string{"waterline", "<b>"}, 422, "write it like 2-3-4"},
		{[]string{"strakes", "0"}, 422, "a whole number from 1 to 60"},
		{[]string{"strakes", "1e9"}, 422, "is no number of strakes"},
		{[]string{"strakes", "12", "side", "both"}, 422, "port or starboard"},
		{[]string{"strakes", "12", "thickness", "0-0-0"}, 422, "a length above 0"},
		{[]string{"strakes", "12", "stock", "12-0-0;;16-0-0"}, 422, "Lengths of stock: "},
		{[]string{"strakes", "12", "stock", strings.Repeat("12-0-0;", 60)}, 422, "at most 50"},
		{[]string{"further", "none"}, 404, "There is nothing here"},
		{[]string{"waterline", "900-0-0"}, 200, "sheer lies below the waterline"},
	} {
		got := v.get(asked(d.yard.Job, c.fields...))
		if got.status != c.status || !strings.Contains(got.body, c.says) {
			t.Errorf("%q is answered %d and not with %q", c.fields, got.status, c.says)
		}
		if c.status == 422 && (!strings.Contains(got.body, "To be put right: Hull of Wendeline") || !strings.Contains(got.body, "Fairness") || strings.Contains(got.body, "<b>")) {
			t.Errorf("%q: the page does not stand", c.fields)
		}
	}
}

// A job of which nothing was measured says what to do; one of taped frames has no lines to lay strakes on.
func TestTheHullPageWithoutLines(t *testing.T) {
	d := newDesk(t, "")
	job, _, _ := d.otherJob(t)
	v := d.in(t, auth.Lead)
	if got := v.get(asked(job)); got.status != 200 || !strings.Contains(got.body, "neither a hull nor frames yet") {
		t.Errorf("%d", got.status)
	}
	doc := frame.Document{Notation: notation.Millimetres, MouldingFace: frame.Forward}
	for no := 1; no <= 3; no++ {
		doc.Frames = append(doc.Frames, frame.Row{No: no, Side: boat.Both, X: fmt.Sprint(400 * no), Siding: "45", Moulded: "50", Tape: &frame.TapeRow{Girth: "1500", Chord: "900", Rise: "120"}})
	}
	if _, err := d.PutFrames(t.Context(), d.lead(t), job, doc, store.Absent); err != nil {
		t.Fatal(err)
	}
	got := v.get(asked(job, "strakes", "12"))
	for _, want := range []string{"Plank areas, volumes and bevels", "this job has none", "There are no offsets to judge", "There is no option yet"} {
		if got.status != 200 || !strings.Contains(got.body, want) {
			t.Errorf("%d, without %q", got.status, want)
		}
	}
	// A tape has no line that a pattern could be tried on, and that is said.
	option := ""
	_, err := d.MakeOption(t.Context(), d.lead(t), job, app.Key{}, app.OptionFields{Name: "All", Scope: []string{"All frames."}, Undone: []string{"Nothing."}},
		func(o app.Option) (store.Answer, error) { option = o.ID; return store.Answer{}, nil })
	if err != nil {
		t.Fatal(err)
	}
	remedies := frame.Remedies{Remedies: []frame.RemedyRow{{Member: boat.Member{Kind: boat.Frame, No: 1, Side: boat.Both}, ThroughNo: 3, Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}}}
	if _, err := d.PutRemedies(t.Context(), d.lead(t), job, option, remedies, store.Absent); err != nil {
		t.Fatal(err)
	}
	got = v.get(asked(job, "further", option))
	for _, want := range []string{"Not weighed", "Patterns, frame 1 port; frame 1 starboard; frame 2 port", "it was taped", "What others would bring is not known: 6 patterns."} {
		if got.status != 200 || !strings.Contains(got.body, want) {
			t.Errorf("%d, without %q", got.status, want)
		}
	}
}

// What the strakes want besides is told beside their form, and the rest of the page stands.
func TestTheHullPageWithoutFrames(t *testing.T) {
	d := newDesk(t, "")
	job, _, _ := d.otherJob(t)
	h, err := d.Hull(t.Context(), d.lead(t), d.yard.Job)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := d.PutHull(t.Context(), d.lead(t), job, h.Doc, store.Absent); err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Lead)
	got := v.get(asked(job, "strakes", "12", "stock", "16-0-0"))
	for _, want := range []string{"The job has no frames yet, and planks butt between frames", "Both sides", "none stands out of line"} {
		if got.status != 200 || !strings.Contains(got.body, want) {
			t.Errorf("%d, without %q", got.status, want)
		}
	}
	if got = v.get(asked(job, "strakes", "12")); got.status != 200 || !strings.Contains(got.body, "12 strakes of the port side") || strings.Contains(got.body, "Bay by bay") {
		t.Errorf("%d: without stock no frames are wanted", got.status)
	}
}

// An offset misread by an inch heads the list, with what is written and what would be fair; the option's page warns of it.
func TestTheHullPageTellsOffsetsOutOfLine(t *testing.T) {
	d := newDesk(t, "")
	who := d.lead(t)
	h, err := d.Hull(t.Context(), who, d.yard.Job)
	if err != nil {
		t.Fatal(err)
	}
	var cell *offsets.WaterlineOffsets
	for i := range h.Doc.Stations {
		for k := range h.Doc.Stations[i].Sides {
			side := &h.Doc.Stations[i].Sides[k]
			for n := range side.Waterlines {
				if h.Doc.Stations[i].No == 6 && side.Side == boat.Port && side.Waterlines[n].Height == "3-0-0" {
					cell = &side.Waterlines[n]
				}
			}
		}
	}
	was := cell.HalfBreadth
	l, _ := h.Doc.Notation.Parse(was)
	more, _ := notation.FromMM(l.MM() + 25.4)
	cell.HalfBreadth = h.Doc.Notation.Format(more)
	if _, err := d.PutHull(t.Context(), who, d.yard.Job, h.Doc, store.Seen(h.N)); err != nil {
		t.Fatal(err)
	}
	v := d.in(t, auth.Lead)
	page := v.get(asked(d.yard.Job))
	cells := strings.Split(page.row(t, "Station 6 port, waterline 3-0-0"), "|")
	fair, err := h.Doc.Notation.Parse(cells[1])
	if cells[0] != cell.HalfBreadth || err != nil || math.Abs(fair.MM()-l.MM()) > 25.4/4 || !strings.HasSuffix(cells[2], " out") || !strings.Contains(cells[len(cells)-1], "yes") {
		t.Errorf("%q, and it was %s", cells, was)
	}
	if !strings.Contains(page.body, "1 stands out of line") {
		t.Error("the page does not say that one stands out of line")
	}
	option := v.get("/jobs/" + d.yard.Job + "/options/" + d.yard.Options[0])
	if want := "Station 6 port, waterline 3-0-0: written " + cell.HalfBreadth + "; " + cells[1] + " would be fair."; !strings.Contains(option.body, want) {
		t.Errorf("the page of the option does not say %q", want)
	}
}

// The estimator asks for a waterline, strakes and the next measurement, on a screen and on a phone.
func TestTheHullOnAScreenAndOnAPhone(t *testing.T) {
	chromium(t)
	d := newDesk(t, "")
	for _, width := range []int64{screen, 375, narrow} {
		b := newTab(t, d, "hull", width)
		b.enter(auth.Estimator)
		b.open("/jobs/" + d.yard.Job)
		b.pressText("Hull: planking, strakes and fairness")
		b.look("as it comes")
		b.do(chromedp.SendKeys("#waterline", "3-0-0"))
		b.press("#areas + div form button")
		b.do(chromedp.SendKeys("#strakes", "twelve"))
		b.press("#planks + div form button")
		b.look("with a fault")
		if at := ask[string](b, "document.querySelector('#waterline').value"); at != "3-0-0" {
			t.Errorf("the waterline is lost: %q", at)
		}
		ask[int](b, "document.querySelector('#strakes').value = '', 0")
		b.do(chromedp.SendKeys("#strakes", "12"), chromedp.SendKeys("#thickness", "0-1-0"), chromedp.SendKeys("#stock", "12-0-0; 16-0-0"))
		b.press("#planks + div form button")
		b.press("#further + div form button")
		ask[int](b, "document.querySelectorAll('details').forEach(d => d.open = true), 0")
		b.look("asked everything")
		if said := ask[string](b, "document.querySelector('.done').textContent"); !strings.Contains(said, "m3") {
			t.Errorf("the next measurement is told as %q", said)
		}
		if width == screen {
			b.tabThrough("hull")
		}
	}
}
