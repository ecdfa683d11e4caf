package rack

import (
	"fmt"
	"slices"
	"strconv"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Limits of a rack, far above any yard's and far below what would hurt.
const (
	MaxRows    = 500
	MaxCount   = 1_000
	MaxClear   = 20
	MaxText    = 200
	mostLength = 100_000 // mm
)

// Read takes a document over, or says everything that is wrong with it.
func Read(d Document) (Rack, document.Faults) {
	r := &reader{doc: d, seen: map[string]int{}}
	if !d.Notation.Known() {
		r.faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %q is not known", string(d.Notation))
		return Rack{}, r.faults
	}
	if d.Currency != "" && !d.Currency.Known() {
		r.faults.Add("/currency", "a currency of ISO 4217, for example USD", "the currency %q is not known", string(d.Currency))
		return Rack{}, r.faults
	}
	if len(d.Boards) > MaxRows {
		r.faults.Add("/boards", fmt.Sprintf("at most %d rows: boards alike go into one, with their count", MaxRows), "there are %d", len(d.Boards))
		return Rack{}, r.faults
	}
	out := Rack{Boards: make([]Board, len(d.Boards))}
	for i, row := range d.Boards {
		out.Boards[i] = r.board(i, row)
	}
	return out, r.faults
}

type reader struct {
	doc    Document
	faults document.Faults
	seen   map[string]int
}

func (r *reader) board(i int, row Row) Board {
	at := "/boards/" + strconv.Itoa(i)
	b := Board{ID: row.ID, Count: row.Count, Species: row.Species, Grade: row.Grade, Place: row.Place, Marked: len(row.Clear) > 0}
	for _, x := range []struct{ name, text string }{{"id", row.ID}, {"species", row.Species}, {"grade", row.Grade}, {"place", row.Place}} {
		if x.text == "" && x.name != "place" {
			r.faults.Add(at+"/"+x.name, map[string]string{"id": "what is chalked on the board", "species": "the code of a species", "grade": "its grade"}[x.name], "the %s is empty", x.name)
		}
		if len(x.text) > MaxText {
			r.faults.Add(at+"/"+x.name, fmt.Sprintf("at most %d letters", MaxText), "the %s is too long", x.name)
		}
	}
	if before, twice := r.seen[row.ID]; twice && row.ID != "" {
		r.faults.Add(at+"/id", "another mark, or one row with the count of both", "%q stands in /boards/%d too", row.ID, before)
	}
	r.seen[row.ID] = i
	if row.Count < 0 || row.Count > MaxCount {
		r.faults.Add(at+"/count", fmt.Sprintf("a whole number from 0 to %d", MaxCount), "%d boards", row.Count)
	}
	b.Thickness = r.size(at+"/thickness", row.Thickness, sheet.ReadThickness)
	b.Width = r.size(at+"/width", row.Width, sheet.ReadSize)
	b.Length = r.size(at+"/length", row.Length, sheet.ReadSize)
	b.Clear = r.clear(at+"/clear", row, b.Length)
	b.Worth = r.worth(at+"/worth", row.Worth)
	return b
}

func (r *reader) size(at, text string, read func(string, notation.Notation) (sheet.Size, error)) sheet.Size {
	s, err := read(text, r.doc.Notation)
	if err != nil {
		r.faults.Add(at, "a length above nothing in "+r.doc.Notation.Name()+", for example "+r.doc.Notation.Example(), "%v", err)
		return sheet.Size{}
	}
	if s.MM().GreaterThan(decimal.NewFromInt(mostLength)) {
		r.faults.Add(at, fmt.Sprintf("at most %d m", mostLength/1000), "%s is longer than any board", notation.Quote(text))
	}
	return s
}

// clear reads the stretches of a board, which lie on it one after another and apart.
func (r *reader) clear(at string, row Row, whole sheet.Size) []Clear {
	if len(row.Clear) == 0 {
		return []Clear{{decimal.Zero, whole.MM()}}
	}
	if len(row.Clear) > MaxClear {
		r.faults.Add(at, fmt.Sprintf("at most %d stretches", MaxClear), "there are %d", len(row.Clear))
		return nil
	}
	out := make([]Clear, len(row.Clear))
	for k, s := range row.Clear {
		here := at + "/" + strconv.Itoa(k)
		c := Clear{r.place(here+"/from", s.From), r.place(here+"/to", s.To)}
		switch {
		case !c.To.GreaterThan(c.From):
			r.faults.Add(here+"/to", "a place beyond "+notation.Quote(s.From), "the stretch ends at %s, not beyond its beginning", notation.Quote(s.To))
		case !whole.Empty() && c.To.GreaterThan(whole.MM()):
			r.faults.Add(here+"/to", "at most the length of the board, "+whole.Text(), "the stretch ends at %s, beyond the board, which is %s long", notation.Quote(s.To), whole.Text())
		}
		out[k] = c
	}
	slices.SortStableFunc(out, func(a, b Clear) int { return a.From.Cmp(b.From) })
	for k := 1; k < len(out); k++ {
		if out[k].From.LessThan(out[k-1].To) {
			r.faults.Add(at, "stretches apart from one another, or one that holds both", "the stretches from %s mm and from %s mm overlap", out[k-1].From, out[k].From)
		}
	}
	return out
}

func (r *reader) place(at, text string) decimal.Decimal {
	l, err := r.doc.Notation.Parse(text)
	if err != nil || l.Sign() < 0 {
		r.faults.Add(at, "a place along the board in "+r.doc.Notation.Name()+", for example "+r.doc.Notation.Example(), "%s is no place along a board", notation.Quote(text))
		return decimal.Zero
	}
	return l.Decimal()
}

func (r *reader) worth(at, text string) money.Money {
	if text == "" {
		return money.Money{}
	}
	if r.doc.Currency == "" {
		r.faults.Add("/currency", "the currency of what boards are worth, for example USD", "boards have a worth and the rack no currency")
		return money.Money{}
	}
	m, err := money.Parse(text, r.doc.Currency)
	if err != nil || m.Sign() < 0 {
		r.faults.Add(at, "an amount of 0 or more in "+string(r.doc.Currency)+", for example 12.50", "%s is no worth", notation.Quote(text))
		return money.Money{}
	}
	return m
}
