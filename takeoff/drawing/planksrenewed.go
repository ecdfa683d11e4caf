package drawing

import (
	"fmt"
	"slices"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/hull/planking"
)

// Planks that are renewed are shaded and bounded thick, each with a mark (R1, R2, from the garboard and from forward) that the table
// has too; a butt that they make says that it is new. Butts that nobody wrote down and nobody makes are left out.

// mark of the ith plank that is renewed.
func mark(i int) string { return "R" + strconv.Itoa(i+1) }

// renewedOf are the places in Renewed of a strake's, counted from 0.
func (v *expansion) renewedOf(strake int) (out []int) {
	for i, m := range v.renewed {
		if m.Strake == strake {
			out = append(out, i)
		}
	}
	return out
}

func (v *expansion) renewedPen() draw.Pen { return draw.Pen{Width: v.thick, Colour: draw.Ink} }

// shade draws the planks of a strake that are renewed below all else of it, and gives their marks, on the line of its name, as far as
// they stand clear of what is beside them.
func (v *expansion) shade(k int, base, words float64, beside []draw.Text) (out []draw.Text) {
	s, f := v.Strakes[k], v.flat[k]
	for _, i := range v.renewedOf(k) {
		m := v.renewed[i]
		of := "strake/" + strconv.Itoa(s.No) + "/" + string(v.Side) + "/" + mark(i)
		var ring, back []draw.Point
		for j := m.From; j <= m.To; j++ {
			ring = append(ring, v.at(f.lower[j], base))
			back = append(back, v.at(f.upper[j], base))
		}
		slices.Reverse(back)
		v.list.Layer("renewed").Add(draw.Path{Points: append(draw.Simplified(ring, tolerance), draw.Simplified(back, tolerance)...), Closed: true, Fill: draw.Rule, Pen: v.renewedPen(), Of: of})
		at := s.Place((m.X0 + m.X1) / 2)
		t := draw.Text{At: draw.Point{X: v.at(f.upper[at], base).X, Y: words}, Size: v.small, Bold: true, Anchor: draw.Middle, String: mark(i), Of: of}
		if !clear(t, append(slices.Clone(beside), out...)) {
			v.notes = append(v.notes, "Not every renewed plank has room for its mark; the table has them all.")
			continue
		}
		out = append(out, t)
	}
	return out
}

// butt is one as it is drawn.
type drawnButt struct {
	planking.Butt
	fresh bool
}

// butts of a strake as they are drawn: all that are laid out, or with planks that are renewed those that stay and those that are new.
func (v *expansion) butts(k int) (out []drawnButt) {
	s := v.Strakes[k]
	if v.renewed == nil {
		for _, b := range s.Butts {
			out = append(out, drawnButt{b, false})
		}
		return out
	}
	gone := func(x float64) bool {
		return slices.ContainsFunc(v.renewedOf(k), func(i int) bool { return x > v.renewed[i].X0 && x < v.renewed[i].X1 })
	}
	if !s.Proposed {
		for _, b := range s.Butts {
			if !gone(b.X) {
				out = append(out, drawnButt{b, false})
			}
		}
	}
	for _, i := range v.renewedOf(k) {
		for _, e := range v.renewed[i].Ends {
			if e.New {
				out = append(out, drawnButt{planking.Butt{X: e.X, At: s.Place(e.X), Where: e.Where}, true})
			}
		}
	}
	return out
}

// keyOfRenewed explains what is drawn of planks that are renewed.
func (v *expansion) keyOfRenewed() keyLine {
	return keyLine{letter: "R", text: "renewed plank, marked as in the table", sample: func(a, b draw.Point) []draw.Item {
		return []draw.Item{draw.Path{Points: draw.Box(draw.Point{X: a.X, Y: a.Y - 0.35*v.small}, draw.Point{X: b.X, Y: b.Y + 0.35*v.small}), Closed: true, Fill: draw.Rule, Pen: v.renewedPen()}}
	}}
}

// describeRenewed says in words which planks are renewed.
func (p PlankExpansion) describeRenewed() string {
	if len(p.Renewed) == 0 {
		return fmt.Sprintf("The %s of the %s side laid out flat one below the other, the garboard lowest. No plank of this side is renewed.", plural(len(p.Planking.Strakes), "strake", "strakes"), p.Planking.Side)
	}
	out := fmt.Sprintf("The %s of the %s side laid out flat one below the other, the garboard lowest, %s renewed:", plural(len(p.Planking.Strakes), "strake", "strakes"), p.Planking.Side, plural(len(p.Renewed), "plank of them", "planks of them"))
	for i, m := range p.Renewed {
		out += fmt.Sprintf(" %s strake %d, %s to %s;", mark(i), m.Strake+1, m.FromWhere, m.ToWhere)
	}
	return out[:len(out)-1] + ". Each stands in the table of the same name."
}

// tableOfRenewed lists the planks that are renewed by their marks.
func (p PlankExpansion) tableOfRenewed() Table {
	t := Table{
		Caption: "Planks renewed on the " + string(p.Planking.Side) + " side with the smallest board that holds each; lengths in " + lengthUnit(p.Notation),
		Head:    []string{"Mark", "Strake", "From", "To", "New butts", "Greatest width", "Board length", "Board width", "Hollowed by", "Board thickness"},
	}
	for i, m := range p.Renewed {
		thick, fresh := "", 0
		if p.Planking.Thickness > 0 {
			thick = p.length(m.Thickness(p.Planking.Thickness))
		}
		for _, e := range m.Ends {
			if e.New {
				fresh++
			}
		}
		t.Rows = append(t.Rows, []string{mark(i), strconv.Itoa(m.Strake + 1), m.FromWhere, m.ToWhere, strconv.Itoa(fresh), p.length(m.WidthMost.MM), p.length(m.BoardLength.High), p.length(m.BoardWidth.High),
			p.length(m.Backing), thick})
	}
	return t
}
