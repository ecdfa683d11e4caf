package buy

import (
	"ribband/pricing/money"
	"ribband/takeoff/cutting/flat"

	"github.com/shopspring/decimal"
)

// SideBySide is what cutting the planks of several groups side by side comes to: boards are ripped along their length into strips of
// several widths, and these crosscut; or, of planks that may not be of two parts, crosscut into lengths, and these ripped; planks of two thicknesses come out of boards that are thick enough for both. Of a group that is cut so Layouts are there; otherwise boards of each group's own cost no more.
// Its floor is one of rectangles, with a certificate of another kind than that of a group's strips, and stands over several groups;
// so it is told beside a group's cost and bound and not in their place.
type SideBySide struct {
	Layouts []BoardLayout `json:"layouts,omitempty"`
	// Cost of such a plan, and Bound that none is below; Apart and ApartBound the same with boards of each group's own, or of those that
	// lie side by side by themselves, left out where too few boards are for sale for that. Labour of scarfs is in all of them.
	Cost       money.Money `json:"cost"`
	Bound      money.Money `json:"bound"`
	Apart      money.Money `json:"apart,omitzero"`
	ApartBound money.Money `json:"apart_bound,omitzero"`
	// OfTheWood is set where all planks of a wood lie side by side, but not all with one another: what that would come to, and its floor.
	OfTheWood *SideBySide `json:"of_the_wood,omitempty"`
	// Lines are the needs of all the groups, those that lie side by side last.
	Lines []string `json:"lines"`
	// Certificate shows the floor of the list as it was counted, in Unit mm and minor units times PriceScale: pieces and kerf down and
	// boards up to whole units, thicknesses in nanometres, each board at its lowest price; resawn boards as so many as they have layers, and planks that may be
	// scarfed in slices no longer than the taper. Neither is there where the list was too long to be looked at.
	Unit        decimal.Decimal  `json:"unit_mm"`
	Certificate flat.Certificate `json:"certificate,omitzero"`
	Counted     *flat.List       `json:"counted,omitempty"`
	PriceScale  int64            `json:"price_scale,omitempty"`
}

// OnlyWay says that too few boards are for sale for boards of each group's own.
func (s *SideBySide) OnlyWay() bool { return s.Apart.Currency() == "" }

// CutSideBySide says that a group's planks lie side by side with one another.
func (t Timber) CutSideBySide() bool { return t.SideBySide != nil && len(t.SideBySide.Layouts) > 0 }

// BoardLayout is Boards of an offer cut alike: ripped into Strips side by side, with Rest, the width that is not cut, mm. Or crosscut first,
// into Lengths one after another, and there are no Strips; Rest is then the length that is not cut.
type BoardLayout struct {
	Offer   string          `json:"offer"`
	Boards  int64           `json:"boards"`
	Strips  []LaidStrip     `json:"strips"`
	Lengths []LaidLength    `json:"lengths,omitempty"`
	Rest    decimal.Decimal `json:"rest_mm"`
}

// LaidLength is Count lengths of a board cut alike: Strips side by side, a plank in each, and Rest, the width that is not cut, mm.
type LaidLength struct {
	Count  int64           `json:"count"`
	Length decimal.Decimal `json:"length_mm"`
	Strips []LaidStrip     `json:"strips"`
	Rest   decimal.Decimal `json:"rest_mm"`
}

// LaidStrip is Count strips so wide, longest piece first, with Over left of each in one length, mm.
type LaidStrip struct {
	Count  int64           `json:"count"`
	Width  decimal.Decimal `json:"width_mm"`
	Pieces []LaidPlank     `json:"pieces"`
	Over   decimal.Decimal `json:"over_mm"`
}

// LaidPlank is Count planks of a need, or parts of such so long; Width is less than the strip's where they are ripped once more.
type LaidPlank struct {
	Line   string          `json:"line"`
	Count  int64           `json:"count"`
	Width  decimal.Decimal `json:"width_mm"`
	PartMM decimal.Decimal `json:"part_mm,omitzero"`
}

// lowered is by how much the sum of the groups' own floors has to come down where planks could lie side by side and do not: no plan of
// either way is below the lower of the two floors. Minor units.
func lowered(timber []Timber) (sum int64) {
	for _, t := range timber {
		if s := t.SideBySide; s != nil && s.Lines[0] == t.Lines[0] && !t.CutSideBySide() { // told of every group of a set, counted once
			sum += max(0, s.ApartBound.Minor()-s.Bound.Minor())
		}
	}
	return sum
}
