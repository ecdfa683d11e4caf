package planking

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/strake"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// What is taken at most; assumptions, no source.
const (
	maxStock   = 50
	maxButts   = 20 // of one strake
	maxDamages = 200
)

// Terms are a document as read.
type Terms struct {
	Side      boat.Side
	Edges     *strake.Edges
	Thickness float64         // 0 where it is not known
	Exact     decimal.Decimal // Thickness as it was written
	Stock     []float64       // rising
	Butts     map[int][]float64
	OnFrames  bool
	Both      bool
	Replace   []Piece
	Ends      []area.Ending // the lines that strakes are carried on to
}

// Piece of a strake that comes out, mm.
type Piece struct {
	Strake   int
	From, To float64
}

type reader struct {
	document.Faults
	doc Document
	in  notation.Notation
	of  []hull.Measure // of the side
	t   Terms
	// corners are the u of the knuckles.
	corners []float64
}

// Read checks a document against the hull it is for, lengths in a notation, or says everything that is wrong with it. Ends
// are the lines at the ends of the boat, as Endings has them.
func Read(doc Document, h *hull.Hull, in notation.Notation, ends ...area.Ending) (Terms, document.Faults) {
	r := &reader{doc: doc, in: in, t: Terms{Side: doc.Side, OnFrames: doc.ButtsOnFrames, Both: doc.ApartByBoth, Butts: map[int][]float64{}, Ends: ends}}
	if !doc.Side.One() {
		r.Add("/side", "port or starboard", "%s is not one side", notation.Quote(string(doc.Side)))
		return Terms{}, r.Faults
	}
	for _, m := range h.Measures() {
		if m.Section.Side == doc.Side {
			r.of = append(r.of, m)
		}
	}
	// The side is one that the hull has.
	if s, err := h.Surface(doc.Side); err == nil {
		r.corners = s.Corners()
	}
	r.division()
	r.stocked()
	if r.t.Edges != nil {
		r.butts()
		r.damages()
	}
	if len(r.Faults) > 0 {
		return Terms{}, r.Faults
	}
	return r.t, nil
}

// stocked reads how thick planks are and which lengths boards come in.
func (r *reader) stocked() {
	if text := r.doc.PlankThickness; text != "" {
		r.t.Thickness, _ = r.length("/plank_thickness", text)
		if l, err := r.in.Parse(text); err == nil {
			r.t.Exact = l.Decimal()
		}
	}
	r.stock()
}

// length that is greater than nothing.
func (r *reader) length(pointer, text string) (float64, bool) {
	mm, ok := r.place(pointer, text)
	if ok && !(mm > 0) {
		r.Add(pointer, "a length above 0", "%s is no length of timber", notation.Quote(text))
		return 0, false
	}
	return mm, ok
}

// place along the boat or the girth.
func (r *reader) place(pointer, text string) (float64, bool) {
	l, err := r.in.Parse(text)
	if err != nil {
		fix := "write it anew"
		var e *notation.Error
		if errors.As(err, &e) && e.Example != "" {
			fix = "write it like " + e.Example
		}
		r.Add(pointer, fix, "%v", err)
		return 0, false
	}
	return l.MM(), true
}

func (r *reader) stock() {
	if len(r.doc.StockLengths) > maxStock {
		r.Add("/stock_lengths", fmt.Sprintf("at most %d", maxStock), "%d lengths of stock are given", len(r.doc.StockLengths))
		return
	}
	for i, text := range r.doc.StockLengths {
		if mm, ok := r.length("/stock_lengths/"+strconv.Itoa(i), text); ok {
			r.t.Stock = append(r.t.Stock, mm)
		}
	}
	slices.Sort(r.t.Stock)
}

// division reads the strakes' edges.
func (r *reader) division() {
	d := r.doc.Strakes
	if (d.Count == 0) == (len(d.Edges) == 0) {
		r.Add("/strakes", "count or edges, one of the two", "how the side is divided is not given, or given twice")
		return
	}
	var err error
	if d.Count != 0 {
		r.t.Edges, err = strake.Equal(d.Count, r.corners...)
		if err != nil {
			fix := "a number of strakes that a side may have"
			if n := len(r.corners); n > 0 {
				fix += fmt.Sprintf(": with %d knuckles, each of them a seam, %d at least", n, n+1)
			}
			r.Add("/strakes/count", fix, "%v", err)
		}
		return
	}
	var xs []float64
	var rows [][]float64
	before := len(r.Faults)
	for i, row := range d.Edges {
		pointer := "/strakes/edges/" + strconv.Itoa(i)
		m := slices.IndexFunc(r.of, func(m hull.Measure) bool { return m.Station == row.StationNo })
		if m < 0 {
			r.Add(pointer+"/station_no", "the number of a station of the table", "there is no station %d", row.StationNo)
			continue
		}
		fractions, ok := r.fractions(pointer, row, r.of[m])
		if ok {
			xs, rows = append(xs, r.of[m].X), append(rows, fractions)
		}
	}
	if len(r.Faults) > before {
		return
	}
	first, last := r.of[0], r.of[len(r.of)-1]
	if !slices.Contains(xs, first.X) || !slices.Contains(xs, last.X) {
		r.Add("/strakes/edges", fmt.Sprintf("rows for stations %d and %d too", first.Station, last.Station), "edges are not given at both ends of the table, and beyond their rows they would be a guess")
		return
	}
	if r.t.Edges, err = strake.Given(xs, rows, r.corners...); err != nil {
		var k *strake.KnuckleError
		if errors.As(err, &k) && k.Row >= 0 && k.Row < len(xs) {
			r.across(k, xs[k.Row])
			return
		}
		r.Add("/strakes/edges", "rows in the order of the stations, three or more, alike in number and rising from rabbet to sheer", "%v", err)
	}
}

// fractions of the girth at one station.
func (r *reader) fractions(pointer string, row EdgeRow, m hull.Measure) ([]float64, bool) {
	if (len(row.Fractions) == 0) == (len(row.Girths) == 0) {
		r.Add(pointer, "fractions or girths, one of the two", "the edges at station %d are not given, or given twice", row.StationNo)
		return nil, false
	}
	if len(row.Fractions) > 0 {
		return seated(row.Fractions, m), true
	}
	var out []float64
	whole := true
	girth := m.Section.Girth.MM
	for i, text := range row.Girths {
		at := pointer + "/girths/" + strconv.Itoa(i)
		mm, ok := r.length(at, text)
		if ok && mm >= girth {
			l, err := notation.FromMM(girth)
			if err != nil {
				return nil, false
			}
			r.Add(at, "girths measured from the rabbet to each edge", "%s is no less than the girth of station %d, %s", notation.Quote(text), row.StationNo, r.in.Format(l))
			ok = false
		}
		whole = whole && ok
		out = append(out, mm/girth)
	}
	return seated(out, m), whole
}

// strake is one that the side has, counted from 0.
func (r *reader) strake(pointer string, no int) (int, bool) {
	if n := r.t.Edges.Strakes(); no < 1 || no > n {
		r.Add(pointer, fmt.Sprintf("1, the garboard, to %d", n), "there is no strake %d", no)
		return 0, false
	}
	return no - 1, true
}

func (r *reader) butts() {
	for i, g := range r.doc.Butts {
		pointer := "/butts/" + strconv.Itoa(i)
		k, ok := r.strake(pointer+"/strake", g.Strake)
		if !ok {
			continue
		}
		if _, twice := r.t.Butts[k]; twice {
			r.Add(pointer+"/strake", "all its butts in one row", "strake %d is given twice", g.Strake)
			continue
		}
		if len(g.X) > maxButts {
			r.Add(pointer+"/x", fmt.Sprintf("at most %d", maxButts), "%d butts are given", len(g.X))
			continue
		}
		xs := []float64{}
		for j, text := range g.X {
			at := pointer + "/x/" + strconv.Itoa(j)
			x, ok := r.within(at, text)
			if ok && len(xs) > 0 && x-xs[len(xs)-1] < leastApart {
				r.Add(at, "butts from forward, each place once", "%s does not lie abaft the butt before it", notation.Quote(text))
				ok = false
			}
			if ok {
				xs = append(xs, x)
			}
		}
		r.t.Butts[k] = xs
	}
}

// leastApart is how far two butts of one strake are apart at least, mm: nearer they are one place, written twice.
const leastApart = 1

// within is a place between the first and the last station.
func (r *reader) within(pointer, text string) (float64, bool) {
	x, ok := r.place(pointer, text)
	first, last := r.of[0].X, r.of[len(r.of)-1].X
	if ok && !(x-first >= leastApart && last-x >= leastApart) {
		r.Add(pointer, "a place between the first and the last station", "%s lies at %.0f mm, and the strakes reach from %.0f to %.0f mm", notation.Quote(text), x, first, last)
		return 0, false
	}
	return x, ok
}

// piece is where a damaged piece ends: between the hood ends that reach farthest.
func (r *reader) piece(pointer, text string) (float64, bool) {
	if len(r.t.Ends) == 0 {
		return r.within(pointer, text)
	}
	x, ok := r.place(pointer, text)
	first, last := r.of[0].X, r.of[len(r.of)-1].X
	for _, e := range r.t.Ends {
		for _, p := range e.Line {
			first, last = min(first, p.X), max(last, p.X)
		}
	}
	if ok && !(x >= first && x <= last) {
		r.Add(pointer, "a place between the hood ends", "%s lies at %.0f mm, and the planking reaches from %.0f to %.0f mm", notation.Quote(text), x, first, last)
		return 0, false
	}
	return x, ok
}

func (r *reader) damages() {
	if len(r.doc.Replace) > maxDamages {
		r.Add("/replace", fmt.Sprintf("at most %d", maxDamages), "%d pieces are given", len(r.doc.Replace))
		return
	}
	for i, d := range r.doc.Replace {
		pointer := "/replace/" + strconv.Itoa(i)
		k, known := r.strake(pointer+"/strake", d.Strake)
		from, ok := r.piece(pointer+"/from", d.From)
		to, also := r.piece(pointer+"/to", d.To)
		if ok && also && !(to > from) {
			r.Add(pointer+"/to", "a place abaft from", "the piece ends at %s, not abaft %s", notation.Quote(d.To), notation.Quote(d.From))
			continue
		}
		if known && ok && also {
			r.t.Replace = append(r.t.Replace, Piece{k, from, to})
		}
	}
}
