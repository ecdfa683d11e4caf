package drawing

import (
	"fmt"
	"math"
	"strconv"

	"ribband/takeoff/draw"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
)

// JointSheet is how the laminates of one blank are made up of lengths: the stack laid straight, heel to the left, the laminate at the
// faying face lowest.
type JointSheet struct {
	Sheet    Sheet
	Notation notation.Notation
	// Name says of what: "Frame 12 port".
	Name   string
	MadeUp frame.MadeUp
}

// Draw is the blank on a sheet of its own.
func (j JointSheet) Draw() Drawing {
	k := j.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Joints in the laminates of " + or(j.Name, "a blank") + ", " + or(j.Sheet.Boat, "the boat")}
	f := foot{subject: "Joints in the laminates of " + or(j.Name, "a blank"), units: unitsLine(j.Notation), notation: j.Notation}
	if len(j.MadeUp.Laminates) == 0 || !(j.MadeUp.BlankMM > 0) {
		return empty(list, j.Sheet, k, f, "Every laminate is one length; there is no joint to draw.")
	}
	v := j.view(list, k)
	y := v.stack(v.margin)
	f.key, f.notes = v.key(), j.remarks()
	list.Desc = j.words()
	list.Height = math.Ceil(f.put(list, j.Sheet, k, y+line(k.text)))
	return Drawing{list, j.table()}
}

// Bare is the stack alone, without foot, for a page that says the rest.
func (j JointSheet) Bare() Drawing {
	k := j.Sheet.look()
	list := &draw.List{Width: k.width, Title: "Joints in the laminates of " + or(j.Name, "a blank"), Desc: j.words()}
	if len(j.MadeUp.Laminates) == 0 || !(j.MadeUp.BlankMM > 0) {
		list.Height = 1
		return Drawing{list, j.table()}
	}
	v := j.view(list, k)
	y := v.stack(0.4 * k.text)
	list.Height = math.Ceil(key(list, k, v.key(), k.margin, k.width-k.margin, y+0.4*line(k.text)))
	return Drawing{list, j.table()}
}

func (j JointSheet) words() string {
	return fmt.Sprintf("A stack of %s laid straight, the heel to the left and the faying face below, with %s and the stretches kept clear of them. They stand in the table of the same name.",
		plural(len(j.MadeUp.Laminates), "laminate", "laminates"), plural(int(j.MadeUp.Joints), "joint", "joints"))
}

func (j JointSheet) remarks() []string {
	out := []string{"Lengths are to scale, heights are not.", j.MadeUp.Why}
	if j.MadeUp.BendUnplaced {
		out = append(out, "Where the bend lies was not measured: halfway up the girth stands for it.")
	}
	return out
}

// jointView is a stack being laid out.
type jointView struct {
	look
	JointSheet
	list               *draw.List
	left, perMM, thick float64 // X of the heel's end, units to a millimetre, height of a laminate
}

func (j JointSheet) view(list *draw.List, k look) *jointView {
	number := draw.TextWidth(strconv.Itoa(len(j.MadeUp.Laminates)), k.small, false) + k.small
	v := &jointView{look: k, JointSheet: j, list: list, left: k.margin + number, thick: max(0.7*k.text, 1.25*k.small)}
	v.perMM = (k.width - k.margin - v.left) / j.MadeUp.BlankMM
	list.ScaleMM = 1 / v.perMM
	return v
}

// stack draws the laminates from y down and gives the Y below them.
func (v *jointView) stack(y float64) float64 {
	n := len(v.MadeUp.Laminates)
	words := v.list.Layer("words")
	top := y + line(v.small)
	bottom := top + float64(n)*v.thick
	x := func(mm float64) float64 { return v.left + v.perMM*min(v.MadeUp.BlankMM, max(0, mm)) }
	room := 0.0
	for _, c := range v.MadeUp.Clear {
		from, to := x(c.FromMM), x(c.ToMM)
		v.list.Layer("kept clear").Add(draw.Path{Points: draw.Box(draw.Point{X: from, Y: top}, draw.Point{X: to, Y: bottom}), Closed: true, Fill: draw.Rule})
		middle, half := (from+to)/2, draw.TextWidth(c.What, v.small, false)/2
		middle = min(v.width-v.margin-half, max(middle, v.margin+half, room+half))
		if middle-half >= room && middle+half <= v.width-v.margin+1e-9 {
			words.Add(draw.Text{At: draw.Point{X: middle, Y: y + v.small}, Anchor: draw.Middle, Size: v.small, String: c.What})
			room = middle + half + 0.5*v.small
		}
	}
	for i, l := range v.MadeUp.Laminates {
		v.laminate(l, bottom-float64(i+1)*v.thick, x)
	}
	return bottom + 0.3*v.small
}

// laminate draws one, its upper edge at y.
func (v *jointView) laminate(l frame.Lengths, y float64, x func(float64) float64) {
	bars := v.list.Layer("laminates")
	end := 0.0
	for i, long := range l.LengthsMM {
		end += long
		if i > 0 {
			end -= v.MadeUp.TaperMM // a taper is counted in both lengths that it joins
		}
	}
	bars.Add(draw.Path{Points: draw.Box(draw.Point{X: v.left, Y: y}, draw.Point{X: x(end), Y: y + v.thick}), Closed: true, Pen: draw.Pen{Width: v.fine * 1.5, Colour: draw.Ink}, Of: "laminate/" + strconv.Itoa(l.No)})
	half := v.MadeUp.TaperMM / 2
	for _, at := range l.JointsMM {
		v.list.Layer("joints").Add(draw.Path{Points: []draw.Point{{X: x(at - half), Y: y + v.thick}, {X: x(at + half), Y: y}}, Pen: v.jointPen(), Of: "joint"})
	}
	v.list.Layer("words").Add(draw.Text{At: draw.Point{X: v.left - 0.4*v.small, Y: y + v.thick/2 + 0.36*v.small}, Anchor: draw.End, Size: v.small, String: strconv.Itoa(l.No)})
}

func (v *jointView) jointPen() draw.Pen { return draw.Pen{Width: 2 * v.full, Colour: draw.Vermillion} }

func (v *jointView) key() []keyLine {
	joint := "scarf, as long as its taper"
	if v.MadeUp.TaperMM == 0 {
		joint = "butt"
	}
	return []keyLine{
		{text: joint, sample: func(a, b draw.Point) []draw.Item {
			h := 0.4 * v.thick
			m := (a.X + b.X) / 2
			w := 0.0
			if v.MadeUp.TaperMM > 0 {
				w = 0.3 * (b.X - a.X)
			}
			return []draw.Item{draw.Path{Points: []draw.Point{{X: m - w, Y: a.Y + h}, {X: m + w, Y: a.Y - h}}, Pen: v.jointPen()}}
		}},
		explained(draw.Pen{Width: 0.8 * v.thick, Colour: draw.Rule}, "kept clear of joints"),
		{text: "1 lies at the faying face", sample: func(draw.Point, draw.Point) []draw.Item { return nil }},
	}
}

// table is the joints, laminate by laminate.
func (j JointSheet) table() Table {
	t := Table{Caption: "Joints from the heel's end and lengths to cut, tapers counted in, laminate by laminate from the faying face, " + lengthUnit(j.Notation), Head: []string{"Laminate", "Middles of joints", "Lengths to cut"}}
	all := func(mm []float64) string {
		out := ""
		for i, x := range mm {
			if i > 0 {
				out += "; "
			}
			out += shownMM(j.Notation, x)
		}
		return or(out, "none")
	}
	for _, l := range j.MadeUp.Laminates {
		t.Rows = append(t.Rows, []string{strconv.Itoa(l.No), all(l.JointsMM), all(l.LengthsMM)})
	}
	return t
}
