package flatcut

import (
	"errors"
	"fmt"

	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/cutting/flat/pair"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// nanos are nanometres: 1/64 in is a whole number of them.
type nanos = int64

// mostNanos is a kilometre; nothing longer is cut.
const mostNanos nanos = 1_000_000_000_000

// reader reads a document and collects every fault. Sizes are nanometres until all are known, by the pointer of what they are.
type reader struct {
	Document
	faults document.Faults
	sizes  map[string]nanos
}

// read gives the list in units of its own.
func (d Document) read() (counted, document.Faults) {
	r := &reader{Document: d, sizes: map[string]nanos{}}
	if !d.Currency.Known() {
		r.faults.Add("/currency", "the code of the currency all prices are in, for example USD", "%s", (&money.CurrencyError{Code: d.Currency}).Error())
	}
	if !d.Notation.Known() {
		r.faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "notation %s is not known", notation.Quote(string(d.Notation)))
	}
	if len(d.Stock) > MostRows {
		r.faults.Add("/stock", fmt.Sprintf("at most %d kinds of sheet, board and roll", MostRows), "there are %d", len(d.Stock))
	}
	if len(d.Pieces) > MostKinds {
		r.faults.Add("/pieces", fmt.Sprintf("at most %d kinds of piece: those of another thickness or material go into a list of their own", MostKinds), "there are %d", len(d.Pieces))
	}
	if len(r.faults) > 0 {
		return counted{}, r.faults
	}
	r.rules()
	r.stock()
	r.pieces()
	if len(r.faults) > 0 {
		return counted{}, r.faults
	}
	c, ok := r.count()
	if !ok {
		r.faults.Add("/stock", "sizes of at most 50 m", "a side is longer than is carried")
		return counted{}, r.faults
	}
	return c, r.faults
}

// length reads one length, of least or more.
func (r *reader) length(pointer, text string, least nanos) {
	l, err := r.Notation.Parse(text)
	if err != nil {
		r.faults.Add(pointer, "a length in "+r.Notation.Name()+", for example "+r.Notation.Example(), "%s", err.Error())
		return
	}
	n := l.Decimal().Shift(6).IntPart()
	if n < least || n > mostNanos {
		fix := "a length above 0, at most a kilometre"
		if least == 0 {
			fix = "a length from 0 on, at most a kilometre"
		}
		r.faults.Add(pointer, fix, "%s is out of range", notation.Quote(text))
		return
	}
	r.sizes[pointer] = n
}

func (r *reader) rules() {
	r.length("/rules/kerf", r.Rules.Kerf, 0)
	r.length("/rules/trim_each", r.Rules.TrimEach, 0)
	switch r.Rules.First {
	case "", flat.Across, flat.Along, flat.Either:
	default:
		r.faults.Add("/rules/first", "across, along or either", "%s is no way for the first cuts", notation.Quote(string(r.Rules.First)))
	}
	if r.Rules.Stages != 0 && r.Rules.Stages != 2 && r.Rules.Stages != 3 {
		r.faults.Add("/rules/stages", "2 for strips and pieces, 3 for strips, stacks and pieces", "cuts are not made in %d stages", r.Rules.Stages)
	}
}

func (r *reader) stock() {
	seen := map[string]int{}
	for i, s := range r.Stock {
		at := fmt.Sprintf("/stock/%d", i)
		r.once(seen, s.ID, "/stock", i)
		r.length(at+"/width", s.Width, 1)
		if s.Per != "" {
			r.length(at+"/per", s.Per, 1)
		}
		if s.Length != "" || s.Per == "" {
			r.length(at+"/length", s.Length, 1)
		}
		r.price(at, s)
		switch {
		case s.Per == "" && s.AvailLength != "":
			r.faults.Add(at+"/avail_length", "avail, the number of sheets", "sheets are not sold by the length; a roll says per what length its price is")
		case s.Per != "" && s.Avail != nil:
			r.faults.Add(at+"/avail", "avail_length", "a roll is sold by the length")
		case s.AvailLength != "":
			r.length(at+"/avail_length", s.AvailLength, 0)
		case s.Avail != nil && *s.Avail < 0:
			r.faults.Add(at+"/avail", "a number from 0 on, or leave it out for no limit", "%d is out of range", *s.Avail)
		}
	}
}

func (r *reader) price(at string, s Row) {
	p, err := money.Round(s.Price, r.Currency, money.HalfUp)
	of := "one sheet"
	if s.Per != "" {
		of = "so much length"
	}
	switch {
	case err != nil:
		r.faults.Add(at+"/price", "a price that people pay", "%s", err.Error())
	case s.Price.Sign() <= 0:
		r.faults.Add(at+"/price", "what "+of+" costs, above 0; one already paid for costs what it could be sold for", "%s is no price", s.Price)
	case p.Sign() == 0:
		least, _ := money.New(1, r.Currency)
		r.faults.Add(at+"/price", fmt.Sprintf("at least %s, the smallest coin of %s", least, r.Currency), "%s %s rounds to nothing", s.Price, r.Currency)
	case p.Minor() > flat.MaxPrice:
		r.faults.Add(at+"/price", "a price that people pay", "%s is more than is carried", s.Price)
	}
}

func (r *reader) pieces() {
	seen, all, points := map[string]int{}, int64(0), 0
	for i, p := range r.Pieces {
		at := fmt.Sprintf("/pieces/%d", i)
		r.once(seen, p.ID, "/pieces", i)
		if p.Qty < 0 || p.Qty > MostPieces {
			r.faults.Add(at+"/qty", fmt.Sprintf("a whole number from 0 to %d", MostPieces), "%d is out of range", p.Qty)
		} else if all += p.Qty; all > MostPieces && all-p.Qty <= MostPieces {
			r.faults.Add(at+"/qty", fmt.Sprintf("at most %d pieces all together", MostPieces), "with these there are %d", all)
		}
		if p.Outline == nil {
			r.length(at+"/width", p.Width, 1)
			r.length(at+"/length", p.Length, 1)
			if p.Pair != nil {
				r.length(at+"/pair/width", p.Pair.Width, 1)
				r.length(at+"/pair/length", p.Pair.Length, 1)
				r.notSmaller(at, "width", p.Width)
				r.notSmaller(at, "length", p.Length)
			}
			continue
		}
		if p.Width != "" || p.Length != "" || p.Pair != nil {
			r.faults.Add(at+"/outline", "either the outline or the rectangle", "width, length and pair follow from the outline")
		}
		if len(p.Outline) > mostPoints {
			r.faults.Add(at+"/outline", fmt.Sprintf("at most %d points", mostPoints), "there are %d", len(p.Outline))
			continue
		}
		if points += len(p.Outline); points > allPoints {
			r.faults.Add(at+"/outline", fmt.Sprintf("at most %d points of all outlines together", allPoints), "with this one there are %d", points)
			continue
		}
		for k, q := range p.Outline {
			r.length(fmt.Sprintf("%s/outline/%d/across", at, k), q.Across, -mostNanos)
			r.length(fmt.Sprintf("%s/outline/%d/along", at, k), q.Along, -mostNanos)
		}
	}
}

// notSmaller: two pieces need at least the room of one.
func (r *reader) notSmaller(at, side, text string) {
	one, ok := r.sizes[at+"/"+side]
	if two, both := r.sizes[at+"/pair/"+side]; ok && both && two < one {
		r.faults.Add(at+"/pair/"+side, "at least "+text, "the rectangle of two is smaller than that of one")
	}
}

func (r *reader) once(seen map[string]int, id, list string, i int) {
	at := fmt.Sprintf("%s/%d/id", list, i)
	if id == "" {
		r.faults.Add(at, "a name of its own, by which the plan calls it", "the name is empty")
		return
	}
	if before, twice := seen[id]; twice {
		r.faults.Add(at, "another name", "%s is the name of %s/%d too", notation.Quote(id), list, before)
		return
	}
	seen[id] = i
}

// An outline is laid against itself in at most fineOutline units of its longer side, which takes some tenths of a second; what that
// rounds, a unit each way, goes onto the rectangle of two. allPoints are those of all outlines together.
const (
	fineOutline = 300
	mostPoints  = 40
	allPoints   = 120
)

// outlined puts an outline's rectangles into its piece.
func (r *reader) outlined(i int, unit nanos, p *flat.Piece) {
	at := fmt.Sprintf("/pieces/%d/outline", i)
	var low, high [2]nanos
	of := func(k int) [2]nanos {
		return [2]nanos{r.sizes[fmt.Sprintf("%s/%d/across", at, k)], r.sizes[fmt.Sprintf("%s/%d/along", at, k)]}
	}
	for k := range r.Pieces[i].Outline {
		q := of(k)
		for side := range q {
			if k == 0 {
				low[side], high[side] = q[side], q[side]
			}
			low[side], high[side] = min(low[side], q[side]), max(high[side], q[side])
		}
	}
	coarse := max(unit, (max(high[0]-low[0], high[1]-low[1])+fineOutline-1)/fineOutline)
	points := make([]pair.Point, len(r.Pieces[i].Outline))
	for k := range points {
		q := of(k)
		points[k] = pair.Point{X: (q[0] - low[0] + coarse/2) / coarse, Y: (q[1] - low[1] + coarse/2) / coarse}
	}
	two, err := pair.Least(points)
	var bad *pair.OutlineError
	if errors.As(err, &bad) {
		r.faults.Add(at, "a closed line round one piece, its points in order, crossing itself nowhere", "%s", err.Error())
		return
	}
	up := func(n nanos) int64 { return (n + unit - 1) / unit }
	rounded := coarse
	if coarse == unit {
		rounded = 0
	}
	p.Width, p.Length = up(high[0]-low[0]), up(high[1]-low[1])
	p.Pair = &flat.Size{Width: max(p.Width, up(two.Size.Width*coarse+rounded)), Length: max(p.Length, up(two.Size.Length*coarse+rounded))}
}
