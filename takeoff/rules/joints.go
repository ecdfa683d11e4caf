package rules

import (
	"strconv"

	"ribband/takeoff/notation"
	"ribband/takeoff/scarf"
	"ribband/takeoff/stagger"

	"github.com/shopspring/decimal"
)

// JointKind is how two lengths of one laminate are joined end to end.
type JointKind string

// Butts meet square; feather scarfs run out to nothing at both ends, on the slope that the rule says.
const (
	ButtJoint    JointKind = "butt"
	FeatherJoint JointKind = "feather"
)

// LaminateJointsRule is how laminates are made up that are longer than the stock. Lengths are in the rules' notation.
type LaminateJointsRule struct {
	Joint JointKind `json:"joint"`
	// Slope of a feather scarf, the taper's length to one of the laminate's thickness; left out for butts.
	Slope *Sourced `json:"slope,omitempty"`
	// Longest length of laminate that the yard gets out of its boards.
	Longest string `json:"longest"`
	// Apart is the least from the end of one joint to the beginning of the next, in one laminate and in its neighbours; or
	// ApartThicknesses, in thicknesses of the laminates.
	Apart            string `json:"apart,omitempty"`
	ApartThicknesses string `json:"apart_thicknesses,omitempty"`
	// Across is how many laminates away that holds; 0 takes one, so that joints of every second laminate may lie in line.
	Across int `json:"across,omitempty"`
	// FromBend, FromHeel and FromHead are how far joints keep from the tightest bend and from the ends of the frame; empty
	// asks for nothing.
	FromBend string `json:"from_bend,omitempty"`
	FromHeel string `json:"from_heel,omitempty"`
	FromHead string `json:"from_head,omitempty"`
	Source   string `json:"source"`
}

// LaminateJoints is LaminateJointsRule read, lengths in mm. Slope is 0 for butts; one of Apart and Thicknesses is 0.
type LaminateJoints struct {
	Joint                        JointKind
	Slope                        decimal.Decimal
	SlopeSource                  string
	Longest                      decimal.Decimal
	Apart, Thicknesses           decimal.Decimal
	Across                       int
	FromBend, FromHeel, FromHead decimal.Decimal
	Source                       string
}

// ApartOf laminates so thick, mm.
func (j LaminateJoints) ApartOf(thickness decimal.Decimal) decimal.Decimal {
	if j.Thicknesses.IsPositive() {
		return j.Thicknesses.Mul(thickness)
	}
	return j.Apart
}

// MaxStock, mm, is the longest length of laminate that a rule may name.
const MaxStock = 30_000

// mostThicknesses that joints may be kept apart by.
var mostThicknesses = decimal.NewFromInt(1000)

func (r *reader) laminateJoints(d *LaminateJointsRule) *LaminateJoints {
	if d == nil {
		return nil
	}
	const p = "/laminate_joints"
	j := &LaminateJoints{Joint: d.Joint, Longest: r.stock(p+"/longest", d.Longest), Across: max(1, d.Across), Source: d.Source}
	switch {
	case d.Joint != ButtJoint && d.Joint != FeatherJoint:
		r.faults.Add(p+"/joint", "butt or feather", "the joint %s is not known", notation.Quote(string(d.Joint)))
	case d.Joint == ButtJoint && d.Slope != nil:
		r.faults.Add(p+"/slope", "nothing, or the joint feather", "a butt has no slope")
	case d.Joint == FeatherJoint && d.Slope == nil:
		r.faults.Add(p+"/slope", "the taper's length to one of thickness, with its source", "a feather scarf without a slope")
	case d.Joint == FeatherJoint:
		j.Slope, j.SlopeSource = r.positive(p+"/slope/value", d.Slope.Value), d.Slope.Source
		if j.Slope.LessThan(decimal.NewFromInt(scarf.LeastSlope)) || j.Slope.GreaterThan(decimal.NewFromInt(scarf.MostSlope)) {
			r.faults.Add(p+"/slope/value", "the taper's length to one of thickness, from "+strconv.Itoa(scarf.LeastSlope)+" to "+strconv.Itoa(scarf.MostSlope)+", for example 12", "a scarf of %s to one", j.Slope)
		}
		r.named(p+"/slope/source", d.Slope.Source)
	}
	switch {
	case (d.Apart == "") == (d.ApartThicknesses == ""):
		r.faults.Add(p+"/apart", "apart, or apart_thicknesses, one of the two", "how far joints are kept apart is said twice or not at all")
	case d.Apart != "":
		j.Apart = r.length(p+"/apart", d.Apart, false)
	default:
		if j.Thicknesses = r.positive(p+"/apart_thicknesses", d.ApartThicknesses); j.Thicknesses.GreaterThan(mostThicknesses) {
			r.faults.Add(p+"/apart_thicknesses", "at most "+mostThicknesses.String(), "%s thicknesses", j.Thicknesses)
		}
	}
	if d.Across < 0 || d.Across > stagger.MostAcross {
		r.faults.Add(p+"/across", "from 1 to "+strconv.Itoa(stagger.MostAcross)+", or nothing for 1", "%d laminates", d.Across)
	}
	for _, x := range []struct {
		name, text string
		to         *decimal.Decimal
	}{{"from_bend", d.FromBend, &j.FromBend}, {"from_heel", d.FromHeel, &j.FromHeel}, {"from_head", d.FromHead, &j.FromHead}} {
		if x.text != "" {
			*x.to = r.length(p+"/"+x.name, x.text, false)
		}
	}
	r.named(p+"/source", d.Source)
	return j
}

// stock reads a length of laminate.
func (r *reader) stock(pointer, text string) decimal.Decimal {
	l, err := r.n.Parse(text)
	if err != nil {
		r.faults.Add(pointer, "a length in "+r.n.Name()+", for example "+r.n.Example(), "%v", err)
		return decimal.Zero
	}
	d := l.Decimal()
	if d.Sign() <= 0 || d.GreaterThan(decimal.NewFromInt(MaxStock)) {
		r.faults.Add(pointer, "a length above 0 and at most "+strconv.Itoa(MaxStock)+" mm", "%s is %s mm", notation.Quote(text), d)
	}
	return d
}
