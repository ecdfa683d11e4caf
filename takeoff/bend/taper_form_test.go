package bend_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/bend"
)

// taperingStack is a stack of 5 mm laminates that tapers from one depth to another over a length: a laminate ends where those
// left make the depth without it.
func taperingStack(t *testing.T, heel, head, length float64) bend.Laid {
	t.Helper()
	const thick = 5.0
	n := math.Ceil(heel / thick)
	on := bend.Laid{Moulded: heel, MouldedHead: head, Stack: n * thick, Pitch: 25}
	for i := n - 1; i >= math.Ceil(head/thick); i-- {
		back, err := bend.ByCount(int64(i))
		if err != nil {
			t.Fatal(err)
		}
		on.RunsOut = append(on.RunsOut, bend.RunOut{From: (heel - i*thick) / (heel - head) * length, Laminates: int64(i), Stack: i * thick, Share: back.Share})
	}
	return on
}

// faceOf is the face of a frame that lies so deep inboard of its faying line, the depth falling evenly, by a step of its own.
func faceOf(c bend.Curve, heel, head float64) []point {
	line, theta := follow(c.Length, c.Kappa)
	for i := range line {
		deep := heel + (head-heel)*float64(i)/float64(len(line)-1)
		s, co := math.Sincos(theta[i])
		line[i] = point{line[i].x - deep*s, line[i].y + deep*co - heel} // from the origin on
	}
	return line
}

// letGo is the form's own face when the stack that was glued against its ordinates is let go: the middle of what laminates there are
// keeps its length and turns back by the share that they lose. own is that face of the frame, whose faying line is so long.
func letGo(f bend.Form, on bend.Laid, own []point, length float64) (at []point) {
	const n = 4000
	rows := f.Ordinates
	heading := func(s float64) float64 {
		_, dx := by(rows, s, func(o bend.Ordinate) float64 { return o.Base })
		_, dy := by(rows, s, func(o bend.Ordinate) float64 { return -o.Off })
		return math.Atan2(dy, dx)
	}
	// how far along the frame's own face each laminate ends
	ends, long := make([]float64, len(on.RunsOut)), 0.0
	for i := 0; i+1 < len(own); i++ {
		step := math.Hypot(own[i+1].x-own[i].x, own[i+1].y-own[i].y)
		for j, r := range on.RunsOut {
			if past := r.From/length*float64(len(own)-1) - float64(i); past >= 0 {
				ends[j] = long + min(1, past)*step
			}
		}
		long += step
	}
	middle, share := on.Stack/2, f.Springback.Share
	last, x, y, dir, passed := heading(0), 0.0, 0.0, 0.0, 0.0
	h := f.Length / n
	for i := range n {
		if i%(n/100) == 0 {
			at = append(at, point{x, y})
		}
		for j, r := range on.RunsOut {
			if passed >= ends[j] {
				middle, share = r.Stack/2, r.Share
			}
		}
		next := heading(h * float64(i+1))
		d := math.Mod(next-last+3*math.Pi, 2*math.Pi) - math.Pi
		last = next
		ds := h + middle*d*share // of a stack outboard of the face
		if f.Face == bend.Faying {
			ds = h - middle*d*share
		}
		back := dir + d*(1-share)
		mid := (dir + back) / 2
		x, y, dir, passed = x+ds*math.Cos(mid), y+ds*math.Sin(mid), back, passed+ds
	}
	return append(at, point{x, y})
}

func TestAFormOfATaperingFrameReturnsToIt(t *testing.T) {
	for name, c := range lines() {
		for _, face := range []bend.Face{bend.Inner, bend.Faying} {
			on := taperingStack(t, 60, 42, c.Length)
			on.Face = face
			back, _ := bend.ByCount(12)
			f, err := bend.NewForm(c, on, back)
			if err != nil {
				t.Fatalf("%s, %s: %v", name, face, err)
			}
			want := faceOf(c, 0, 0)
			if face == bend.Inner {
				want = faceOf(c, 60, 42)
			}
			if off := apart(letGo(f, on, want, c.Length), want); !(off <= returns) {
				t.Errorf("%s, %s: %.3f mm off the frame", name, face, off)
			}
		}
	}
}

// The proof must be able to fail: a form drawn for the laminates at the heel all along does not return.
func TestAFormForTheHeelAloneDoesNotReturnATaperingFrame(t *testing.T) {
	c := lines()["half circle"]
	on := taperingStack(t, 60, 30, c.Length)
	on.Face = bend.Inner
	plain := on
	plain.RunsOut = nil
	back, _ := bend.ByCount(12)
	f, err := bend.NewForm(c, plain, back)
	if err != nil {
		t.Fatal(err)
	}
	own := faceOf(c, 60, 30)
	if off := apart(letGo(f, on, own, c.Length), own); off < 2 {
		t.Errorf("misses by only %.2f mm", off)
	}
}

// Where no laminate runs out the frame is as deep at the head as at the heel, and a head written as deep changes nothing.
func TestATaperOfNothingIsNoTaper(t *testing.T) {
	back, _ := bend.ByCount(12)
	for name, c := range lines() {
		plain, err := bend.NewForm(c, bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 60, Pitch: 50}, back)
		if err != nil {
			t.Fatal(err)
		}
		same, err := bend.NewForm(c, bend.Laid{Face: bend.Inner, Moulded: 60, MouldedHead: 60, Stack: 60, Pitch: 50}, back)
		if err != nil || len(plain.Ordinates) != len(same.Ordinates) {
			t.Fatal(err)
		}
		for i, o := range plain.Ordinates {
			if p := same.Ordinates[i]; math.Hypot(o.Base-p.Base, o.Off-p.Off) > 1e-9 {
				t.Errorf("%s: %+v and %+v", name, o, p)
			}
		}
	}
}

// A straight frame that tapers from 60 to 40 mm in 2 m: its inner face is a straight line 2000.1 mm long.
func TestTheInnerFaceOfAStraightTaperingFrame(t *testing.T) {
	c := bend.Curve{Length: 2000, Kappa: func(float64) float64 { return 0 }}
	on := taperingStack(t, 60, 40, 2000)
	on.Face = bend.Inner
	back, _ := bend.ByCount(12)
	f, err := bend.NewForm(c, on, back)
	if want := math.Hypot(2000, 20); err != nil || math.Abs(f.Chord-want) > 1e-9 || math.Abs(f.Length-want) > 1e-9 || math.Abs(f.Greatest.Off) > 1e-9 {
		t.Errorf("%+v %v", f, err)
	}
}

func TestTapersThatNoFormHas(t *testing.T) {
	c := lines()["arc"]
	back, _ := bend.ByCount(12)
	var number *bend.RangeError
	for name, change := range map[string]func(*bend.Laid){
		"deeper at the head":    func(on *bend.Laid) { on.MouldedHead = 61 },
		"no depth":              func(on *bend.Laid) { on.MouldedHead = math.NaN() },
		"a place past the head": func(on *bend.Laid) { on.RunsOut[0].From = 5000 },
		"places backwards":      func(on *bend.Laid) { on.RunsOut[1].From = 0 },
		"no place":              func(on *bend.Laid) { on.RunsOut[1].From = math.NaN() },
		"one board":             func(on *bend.Laid) { on.RunsOut[0].Share = 1 },
		"no stack":              func(on *bend.Laid) { on.RunsOut[0].Stack = math.Inf(1) },
	} {
		on := taperingStack(t, 60, 42, c.Length)
		on.Face = bend.Inner
		change(&on)
		if _, err := bend.NewForm(c, on, back); !errors.As(err, &number) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

// The line that a form is drawn by is as long as the form says, and begins and ends where its ordinates do.
func TestTheLineOfAFormIsAsLongAsItSays(t *testing.T) {
	back, _ := bend.ByCount(12)
	for name, c := range lines() {
		f, err := bend.NewForm(c, bend.Laid{Face: bend.Inner, Moulded: 60, Stack: 60, Pitch: 50}, back)
		if err != nil {
			t.Fatal(err)
		}
		along := 0.0
		for i := 1; i < len(f.Line); i++ {
			along += math.Hypot(f.Line[i].Base-f.Line[i-1].Base, f.Line[i].Off-f.Line[i-1].Off)
		}
		// 600 chords of a bend of 440 mm lie 0.01 mm short of the arc in 2 m
		if last := len(f.Line) - 1; along > f.Length+1e-6 || f.Length-along > 0.05 || f.Line[0].Base != 0 || math.Abs(f.Line[last].Base-f.Chord) > 1e-9 {
			t.Errorf("%s: a line %.4f mm long of a form of %.4f", name, along, f.Length)
		}
	}
}
