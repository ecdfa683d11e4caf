package drawing_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/drawing"
	"ribband/takeoff/mould"
)

// oneFrame of the demo boat, by its index among the frames.
func (d demo) oneFrame(t testing.TB, width float64, i int) drawing.OneFrame {
	t.Helper()
	f := d.frames[i]
	s, err := d.hull.Section(f.X.InexactFloat64(), f.Side)
	if err != nil {
		t.Fatal(err)
	}
	m, err := mould.Of(mould.Given{Frame: f, Section: s, Notation: d.offsets.Notation, Waterlines: mould.Waterlines(d.offsets)})
	if err != nil {
		t.Fatal(err)
	}
	return drawing.OneFrame{Sheet: d.on(width), Mould: m}
}

// One frame is drawn true to scale on its side of the centreline, with every mark and its bevel in the table.
func TestOneFrame(t *testing.T) {
	d := loadDemo(t)
	for i := range d.frames[:4] {
		f := d.oneFrame(t, drawing.Wide, i)
		drawn := f.Draw()
		axis := centres(t, drawn.List)[0]
		path := pathsOf(drawn.List, f.Mould.Frame.Member().Path()+"/faying face")[0]
		for _, at := range []struct {
			q draw.Point
			k mould.Mark
		}{{path.Points[0], f.Mould.Marks[0]}, {path.Points[len(path.Points)-1], f.Mould.Marks[len(f.Mould.Marks)-1]}} {
			if got := (at.q.X - axis) * drawn.List.ScaleMM; math.Abs(got-f.Mould.Across(at.k.At.Y)) > 1e-6 {
				t.Errorf("frame %d: %s stands %v mm across, want %v", i, at.k.Name, got, f.Mould.Across(at.k.At.Y))
			}
		}
		high := (path.Points[0].Y - path.Points[len(path.Points)-1].Y) * drawn.List.ScaleMM
		if want := f.Mould.Faying[len(f.Mould.Faying)-1].Z - f.Mould.Faying[0].Z; math.Abs(high-want) > 1e-6 {
			t.Errorf("frame %d is %v mm high, want %v", i, high, want)
		}
		if right := f.Mould.Frame.Side == boat.Port; (path.Points[len(path.Points)-1].X > axis) != right {
			t.Errorf("frame %d %s stands on the other side", i, f.Mould.Frame.Side)
		}
		if len(drawn.Table.Rows) != len(f.Mould.Marks) || !strings.Contains(drawn.List.Title, "Frame ") {
			t.Errorf("frame %d: %d rows of %d marks", i, len(drawn.Table.Rows), len(f.Mould.Marks))
		}
	}
	if l := (drawing.OneFrame{}).Draw().List; !says(l, "The frame has no shape") {
		t.Error("a frame without a shape does not say so")
	}
}
