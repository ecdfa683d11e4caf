package plank

import (
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Have is what the planks of an option are held against.
type Have struct {
	// Strakes of each side; none where nothing says how she is planked.
	Strakes map[boat.Side]int
	// Frames of each side by number, mm aft of station 0.
	Frames  map[boat.Side]map[int]decimal.Decimal
	Species timber.Catalogue
}

type reader struct {
	n      notation.Notation
	have   Have
	faults document.Faults
}

// Read takes the planks over, one for each side that a row names, or says everything that is wrong.
func Read(d Document, have Have) ([]Plank, document.Faults) {
	r := &reader{n: d.Notation, have: have}
	if !d.Notation.Known() {
		r.faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(d.Notation)))
		return nil, r.faults
	}
	if len(d.Planks) > MaxPlanks {
		r.faults.Add("/planks", "at most "+strconv.Itoa(MaxPlanks)+" rows", "%d rows are given", len(d.Planks))
		return nil, r.faults
	}
	var out []Plank
	for i, row := range d.Planks {
		for _, p := range r.row(i, row) {
			if j, over := overlaps(out, p); over {
				r.faults.Add("/planks/"+strconv.Itoa(i), "pieces apart from one another, or the two as one piece", "%s is renewed there already in /planks/%d", p.Member(), j)
				continue
			}
			out = append(out, p)
		}
	}
	return out, r.faults
}

// overlaps says which row before takes some of the same piece out; those that only a tape knows lie nowhere.
func overlaps(before []Plank, p Plank) (int, bool) {
	for _, q := range before {
		if q.Member() != p.Member() || q.Row == p.Row {
			continue
		}
		if q.Whole && (p.Whole || p.Placed) || p.Whole && q.Placed || q.Placed && p.Placed && q.From.LessThan(p.To) && p.From.LessThan(q.To) ||
			q.Placed && p.Placed && q.From.Equal(p.From) && q.To.Equal(p.To) {
			return q.Row, true
		}
	}
	return 0, false
}

func (r *reader) row(i int, row Row) []Plank {
	at := "/planks/" + strconv.Itoa(i)
	before := len(r.faults)
	p := Plank{Row: i, Strake: row.Strake, Whole: row.Whole, FromFrame: row.FromFrame, ToFrame: row.ToFrame, Species: row.Species, Grade: row.Grade}
	sides := row.Side.Expand()
	if len(sides) == 0 {
		r.faults.Add(at+"/side", "port, starboard or both", "the side %s is not known", notation.Quote(string(row.Side)))
	}
	if row.Strake < 1 || row.Strake > MaxStrake {
		r.faults.Add(at+"/strake", "1, the garboard, to "+strconv.Itoa(MaxStrake), "%d is no strake's number", row.Strake)
	} else if row.ByHand == nil {
		r.strakes(at, row, sides)
	}
	if _, ok := r.have.Species.Find(row.Species); !ok {
		r.faults.Add(at+"/species", r.have.Species.Meant(row.Species), "the species %s is not known", notation.Quote(row.Species))
	}
	if row.Grade == "" {
		r.faults.Add(at+"/grade", "the grade as the price sheet calls it, for example FAS", "no grade is given")
	}
	if row.Thickness != "" {
		p.Thickness = r.within(at+"/thickness", row.Thickness, MaxThickness)
	}
	if h := row.ByHand; h != nil {
		p.ByHand = &ByHand{r.within(at+"/by_hand/length", h.Length, MaxLength), r.within(at+"/by_hand/width", h.Width, MaxWidth)}
		if p.ByHand.Length.LessThan(p.ByHand.Width) {
			r.faults.Add(at+"/by_hand", "length along the plank and width across it", "the plank is %s mm long and %s mm wide", p.ByHand.Length, p.ByHand.Width)
		}
	}
	r.placed(at, row)
	if len(r.faults) > before {
		return nil
	}
	var out []Plank
	for _, side := range sides {
		q := p
		q.Side = side
		if r.place(at, row, &q); len(r.faults) == before {
			out = append(out, q)
		}
	}
	return out
}

// strakes: each side named is planked, and has the strake.
func (r *reader) strakes(at string, row Row, sides []boat.Side) {
	for _, side := range sides {
		switch n := r.have.Strakes[side]; {
		case n == 0:
			r.faults.Add(at+"/side", "put how the job's boat is planked first, or give the plank's length and width by_hand", "nothing says how the %s side is planked", side)
		case row.Strake > n:
			r.faults.Add(at+"/strake", "1, the garboard, to "+strconv.Itoa(n)+", the sheer strake", "there is no strake %d on the %s side", row.Strake, side)
		}
	}
}

// placed: where the piece is is said once.
func (r *reader) placed(at string, row Row) {
	frames, lengths := row.FromFrame != nil || row.ToFrame != nil, row.From != "" || row.To != ""
	said := 0
	for _, is := range []bool{row.Whole, frames, lengths} {
		if is {
			said++
		}
	}
	const fix = "from_frame and to_frame, or from and to aft of station 0, or whole"
	switch {
	case said > 1:
		r.faults.Add(at, fix+", one of them", "where the piece of strake %d is is said more than once", row.Strake)
	case said == 0 && row.ByHand == nil:
		r.faults.Add(at, fix, "nothing says which piece of strake %d is renewed", row.Strake)
	case row.Whole && row.ByHand != nil:
		r.faults.Add(at+"/whole", "a plank by hand for each plank of the strake", "a whole strake is not one plank taped by hand")
	case frames && (row.FromFrame == nil || row.ToFrame == nil):
		r.faults.Add(at, "from_frame and to_frame, both", "a piece from one frame to none")
	case frames && *row.ToFrame < *row.FromFrame:
		r.faults.Add(at+"/to_frame", "a frame not forward of from_frame", "a piece from frame %d to %d", *row.FromFrame, *row.ToFrame)
	case lengths && (row.From == "" || row.To == ""):
		r.faults.Add(at, "from and to, both", "a piece from one place to none")
	}
}

// place sets where the piece is on the plank's side.
func (r *reader) place(at string, row Row, p *Plank) {
	switch {
	case row.FromFrame != nil:
		frame := func(name string, no int) decimal.Decimal {
			x, ok := r.have.Frames[p.Side][no]
			if !ok {
				r.faults.Add(at+"/"+name, "the number of one of the job's frames", "there is no frame %d on the %s side", no, p.Side)
			}
			return x
		}
		p.From, p.To, p.Placed = frame("from_frame", *row.FromFrame), frame("to_frame", *row.ToFrame), true
	case row.From != "":
		before := len(r.faults)
		p.From, p.To, p.Placed = r.length(at+"/from", row.From), r.length(at+"/to", row.To), true
		if len(r.faults) == before && p.To.LessThan(p.From) {
			r.faults.Add(at+"/to", "a place not forward of from", "the piece ends at %s, forward of %s", notation.Quote(row.To), notation.Quote(row.From))
		}
	}
}

func (r *reader) length(pointer, text string) decimal.Decimal {
	return r.faults.Length(r.n, pointer, text)
}

// within is a length above 0 and not above most, mm.
func (r *reader) within(pointer, text string, most int64) decimal.Decimal {
	return r.faults.LengthWithin(r.n, pointer, text, decimal.NewFromInt(most))
}
