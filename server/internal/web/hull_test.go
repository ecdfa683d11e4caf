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
	const foot = .3048
	with := func(value, low, high float64) string { // an area, in square feet
		value, low, high = value/foot/foot, low/foot/foot, high/foot/foot
		return fmt.Sprintf("%.1f %.1f to %.1f", value, math.Floor(low*10+1e-6)/10, math.Ceil(high*10-1e-6)/10)
	}
	for i, s := range m.Surface {
		w := m.Areas.Sides[i]
		want := with(s.AreaM2.Value, s.AreaM2.Low, s.AreaM2.High) + "|" + with(w.BelowM2, w.BelowLowM2, w.BelowHighM2) + "|" + with(w.AboveM2, w.AboveLowM2, w.AboveHighM2)
		head := map[boat.Side]string{boat.Port: "Port", boat.Starboard: "Starboard"}[s.Side]
		if got := page.row(t, head); got != want {
			t.Errorf("%s: %q, want %q", head, got, want)
		}
		if got := page.row(t, head+", planking in ft²"); !strings.Contains(got, fmt.Sprintf("|%.1f|", s.ByRule.AreaM2/foot/foot)) || !strings.Contains(got, s.ByRule.Because) {
			t.Errorf("the rule beside it: %q", got)
		}
		if got := page.row(t, head+", planking by trapezoids in ft²"); !strings.Contains(got, fmt.Sprintf("|%.1f|", s.ByTrapezoids.AreaM2/foot/foot)) || !strings.Contains(got, s.ByTrapezoids.Because) {
			t.Errorf("trapezoids beside it: %q", got)
		}
	}
	first := m.Zones[0]
	feet := func(m2 float64) float64 { return m2 / foot / foot }
	if got, want := page.row(t, "1 and 2"), fmt.Sprintf("0-10-0|1-9-6|%.2f|%.2f to %.2f", feet(first.AreaM2), math.Floor(feet(first.AreaLowM2)*100+1e-6)/100, math.Ceil(feet(first.AreaHighM2)*100-1e-6)/100); got != want {
		t.Errorf("the first bay: %q, want %q", got, want)
	}
	for _, want := range []string{"none stands out of line", "Areas of the planking in ft²", "Planking forward of the first station", "Below and above the height of 3-0-0"} {
		if !strings.Contains(page.body, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(page.body, "m²") || strings.Contains(page.body, "m³") {
		t.Error("a boat measured in feet has areas in metres on her page")
	}
	cubic := func(m3 float64) float64 { return m3 / foot / foot / foot }
	w, c := m.Areas, m.Areas.Centre
	volume := fmt.Sprintf("%.1f %.1f to %.1f", cubic(w.VolumeM3), math.Floor(cubic(w.VolumeLowM3)*10+1e-6)/10, math.Ceil(cubic(w.VolumeHighM3)*10-1e-6)/10)
	cells := strings.Split(page.row(t, "Both sides, below 3\u20110\u20110, ft³"), "|")
	if len(cells) != 3 || cells[0] != volume {
		t.Fatalf("%q, %s wanted", cells, volume)
	}
	placed(t, cells[1], c.XMM, c.XLowMM, c.XHighMM)
	placed(t, cells[2], c.ZMM, c.ZLowMM, c.ZHighMM)
	cells = strings.Split(page.row(t, "Plane of the water there, ft²"), "|")
	if len(cells) != 3 || cells[0] != with(w.WaterplaneM2, w.WaterplaneLowM2, w.WaterplaneHighM2) || cells[2] != "–" {
		t.Fatalf("%q", cells)
	}
	placed(t, cells[1], *w.WaterplaneXMM, *w.WaterplaneXLowMM, *w.WaterplaneXHighMM)
	side := m.Surface[0].Centre
	placed(t, strings.Split(page.row(t, "Port, to the centreline, ft³"), "|")[1], side.XMM, side.XLowMM, side.XHighMM)
	if plain := v.get(asked(d.yard.Job)); strings.Contains(plain.body, ">Below<") || plain.status != 200 {
		t.Error("a waterline nobody asked for")
	}
}

// placed says that a cell holds a length to the eighth of an inch with a range that covers its own by less than another.
func placed(t *testing.T, cell string, value, low, high float64) {
	t.Helper()
	const eighth = 25.4 / 8
	var at [3]string
	if _, err := fmt.Sscanf(cell, "%s %s to %s", &at[0], &at[1], &at[2]); err != nil {
		t.Fatalf("%q: %v", cell, err)
	}
	var mm [3]float64
	for i, text := range at {
		l, err := notation.FeetInchesEighths.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		mm[i] = l.MM()
	}
	if math.Abs(mm[0]-value) > eighth/2+1e-3 || mm[1] > low+1e-3 || mm[1] < low-eighth || mm[2] < high-1e-3 || mm[2] > high+eighth {
		t.Errorf("%q, and it is %v from %v to %v", cell, value, low, high)
	}
}

// A boat measured in millimetres has her areas and volumes in metres.
func TestTheHullPageOfABoatMeasuredInMillimetres(t *testing.T) {
	d := newDesk(t, "")
	job, _, _ := d.otherJob(t)
	h, err := d.Hull(t.Context(), d.lead(t), d.yard.Job)
	if err != nil {
		t.Fatal(err)
	}
	doc := inMillimetres(t, h.Doc)
	if _, err := d.PutHull(t.Context(), d.lead(t), job, doc, store.Absent); err != nil {
		t.Fatal(err)
	}
	m, err := d.Measures(t.Context(), d.lead(t), job, nil)
	if err != nil {
		t.Fatal(err)
	}
	page := d.in(t, auth.Lead).get(asked(job))
	a, v := m.Surface[0].AreaM2, m.Surface[0].VolumeM3
	if got, want := page.row(t, "Port"), fmt.Sprintf("%.2f %.2f to %.2f", a.Value, math.Floor(a.Low*100+1e-6)/100, math.Ceil(a.High*100-1e-6)/100); got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got, want := page.row(t, "Port, to the centreline, m³"), fmt.Sprintf("%.2f ", v.Value); !strings.HasPrefix(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
	if strings.Contains(page.body, "ft²") || strings.Contains(page.body, "ft³") {
		t.Error("a boat measured in millimetres has areas in feet")
	}
}

// inMillimetres is the table as it would be written in millimetres, ends and waterlines.
func inMillimetres(t *testing.T, doc offsets.Document) offsets.Document {
	t.Helper()
	to := func(text string) string {
		if text == "" {
			return ""
		}
		l, err := doc.Notation.Parse(text)
		if err != nil {
			t.Fatal(err)
		}
		return notation.Millimetres.Format(l)
	}
	out := offsets.Document{Notation: notation.Millimetres, Grain: to(doc.Grain), Surface: doc.Surface}
	for _, s := range doc.Stations {
		st := offsets.StationOffsets{No: s.No, X: to(s.X)}
		for _, e := range s.Sides {
			side := offsets.SideOffsets{Side: e.Side, Rabbet: &offsets.EndOffsets{Height: to(e.Rabbet.Height), HalfBreadth: to(e.Rabbet.HalfBreadth)},
				Sheer: &offsets.EndOffsets{Height: to(e.Sheer.Height), HalfBreadth: to(e.Sheer.HalfBreadth)}}
			for _, w := range e.Waterlines {
				side.Waterlines = append(side.Waterlines, offsets.WaterlineOffsets{Height: to(w.Height), HalfBreadth: to(w.HalfBreadth)})
			}
			for _, b := range e.Buttocks {
				side.Buttocks = append(side.Buttocks, offsets.ButtockOffsets{HalfBreadth: to(b.HalfBreadth), Height: to(b.Height)})
			}
			st.Sides = append(st.Sides, side)
		}
		out.Stations = append(out.Stations, st)
	}
	return out
}

// Every frame stands with what it asks of timber, the ranges of that, and how well it is known.
func TestTheHullPageTellsOfEveryFrame(t *testing.T) {
	d := newDesk(t, "")
	m, err := d.Measures(t.Context(), d.lead(t), d.yard.Job, nil)
	if err != nil || len(m.Frames) == 0 {
		t.Fatal(err)
	}
	page := d.in(t, auth.Estimator).get(asked(d.yard.Job))
	bends, more, bevels := 0, 0, 0
	for _, f := range m.Frames {
		where := fmt.Sprintf("Frame %d %s", f.Member.No, f.Member.Side)
		cells := strings.Split(page.row(t, where), "|")
		if len(cells) != 8 || cells[1] != "the lines" {
			t.Fatalf("%s: %q", where, cells)
		}
		placed(t, cells[2], f.GirthMM, f.GirthLowMM, f.GirthHighMM)
		for i, r := range [][4]*float64{{f.LeastRadiusMM, f.LeastRadiusLowMM, f.LeastRadiusHighMM, f.LeastAtMM}, {f.TightestRadiusMM, f.TightestRadiusLowMM, f.TightestRadiusHighMM, f.TightestAtMM}} {
			cell := cells[3+i]
			switch {
			case f.Straight && cell != "no bend":
				t.Errorf("%s is straight: %q", where, cell)
			case r[0] != nil && r[2] != nil:
				bends++
				placed(t, cell, *r[0], *r[1], *r[2])
				if !strings.Contains(cell, " at ") {
					t.Errorf("%s: no place in %q", where, cell)
				}
			}
		}
		if f.GreatestBevelLowDeg != nil {
			bevels++
			var deg [3]float64
			if _, err := fmt.Sscanf(strings.ReplaceAll(cells[5], "\u2212", "-"), "%g %g to %g", &deg[0], &deg[1], &deg[2]); err != nil || math.Abs(deg[0]-*f.GreatestBevelDeg) > .051 ||
				deg[1] > *f.GreatestBevelLowDeg+1e-6 || deg[1] < *f.GreatestBevelLowDeg-.1001 || deg[2] < *f.GreatestBevelHighDeg-1e-6 || deg[2] > *f.GreatestBevelHighDeg+.1001 {
				t.Errorf("%s: a bevel of %q, and it is %v from %v to %v", where, cells[5], *f.GreatestBevelDeg, *f.GreatestBevelLowDeg, *f.GreatestBevelHighDeg)
			}
		}
		well := f.Sharp != nil && *f.Sharp && !f.Doubtful && len(f.NotShownAtMM) == 0
		if !f.Straight && well != (cells[6] == "yes") {
			t.Errorf("%s: well shown %q", where, cells[6])
		}
		if p := f.OneMorePoint; p != nil {
			more++
			if !strings.HasPrefix(cells[7], fmt.Sprintf("station %d %s, ", *p.StationNo, p.Side)) {
				t.Errorf("%s: %q", where, cells[7])
			}
		} else if cells[7] != "–" {
			t.Errorf("%s: %q", where, cells[7])
		}
	}
	t.Logf("%d frames and sides: %d bends with both ends, %d bevels, %d with a place for one more point", len(m.Frames), bends, bevels, more)
	if bends == 0 || bevels == 0 || more == 0 {
		t.Error("nothing was shown")
	}
}

// Every station stands with its girth, sectional area and least radius, whether her bend is well shown, and where one more point would help.
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
		if len(cells) != 8 || cells[1] != fmt.Sprint(s.Points) || math.Abs(mm(cells[0])-s.XMM) > eighth/2 {
			t.Fatalf("%s: %q", where, cells)
		}
		near(where+", girth", cells[2], s.GirthMM, s.GirthLowMM, &s.GirthHighMM)
		const foot = .3048
		a := s.SectionAreaM2
		if want := fmt.Sprintf("%.2f %.2f to %.2f", a.Value/foot/foot, math.Floor(a.Low/foot/foot*100+1e-6)/100, math.Ceil(a.High/foot/foot*100-1e-6)/100); cells[3] != want {
			t.Errorf("%s: its area is %q, want %q", where, cells[3], want)
		}
		if s.Straight {
			if cells[4] != "no bend" {
				t.Errorf("%s is straight: %q", where, cells)
			}
			continue
		}
		near(where+", radius", cells[4], *s.LeastRadiusMM, *s.LeastRadiusLowMM, s.LeastRadiusHighMM)
		place, _, _ := strings.Cut(cells[5], " ")
		if math.Abs(mm(place)-*s.LeastAtMM) > eighth/2+1e-3 || strings.HasSuffix(cells[5], " hollow") != (s.Bend == "hollow") {
			t.Errorf("%s: its place is %q", where, cells[5])
		}
		well := s.Sharp && !s.Doubtful && len(s.NotShownAtMM) == 0
		if (cells[6] == "yes") != well || !well && !strings.HasPrefix(cells[6], "<strong>no</strong>: ") {
			t.Errorf("%s: %q", where, cells[6])
		}
		if well {
			sharp++
		}
		if (cells[7] == "–") != (s.OneMorePoint == nil) {
			t.Fatalf("%s: %q", where, cells[7])
		}
		if p := s.OneMorePoint; p != nil {
			more++
			var at [3]string
			if _, err := fmt.Sscanf(strings.ReplaceAll(cells[7], ",", ""), "%s along the girth near height %s and half-breadth %s", &at[0], &at[1], &at[2]); err != nil {
				t.Fatalf("%s: %q", where, cells[7])
			}
			for i, want := range []float64{p.AtMM, p.HeightMM, p.HalfBreadthMM} {
				if math.Abs(mm(at[i])-want) > eighth/2+1e-3 {
					t.Errorf("%s: %q, and %v is meant", where, cells[7], want)
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
	if cells := strings.Split(got.row(t, "Frame 1 port"), "|"); len(cells) != 8 || cells[1] != "a tape" || !strings.HasPrefix(cells[2], "4-11-0 ") || cells[5] != "–" || cells[6] != "–" || cells[7] != "–" {
		t.Errorf("a taped frame: %q", cells)
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
	inBrowser(t)
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
