package finding

import (
	"strconv"
	"unicode/utf8"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Read checks a document, or says everything that is wrong with it, each fault with its row.
func Read(d Document) (Set, document.Faults) {
	r := reader{n: d.Notation, of: map[boat.Member]*found{}}
	if !d.Notation.Known() {
		r.add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(d.Notation)))
		return Set{}, r.faults
	}
	if n := len(d.Findings); n > MaxRows {
		r.add("/findings", "at most "+strconv.Itoa(MaxRows), "%d findings are given", n)
		return Set{}, r.faults
	}
	for i, row := range d.Findings {
		r.row("/findings/"+strconv.Itoa(i), i, row)
	}
	if len(r.faults) > 0 {
		return Set{}, r.faults
	}
	return setOf(r.n, r.of), nil
}

// found is what rows say of one member.
type found struct {
	stretches []Stretch
	rest      State // of what no stretch covers; empty where no row says
	restRow   int
}

type reader struct {
	n      notation.Notation
	of     map[boat.Member]*found
	faults document.Faults
}

// add keeps a fault; nobody reads a thousand.
func (r *reader) add(pointer, fix, detail string, args ...any) {
	if len(r.faults) < mostFaults {
		r.faults.Add(pointer, fix, detail, args...)
	}
}

func (r *reader) row(p string, i int, row Row) {
	before := len(r.faults)
	if row.Member.Kind == boat.Floor {
		r.floor(p, i, row)
		return
	}
	if row.Member.Kind != boat.Frame {
		r.add(p+"/member/kind", "frame or floor", "members of kind %s are not reckoned with", notation.Quote(string(row.Member.Kind)))
	}
	if row.Member.Side.Expand() == nil {
		r.add(p+"/member/side", "port, starboard or both", "the side %s is not known", notation.Quote(string(row.Member.Side)))
	}
	r.common(p, row)
	s := Stretch{State: row.State, Row: i}
	s.From = r.place(p+"/from", row.From, decimal.Zero)
	s.To, s.ToHead = r.place(p+"/to", row.To, decimal.NewFromInt(maxLength)), row.To == ""
	if len(r.faults) == before && !s.From.LessThan(s.To) {
		r.add(p, "a place nearer the heel in from than in to", "the finding runs from %s to %s", row.From, row.To)
	}
	if len(r.faults) > before {
		return
	}
	for _, m := range row.Member.Run(row.ThroughNo) {
		r.take(p, m, s, row.From == "" && row.To == "")
	}
}

// common is what the findings of every kind of member have.
func (r *reader) common(p string, row Row) {
	if row.Member.No < 0 || max(row.Member.No, row.ThroughNo) > MaxNo || row.ThroughNo < 0 || row.ThroughNo > 0 && row.ThroughNo < row.Member.No {
		r.add(p+"/through_no", "a number not below member/no, at most "+strconv.Itoa(MaxNo), "a run from %d through %d", row.Member.No, row.ThroughNo)
	}
	if !row.State.Known() {
		r.add(p+"/state", "sound, broken, decayed or unknown", "the state %s is not known", notation.Quote(string(row.State)))
	}
	if utf8.RuneCountInString(row.Note) > MaxNote {
		r.add(p+"/note", "at most "+strconv.Itoa(MaxNote)+" letters", "the note is longer")
	}
}

// floor reads a finding of floors: it is of the whole of each, because no girth is told along one.
func (r *reader) floor(p string, i int, row Row) {
	before := len(r.faults)
	if row.Member.Side != "" {
		r.add(p+"/member/side", "no side", "floor %d crosses the keel and is of neither side", row.Member.No)
	}
	if row.From != "" || row.To != "" {
		r.add(p, "neither from nor to", "floor %d: a finding of a floor is of the whole of it", row.Member.No)
	}
	r.common(p, row)
	if len(r.faults) > before {
		return
	}
	for _, m := range row.Member.Run(row.ThroughNo) {
		r.take(p, m, Stretch{State: row.State, Row: i}, true)
	}
}

// place is a length along the girth.
func (r *reader) place(p, text string, empty decimal.Decimal) decimal.Decimal {
	if text == "" {
		return empty
	}
	l, err := r.n.Parse(text)
	switch {
	case err != nil:
		r.add(p, "a length along the girth from the rabbet, as "+r.n.Example(), "%v", err)
	case l.Sign() < 0 || l.MM() > maxLength:
		r.add(p, "a length along the girth from the rabbet, from 0", "%s lies off the girth", text)
	default:
		return l.Decimal()
	}
	return empty
}

// take adds a stretch to a member, if none is there already.
func (r *reader) take(p string, m boat.Member, s Stretch, rest bool) {
	f := r.of[m]
	if f == nil {
		f = &found{}
		r.of[m] = f
	}
	if rest {
		if f.rest != "" {
			r.add(p, "one finding for the rest of each member", "%s: what no other finding tells of is already given in /findings/%d", m, f.restRow)
			return
		}
		f.rest, f.restRow = s.State, s.Row
		return
	}
	for _, other := range f.stretches {
		if s.From.LessThan(other.To) && other.From.LessThan(s.To) {
			r.add(p, "stretches that do not overlap", "%s: the stretch overlaps that of /findings/%d", m, other.Row)
			return
		}
	}
	f.stretches = append(f.stretches, s)
}
