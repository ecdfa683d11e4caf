package drawing

import (
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/hull/planking"
)

// hooded says whether strakes run on to a line of stem or transom.
func (v *expansion) hooded() bool {
	for _, s := range v.Strakes {
		if len(s.Hoods) > 0 {
			return true
		}
	}
	return false
}

// hoodPen is that of hood ends, measuredPen that of the end station, beyond which nothing was measured but the line.
func (v *expansion) hoodPen() draw.Pen { return draw.Pen{Width: v.thick, Colour: draw.Ink} }
func (v *expansion) measuredPen() draw.Pen {
	return draw.Dashed(v.fine, draw.Ink, 6)
}

// hoods draws a strake's hood ends, and where it leaves the end stations.
func (v *expansion) hoods(s planking.Strake, across func(layer string, pen draw.Pen, at int)) {
	first, last := s.Square()
	for _, h := range s.Hoods {
		from, end := first, 0
		if h.Aft {
			from, end = last, len(s.X)-1
		}
		across("hoods", v.measuredPen(), from)
		across("hoods", v.hoodPen(), end)
	}
}

// hoodNames are the names of the lines that hood ends stand on, above the uppermost strake; its own name stands at the
// left, where the transom is too, so that the transom's stands beside it.
func (v *expansion) hoodNames(i int, base, words float64) (out []draw.Text) {
	s, f := v.Strakes[i], v.flat[i]
	if i != len(v.Strakes)-1 {
		return nil
	}
	of := "strake/" + strconv.Itoa(s.No) + "/" + string(v.Side)
	for _, h := range s.Hoods {
		t := draw.Text{At: draw.Point{X: v.at(f.upper[0], base).X, Y: words}, Size: v.small, Anchor: draw.End, String: "stem", Of: of}
		if h.Aft {
			t.Anchor, t.String = draw.Start, "transom"
			t.At.X = v.margin + 9*v.small
		}
		out = append(out, t)
	}
	return out
}
