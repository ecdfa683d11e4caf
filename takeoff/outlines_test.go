package takeoff_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/hull"

	"github.com/google/go-cmp/cmp"
)

// The demo's patterns each have an outline of few corners, little larger than their rectangle, and no line besides has one.
func TestPatternsHaveAnOutline(t *testing.T) {
	r, err := takeoff.Run(demoBasis(t, 0))
	if err != nil {
		t.Fatal(err)
	}
	found := 0
	for _, l := range r.Bill.Lines {
		if l.Rectangles == nil || l.Rectangles.Outline == nil {
			continue
		}
		found++
		o := l.Rectangles.Outline
		if !strings.HasSuffix(l.ID, "/pattern") || len(o.Points) != 18 || o.Room.String() != "4" {
			t.Errorf("%s: %+v", l.ID, o)
		}
		low, high := o.Points[0], o.Points[0]
		for _, p := range o.Points {
			for k := range p {
				low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
			}
		}
		// half the room, the rounding and what the curve rises over an eighth, on both sides
		long, broad := high[0]-low[0]-l.Rectangles.Length.IntPart(), high[1]-low[1]-l.Rectangles.Width.IntPart()
		if long < 0 || long > 40 || broad < 0 || broad > 40 {
			t.Errorf("%s: the outline is longer by %d and broader by %d", l.ID, long, broad)
		}
	}
	if found != 20 {
		t.Errorf("%d of 20 patterns have an outline", found)
	}
}

// The band between both faces, at every cut of the girth, lies 2 mm inside of the outline all round, 1 mm being the rounding of
// numbers to the millimetre here: by how often the outline turns about each point of it, and how far its sides are. The band
// is turned along the outline by trying all directions, which shares nothing with how it was made.
func TestTheBandLiesInItsOutline(t *testing.T) {
	b := demoBasis(t, 0)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	looked := 0
	for _, l := range r.Bill.Lines {
		if l.Rectangles == nil || l.Rectangles.Outline == nil || l.Member.No%6 != 0 {
			continue
		}
		faying, inner, err := b.Band(l.Member.Path())
		if err != nil {
			t.Fatal(err)
		}
		var outline []hull.Point
		for _, p := range l.Rectangles.Outline.Points {
			outline = append(outline, hull.Point{Y: float64(p[0]), Z: float64(p[1])})
		}
		all := append(append([]hull.Point{}, faying...), inner...)
		best := math.Inf(-1)
		for i := range 3600 { // half a milliradian and less is 1 mm of 2 m
			sin, cos := math.Sincos(float64(i) * math.Pi / 1800)
			least := math.Inf(1)
			for k := 0; k < len(all) && least > best; k += 1 {
				p := all[k]
				least = min(least, inside(outline, hull.Point{Y: p.Y*cos + p.Z*sin, Z: p.Z*cos - p.Y*sin}))
			}
			best = max(best, least)
		}
		if best < 1 {
			t.Errorf("%s: the band comes to %.2f mm of its outline", l.ID, best)
		}
		looked++
	}
	if looked < 4 {
		t.Errorf("only %d looked at", looked)
	}
}

// inside is how far a point is from the nearest side of an outline, below 0 outside of it.
func inside(outline []hull.Point, p hull.Point) float64 {
	near, sum := math.Inf(1), 0.0
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		ax, ay, bx, by := a.Y-p.Y, a.Z-p.Z, b.Y-p.Y, b.Z-p.Z
		sum += math.Atan2(ax*by-ay*bx, ax*bx+ay*by)
		dx, dy := bx-ax, by-ay
		along := max(0, min(1, -(ax*dx+ay*dy)/(dx*dx+dy*dy)))
		near = min(near, math.Hypot(ax+along*dx, ay+along*dy))
	}
	if math.Abs(sum) < math.Pi {
		return -near
	}
	return near
}

// A bill that was stored before there were outlines reads, and is written again, as it was.
func TestRectanglesWithoutOutlineReadAsBefore(t *testing.T) {
	const before = `{"count":1,"width_mm":"403","length_mm":"1897","may_turn":true}`
	var r bill.Rectangles
	if err := json.Unmarshal([]byte(before), &r); err != nil || r.Outline != nil {
		t.Fatalf("%+v, %v", r, err)
	}
	again, err := json.Marshal(r)
	if d := cmp.Diff(before, string(again)); d != "" || err != nil {
		t.Errorf("%s %v", d, err)
	}
}
