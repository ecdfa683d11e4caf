package drawing

import (
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
)

// measureStrips finds how many rows of letters and numbers are needed beside the boat.
func (v *view) measureStrips() {
	v.letterRows, v.numberRows = 1, 1
	for _, side := range boat.Sides {
		all := v.drawnOn(side)
		texts, _ := v.beside(all)
		for _, t := range texts {
			if !slices.ContainsFunc(all, func(r rib) bool { return v.letterAt(r, 0).At == t.At }) {
				v.letterRows = 2
			}
		}
		if labels := v.numbersOf(side); !apart(labels, v.small) {
			odd, even := alternate(labels)
			if apart(odd, v.small) && apart(even, v.small) {
				v.numberRows = 2
			}
		}
	}
}

// strip is the depth of letters and numbers beyond the greatest half-breadth.
func (v *view) strip() float64 {
	return v.numbersOut() + float64(v.numberRows-1)*line(v.small) + 1.5*v.small
}

// numbersOut is where the first row of numbers begins, counted from the greatest half-breadth.
func (v *view) numbersOut() float64 { return (0.9 + 1.15*float64(v.letterRows)) * v.small }

// outward is -1 to port, which is up the sheet, and 1 to starboard.
func outward(side boat.Side) float64 {
	if side == boat.Port {
		return -1
	}
	return 1
}

// drawnOn is the drawn frames of one side from forward.
func (v *view) drawnOn(side boat.Side) []rib {
	var out []rib
	for _, r := range v.ribs {
		if r.drawn && r.Side == side {
			out = append(out, r)
		}
	}
	return out
}

// letterAt is the text beside a frame's outer end, out by so many rows.
func (v *view) letterAt(r rib, row int) draw.Text {
	p := v.seen(r.Side, r.outer)
	p.Y += outward(r.Side) * (0.8 + 1.15*float64(row)) * v.small
	if r.Side == boat.Port {
		p.Y -= 0.1 * v.small
	} else {
		p.Y += draw.Ascent*v.small - 0.35*v.small
	}
	return draw.Text{At: p, Anchor: draw.Middle, Size: v.small, Bold: true, Halo: true, String: r.treatment.letter(), Of: r.Member().Path()}
}

// letters puts each frame's letter beside its outer end, in a second row where the frames stand close; where they
// stand too close for that, one letter for each run of frames alike.
func (v *view) letters(side boat.Side) {
	all := v.drawnOn(side)
	if texts, ok := v.beside(all); ok {
		v.addTexts(texts)
		return
	}
	var runs []rib
	for i := 0; i < len(all); {
		j := i
		for j < len(all) && all[j].treatment == all[i].treatment {
			j++
		}
		runs = append(runs, all[(i+j-1)/2])
		i = j
	}
	texts, ok := v.beside(runs)
	v.addTexts(texts)
	note := "Frames stand close: one letter stands for each run of frames alike."
	if !ok {
		note = "Frames stand too close on the sheet for every letter; the table has them all."
	}
	v.notes = once(append(v.notes, note))
}

// beside is a letter for each frame, and whether all found room. Those that found none are left out.
func (v *view) beside(ribs []rib) ([]draw.Text, bool) {
	var out []draw.Text
	all := true
	for _, r := range ribs {
		placed := false
		for row := 0; row < 2 && !placed; row++ {
			t := v.letterAt(r, row)
			if placed = clear(t, out); placed {
				out = append(out, t)
			}
		}
		all = all && placed
	}
	return out, all
}

// clear reports whether a text overlaps none of the others. Only the latest can stand in its way, since frames come
// in order.
func clear(t draw.Text, others []draw.Text) bool {
	e := t.Extent()
	for i := len(others) - 1; i >= 0 && i >= len(others)-8; i-- {
		if e.Overlaps(others[i].Extent()) {
			return false
		}
	}
	return true
}

func (v *view) addTexts(texts []draw.Text) {
	for _, t := range texts {
		v.list.Layer("letters").Add(t)
	}
}

// numbers puts the frames' numbers in a row beyond the letters, in two rows where they stand close, every second,
// third or fifth where they stand closer, and leads to each frame.
func (v *view) numbers(side boat.Side) {
	labels := v.numbersOf(side)
	odd, even := alternate(labels)
	switch {
	case apart(labels, v.small):
		v.row(side, labels, 0)
	case apart(odd, v.small) && apart(even, v.small):
		v.row(side, odd, 0)
		v.row(side, even, 1)
	default:
		v.row(side, thinned(labels, v.small), 0)
		v.notes = once(append(v.notes, "Frames stand too close on the sheet for every number; the table has them all."))
	}
}

// numbersOf is the number of every drawn frame of a side, at its place.
func (v *view) numbersOf(side boat.Side) []label {
	var out []label
	for _, r := range v.drawnOn(side) {
		p := v.seen(side, r.outer)
		out = append(out, label{text: strconv.Itoa(r.No), at: p.X, from: p.Y, of: r.Member().Path()})
	}
	return out
}

// alternate is every second label from the first, and the others.
func alternate(labels []label) (odd, even []label) {
	for i, l := range labels {
		if i%2 == 0 {
			odd = append(odd, l)
		} else {
			even = append(even, l)
		}
	}
	return odd, even
}

// row writes numbers in the nth row out from the boat.
func (v *view) row(side boat.Side, labels []label, n int) {
	out := outward(side)
	edge := v.axis + out*(v.across*v.units+v.numbersOut()+float64(n)*line(v.small))
	base := edge
	if side == boat.Starboard {
		base += 0.7 * v.small
	}
	for _, l := range labels {
		from := l.from + out*2
		to := edge - out*0.25*v.small
		if math.Abs(to-v.axis) > math.Abs(from-v.axis) {
			v.list.Layer("leaders").Line(draw.Pen{Width: 0.5, Colour: draw.Rule}, draw.Point{X: l.at, Y: from}, draw.Point{X: l.at, Y: to})
		}
		v.list.Layer("numbers").Add(draw.Text{At: draw.Point{X: l.at, Y: base}, Anchor: draw.Middle, Size: v.small, String: l.text, Halo: true, Of: l.of})
	}
}
