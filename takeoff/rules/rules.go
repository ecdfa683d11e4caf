// Package rules is the yard's shop figures, one published version at a time: what it rips, how tight it bends, what
// is planed off, sawn away and lost. They are data, never constants of the program.
package rules

import (
	"ribband/takeoff/bill"
	"ribband/takeoff/glue"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Document is the rules as they are written: lengths as text in Notation, fractions and rates as exact decimals.
type Document struct {
	// Note says where the figures come from; the demo's says that they are invented.
	Note     string            `json:"note"`
	Notation notation.Notation `json:"notation"`
	// Rips are the thicknesses of laminate that the yard rips.
	Rips []string `json:"rips"`
	// DifferentLaminates is how many different thicknesses one boat may be ripped; 0 takes one, the fewest.
	DifferentLaminates int `json:"different_laminates,omitempty"`
	// BendRatio is the least radius of the tightest laminate over its thickness; empty leaves it to the working strain of
	// the wood.
	BendRatio Sourced `json:"bend_ratio,omitzero"`
	// Planing is taken off a sawn thickness before gluing, and off a board before it is ripped.
	Planing string `json:"planing"`
	Kerf    string `json:"kerf"`
	// EndTrim is cut off each end of a board before pieces are.
	EndTrim string `json:"end_trim"`
	// LeastShort is the shortest left-over of a board that is kept; empty where the yard does not say.
	LeastShort string `json:"least_short,omitempty"`
	// Resaw is how thick boards are sawn into thinner ones; absent where the yard rips boards as they come.
	Resaw *ResawRule `json:"resaw,omitempty"`
	// CleaningUp is dressed off the moulded depth of a glued blank.
	CleaningUp string `json:"cleaning_up"`
	// Heel and Head are what a frame is longer than its girth, below the rabbet and above the sheer.
	Heel string `json:"heel"`
	Head string `json:"head"`
	// BlankTrim is squared off the two ends of a blank together.
	BlankTrim string `json:"blank_trim"`
	// Glue is what laminated frames are glued with.
	Glue GlueRule `json:"glue"`
	// PatternItem is what the price sheet calls the stock that patterns are made of.
	PatternItem string `json:"pattern_item"`
	// HalfFoot is what a board's face of exactly half a foot counts in a tally of hardwood; empty where the yard has not said.
	HalfFoot timber.Tie `json:"half_foot,omitempty"`
	// ShapeTolerance is how far a frame's target may lie off the frame as found before the hull is shored to shape, and
	// how far a pattern may miss the lines before it is told; empty takes DefaultShapeTolerance.
	ShapeTolerance string `json:"shape_tolerance,omitempty"`
	// Scarf is how new pieces are let into frames, Sister how frames are doubled; absent where the yard does neither.
	Scarf  *ScarfRule  `json:"scarf,omitempty"`
	Sister *SisterRule `json:"sister,omitempty"`
	// LaminateJoints is how laminates longer than the stock are made up; absent where the yard's stock is always long enough.
	LaminateJoints *LaminateJointsRule `json:"laminate_joints,omitempty"`
	// Steam is how solid frames are bent; what it leaves out stands as published.
	Steam *SteamRule `json:"steam,omitempty"`
	// SawnGrainDeg is the greatest angle, degrees, at which the yard lets grain cross the arm of a floor sawn from one board;
	// empty takes DefaultSawnGrain.
	SawnGrainDeg Sourced `json:"sawn_grain_deg,omitzero"`
	// Springback is what the yard has measured of its own; without it springback follows from the number of laminates.
	Springback []SpringbackRule `json:"springback,omitempty"`
	// Straps that run inside frames, by name.
	Straps []StrapRule `json:"straps,omitempty"`
	// PlankFastenings is how planks are fastened to new frames; absent where the yard does not count them.
	PlankFastenings *FasteningRule `json:"plank_fastenings,omitempty"`
	// PlankScarf is how planks are made of lengths scarfed; absent where the yard scarfs none.
	PlankScarf *PlankScarfRule `json:"plank_scarf,omitempty"`
	// ButtBlocks is what backs the butts that new planks make; absent where the yard does not count them.
	ButtBlocks *ButtBlockRule `json:"butt_blocks,omitempty"`
	// Losses by name. Material is timber, sawn_timber, plank_timber, glue, pattern_stock, metal, cloth, fastenings or plugs.
	Losses []LossRule `json:"losses"`
}

// SawnTimber names the losses of timber that is sawn to shape from wide stock, board by board: floors.
const SawnTimber bill.Material = "sawn_timber"

// PlankTimber names the losses of boards that planks are got out of. Spiling is none of them: the board's size is that of the
// rectangle round the plank, which holds it.
const PlankTimber bill.Material = "plank_timber"

// Sourced is an exact number with where it comes from.
type Sourced struct {
	Value  string `json:"value"`
	Source string `json:"source"`
}

// GlueRule is one glue of the yard: its name on the price sheet and how much of it a glue line takes.
type GlueRule struct {
	Item         string `json:"item"`
	SpreadLPerM2 string `json:"spread_l_m2"`
	// SpreadOn is OnGlueLine, which empty stands for, or OnFace: then both faces of a line are spread at the rate.
	SpreadOn string `json:"spread_on,omitempty"`
	Source   string `json:"source"`
	// Handling is how a two-part glue is mixed and how long it works; absent where the yard has not written it down.
	Handling *HandlingRule `json:"handling,omitempty"`
	// Times and Layup are what gluing days are planned by; absent where the yard plans none.
	Times *TimesRule `json:"times,omitempty"`
	Layup *LayupRule `json:"layup,omitempty"`
}

// HandlingRule is what is written on the pots: parts of A and B, and the hours that the mix can be worked and that it
// cures in, until clamps may come off, at a stated temperature.
type HandlingRule struct {
	PartsA string `json:"parts_a"`
	PartsB string `json:"parts_b"`
	// MixBy is ByVolume, which empty stands for, or ByWeight, which needs the densities, kilograms in a litre.
	MixBy    string `json:"mix_by,omitempty"`
	DensityA string `json:"density_a_kg_l,omitempty"`
	DensityB string `json:"density_b_kg_l,omitempty"`
	WorkingH string `json:"working_h"`
	CureH    string `json:"cure_h"`
	AtC      string `json:"at_c"`
	Source   string `json:"source"`
}

// LossRule is a named share of what is bought that never reaches the boat.
type LossRule struct {
	Name     string `json:"name"`
	Material string `json:"material"`
	Fraction string `json:"fraction"`
	Source   string `json:"source"`
}

// Rules is a Document read: every length in exact millimetres.
type Rules struct {
	Notation notation.Notation
	Rips     []Rip
	// DifferentLaminates is at least 1. BendRatio is 0 where the wood's working strain decides.
	DifferentLaminates int
	BendRatio          decimal.Decimal
	BendRatioSource    string
	Planing            decimal.Decimal
	Kerf               decimal.Decimal
	EndTrim            decimal.Decimal
	// LeastShort is the shortest left-over that is kept; 0 where the yard does not say.
	LeastShort decimal.Decimal
	// Resaw is nil where boards are ripped as they come.
	Resaw          *Resaw
	CleaningUp     decimal.Decimal
	Heel           decimal.Decimal
	Head           decimal.Decimal
	BlankTrim      decimal.Decimal
	Glue           Glue
	PatternItem    string
	ShapeTolerance decimal.Decimal
	// Scarf and Sister are nil where the yard does neither.
	Scarf  *Scarf
	Sister *Sister
	// LaminateJoints is nil where nothing is made up of lengths.
	LaminateJoints *LaminateJoints
	// Steam is always there: what the yard does not say stands as published.
	Steam Steam
	// SawnGrain is nil where the yard does not say.
	SawnGrain  *SawnGrain
	Springback []Springback
	Straps     []Strap
	// Fastening is nil where the yard does not count fastenings.
	Fastening *Fastening
	// PlankScarf is nil where the yard scarfs no planks.
	PlankScarf *PlankScarf
	// ButtBlock is nil where the yard does not count the blocks of butts.
	ButtBlock *ButtBlock
	Losses    []Loss
}

// DefaultShapeTolerance is a quarter of an inch in millimetres: what planking takes up without showing it (common
// practice, no source).
var DefaultShapeTolerance = decimal.RequireFromString("6.35")

// Rip is a thickness the yard rips, as written and in millimetres.
type Rip struct {
	Written   string
	Thickness decimal.Decimal
}

// Glue is GlueRule read.
type Glue struct {
	Item   string
	Spread decimal.Decimal // litres on a square metre of glue line, or of each face
	// PerFace says that both faces of a line are spread at that rate.
	PerFace bool
	Source  string
	// Handling is nil where the rules say nothing of it.
	Handling *Handling
	// Times and Layup are nil where nothing is planned by them; a Layup has Times beside it.
	Times *glue.Times
	Layup *glue.Layup
}

// Handling is HandlingRule read: parts by volume or by weight, densities in kilograms in a litre and 0 where they are not
// known, hours, degrees Celsius.
type Handling struct {
	PartsA, PartsB     decimal.Decimal
	ByWeight           bool
	DensityA, DensityB decimal.Decimal
	WorkingH, CureH    decimal.Decimal
	AtC                decimal.Decimal
	Source             string
}

// Loss is LossRule read: 0 <= Fraction < 1.
type Loss struct {
	Name, Material string
	Fraction       decimal.Decimal
	Source         string
}
