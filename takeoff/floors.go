package takeoff

import (
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/finding"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/strap"

	"github.com/shopspring/decimal"
)

// FloorMeasures is what a floor measures: the smallest level rectangle round it, at both of its faces, and its arms. Sizes
// are absent where neither the sections nor a hand gave them.
type FloorMeasures struct {
	Member boat.Member `json:"member"`
	XMM    *float64    `json:"x_mm,omitempty"`
	ByHand bool        `json:"by_hand,omitempty"`
	// Why says of a floor without a size what is wanting.
	Why string `json:"why,omitempty"`

	AcrossMM *float64 `json:"across_mm,omitempty"`
	HeightMM *float64 `json:"height_mm,omitempty"`
	// AlongMM is the length of the lower face from arm to arm, TurnDeg what that turns by over the keel.
	AlongMM *float64 `json:"along_mm,omitempty"`
	TurnDeg *float64 `json:"turn_deg,omitempty"`
	// BevelKnown says that the lines fore and aft are known, so that the rectangle holds the bevel.
	BevelKnown bool      `json:"bevel_known"`
	Port       *FloorArm `json:"port,omitempty"`
	Starboard  *FloorArm `json:"starboard,omitempty"`
	// Grain is how that of one board would lie in it; absent of a floor without a size.
	Grain *FloorGrain `json:"grain,omitempty"`
}

// FloorGrain is how the grain of one board lies in a floor that is sawn from it, level from arm to arm.
type FloorGrain struct {
	// RunMM is the length of the fibre at half depth over the keel; absent where only a hand measured.
	RunMM *float64 `json:"run_mm,omitempty"`
	// SteepestDeg is the greatest angle at which grain crosses an arm where none runs through from side to side, and Side whose
	// arm that is; 0 where all runs through. AtLeast: no less than that, for only a hand measured.
	SteepestDeg float64   `json:"steepest_deg"`
	Side        boat.Side `json:"side,omitempty"`
	AtLeast     bool      `json:"at_least,omitempty"`
	// MostDeg is what the yard takes, with where that comes from; Short that more is asked of it.
	MostDeg float64 `json:"most_deg"`
	Source  string  `json:"source"`
	Short   bool    `json:"short_grain"`
}

// FloorArm is where an arm ends: along the girth from the rabbet, and that place's half-breadth and height.
type FloorArm struct {
	GirthMM       float64 `json:"girth_mm"`
	HalfBreadthMM float64 `json:"half_breadth_mm"`
	HeightMM      float64 `json:"height_mm"`
}

// named is a member at the head of a sentence: "Frame 12 port", "Floor 12".
func named(m boat.Member) string {
	s := m.String()
	return strings.ToUpper(s[:1]) + s[1:]
}

// floors puts what is done to the floors on the bill, and gives the weights of their timber. listed are the restricted woods that were
// warned of already.
func (b Basis) floors(stands []stand, out *Result, listed map[string]bool, t *derivation.Table) ([]derivation.Input, error) {
	at := map[boat.Member]stand{}
	for _, s := range stands {
		at[s.frame.Member()] = s
	}
	var weights []derivation.Input
	var unsounded []string
	worked := false
	for _, f := range b.Floors {
		size, err := b.floorSize(f, at)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Member(), err)
		}
		out.Floors = append(out.Floors, size.measures(f, b.Rules.Grain()))
		c := b.Remedies[f.Member()]
		if c.Remedy == "" || c.Remedy == boat.Leave {
			state := b.Findings.Of(f.Member())
			if state == finding.Unknown {
				unsounded = append(unsounded, fmt.Sprint(f.No))
			}
			out.Bill.Warnings = append(out.Bill.Warnings, floorLeft(f, state)...)
			continue
		}
		worked = true
		if wood, ok := b.Species.Find(c.Species); ok && !listed[wood.Code] {
			if w, is := restricted(wood, b.Species); is {
				listed[wood.Code] = true
				out.Bill.Warnings = append(out.Bill.Warnings, w)
			}
		}
		weight, err := b.replaceFloor(f, size, c, t, &out.Bill)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", f.Member(), err)
		}
		if weight != "" {
			weights = append(weights, t.Ref("W", weight))
		}
	}
	if worked {
		out.Bill.Warnings = append(out.Bill.Warnings, floorsBear)
	}
	if unsounded != nil {
		out.Bill.Warnings = append(out.Bill.Warnings, bill.Warning{Code: "floors_not_sounded",
			Detail: "Floors that are left were not sounded and count as unknown, not as sound: " + strings.Join(unsounded, ", ") + ".",
			Fix:    "Sound them, and the keel bolts through them, and put what was found with the job's findings."})
	}
	return weights, t.Err()
}

// floorsBear is the caution of whoever takes a floor out (common practice, no source).
var floorsBear = bill.Warning{Code: "floors_bear_the_keel",
	Detail: "Floors tie the frames of both sides to the keel, and the bolts of the keel and its ballast pass through them: a floor that is loosened leaves them hanging on its neighbours.",
	Fix:    "Bear the weight of keel and ballast and shore the hull before one is loosened, take them one at a time, and let a surveyor say which bolts are renewed."}

// floorLeft are the warnings of a floor that nothing is done to.
func floorLeft(f floor.Floor, state finding.State) []bill.Warning {
	if state != finding.Broken && state != finding.Decayed {
		return nil
	}
	m := f.Member()
	return []bill.Warning{{Code: "damage_left", Member: &m, Detail: fmt.Sprintf("Floor %d is left as it is, and was found %s.", f.No, state),
		Fix: "Choose a remedy for the floor, or have the surveyor say in writing that it may stay."}}
}

// replaceFloor puts a new floor on the bill, and gives the id of the weight of its timber, empty where it takes none.
func (b Basis) replaceFloor(f floor.Floor, size floorSize, c frame.Choice, t *derivation.Table, out *bill.Bill) (string, error) {
	m := f.Member()
	if !size.known {
		out.Faults = append(out.Faults, bill.Fault{Code: "floor_shape_unknown", Member: &m, Detail: fmt.Sprintf("Floor %d: %s.", f.No, size.why), Fix: size.fix})
		return "", nil
	}
	if !size.of.ByHand && !size.bevelled {
		out.Warnings = append(out.Warnings, bill.Warning{Code: "floor_bevel_unknown", Member: &m,
			Detail: fmt.Sprintf("Floor %d: its shape is that of one face, because the boat has no lines fore and aft of it; how much more its bevel asks for is not known.", f.No),
			Fix:    "Enter the boat's lines, or measure the greatest bevel on the floor and give its size by hand with that in it."})
	}
	if c.Remedy == boat.ReplaceStrap {
		return "", b.strapFloor(f, size, c, t, out)
	}
	wood, err := b.wood(m, c)
	if err != nil {
		return "", err
	}
	if c.Remedy == boat.ReplaceSawn {
		out.Warnings = append(out.Warnings, b.shortGrain(f, size)...)
	}
	job := floor.Job{Floor: f, Size: size.of, Remedy: c.Remedy, Grade: c.Grade, Wood: wood}
	make := job.Sawn
	if c.Remedy == boat.ReplaceLaminated {
		make = job.Laminated
	}
	r, err := make(b.Rules, t)
	if err != nil {
		return "", err
	}
	out.Lines, out.Measures, out.Faults = append(out.Lines, r.Lines...), append(out.Measures, r.Measures...), append(out.Faults, r.Faults...)
	return r.WeightFigure, nil
}

// strapFloor is a floor that is a strap from arm to arm.
func (b Basis) strapFloor(f floor.Floor, size floorSize, c frame.Choice, t *derivation.Table, out *bill.Bill) error {
	m := f.Member()
	rule, ok := b.Rules.Strap(c.Strap)
	switch {
	case !ok:
		out.Faults = append(out.Faults, bill.Fault{Code: "no_such_strap", Member: &m, Detail: fmt.Sprintf("Floor %d: the yard's rules have no strap named %s.", f.No, c.Strap), Fix: "Name a strap of the rules, or enter it there."})
		return nil
	case size.of.Along <= 0:
		out.Faults = append(out.Faults, bill.Fault{Code: "floor_shape_unknown", Member: &m, Detail: fmt.Sprintf("Floor %d: its size was measured by hand, and not its length along the lower face.", f.No), Fix: "Enter by_hand/along in its row."})
		return nil
	}
	lines, measures, err := strap.Take(strap.Frame{Member: m, Remedy: c.Remedy, Inner: size.of.Along, High: decimal.NewFromInt(1), Source: "as the section runs"}, rule, b.Rules, t)
	if err != nil {
		return err
	}
	out.Lines, out.Measures = append(out.Lines, lines...), append(out.Measures, measures...)
	id := m.Path() + "/worked"
	out.Measures = append(out.Measures, bill.Measure{Driver: string(step.Floors), Member: m, Remedy: c.Remedy, Quantity: t.Derive(id, "floor/worked", nil), Figure: id})
	return t.Err()
}

func (s floorSize) measures(f floor.Floor, limit rules.SawnGrain) FloorMeasures {
	of := func(x float64) *float64 { x = quantity.Thousandth(x); return &x }
	out := FloorMeasures{Member: f.Member(), ByHand: s.of.ByHand, Why: s.why, BevelKnown: s.bevelled}
	if s.stood {
		out.XMM = of(s.of.X.InexactFloat64())
	}
	if !s.known {
		return out
	}
	out.AcrossMM, out.HeightMM = of(s.of.Across), of(s.of.Height)
	if s.of.Along > 0 {
		out.AlongMM = of(s.of.Along)
	}
	out.Grain = s.grained(limit)
	if s.of.ByHand {
		return out
	}
	out.TurnDeg = of(degrees(s.of.Turn))
	arm := func(e floor.End) *FloorArm {
		return &FloorArm{quantity.Thousandth(e.Girth), quantity.Thousandth(e.HalfBreadth), quantity.Thousandth(e.Height)}
	}
	out.Port, out.Starboard = arm(s.port), arm(s.starboard)
	return out
}
