package drawing_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"

	"github.com/shopspring/decimal"
)

// floors of the demo boat at some frames, one of every kind, and one each of which only a hand measured and nothing is known.
func (d demo) floors(t testing.TB, width float64) drawing.Floors {
	t.Helper()
	out := drawing.Floors{Sheet: d.on(width), Notation: d.offsets.Notation}
	n := decimal.NewFromInt
	for i, remedy := range []boat.Remedy{boat.ReplaceSawn, boat.ReplaceLaminated, boat.ReplaceStrap, boat.Leave, "", "not_yet_heard_of"} {
		f := d.frames[8+6*i]
		x := f.X.InexactFloat64()
		var lies [2]floor.Lie
		for j, side := range boat.Sides {
			s, err := d.hull.Section(x, side)
			if err != nil {
				t.Fatal(err)
			}
			lies[j] = floor.Lie{Section: s}
		}
		reach := floor.Reach{Girth: n(650)}
		o, err := floor.Draw(floor.Floor{No: f.No, Depth: n(150), ArmEnd: n(50), Port: reach, Starboard: reach}, lies[0], lies[1], math.NaN())
		if err != nil {
			t.Fatal(err)
		}
		g := o.Grain()
		out.Floors = append(out.Floors, drawing.DrawnFloor{No: f.No, Remedy: remedy, Outline: &o, Laminates: 5, Thick: 30, ThroatRadius: 300, Steepest: g.Steepest, Short: g.Steepest > 0.26})
	}
	out.Floors = append(out.Floors, drawing.DrawnFloor{No: 40, Remedy: boat.ReplaceSawn, Across: 900, Height: 300, Short: true},
		drawing.DrawnFloor{No: 41, Why: "there is no frame 41 port that it could stand at"})
	return out
}

// Every floor that is known is drawn to one scale within its rectangle; the grain of a sawn one is level and ends at its edges.
func TestFloorsAreToScale(t *testing.T) {
	f := loadDemo(t).floors(t, drawing.Wide)
	drawn := f.Draw()
	if len(drawn.Table.Rows) != len(f.Floors) {
		t.Fatalf("%d rows of %d", len(drawn.Table.Rows), len(f.Floors))
	}
	for _, d := range f.Floors {
		if d.Outline == nil {
			continue
		}
		paths := pathsOf(drawn.List, boat.Member{Kind: boat.Floor, No: d.No}.Path())
		if len(paths) == 0 {
			t.Errorf("floor %d is not drawn", d.No)
			continue
		}
		low, high, left, right := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, p := range paths {
			for _, q := range p.Points {
				low, high, left, right = min(low, q.Y), max(high, q.Y), min(left, q.X), max(right, q.X)
			}
		}
		across, height := (right-left)*drawn.List.ScaleMM, (high-low)*drawn.List.ScaleMM
		whole := d.Remedy != boat.ReplaceStrap && d.Remedy != boat.ReplaceLaminated
		if whole && (math.Abs(across-d.Outline.Across()) > 0.5 || math.Abs(height-d.Outline.Height()) > 0.5) {
			t.Errorf("floor %d is drawn %.1f by %.1f mm, %.1f by %.1f wanted", d.No, across, height, d.Outline.Across(), d.Outline.Height())
		}
		if d.Remedy == boat.ReplaceLaminated && len(paths) != 6 {
			t.Errorf("%d lines of 5 laminates", len(paths))
		}
	}
	grain := 0
	for _, y := range drawn.List.Layers {
		if y.Name != "grain" {
			continue
		}
		for _, item := range y.Items {
			p, ok := item.(draw.Path)
			if !ok || math.Abs(p.Points[0].Y-p.Points[1].Y) > 1e-9 || !(p.Points[0].X < p.Points[1].X) {
				t.Errorf("grain is not level: %+v", item)
			}
			grain++
		}
	}
	if grain < 5 || !says(drawn.List, "short grain") || !says(drawn.List, "measured by hand") || !says(drawn.List, "there is no frame 41 port") {
		t.Errorf("%d lines of grain", grain)
	}
}

// madeUp is a blank of twelve laminates of which two end early, jointed by turns.
func madeUp(joint string) frame.MadeUp {
	m := frame.MadeUp{Member: boat.Member{Kind: boat.Frame, No: 12, Side: boat.Port}, BlankMM: 2400, TaperMM: 90, Joints: 12, Why: "The blank is 2400 mm long and the stock gives 1500 mm.",
		Clear: []frame.KeptClear{{What: "heel", ToMM: 300}, {What: "bend", FromMM: 1000, ToMM: 1300}, {What: "head", FromMM: 2200, ToMM: 2400}}}
	if joint == "butt" {
		m.TaperMM = 0
	}
	for i := range 12 {
		end := 2400.0
		if i > 9 {
			end = 1900
		}
		at := 700 + 800*float64(i%2)
		m.Laminates = append(m.Laminates, frame.Lengths{No: i + 1, JointsMM: []float64{at}, LengthsMM: []float64{at + m.TaperMM/2, end - at + m.TaperMM/2}})
	}
	return m
}

func (d demo) joints(width float64, joint string) drawing.JointSheet {
	return drawing.JointSheet{Sheet: d.on(width), Notation: d.offsets.Notation, Name: "frame 12 port", MadeUp: madeUp(joint)}
}

// Laminates are as long as they are, joints stand where they are told and lean over their taper, and nothing else is drawn there.
func TestJointsAreToScale(t *testing.T) {
	for _, joint := range []string{"feather", "butt"} {
		j := loadDemo(t).joints(drawing.Wide, joint)
		drawn := j.Draw()
		left := pathsOf(drawn.List, "laminate/1")[0].Points[0].X
		for _, l := range j.MadeUp.Laminates {
			bar := pathsOf(drawn.List, "laminate/"+strconv.Itoa(l.No))[0]
			want := 2400.0
			if l.No > 10 {
				want = 1900
			}
			if got := (bar.Points[1].X - bar.Points[0].X) * drawn.List.ScaleMM; math.Abs(got-want) > 1e-6 {
				t.Errorf("laminate %d is drawn %v mm long, %v wanted", l.No, got, want)
			}
		}
		joints := pathsOf(drawn.List, "joint")
		if len(joints) != 12 {
			t.Fatalf("%d joints drawn", len(joints))
		}
		for i, p := range joints {
			middle := ((p.Points[0].X+p.Points[1].X)/2 - left) * drawn.List.ScaleMM
			if want := j.MadeUp.Laminates[i].JointsMM[0]; math.Abs(middle-want) > 1e-6 {
				t.Errorf("joint %d stands at %v mm, %v wanted", i, middle, want)
			}
			if taper := (p.Points[1].X - p.Points[0].X) * drawn.List.ScaleMM; math.Abs(taper-j.MadeUp.TaperMM) > 1e-6 {
				t.Errorf("joint %d is %v mm long", i, taper)
			}
		}
	}
}

// form is that of an arc of 90 degrees at 700 mm, which tapers from 60 to 45 mm where asked for.
func (d demo) form(t testing.TB, width float64, tapers bool) drawing.FormSheet {
	t.Helper()
	arc := bend.Curve{Length: 350 * math.Pi, Kappa: func(float64) float64 { return 1 / 700.0 }}
	on := bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 60, Pitch: 50, Marks: []float64{200, 900}}
	if tapers {
		on.MouldedHead = 45
		for n := int64(11); n >= 9; n-- {
			on.RunsOut = append(on.RunsOut, bend.RunOut{From: arc.Length * float64(12-n) / 4, Laminates: n, Stack: float64(5 * n), Share: 1 / float64(n*n)})
		}
	}
	back, err := bend.ByCount(12)
	if err != nil {
		t.Fatal(err)
	}
	f, err := bend.NewForm(arc, on, back)
	if err != nil {
		t.Fatal(err)
	}
	return drawing.FormSheet{Sheet: d.on(width), Notation: d.offsets.Notation, Name: "frame 12 port", Laminates: "12 laminates of 5 mm", Note: "Needed: its line rises 205 mm between its ends.", Form: f, Tapers: []string{"heel", "head"}}
}

// The form is drawn to scale over its base line, every ordinate as long as its table says.
func TestTheFormIsToScale(t *testing.T) {
	for _, tapers := range []bool{false, true} {
		f := loadDemo(t).form(t, drawing.Wide, tapers)
		drawn := f.Draw()
		line := pathsOf(drawn.List, "form")[0].Points
		if got := math.Hypot(line[len(line)-1].X-line[0].X, line[len(line)-1].Y-line[0].Y) * drawn.List.ScaleMM; math.Abs(got-f.Form.Chord) > 1e-6 {
			t.Errorf("the chord is drawn %v mm, %v wanted", got, f.Form.Chord)
		}
		ordinates := 0
		for _, y := range drawn.List.Layers {
			if y.Name == "ordinates" {
				for i, item := range y.Items {
					p := item.(draw.Path)
					if got := (p.Points[0].Y - p.Points[1].Y) * drawn.List.ScaleMM; math.Abs(got-f.Form.Ordinates[i].Off) > 1e-6 {
						t.Errorf("ordinate %d is drawn %v mm, %v wanted", i, got, f.Form.Ordinates[i].Off)
					}
					ordinates++
				}
			}
		}
		rows := len(f.Form.Ordinates) + 1 + 2 + len(f.Form.RunsOut)
		if ordinates != len(f.Form.Ordinates) || len(drawn.Table.Rows) != rows {
			t.Errorf("%d ordinates drawn of %d, %d rows of %d", ordinates, len(f.Form.Ordinates), len(drawn.Table.Rows), rows)
		}
		if ends := strings.Contains(drawn.Table.Rows[rows-1][0], "9 left"); ends != tapers {
			t.Errorf("%v", drawn.Table.Rows[rows-1])
		}
	}
}
