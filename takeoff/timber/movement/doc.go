// Package movement tells how a board or a plank of one of the yard's woods changes when it dries or takes up water, by which
// formula and between which moistures that holds, and what becomes of a seam between such planks.
package movement

import (
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Sawn is how a board came off the log.
type Sawn string

// Flatsawn boards have the growth rings along their width, quartersawn ones across it.
const (
	Flatsawn    Sawn = "flatsawn"
	Quartersawn Sawn = "quartersawn"
)

// Document asks for a movement. Sizes are written in the notation.
type Document struct {
	Species  string            `json:"species"`
	Notation notation.Notation `json:"notation"`
	Sawn     Sawn              `json:"sawn"`
	Width    string            `json:"width"`
	// Thickness may be left out.
	Thickness string `json:"thickness,omitempty"`
	FromPct   string `json:"from_pct"`
	ToPct     string `json:"to_pct"`
	// Seam asks what becomes of the seams between planks of that width.
	Seam *SeamDocument `json:"seam,omitempty"`
}

// SeamDocument is seams between planks: how open each is at the first moisture, and over how many planks they are added up.
type SeamDocument struct {
	Opening string `json:"opening"`
	Planks  int64  `json:"planks,omitempty"`
}

// MostPlanks is how many planks seams are added up over.
const MostPlanks = 200

// Answer is how the board moves. What it gains is positive, what it loses negative.
type Answer struct {
	Species   string          `json:"species"`
	Sawn      Sawn            `json:"sawn"`
	FromPct   decimal.Decimal `json:"from_pct"`
	ToPct     decimal.Decimal `json:"to_pct"`
	Width     Side            `json:"width"`
	Thickness *Side           `json:"thickness,omitempty"`
	Seam      *Seam           `json:"seam,omitempty"`
	Cautions  []Caution       `json:"cautions,omitempty"`
}

// Side is one size of the board, in millimetres and as it is written.
type Side struct {
	MM       decimal.Decimal `json:"mm"`
	ChangeMM decimal.Decimal `json:"change_mm"`
	// ChangePct of the size.
	ChangePct decimal.Decimal `json:"change_pct"`
	After     decimal.Decimal `json:"after_mm"`
	// Change and AfterWritten are the same in the notation of the question, to its places.
	Change       string `json:"change"`
	AfterWritten string `json:"after"`
	// Grain is tangential where the rings lie along the size, radial where across.
	Grain timber.Grain `json:"grain"`
	// Formula, with what it was fed and what it holds for.
	Formula     string           `json:"formula"`
	Coefficient *decimal.Decimal `json:"coefficient,omitempty"`
	Shrinkage   decimal.Decimal  `json:"shrinkage_pct"`
	HoldsFrom   decimal.Decimal  `json:"holds_from_pct"`
	HoldsTo     decimal.Decimal  `json:"holds_to_pct"`
	Source      string           `json:"source"`
	ValueSource string           `json:"value_source"`
	ValueMark   timber.Mark      `json:"value_mark"`
}

// Seam is what becomes of a seam between two such planks, each of which moves to either side of its middle.
type Seam struct {
	OpeningMM decimal.Decimal `json:"opening_mm"`
	// AfterMM is how open it is then; nothing where the planks come to bear.
	AfterMM decimal.Decimal `json:"after_mm"`
	// CrushMM is by how much two planks want more room than the seam gave them, and CrushPct of the plank's width.
	CrushMM  decimal.Decimal `json:"crush_mm"`
	CrushPct decimal.Decimal `json:"crush_pct"`
	Planks   int64           `json:"planks,omitempty"`
	// AllMM is how all of them move together, All the same as the sizes were written.
	AllMM  *decimal.Decimal `json:"all_planks_mm,omitempty"`
	All    string           `json:"all_planks,omitempty"`
	After  string           `json:"after"`
	Why    string           `json:"why"`
	Source string           `json:"source"`
}

// Caution is something to know beside the figures, with its source.
type Caution struct {
	Text   string `json:"text"`
	Source string `json:"source"`
}
