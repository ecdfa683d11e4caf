package rules

import (
	"strconv"

	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// SpringbackRule is what the yard has measured of laminates of one wood and thickness leaving their form, one of two: the
// share of its curvature that a stack loses, or how far the head of a trial piece moved.
type SpringbackRule struct {
	Species   string     `json:"species"`
	Thickness string     `json:"thickness"`
	Share     string     `json:"share,omitempty"`
	Trial     *TrialRule `json:"trial,omitempty"`
	Source    string     `json:"source"`
}

// TrialRule is a piece glued up on a form that is an arc: its radius there, the length along it, and how far the head moved
// when it was let go with its heel held.
type TrialRule struct {
	Radius string `json:"radius"`
	Length string `json:"length"`
	Moved  string `json:"moved"`
}

// Springback is SpringbackRule read: Share, or where Moved is above 0 a trial.
type Springback struct {
	Species               string
	Thickness             decimal.Decimal // mm
	Share                 decimal.Decimal
	Radius, Length, Moved decimal.Decimal // mm
	Source                string
}

// maxSprings is how many measured springbacks a yard may have, and mostSprung more than two laminates spring back.
const maxSprings = 200

var mostSprung = decimal.RequireFromString("0.5")

func (r *reader) springback(written []SpringbackRule) []Springback {
	if len(written) > maxSprings {
		r.faults.Add("/springback", "at most "+strconv.Itoa(maxSprings), "%d are given", len(written))
		return nil
	}
	var out []Springback
	for i, w := range written {
		p := "/springback/" + strconv.Itoa(i)
		s := Springback{Species: w.Species, Thickness: r.length(p+"/thickness", w.Thickness, true), Source: w.Source}
		r.named(p+"/species", w.Species)
		r.named(p+"/source", w.Source)
		for _, o := range out {
			if o.Species == s.Species && o.Thickness.Equal(s.Thickness) {
				r.faults.Add(p, "each wood and thickness once", "%s of %s is given twice", notation.Quote(w.Species), w.Thickness)
			}
		}
		switch {
		case (w.Share == "") == (w.Trial == nil):
			r.faults.Add(p, "a share, or a trial piece", "neither a share nor a trial is given, or both are")
		case w.Trial != nil:
			s.Radius, s.Length, s.Moved = r.arc(p+"/trial/radius", w.Trial.Radius), r.arc(p+"/trial/length", w.Trial.Length), r.length(p+"/trial/moved", w.Trial.Moved, true)
			if s.Radius.Sign() > 0 && s.Length.GreaterThan(s.Radius.Mul(decimal.NewFromInt(6))) {
				r.faults.Add(p+"/trial/length", "at most six times the radius", "an arc of %s mm round %s mm meets itself", s.Length, s.Radius)
			}
			if s.Moved.GreaterThan(s.Length.Mul(mostMoved)) {
				r.faults.Add(p+"/trial/moved", "at most a tenth of the length", "the head of a piece %s mm long moved %s mm", s.Length, s.Moved)
			}
		default:
			d, err := quantity.ParseDecimal(w.Share)
			if err != nil || d.Sign() < 0 || d.GreaterThan(mostSprung) {
				r.faults.Add(p+"/share", "the share of its curvature that a stack loses, from 0 to 0.5, for example 0.02", "%s is no such share", notation.Quote(w.Share))
			}
			s.Share = d
		}
		out = append(out, s)
	}
	return out
}

// mostMoved of a trial piece's length: more is a slip of the unit.
var mostMoved = decimal.RequireFromString("0.1")

// mostArc, mm, of a trial piece's radius or length.
var mostArc = decimal.NewFromInt(20_000)

// arc reads a trial piece's radius or length.
func (r *reader) arc(pointer, text string) decimal.Decimal {
	l, err := r.n.Parse(text)
	if err != nil {
		r.faults.Add(pointer, "a length in "+r.n.Name()+", for example "+r.n.Example(), "%v", err)
		return decimal.Zero
	}
	d := l.Decimal()
	if d.Sign() <= 0 || d.GreaterThan(mostArc) {
		r.faults.Add(pointer, "a length above 0 and at most "+mostArc.String()+" mm", "%s is %s mm", notation.Quote(text), d)
	}
	return d
}
