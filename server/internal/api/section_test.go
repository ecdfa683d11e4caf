package api_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/notation"
)

// A frame's section tells its bevels by the heights asked for, and what they ask of the blank.
func TestSectionOfAFrame(t *testing.T) {
	oneByOne(t)
	d := open(t, file(t))
	var s struct {
		XMM   float64 `json:"x_mm"`
		Frame *struct {
			MouldingFace string  `json:"moulding_face"`
			Greatest     float64 `json:"greatest_bevel_deg"`
			Extra        float64 `json:"extra_moulding_mm"`
		}
		Places []struct {
			Height float64 `json:"height_mm"`
			Bevel  float64 `json:"bevel_deg"`
			Low    float64 `json:"bevel_low_deg"`
			High   float64 `json:"bevel_high_deg"`
		}
	}
	d.get(d.job("hull", "section") + "?side=starboard&frame=5&heights_mm=700,1000.5").want(200).into(&s)
	if s.Frame == nil || len(s.Places) != 2 || math.Abs(s.Places[0].Height-700) > .002 || math.Abs(s.Places[1].Height-1000.5) > .002 {
		t.Fatalf("%+v", s)
	}
	for _, p := range s.Places {
		if math.Abs(p.Bevel) > math.Abs(s.Frame.Greatest)+.001 {
			t.Errorf("a bevel of %v is wider than the greatest, %v", p.Bevel, s.Frame.Greatest)
		}
		if !(p.Low < p.Bevel && p.Bevel < p.High && p.High-p.Low < 5) {
			t.Errorf("bevel %v between %v and %v", p.Bevel, p.Low, p.High)
		}
	}
	if s.Frame.Greatest == 0 || s.Frame.Extra <= 0 {
		t.Errorf("a frame of the fore body has a bevel: %+v", s.Frame)
	}
	fore := s
	// The same place by x: a timber that lies abaft it, so the sign is that of a forward moulding face.
	d.get(d.job("hull", "section") + "?side=starboard&x_mm=" + number(s.XMM)).want(200).into(&s)
	if len(s.Places) != 11 {
		t.Errorf("%d places", len(s.Places))
	}
	sign := 1.
	if fore.Frame.MouldingFace == "aft" {
		sign = -1
	}
	var by float64
	for _, p := range s.Places {
		if math.Abs(p.Bevel) > math.Abs(by) {
			by = p.Bevel
		}
	}
	if by*sign*fore.Frame.Greatest <= 0 {
		t.Errorf("bevel by x %v, of the frame (moulding face %s) %v", by, fore.Frame.MouldingFace, fore.Frame.Greatest)
	}
	// The heights written for her rabbet and sheer are answered at every station.
	var h struct {
		Stations []struct {
			X     string
			Sides []struct {
				Side          string
				Rabbet, Sheer struct{ Height string }
			}
		}
	}
	d.get(d.job("hull")).want(200).into(&h)
	asked := 0
	for _, st := range h.Stations {
		for _, side := range st.Sides {
			for _, height := range []string{side.Rabbet.Height, side.Sheer.Height} {
				d.get(d.job("hull", "section") + "?side=" + side.Side + "&x_mm=" + inMM(t, st.X) + "&heights_mm=" + inMM(t, height)).want(200)
				asked++
			}
		}
	}
	if asked < 50 {
		t.Errorf("only %d heights were asked for", asked)
	}
	for _, query := range []string{
		"?side=port", "?side=port&x_mm=1&frame=1", "?x_mm=1000", "?side=both&x_mm=1000", "?side=port&x_mm=NaN", "?side=port&x_mm=1e3",
		"?side=port&x_mm=-4000", "?side=port&frame=99", "?side=port&frame=-1", "?side=port&x_mm=1000&heights_mm=9000", "?side=port&x_mm=1000&heights_mm=a",
	} {
		if p := d.get(d.job("hull", "section")+query).refused(400, "malformed-request"); len(p.Errors) == 0 || p.Errors[0].Fix == "" {
			t.Errorf("%s: %+v", query, p)
		}
	}
	d.get(d.newJob()+"/hull/section?side=port&x_mm=0").refused(409, "documents-missing")
}

// A frame that cants is answered in its own plane, and refused where it leaves the lines.
func TestSectionOfACantFrame(t *testing.T) {
	d := open(t, file(t))
	job := d.newJob()
	d.send("PUT", job+"/hull", d.document(d.job("hull")), firstPut).want(201)
	frames := `{"notation":"mm","moulding_face":"forward","frames":[{"no":1,"side":"both","x":"4000","siding":"44","moulded":"73"},
		{"no":2,"side":"both","x":"4500","siding":"44","moulded":"73","cant_deg":"15","lean":"-50"},
		{"no":0,"side":"both","x":"600","siding":"44","moulded":"73","cant_deg":"-60"},
		{"no":4,"side":"port","x":"4900","siding":"44","moulded":"73","lean":"20000"}]}`
	d.send("PUT", job+"/frames", []byte(frames), firstPut).want(201)
	var s struct {
		Frame struct {
			Cant float64 `json:"cant_deg"`
			Lean float64 `json:"lean_mm"`
		}
		Places []struct {
			X    *float64 `json:"x_mm"`
			Out  *float64 `json:"out_mm"`
			Half float64  `json:"half_breadth_mm"`
		}
	}
	d.get(job + "/hull/section?side=port&frame=1").want(200).into(&s)
	if len(s.Places) != 11 || s.Places[10].X != nil || s.Places[10].Out != nil {
		t.Errorf("a square frame: %+v", s.Places)
	}
	d.get(job + "/hull/section?side=port&frame=2").want(200).into(&s)
	if s.Frame.Lean != -50 || s.Frame.Cant != 15 || len(s.Places) != 11 {
		t.Fatalf("%+v", s)
	}
	if p := s.Places[10]; p.X == nil || p.Out == nil || math.Abs(*p.X-4500-p.Half*math.Tan(math.Pi/12)+50) > .01 || *p.Out < p.Half {
		t.Errorf("the head of a cant frame: %+v", p)
	}
	for _, no := range []string{"0", "4"} {
		if p := d.get(job+"/hull/section?side=port&frame="+no).refused(400, "malformed-request"); len(p.Errors) == 0 || p.Errors[0].Fix == "" {
			t.Errorf("frame %s: %+v", no, p)
		}
	}
}

// At a knuckle both bevels are told, against those of flat panels through one point 4 m before station 0.
func TestSectionAcrossAKnuckle(t *testing.T) {
	d := open(t, file(t))
	job := d.newJob()
	var stations []string
	for no, scale := range []float64{1, 1.25, 1.5, 2} {
		f := func(mm float64) string { return number(mm * scale) }
		stations = append(stations, `{"no":`+strconv.Itoa(no)+`,"x":"`+number(4000*(scale-1))+`","sides":[{"side":"both","rabbet":{"height":"`+f(40)+`","half_breadth":"`+f(40)+
			`"},"sheer":{"height":"`+f(720)+`","half_breadth":"`+f(960)+`"},"knuckles":[{"name":"chine","height":"`+f(240)+`","half_breadth":"`+f(800)+`"}]}]}`)
	}
	d.send("PUT", job+"/hull", []byte(`{"notation":"mm","grain":"0","surface":"inside","stations":[`+strings.Join(stations, ",")+`]}`), firstPut).want(201)
	bevel := func(y, z, toY, toZ float64) float64 {
		return math.Atan(((toZ-z)*y-(toY-y)*z)/math.Hypot(toY-y, toZ-z)/4000) * 180 / math.Pi
	}
	bottom, side := bevel(40, 40, 800, 240), bevel(800, 240, 960, 720)
	turn := (math.Atan2(480, 160) - math.Atan2(200, 760)) * 180 / math.Pi
	var s struct {
		Knuckles []struct {
			Name  string
			Along float64 `json:"along_mm"`
			Turn  float64 `json:"turn_deg"`
			Above float64 `json:"bevel_deg"`
			Below float64 `json:"bevel_below_deg"`
		}
		Places []struct {
			Along float64  `json:"along_mm"`
			Above float64  `json:"bevel_deg"`
			Below *float64 `json:"bevel_below_deg"`
		}
	}
	near := func(a, b float64) bool { return math.Abs(a-b) <= .001 } // of rounding
	d.get(job + "/hull/section?side=port&x_mm=1500&heights_mm=200,330,500").want(200).into(&s)
	if len(s.Knuckles) != 1 || len(s.Places) != 3 {
		t.Fatalf("%+v", s)
	}
	along := 1.375 * math.Hypot(760, 200)
	if k := s.Knuckles[0]; k.Name != "chine" || !near(k.Along, along) || !near(k.Turn, turn) || !near(k.Above, side) || !near(k.Below, bottom) {
		t.Errorf("%+v, want %v, %v, %v, %v", k, along, turn, side, bottom)
	}
	if p := s.Places[1]; p.Below == nil || !near(p.Along, along) || !near(p.Above, side) || !near(*p.Below, bottom) {
		t.Errorf("at the chine: %+v", p)
	}
	if a, b := s.Places[0], s.Places[2]; a.Below != nil || b.Below != nil || !near(a.Above, bottom) || !near(b.Above, side) {
		t.Errorf("away from the chine: %+v and %+v", a, b)
	}
}

// A frame that lies flat is measured along the planking, and has no section in one plane.
func TestAFrameThatLiesFlat(t *testing.T) {
	d := open(t, file(t))
	job := d.newJob()
	d.send("PUT", job+"/hull", d.document(d.job("hull")), firstPut).want(201)
	d.send("PUT", job+"/frames", []byte(`{"notation":"mm","moulding_face":"forward","frames":[{"no":1,"side":"both","x":"4000","siding":"20","moulded":"30","run":"-250"}]}`), firstPut).want(201)
	var m struct {
		Frames []struct {
			Girth  float64 `json:"girth_mm"`
			Length float64 `json:"length_mm"`
			Sweep  float64 `json:"sweep_mm"`
			Blank  float64 `json:"blank_siding_mm"`
			Twist  float64 `json:"twist_deg"`
		}
	}
	d.get(job + "/hull/measures").want(200).into(&m)
	if len(m.Frames) != 2 {
		t.Fatalf("%+v", m)
	}
	if f := m.Frames[0]; f.Length <= 0 || f.Girth != f.Length || f.Sweep <= 0 || math.Abs(f.Blank-20-f.Sweep) > .001 || f.Twist == 0 {
		t.Errorf("%+v", f)
	}
	if p := d.get(job+"/hull/section?side=port&frame=1").refused(400, "malformed-request"); len(p.Errors) == 0 || p.Errors[0].Parameter != "frame" {
		t.Errorf("%+v", p)
	}
}

// inMM is a length in feet-inches-eighths in millimetres.
func inMM(t *testing.T, text string) string {
	t.Helper()
	l, err := notation.FeetInchesEighths.Parse(text)
	if err != nil {
		t.Fatal(err)
	}
	return number(l.MM())
}

func number(mm float64) string { return strconv.FormatFloat(mm, 'f', -1, 64) }

// The section at a station, asked for by its place, tells the girth, the area and the least radius that the measures tell of
// it; between two stations each has its range, and the girth and the radius are those of the frame that stands there.
func TestSectionTellsWhatTheMeasuresTell(t *testing.T) {
	d := open(t, file(t))
	type told struct {
		XMM       float64 `json:"x_mm"`
		Side      string
		Member    struct{ Side string }
		Girth     float64 `json:"girth_mm"`
		GirthLow  float64 `json:"girth_low_mm"`
		GirthHigh float64 `json:"girth_high_mm"`
		Radius    float64 `json:"least_radius_mm"`
		Low       float64 `json:"least_radius_low_mm"`
		High      float64 `json:"least_radius_high_mm"`
		At        float64 `json:"least_at_mm"`
		Bend      string
		Area      *struct{ Value, Low, High float64 } `json:"section_area_m2"`
	}
	var m struct{ Stations, Frames []told }
	d.get(d.job("hull", "measures")).want(200).into(&m)
	station, frame := m.Stations[12], m.Frames[22]
	ask := func(side string, x float64) (s told) {
		d.get(d.job("hull", "section") + "?side=" + side + "&x_mm=" + number(x)).want(200).into(&s)
		return s
	}
	s := ask(station.Side, station.XMM)
	if *s.Area != *station.Area || s.Radius != station.Radius || s.Low != station.Low || s.High != station.High || s.GirthLow != station.GirthLow || s.Bend != station.Bend {
		t.Errorf("at the station %+v, measured %+v", s, station)
	}
	s = ask(frame.Member.Side, frame.XMM)
	if s.Girth != frame.Girth || s.GirthLow != frame.GirthLow || s.GirthHigh != frame.GirthHigh || s.Radius != frame.Radius || s.Low != frame.Low || s.High != frame.High || s.At != frame.At {
		t.Errorf("at the frame %+v, measured %+v", s, frame)
	}
	if !(s.Area.Low < s.Area.Value && s.Area.Value < s.Area.High) {
		t.Errorf("area %+v", *s.Area)
	}
}
