package takeoff

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/finding"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
	"ribband/takeoff/pattern"
	"ribband/takeoff/plank"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

// Basis is everything a takeoff reads, already read and checked: the same basis always gives the same takeoff.
type Basis struct {
	// Hull is the boat's lines, nil where there are none: then every frame needs a pattern or a tape.
	Hull *hull.Hull
	// Fairness is the table of offsets judged, nil where there is none or it was not: its offsets out of line are warned of.
	Fairness *fairness.Report
	// Notation is that of the job's own papers, in which lengths are said to people; unknown stands for millimetres.
	Notation notation.Notation
	// Patterns are those of single frames, nil where none was taken. A frame's pattern goes before its tape, and that
	// before the lines.
	Patterns *pattern.Fitted
	Frames   []frame.Frame
	// Floors that cross the keel, empty where none were written down.
	Floors []floor.Floor
	// Findings of frames and floors; the zero Set where nobody looked.
	Findings finding.Set
	// Planking is how each side is planked, empty where nothing says; Planks are those that the option renews.
	Planking map[boat.Side]planking.Terms
	Planks   []plank.Plank
	Remedies map[boat.Member]frame.Choice
	Species  timber.Catalogue
	Steps    step.Library
	Rules    rules.Rules
}

// Result is a takeoff: the bill, the hours, the weight of new timber, and how every figure came about.
type Result struct {
	Bill bill.Bill `json:"bill"`
	// Frames are the measures of every frame and side, those left alone included.
	Frames []frame.Measures `json:"frames"`
	// Ripping is what laminates are ripped to over the boat, and why.
	Ripping frame.Ripping `json:"ripping"`
	// Graded is what the grades of the timber on the bill promise.
	Graded []Graded `json:"graded,omitempty"`
	// Steaming is how the frames bent in steam are bent, and why; nil where none is.
	Steaming *Steaming   `json:"steaming,omitempty"`
	Work     []step.Work `json:"work"`
	// Scarfs of the pieces let into frames, as they are marked out.
	Scarfs []Scarf `json:"scarfs,omitempty"`
	// MadeUp are the blanks whose laminates are longer than the stock.
	MadeUp []frame.MadeUp `json:"made_up,omitempty"`
	// Fastened is how planks are fastened to the new frames; nil where that is not counted.
	Fastened *Fastened `json:"fastened,omitempty"`
	// NotFastened says what is missing for it to be counted. It is a warning of the bill only where one half is there: a yard
	// that enters neither counts no fastenings.
	NotFastened *bill.Warning `json:"not_fastened,omitempty"`
	// Floors are the measures of every floor, those left alone included.
	Floors []FloorMeasures `json:"floors,omitempty"`
	// Planks are the new planks as they are marked out.
	Planks []NewPlank `json:"planks,omitempty"`
	// TotalHours is the sum of the hours shown; Weight that of the new timber at 12 % moisture.
	TotalHours quantity.Quantity `json:"total_hours"`
	Weight     quantity.Quantity `json:"weight"`
	// Gluing is how the new blanks are glued up.
	Gluing Gluing `json:"-"`
	// Figures is the flat table that lines, measures and faults name figures of.
	Figures []derivation.Figure `json:"figures"`
}
