package web

import (
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/frame"
)

// alikeLaminates are laminates of a blank with the same joints.
type alikeLaminates struct {
	// Nos as they are read: "1, 3, 5".
	Nos string
	frame.Lengths
}

// alike gathers the laminates of a blank that are made up alike, in the order of the first of each.
func alike(m frame.MadeUp) []alikeLaminates {
	var out []alikeLaminates
	var nos [][]string
	for _, l := range m.Laminates {
		i := slices.IndexFunc(out, func(a alikeLaminates) bool { return slices.Equal(a.LengthsMM, l.LengthsMM) })
		if i < 0 {
			i = len(out)
			out, nos = append(out, alikeLaminates{Lengths: l}), append(nos, nil)
		}
		nos[i] = append(nos[i], strconv.Itoa(l.No))
	}
	for i := range out {
		out[i].Nos = strings.Join(nos[i], ", ")
	}
	return out
}

// wholes are lengths in whole millimetres, as they are read.
func wholes(mm []float64) string {
	if len(mm) == 0 {
		return "none"
	}
	out := make([]string, len(mm))
	for i, x := range mm {
		out[i] = grouped(strconv.FormatFloat(x, 'f', 0, 64))
	}
	return strings.Join(out, "; ")
}
