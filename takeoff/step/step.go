// Package step is the yard's step library: what is done, what it is counted by, how many hours that takes, and what
// can hurt somebody doing it. Hours are the yard's own; none are built in.
package step

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Driver is what a step's hours are counted by. The register is closed: a driver that no trade emits cannot be
// counted.
type Driver string

// The drivers emitted so far, each a frame and a side.
const (
	Patterns  Driver = "patterns"       // patterns to be taken
	Laminates Driver = "laminates"      // laminates ripped and planed, those lost included
	Steamed   Driver = "steamed_pieces" // pieces steamed and bent, those lost included
	InSteam   Driver = "steam_h"        // hours that those pieces are in steam, load by load where the box is known
	GlueLine  Driver = "glue_line_m2"   // area of glue line
	Frames    Driver = "frames"         // frames worked on
	Girth     Driver = "girth_m"        // metres of girth
	Scarfs    Driver = "scarfs"         // scarfs cut and glued
	Straps    Driver = "strap_m"        // metres of strap fitted
	Shored    Driver = "shored_frames"  // frames to be shored to shape before the pattern is taken
	// LaminateJoints are joints within laminates that are longer than the stock.
	LaminateJoints Driver = "laminate_joints"
	// Floors are floors worked on, Sawn pieces sawn to shape from wide stock.
	Floors Driver = "floors"
	Sawn   Driver = "sawn_pieces"
	// PlankFastenings are screws by which planks are fastened to frames.
	PlankFastenings Driver = "plank_fastenings"
	// Planks are new planks, PlankMetres how long they are together, NewButts the butts that they make new.
	Planks      Driver = "planks"
	PlankMetres Driver = "plank_m"
	NewButts    Driver = "new_butts"
	// Resawn is metres that the bandsaw runs where thick boards are resawn. No bill emits it: it is known when boards are bought.
	Resawn Driver = "resawn_m"
)

var driverUnits = map[Driver]quantity.Unit{
	Patterns:  quantity.Each,
	Laminates: quantity.Each,
	Steamed:   quantity.Each,
	InSteam:   quantity.Hour,
	GlueLine:  quantity.SquareMetre,
	Frames:    quantity.Each,
	Girth:     quantity.Metre,
	Scarfs:    quantity.Each,
	Straps:    quantity.Metre,
	Shored:    quantity.Each,

	LaminateJoints: quantity.Each,
	Floors:         quantity.Each,
	Sawn:           quantity.Each,

	PlankFastenings: quantity.Each,
	Planks:          quantity.Each,
	PlankMetres:     quantity.Metre,
	NewButts:        quantity.Each,
	Resawn:          quantity.Metre,
}

// Drivers in the order of work.
var Drivers = []Driver{Shored, Patterns, Frames, Floors, Sawn, Laminates, LaminateJoints, Steamed, InSteam, GlueLine, Scarfs, Girth, Straps, Planks, PlankMetres, NewButts, PlankFastenings, Resawn}

// Unit that the driver is counted in; empty for a driver that is not in the register.
func (d Driver) Unit() quantity.Unit { return driverUnits[d] }

// Known reports whether d is in the register.
func (d Driver) Known() bool { _, ok := driverUnits[d]; return ok }

// Where narrows a step to members of a kind, in a zone, under a remedy. An empty field narrows nothing.
type Where struct {
	Kind   boat.Kind   `json:"kind,omitempty"`
	Zone   string      `json:"zone,omitempty"`
	Remedy boat.Remedy `json:"remedy,omitempty"`
}

// Holds reports whether a measure of this kind, zone and remedy counts.
func (w Where) Holds(kind boat.Kind, zone string, remedy boat.Remedy) bool {
	return (w.Kind == "" || w.Kind == kind) && (w.Zone == "" || w.Zone == zone) && (w.Remedy == "" || w.Remedy == remedy)
}

// Step is one kind of work: hours = setup + per unit x factor x the sum of the driver's measures where it holds.
type Step struct {
	Code     string          `json:"code"`
	Name     string          `json:"name"`
	Trade    string          `json:"trade"`
	Driver   Driver          `json:"driver"`
	Where    Where           `json:"where"`
	PerUnitH decimal.Decimal `json:"per_unit_h"`
	Factor   decimal.Decimal `json:"factor"`
	SetupH   decimal.Decimal `json:"setup_h"`
	Cautions []string        `json:"cautions"`
}

// Library is one version of the yard's steps, in the order of work.
type Library struct {
	// Note says where the hours come from; the demo's says that they are invented.
	Note  string `json:"note"`
	Steps []Step `json:"steps"`
}

// For is the step that uses up material counted by driver on such a member: the first that holds.
func (l Library) For(driver Driver, kind boat.Kind, zone string, remedy boat.Remedy) (Step, bool) {
	for _, s := range l.Steps {
		if s.Driver == driver && s.Where.Holds(kind, zone, remedy) {
			return s, true
		}
	}
	return Step{}, false
}
