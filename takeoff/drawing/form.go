package drawing

import (
	"fmt"
	"math"
	"strconv"

	"ribband/takeoff/bend"
	"ribband/takeoff/draw"
	"ribband/takeoff/notation"
)

// FormSheet is the form that the laminates of one frame, or of a piece, are glued up against: its line over a base line through
// its two ends, with the ordinates that it is set out by.
type FormSheet struct {
	Sheet    Sheet
	Notation notation.Notation
	// Name says of what: "Frame 12 port".
	Name string
	// Laminates are told below it: "12 laminates of 6.35 mm".
	Laminates string
	// Note says whether the form is needed, and why; Notes what else has to be known.
	Note  string
	Notes []string
	Form  bend.Form
	// Tapers are the ends whose tapers Form.Marks tells.
	Tapers []string
}

// formHigh is how much of a sheet's width a form may take in height.
const formHigh = 0.7

// Draw is the form with its ordinates as a table.
func (f FormSheet) Draw() Drawing {
	k := f.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Form for " + or(f.Name, "a frame") + " of " + or(f.Sheet.Boat, "the boat")}
	t := foot{subject: "Form for " + or(f.Name, "a frame") + ", heel to the left", notation: f.Notation, units: unitsLine(f.Notation)}
	if len(f.Form.Line) < 2 || len(f.Form.Ordinates) < 2 {
		return empty(list, f.Sheet, k, t, "There is no form of it; there is nothing to draw.")
	}
	p := formView{look: k, FormSheet: f, list: list}
	y := p.put()
	t.key = p.key()
	t.notes = append(t.notes, f.Laminates+". "+f.Note)
	t.notes = append(append(t.notes, p.against()), f.Notes...)
	t.notes = append(t.notes, p.notes...)
	list.Desc = fmt.Sprintf("The line of a form over a straight base line through its two ends, with %s square off it and where the greatest lies. They stand in the table of the same name.",
		plural(len(f.Form.Ordinates), "ordinate", "ordinates"))
	list.Height = math.Ceil(t.put(list, f.Sheet, k, y+line(k.text)))
	return Drawing{list, p.table()}
}

// formView is a form being laid out.
type formView struct {
	look
	FormSheet
	list  *draw.List
	notes []string
	// left is X of the heel's end, base Y of the base line, units units to a millimetre.
	left, base, units float64
}

func (p *formView) at(o bend.Ordinate) draw.Point {
	return draw.Point{X: p.left + o.Base*p.units, Y: p.base - o.Off*p.units}
}

// put draws the form and gives the Y below it.
func (p *formView) put() float64 {
	lowX, highX, low, high := 0.0, p.Form.Chord, 0.0, 0.0
	for _, o := range p.Form.Line {
		lowX, highX, low, high = min(lowX, o.Base), max(highX, o.Base), min(low, o.Off), max(high, o.Off)
	}
	inset := p.margin + 2*p.small
	wide, tall := max(highX-lowX, 1), max(high-low, 1)
	p.units = min((p.width-2*inset)/wide, formHigh*p.width/tall)
	p.list.ScaleMM = 1 / p.units
	p.left = (p.width-wide*p.units)/2 - lowX*p.units
	p.base = p.margin + 2*line(p.small) + high*p.units
	heel, head := draw.Point{X: p.left, Y: p.base}, draw.Point{X: p.left + p.Form.Chord*p.units, Y: p.base}
	fine, full := draw.Pen{Width: p.fine, Colour: draw.Ink}, draw.Pen{Width: 2 * p.full, Colour: draw.Ink}
	for _, o := range p.Form.Ordinates {
		p.list.Layer("ordinates").Line(fine, draw.Point{X: p.at(o).X, Y: p.base}, p.at(o))
	}
	p.list.Layer("base line").Line(draw.ChainDotted(0.8, draw.Ink), heel, head)
	points := make([]draw.Point, len(p.Form.Line))
	for i, o := range p.Form.Line {
		points[i] = p.at(o)
	}
	p.list.Layer("form").Add(draw.Path{Points: draw.Simplified(points, tolerance), Pen: full, Of: "form"})
	for _, o := range p.Form.Marks {
		p.list.Layer("marks").Add(lozenge(p.at(o), p.full*2))
	}
	for _, o := range p.Form.Ends {
		p.tick(o)
	}
	bottom := p.base + max(0, -low)*p.units + line(p.small)
	p.numbers(bottom)
	p.list.Layer("names").Add(draw.Text{At: draw.Point{X: max(p.margin, heel.X-2*p.small), Y: bottom + line(p.small)}, Size: p.small, String: "heel"})
	p.list.Layer("names").Add(draw.Text{At: draw.Point{X: min(p.width-p.margin, head.X+2*p.small), Y: bottom + line(p.small)}, Anchor: draw.End, Size: p.small, String: "head"})
	return bottom + line(p.small)
}

// tick marks where a laminate ends, across the line of the form.
func (p *formView) tick(at bend.Ordinate) {
	q, s, c := p.at(at), math.Sin(at.Direction), math.Cos(at.Direction)
	half := 0.5 * p.small
	p.list.Layer("ends of laminates").Line(draw.Pen{Width: p.full, Colour: draw.Vermillion}, draw.Point{X: q.X - half*s, Y: q.Y - half*c}, draw.Point{X: q.X + half*s, Y: q.Y + half*c})
}

// numbers of the ordinates below the base line, as many as there is room for.
func (p *formView) numbers(y float64) {
	var all []label
	for i, o := range p.Form.Ordinates {
		all = append(all, label{text: strconv.Itoa(i + 1), at: p.at(o).X})
	}
	kept := thinned(all, p.small)
	if len(kept) < len(all) {
		p.notes = append(p.notes, "Ordinates stand too close on the sheet for every one to be numbered; the table has them all.")
	}
	for _, l := range kept {
		p.list.Layer("names").Add(draw.Text{At: draw.Point{X: l.at, Y: y}, Anchor: draw.Middle, Size: p.small, String: l.text})
	}
}

func (p *formView) key() []keyLine {
	out := []keyLine{
		explained(draw.Pen{Width: 2 * p.full, Colour: draw.Ink}, "the form: the first laminate lies against it"),
		explained(draw.ChainDotted(0.8, draw.Ink), "base line, from end to end"),
		explained(draw.Pen{Width: p.fine, Colour: draw.Ink}, "ordinate, square off the base line"),
	}
	if len(p.Form.Marks) > 0 {
		out = append(out, keyLine{text: "where a scarf's taper ends", sample: func(a, b draw.Point) []draw.Item {
			return []draw.Item{lozenge(draw.Point{X: (a.X + b.X) / 2, Y: a.Y}, p.full*2)}
		}})
	}
	if len(p.Form.RunsOut) > 0 {
		out = append(out, explained(draw.Pen{Width: p.full, Colour: draw.Vermillion}, "cross-tick: a laminate ends"))
	}
	return out
}

// against says how laminates lie to the form and how far it is bent tighter.
func (p *formView) against() string {
	face := "Inside form: the laminates are pulled round it with their inner faces to it."
	if p.Form.Face == bend.Faying {
		face = "Outside form: the laminates are pressed into it with their faying faces to it."
	}
	return face + fmt.Sprintf(" It is bent %.2f %% tighter than the frame; let go, the ends come %s apart instead of %s.",
		100*(p.Form.Tighter-1), p.length(p.Form.FrameChord), p.length(p.Form.Chord))
}

func (p *formView) length(mm float64) string { return withUnit(p.Notation, asRead(p.Notation, mm)) }

// table is the ordinates from the heel; beside what a rule is read to in inches millimetres to a tenth, which a form is cut to.
func (p *formView) table() Table {
	inches := p.Notation == notation.FeetInchesEighths || p.Notation == notation.Inches
	t := Table{Caption: "Ordinates of the form from the heel's end of the base line, " + lengthUnit(p.Notation), Head: []string{"Ordinate", "Along the base line", "Square off it", "Along the form", "Direction, degrees"}}
	if inches {
		t.Caption += "; beside them in millimetres"
		t.Head = []string{"Ordinate", "Along the base line", "Square off it", "Along the form", "Base line, mm", "Square off, mm", "Along the form, mm", "Direction, degrees"}
	}
	tenth := func(mm float64) string { return strconv.FormatFloat(math.Round(mm*10)/10+0, 'f', 1, 64) }
	add := func(name string, o bend.Ordinate) {
		row := []string{name, shownMM(p.Notation, o.Base), shownMM(p.Notation, o.Off), shownMM(p.Notation, o.Along)}
		if inches {
			row = append(row, tenth(o.Base), tenth(o.Off), tenth(o.Along))
		}
		t.Rows = append(t.Rows, append(row, tenth(o.Direction*180/math.Pi)))
	}
	for i, o := range p.Form.Ordinates {
		add(strconv.Itoa(i+1), o)
	}
	add("greatest", p.Form.Greatest)
	for i, o := range p.Form.Marks {
		if i < len(p.Tapers) {
			add("taper ends, "+p.Tapers[i], o)
		}
	}
	for i, r := range p.Form.RunsOut {
		if i >= len(p.Form.Ends) {
			break
		}
		add(fmt.Sprintf("a laminate ends, %d left", r.Laminates), p.Form.Ends[i])
	}
	return t
}
