package takeoff_test

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/takeoff"
	bending "ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/pattern"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// returned, mm: a form bent by its ordinates and let go lies within this of the frame all along it.
const returned = 0.5

// letGo is the faying line of a stack glued against the ordinates of a form and let go. It reads nothing but base line
// and ordinates: through each five runs a quartic by length along.
func letGo(f takeoff.Form) (y, z []float64) {
	rows := f.Ordinates
	slope := func(s float64) (dx, dy float64) {
		i := 0
		for i+1 < len(rows) && rows[i+1].Along < s {
			i++
		}
		first := max(0, min(len(rows)-5, i-2))
		for j := first; j < first+5; j++ {
			l, d := 1.0, 0.0
			for k := first; k < first+5; k++ {
				if k != j {
					w := rows[j].Along - rows[k].Along
					d, l = d*(s-rows[k].Along)/w+l/w, l*(s-rows[k].Along)/w
				}
			}
			dx, dy = dx+d*rows[j].Base, dy-d*rows[j].Off
		}
		return dx, dy
	}
	const n = 2000
	h := f.Length / n
	dx, dy := slope(0)
	last, turn, dir, py, pz := math.Atan2(dy, dx), 0.0, 0.0, 0.0, 0.0
	// the middle of the stack keeps its length; the faying line lies so far outboard of it
	middle := f.Keeps
	share := 1 - f.Springback.Share
	for i := range n + 1 {
		y, z = append(y, py), append(z, pz)
		dx, dy = slope(h * float64(i+1))
		now := math.Atan2(dy, dx)
		d := now - last
		last, turn = now, turn+d
		mid := (dir + turn*share) / 2
		dir = turn * share
		ds := h + (f.Depth-middle)*d + middle*d*share
		py, pz = py+ds*math.Cos(mid), pz+ds*math.Sin(mid)
	}
	return y, z
}

// onEnds lays a line with its first place at the origin and its last on the first axis.
func onEnds(y, z []float64) {
	n := len(y) - 1
	s, c := math.Sincos(math.Atan2(z[n]-z[0], y[n]-y[0]))
	y0, z0 := y[0], z[0]
	for i := range y {
		a, b := y[i]-y0, z[i]-z0
		y[i], z[i] = a*c+b*s, b*c-a*s
	}
}

// off is how far, mm, the stretch of a section that a form is for lies from what is glued up on it and let go, anywhere.
func off(f takeoff.Form, s *hull.Section) float64 {
	y, z := letGo(f)
	onEnds(y, z)
	var wy, wz []float64
	for i := range 1501 {
		p := s.At(s.Share((f.From + (f.To-f.From)*float64(i)/1500) / s.Girth.MM))
		wy, wz = append(wy, p.Y), append(wz, p.Z)
	}
	onEnds(wy, wz)
	worst := 0.0
	for i := range wy {
		near := math.Inf(1)
		for j := range y {
			near = min(near, math.Hypot(wy[i]-y[j], wz[i]-z[j]))
		}
		// places of the one lie about 1 mm apart, so half of that is not counted
		worst = max(worst, math.Sqrt(max(0, near*near-0.25*f.Length*f.Length/2000/2000)))
	}
	return worst
}

// Every eighth frame of the demo boat, either side, either face: what is glued up on the form and let go is the frame.
func TestTheDemosFormsReturnToTheirFrames(t *testing.T) {
	b := demoBasis(t, 1)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for no := 1; no <= 34; no += 8 {
		for _, side := range boat.Sides {
			for _, face := range []bending.Face{bending.Inner, bending.Faying} {
				m := boat.Member{Kind: boat.Frame, No: no, Side: side}
				f, err := b.Form(r, takeoff.FormQuestion{Member: m, Face: face, Pitch: 25})
				if err != nil {
					t.Fatal(err)
				}
				if f.Laminates < 2 || f.Thickness.Sign() <= 0 {
					t.Fatalf("%s: %+v", m, f.Stack)
				}
				_, section, err := b.Shaped(m)
				if err != nil {
					t.Fatal(err)
				}
				worst = max(worst, off(f, section))
			}
		}
	}
	t.Logf("at most %.3f mm off", worst)
	if worst > returned {
		t.Errorf("%.3f mm off the frame, %.1f let pass", worst, returned)
	}
}

// What the yard has measured of the wood at this thickness goes before the number of laminates.
func TestTheYardsOwnSpringbackOverrides(t *testing.T) {
	b := demoBasis(t, 1)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	m := boat.Member{Kind: boat.Frame, No: 12, Side: boat.Port}
	plain, err := b.Form(r, takeoff.FormQuestion{Member: m, Face: bending.Faying, Pitch: 100})
	if err != nil {
		t.Fatal(err)
	}
	n := float64(plain.Laminates)
	if math.Abs(plain.Springback.Share-1/(n*n)) > 1e-12 {
		t.Errorf("%v of %v laminates", plain.Springback, n)
	}
	own := rules.Springback{Species: plain.Species, Thickness: plain.Thickness, Share: decimal.RequireFromString("0.03"), Source: "three trial pieces"}
	b.Rules.Springback = []rules.Springback{own}
	f, err := b.Form(r, takeoff.FormQuestion{Member: m, Face: bending.Faying, Pitch: 100})
	if err != nil || f.Springback.Share != 0.03 || !strings.Contains(f.Springback.Source, "measured by the yard: three trial pieces") || !(f.Greatest.Off > plain.Greatest.Off) {
		t.Errorf("%+v, %v", f.Springback, err)
	}
	// an arc of 1500 mm round 600 mm: a share of 0.03 turns the head by 0.075 radians about a third of the arc from it
	own.Share, own.Radius, own.Length, own.Moved = decimal.Zero, decimal.NewFromInt(600), decimal.NewFromInt(1500), decimal.NewFromInt(50)
	b.Rules.Springback[0] = own
	if f, err = b.Form(r, takeoff.FormQuestion{Member: m, Face: bending.Faying, Pitch: 100}); err != nil || f.Springback.Share < 0.02 || f.Springback.Share > 0.06 {
		t.Errorf("%+v, %v", f.Springback, err)
	}
	own.Species = "teak"
	b.Rules.Springback[0] = own
	if f, err = b.Form(r, takeoff.FormQuestion{Member: m, Face: bending.Faying, Pitch: 100}); err != nil || f.Springback != plain.Springback {
		t.Errorf("that of another wood: %+v, %v", f.Springback, err)
	}
}

func TestFramesWithoutAFormSayWhy(t *testing.T) {
	b := demoBasis(t, 0)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	var no *takeoff.UnshapedError
	for _, c := range []struct {
		member int
		pitch  float64
	}{{1, 100}, {99, 100}, {12, 1}} {
		if _, err := b.Form(r, takeoff.FormQuestion{Member: frameNo(c.member, boat.Port), Face: bending.Inner, Pitch: c.pitch}); !errors.As(err, &no) || no.Fix == "" {
			t.Errorf("frame %d at %v mm: %v", c.member, c.pitch, err)
		}
	}
}

// The form of a part let in runs from tip to tip of its tapers, and that of a sister along all of it; what is glued up on
// either and let go is the frame there. Where a taper ends at the inner face is marked, and the blank runs on by its trim.
func TestFormsOfPartsAndSistersReturnToTheFrame(t *testing.T) {
	broken := func(no int, from, to string) finding.Row {
		return finding.Row{Member: frameNo(no, boat.Port), State: finding.Broken, From: from, To: to}
	}
	b := piecesOf(t, boat.ScarfIn, []int{12, 15, 20}, broken(12, "3-0-0", "3-6-0"), broken(15, "", "1-0-0"), broken(20, "", "0-2-0"), broken(20, "6-4-0", ""), broken(18, "2-5-0", "3-0-0"))
	b.Remedies[frameNo(18, boat.Port)] = frame.Choice{Remedy: boat.Sister, Species: "white_oak", Grade: "FAS"}
	r := runs(t, b)
	if codes := faultCodes(r); len(codes) > 0 {
		t.Fatal(codes)
	}
	const in = 25.4
	for _, c := range []struct {
		no     int
		piece  string
		tapers int
		heel   bool
	}{{12, "", 2, false}, {15, "part_1", 1, true}, {20, "part_1", 1, true}, {20, "part_2", 1, false}, {18, "sister_1", 0, false}} {
		m := frameNo(c.no, boat.Port)
		_, section, err := b.Shaped(m)
		if err != nil {
			t.Fatal(err)
		}
		for _, face := range []bending.Face{bending.Inner, bending.Faying} {
			f, err := b.Form(r, takeoff.FormQuestion{Member: m, Piece: c.piece, Face: face, Pitch: 25})
			if err != nil {
				t.Fatal(err)
			}
			path := m.Path() + "/" + f.Piece
			if miss := off(f, section); miss > returned {
				t.Errorf("%s, %s: %.3f mm off the frame", path, face, miss)
			}
			// a piece that runs to the head is cut to the high end of the girth's range, and its form ends at the sheer
			if got := min(value(t, r, path+"/girth"), section.Girth.MM-f.From); math.Abs(f.To-f.From-got) > 1e-6 || f.Laminates != int64(value(t, r, path+"/laminates")) {
				t.Errorf("%s runs from %v to %v, %v long; %d laminates", path, f.From, f.To, got, f.Laminates)
			}
			if got := value(t, r, path+"/blank_length") * 1000; math.Abs(f.BeyondHeel+f.To-f.From+f.BeyondHead-got) > 1e-6 || f.BeyondHeel < 2*in || f.BeyondHead < 2*in || c.heel != (f.BeyondHeel > 4*in) {
				t.Errorf("%s: %v and %v beyond its ends, of %v", path, f.BeyondHeel, f.BeyondHead, got)
			}
			if len(f.Marks) != c.tapers || len(f.Tapers) != c.tapers {
				t.Fatalf("%s: %d tapers marked, %d wanted", path, len(f.Marks), c.tapers)
			}
			for i, end := range f.Tapers {
				at := f.Marks[i].Along
				if end == "head" {
					at = f.Length - at
				}
				// ten to one of 2 7/8 in along the faying face; the inner one is shorter by the turn there
				taper := 10 * 2.875 * in
				if face == bending.Faying && math.Abs(at-taper) > 1 || face == bending.Inner && (at > taper+1 || at < 0.8*taper) {
					t.Errorf("%s, %s: the taper at the %s is %.1f mm long on the form", path, face, end, at)
				}
			}
		}
	}
	var no *takeoff.UnshapedError
	for _, q := range []takeoff.FormQuestion{{Member: frameNo(20, boat.Port)}, {Member: frameNo(12, boat.Port), Piece: "part_2"}, {Member: frameNo(13, boat.Port)}} {
		q.Face, q.Pitch = bending.Inner, 100
		if _, err := b.Form(r, q); !errors.As(err, &no) || no.Fix == "" {
			t.Errorf("%+v: %v", q, err)
		}
	}
}

// Of a taped frame the form is the arc of its chord and rise: let go it has that chord and that rise again. What cannot be
// known is named. A piece of such a frame has none.
func TestTheFormOfATapedFrame(t *testing.T) {
	s := ship{rows: []frame.Row{tapedRow(1, boat.Port, 700), tapedRow(2, boat.Port, 900)}}
	b := s.basis(t)
	r := s.run(t)
	for no, radius := range map[int]float64{1: 700, 2: 900} {
		tape := b.Frames[no-1].Tape
		chord, rise := tape.Chord.InexactFloat64(), tape.Rise.InexactFloat64()
		for _, face := range []bending.Face{bending.Inner, bending.Faying} {
			f, err := b.Form(r, takeoff.FormQuestion{Member: frameNo(no, boat.Port), Face: face, Pitch: 25})
			if err != nil {
				t.Fatal(err)
			}
			y, z := letGo(f)
			n := len(y) - 1
			onEnds(y, z)
			most := 0.0
			for i := range z {
				most = max(most, math.Abs(z[i]))
			}
			if math.Abs(math.Hypot(y[n], z[n])-chord) > returned || math.Abs(most-rise) > returned {
				t.Errorf("%.0f mm, %s: let go it has a chord of %.2f and a rise of %.2f mm, taped %.0f and %.0f", radius, face, y[n], most, chord, rise)
			}
			if f.RestsOn != boat.OnTape || len(f.Unknown) != 3 || f.Straight || f.BeyondHeel != 0 {
				t.Errorf("%+v", f)
			}
			for _, u := range f.Unknown {
				if u.Detail == "" || u.Fix == "" {
					t.Errorf("%+v", u)
				}
			}
		}
	}
	b.Remedies[frameNo(1, boat.Port)] = frame.Choice{Remedy: boat.Sister, Species: "douglas_fir", Grade: "FAS"}
	b.Findings = findings(t, finding.Row{Member: frameNo(1, boat.Port), State: finding.Sound}, finding.Row{Member: frameNo(1, boat.Port), State: finding.Broken, From: "1-6-0", To: "1-8-0"})
	var no *takeoff.UnshapedError
	if _, err := b.Form(runs(t, b), takeoff.FormQuestion{Member: frameNo(1, boat.Port), Face: bending.Inner, Pitch: 50}); !errors.As(err, &no) || !strings.Contains(no.Detail, "tape") {
		t.Error(err)
	}
}

// A frame whose camber is within what the laminates are deeper than it is moulded needs no form: it is cut out of a blank
// glued up straight. One with more camber does. The ordinates are told of either.
func TestAFlatFrameNeedsNoForm(t *testing.T) {
	flat := func(no int, rise float64) pattern.Rows {
		p := pattern.Rows{FrameNo: no, Side: boat.Port}
		for i := range 14 {
			x := float64(i) / 13
			p.Points = append(p.Points, pattern.Row{N: i + 1, Y: fmt.Sprintf("%.1f", 100+4*rise*x*(1-x)), Z: fmt.Sprintf("%.1f", 1000*x)})
		}
		return p
	}
	s := ship{rows: []frame.Row{plainRow(1, boat.Port), plainRow(2, boat.Port), plainRow(3, boat.Port)}, patterns: []pattern.Rows{flat(1, 0), flat(2, 2), flat(3, 40)}}
	b := s.basis(t)
	r := s.run(t)
	for no, want := range map[int]bool{1: true, 2: true, 3: false} {
		m := frameNo(no, boat.Port)
		f, err := b.Form(r, takeoff.FormQuestion{Member: m, Face: bending.Inner, Pitch: 100})
		if err != nil {
			t.Fatal(err)
		}
		deep := value(t, r, m.Path()+"/laminates")*value(t, r, m.Path()+"/laminate_thickness") - 50
		if f.Straight != want || math.Abs(f.Over-deep) > 1e-9 || f.Straight != (f.Camber <= f.Over) || len(f.Ordinates) < 10 {
			t.Errorf("frame %d: straight %v, camber %.2f mm, %.2f over; by its figures %.2f", no, f.Straight, f.Camber, f.Over, deep)
		}
	}
}
