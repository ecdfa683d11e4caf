package cutting

import (
	"errors"
	"fmt"
	"slices"

	"ribband/takeoff/document"
)

// What one document may hold: a plan of this many takes two or three seconds at the most, measured on 2026-11-28.
const (
	MostRows  = 100
	MostKinds = 300
)

// Document is a list to cut as it is written: boards for sale, pieces wanted, what the saw takes. All lengths are whole
// numbers of one unit of the writer's, prices whole minor units of one currency.
type Document struct {
	Stock  []Row   `json:"stock"`
	Pieces []Piece `json:"pieces"`
	Rules  Rules   `json:"rules"`
}

// Row is one board for sale. What is left out: one strip a board, no limit on how many are for sale, no least order.
type Row struct {
	ID     string `json:"id"`
	Length int64  `json:"length"`
	Price  int64  `json:"price"`
	Strips *int64 `json:"strips,omitempty"`
	Avail  *int64 `json:"avail,omitempty"`
	Least  *int64 `json:"least,omitempty"`
}

// Solve reads the document and finds its cheapest plan, as the function Solve does. Everything wrong with it comes back
// together as document.Faults, each where it stands and with what would be right; so does a list that cannot be cut.
func (d Document) Solve() (Plan, error) {
	stock, faults := d.read()
	if len(faults) > 0 {
		return Plan{}, faults
	}
	plan, err := Solve(stock, d.Pieces, Stepped(d.Rules, stock, d.Pieces, 1))
	var short *ShortError
	var refused *RequestError
	switch {
	case errors.As(err, &short):
		return Plan{}, d.shortFault(short)
	case errors.As(err, &refused):
		if refused.What == "scarf" {
			faults.Add("/rules/scarf", "a coarser step, fewer kinds of piece that may be scarfed, or a lower price", "%s", refused.Reason)
			return Plan{}, faults
		}
		if refused.What == "keep" {
			faults.Add("/rules/keep/rate", "a rate at which no board is worth its price again uncut", "%s", refused.Error())
			return Plan{}, faults
		}
		faults.Add("", "fewer pieces, or lower prices", "%s", refused.Error())
		return Plan{}, faults
	}
	return plan, err
}

// read gives the boards with what was left out filled in.
func (d Document) read() ([]Stock, document.Faults) {
	var faults document.Faults
	between := func(pointer string, value, least, most int64) {
		if value < least || value > most {
			faults.Add(pointer, fmt.Sprintf("a whole number from %d to %d", least, most), "%d is out of range", value)
		}
	}
	between("/rules/kerf", d.Rules.Kerf, 0, MaxLength)
	between("/rules/trim_each", d.Rules.TrimEach, 0, MaxLength)
	if len(d.Stock) > MostRows {
		faults.Add("/stock", fmt.Sprintf("at most %d kinds of board", MostRows), "there are %d", len(d.Stock))
	}
	if len(d.Pieces) > MostKinds {
		faults.Add("/pieces", fmt.Sprintf("at most %d kinds of piece: those of other species, sections or grades go into a list of their own", MostKinds), "there are %d", len(d.Pieces))
	}
	if len(d.Stock) > MostRows || len(d.Pieces) > MostKinds {
		return nil, faults
	}
	d.readScarf(&faults, between)
	if k := d.Rules.Keep; k != nil {
		between("/rules/keep/least", k.Least, 1, MaxLength)
		between("/rules/keep/rate", k.Rate, 0, MaxPrice)
		between("/rules/keep/per", k.Per, 1, MaxLength)
	}
	stock, seen := make([]Stock, len(d.Stock)), map[string]int{}
	for i, row := range d.Stock {
		at := fmt.Sprintf("/stock/%d", i)
		s := Stock{ID: row.ID, Length: row.Length, Price: row.Price, Strips: orElse(row.Strips, 1), Avail: orElse(row.Avail, -1), Least: orElse(row.Least, 0)}
		once(&faults, seen, row.ID, "/stock", i)
		between(at+"/length", s.Length, 1, MaxLength)
		if between(at+"/price", s.Price, 1, MaxPrice); s.Price == 0 {
			faults[len(faults)-1].Fix = "the price of one board in minor units, at least 1: a board already paid for costs what it could be sold for"
		}
		between(at+"/strips", s.Strips, 1, MaxStrips)
		between(at+"/avail", s.Avail, -1, MaxPrice)
		between(at+"/least", s.Least, 0, MaxPieces)
		stock[i] = s
	}
	seen = map[string]int{}
	for i, p := range d.Pieces {
		at := fmt.Sprintf("/pieces/%d", i)
		once(&faults, seen, p.ID, "/pieces", i)
		between(at+"/length", p.Length, 1, MaxLength)
		between(at+"/qty", p.Qty, 0, MaxPieces)
	}
	return stock, faults
}

// once notes an id that is missing or stands twice.
func once(faults *document.Faults, seen map[string]int, id, list string, i int) {
	at := fmt.Sprintf("%s/%d/id", list, i)
	if id == "" {
		faults.Add(at, "a name of its own, by which the plan calls it", "the name is empty")
		return
	}
	if before, twice := seen[id]; twice {
		faults.Add(at, "another name", "%q is the name of %s/%d too", id, list, before)
		return
	}
	seen[id] = i
}

// readScarf notes what is wrong with how pieces are scarfed.
func (d Document) readScarf(faults *document.Faults, between func(pointer string, value, least, most int64)) {
	s := d.Rules.Scarf
	if s == nil {
		for i, p := range d.Pieces {
			if p.MayScarf {
				faults.Add(fmt.Sprintf("/pieces/%d/may_scarf", i), "scarf of the rules: what a joint costs, how long it is and the least part", "the rules do not say how pieces are scarfed")
			}
		}
		return
	}
	between("/rules/scarf/price", s.Price, 0, MaxPrice)
	between("/rules/scarf/length", s.Length, 0, MaxLength-1)
	between("/rules/scarf/least", s.Least, max(0, s.Length)+1, MaxLength)
	between("/rules/scarf/step", s.Step, 0, MaxLength)
}

// places is how many steps the longest piece that may be scarfed is told in where the rules give none.
const places = 50

// Stepped are the rules with a step of the scarf where none was given, whole numbers of grain, coarser where the parts would be
// too many.
func Stepped(r Rules, stock []Stock, pieces []Piece, grain int64) Rules {
	if r.Scarf == nil || r.Scarf.Step > 0 {
		return r
	}
	s, longest := *r.Scarf, int64(1)
	for _, p := range pieces {
		if p.MayScarf {
			longest = max(longest, p.Length)
		}
	}
	for s.Step = ((longest-1)/places/grain + 1) * grain; s.Step < longest && s.parts(stock, pieces, r) > MostParts; {
		s.Step *= 2
	}
	r.Scarf = &s
	return r
}

func orElse(value *int64, otherwise int64) int64 {
	if value == nil {
		return otherwise
	}
	return *value
}

// shortFault puts what cannot be cut where its piece stands.
func (d Document) shortFault(short *ShortError) error {
	var faults document.Faults
	i := slices.IndexFunc(d.Pieces, func(p Piece) bool { return p.ID == short.Piece.ID })
	at := fmt.Sprintf("/pieces/%d", i)
	if short.NeedsLength > 0 {
		fix := fmt.Sprintf("a board at least %d long, or pieces no longer than %d", short.NeedsLength, max(0, short.Longest))
		if short.Longest <= 0 {
			fix = fmt.Sprintf("less trim_each among the rules, or a board at least %d long", short.NeedsLength)
		}
		switch in := short.InParts; {
		case in == nil:
		case len(in.Parts) == 2 && in.Known:
			fix += ", or may_scarf of the piece true: " + in.String()
		case len(in.Parts) == 2:
			fix += ", or may_scarf of the piece true and the yard's joint as scarf of the rules: " + in.String()
		default:
			fix += fmt.Sprintf(", or its %d parts as pieces of their own: ", len(in.Parts)) + in.String()
		}
		faults.Add(at+"/length", fix, "%s", short.Error())
		return faults
	}
	faults.Add(at+"/qty", fmt.Sprintf("%d more of %s for sale, or fewer pieces", short.Boards, short.StockID), "%s", short.Error())
	return faults
}
