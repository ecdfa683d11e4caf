package draw

// Point is a place on the drawing.
type Point struct{ X, Y float64 }

// List is one drawing.
type List struct {
	// Width and Height of the sheet; both above zero.
	Width, Height float64
	// ScaleMM is the millimetres of the thing drawn to one unit; 0 where it is not to scale.
	ScaleMM float64
	// Title names the drawing, Desc says in words what is to be seen on it.
	Title, Desc string
	// Layers from the lowest up: what comes later covers what comes before.
	Layers []*Layer
}

// Layer is a part of the drawing that belongs together, such as all waterlines.
type Layer struct {
	Name  string
	Items []Item
}

// Item is a Path or a Text.
type Item interface{ item() }

// Path is a line of straight pieces, stroked with a pen, filled, or both.
type Path struct {
	Points []Point // at least two
	Closed bool
	// Pen strokes it; one of no width strokes nothing.
	Pen Pen
	// Fill is empty for a path that is not filled; one that is filled is closed too.
	Fill Colour
	// Of says what the path shows, as a path of names: "frame/12/port". It may be empty.
	Of string
}

func (Path) item() {}
func (Text) item() {}

// Layer is the layer of that name; a new one on top where there is none yet.
func (l *List) Layer(name string) *Layer {
	for _, y := range l.Layers {
		if y.Name == name {
			return y
		}
	}
	y := &Layer{Name: name}
	l.Layers = append(l.Layers, y)
	return y
}

// Texts of the drawing, layer by layer.
func (l *List) Texts() []Text {
	var out []Text
	for _, y := range l.Layers {
		for _, i := range y.Items {
			if t, ok := i.(Text); ok {
				out = append(out, t)
			}
		}
	}
	return out
}

// Paths of the drawing, layer by layer.
func (l *List) Paths() []Path {
	var out []Path
	for _, y := range l.Layers {
		for _, i := range y.Items {
			if p, ok := i.(Path); ok {
				out = append(out, p)
			}
		}
	}
	return out
}

// Line strokes a straight line.
func (y *Layer) Line(pen Pen, from, to Point) {
	y.Items = append(y.Items, Path{Points: []Point{from, to}, Pen: pen})
}

// Add puts items on the layer, the last one uppermost.
func (y *Layer) Add(items ...Item) { y.Items = append(y.Items, items...) }

// Box is the rectangle between two corners.
func Box(a, b Point) []Point { return []Point{a, {b.X, a.Y}, b, {a.X, b.Y}} }
