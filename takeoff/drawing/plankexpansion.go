package drawing

import (
	"fmt"
	"math"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/draw"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// PlankExpansion is the strakes of one side laid out flat, one below the other, the garboard lowest, with their butts
// and where they cross the frames.
type PlankExpansion struct {
	Sheet Sheet
	// Notation that lengths are written in.
	Notation notation.Notation
	// Planking of the side; nil before there are lines.
	Planking *planking.Planking
	// Renewed are the planks that come out, from the garboard and from forward; nil draws the side as it is laid out, empty says that
	// none is renewed.
	Renewed []planking.Renewed
	// Option that renews them, by its name; it may be empty.
	Option string
	// Beside is what is renewed and not drawn, as sentences.
	Beside []string
}

// Draw is the expansion. Every strake is true in length and width; they are set so that the middles of their lengths
// stand below one another.
func (p PlankExpansion) Draw() Drawing {
	k := p.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Plank expansion of " + or(p.Sheet.Boat, "the boat")}
	f := foot{subject: "Plank expansion, bow to the right", units: unitsLine(p.Notation), notation: p.Notation}
	if p.Planking == nil || len(p.Planking.Strakes) == 0 {
		return empty(list, p.Sheet, k, f, "No table of offsets has been entered yet; there is nothing to draw.")
	}
	f.subject = "Plank expansion, " + string(p.Planking.Side) + " side, bow to the right"
	list.Title += ", " + string(p.Planking.Side) + " side"
	if p.Renewed != nil {
		if p.Option != "" {
			p.Beside = append([]string{"Option “" + p.Option + "”."}, p.Beside...)
		}
		f.subject = "Planks renewed, " + string(p.Planking.Side) + " side, bow to the right"
		list.Title = "Planks renewed on " + or(p.Sheet.Boat, "the boat") + ", " + string(p.Planking.Side) + " side"
	}
	v := &expansion{look: k, list: list, Planking: p.Planking, breached: breached(p.Planking.Breaches), renewed: p.Renewed}
	v.spread()
	if v.renewed != nil {
		list.Layer("renewed") // below all else
	}
	y := v.margin
	for i := len(v.flat) - 1; i >= 0; i-- {
		y = v.strake(i, y)
	}
	y = v.numbers(y)
	f.key, f.notes = v.key(), once(append(p.remarks(), v.notes...))
	list.Height = math.Ceil(f.put(list, p.Sheet, k, y+line(k.text)))
	if p.Renewed != nil {
		list.Desc = p.describeRenewed()
		return Drawing{list, p.tableOfRenewed()}
	}
	list.Desc = p.describe()
	return Drawing{list, p.table()}
}

// breached is where butts do not keep to the rules.
func breached(list []butt.Breach) map[buttAt]bool {
	out := map[buttAt]bool{}
	for _, b := range list {
		if b.Rule != butt.Stock {
			out[buttAt{b.Strake, b.X}] = true
		}
	}
	return out
}

type buttAt struct {
	strake int
	x      float64
}

// key explains the lines.
func (v *expansion) key() []keyLine {
	edge, frame, joint := v.pens()
	lines := []keyLine{
		explained(edge, "edge or end of a strake, laid flat"),
		explained(v.measuredPen(), "end station, where a plank runs on to a line"),
		explained(v.hoodPen(), "hood end, on the line of stem or transom"),
		explained(frame, "moulding face of a frame"),
		explained(joint, "butt, with the frames it stands between"),
		{letter: "*", text: "a butt that breaks a rule; the notes say which", sample: func(a, b draw.Point) []draw.Item { return nil }},
	}
	if !v.hooded() {
		lines = slices.Delete(lines, 1, 3)
	}
	if v.renewed != nil {
		lines = append([]keyLine{v.keyOfRenewed()}, lines...)
	}
	return lines
}

func (v *expansion) pens() (edge, frame, joint draw.Pen) {
	return draw.Pen{Width: v.full, Colour: draw.Ink}, draw.Pen{Width: v.fine, Colour: draw.Ink}, draw.Pen{Width: 0.8 * v.thick, Colour: draw.Blue}
}

// describe says in words what is to be seen.
func (p PlankExpansion) describe() string {
	butts, planks := 0, 0
	for _, s := range p.Planking.Strakes {
		butts += len(s.Butts)
		planks += len(s.Planks)
	}
	return fmt.Sprintf("The %s of the %s side laid out flat one below the other, the garboard lowest, in %s with %s, and where they cross %s. Every plank stands in the table of the same name.",
		plural(len(p.Planking.Strakes), "strake", "strakes"), p.Planking.Side, plural(planks, "plank", "planks"), plural(butts, "butt", "butts"),
		plural(len(p.Planking.Frames), "frame", "frames"))
}

// remarks are what a reader should know beside what is drawn.
func (p PlankExpansion) remarks() []string {
	from := "from outboard"
	if p.Planking.Side == boat.Port {
		from = "from inboard"
	}
	out := []string{
		"Seen " + from + ". Shapes are of the inside of plank.",
		fmt.Sprintf("Area of the side %.2f m2, by the girths' ranges %.2f to %.2f.", p.Planking.Area.MM/1e6, p.Planking.Area.Low/1e6, p.Planking.Area.High/1e6),
	}
	for _, e := range p.Planking.Ends {
		out = append(out, p.ends(e))
	}
	out = append(out, p.Beside...)
	proposed, stuck, worst := 0, 0, 0.0
	for _, s := range p.Planking.Strakes {
		if s.Proposed {
			proposed++
		}
		if s.Stuck != nil {
			stuck++
		}
		worst = max(worst, s.Mismatch)
	}
	if proposed > 0 && p.Renewed != nil {
		out = append(out, "Where "+plural(proposed, "strake butts", "strakes butt")+" now is not written down, and is not drawn.")
	} else if proposed > 0 {
		out = append(out, "Butts of "+plural(proposed, "strake are", "strakes are")+" proposed by the rules in "+butt.Adjacent.Source+".")
	}
	if stuck > 0 && p.Renewed == nil {
		out = append(out, plural(stuck, "strake has", "strakes have")+" no butts that keep to the rules out of the stock: longer stock, or boards scarfed before they are bent on.")
	}
	if n := len(p.Planking.Breaches); n > 0 {
		first := p.Planking.Breaches[0]
		out = append(out, fmt.Sprintf("%s not kept, the first in strake %d: %s; %s.", plural(n, "rule is", "rules are"), first.Strake+1, first.Detail, first.Fix))
	}
	return append(out,
		fmt.Sprintf("Greatest departure from what can be laid flat: %.1f mm.", worst),
		"With planks off, the hull is no longer the structure its stands were set for: leave enough on to hold her shape, or set ribbands and braces first.")
}

// ends says where planks end forward or aft, and what was taken.
func (p PlankExpansion) ends(e planking.End) string {
	where, on := "Forward", "first"
	if e.Aft {
		where, on = "Aft", "last"
	}
	switch {
	case !e.Laid:
		return where + ", planks end at the " + on + " station, for " + e.Because + "; what they reach beyond comes on top. To have it drawn, " + e.Fix + "."
	case e.Transom:
		return where + ", planks run on to the line of the transom as they left the last station; cut them to the boat."
	}
	return where + ", planks run to the line of the stem and close on a half-siding of " + p.length(e.HalfSiding) + ", the rabbet's at the first station; hood ends stand midway between sharing the stem as strakes share the girth and keeping their slope. Leave them long and fit them to the boat."
}

// length is a length as the table writes it.
func (p PlankExpansion) length(mm float64) string {
	l, err := notation.FromMM(mm)
	if err != nil {
		return strconv.FormatFloat(mm, 'f', 1, 64) + " mm"
	}
	return p.Notation.Format(l)
}

// table lists the planks, strake by strake from the garboard, from forward.
func (p PlankExpansion) table() Table {
	t := Table{
		Caption: "Planks of the " + string(p.Planking.Side) + " side with the smallest board that holds each; lengths in " + lengthUnit(p.Notation) +
			", spiling loss in parts of a hundred of the board, departure from flat in millimetres",
		Head: []string{"Strake", "From", "To", "Upper edge", "Lower edge", "Greatest width", "Hood ends", "Board length", "Board width", "Spiling loss", "Hollowed by", "Board thickness", "Stock", "From flat", "Rules"},
	}
	marked := breached(p.Planking.Breaches)
	for k, s := range p.Planking.Strakes {
		for i, q := range s.Planks {
			thick, stock, rules, hoods := "", "", "kept", ""
			for _, h := range s.Hoods {
				if h.Aft && q.To == len(s.X)-1 || !h.Aft && q.From == 0 {
					if hoods != "" {
						hoods += " and "
					}
					hoods += p.length(h.Width.MM)
				}
			}
			if p.Planking.Thickness > 0 {
				thick = p.length(q.Thickness(p.Planking.Thickness))
			}
			if q.Stock > 0 {
				stock = p.length(q.Stock)
			}
			for _, j := range []int{i - 1, i} {
				if j >= 0 && j < len(s.Butts) && marked[buttAt{k, s.Butts[j].X}] {
					rules = "a butt breaks one"
				}
			}
			if len(s.Butts) == 0 {
				rules = "no butt"
			}
			t.Rows = append(t.Rows, []string{strconv.Itoa(s.No), q.FromWhere, q.ToWhere, p.length(q.LengthUpper.MM), p.length(q.LengthLower.MM),
				p.length(q.WidthMost.MM), hoods, p.length(q.Board.Length), p.length(q.Board.Width), strconv.FormatFloat(100*q.Spiling, 'f', 1, 64),
				p.length(q.Backing), thick, stock, strconv.FormatFloat(q.Mismatch, 'f', 1, 64), rules})
		}
	}
	return t
}
