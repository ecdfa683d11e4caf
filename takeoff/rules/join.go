package rules

import (
	"strconv"

	"ribband/takeoff/notation"
	"ribband/takeoff/scarf"

	"github.com/shopspring/decimal"
)

// ScarfRule is how a new piece is let into an old frame: the taper's length to one of depth, and how far along the girth
// the scarfs of neighbouring frames are kept apart; empty Apart asks for nothing.
type ScarfRule struct {
	Slope Sourced `json:"slope"`
	Apart string  `json:"apart,omitempty"`
}

// SisterSize says how large a sister is beside the frame that it doubles. Published rules differ, so each has a name.
type SisterSize string

// FullSize: sided and moulded as the frame (common practice, no source). NoDeeper: moulded as the frame, sided as the
// rule's own siding says (common practice, no source).
const (
	FullSize SisterSize = "full_size"
	NoDeeper SisterSize = "no_deeper"
)

// SisterRule is how a frame is doubled by another alongside: its size, how far it reaches past the damage each way, and
// how many neighbours on a side may be doubled.
type SisterRule struct {
	Size SisterSize `json:"size"`
	// Siding of a sister that is not as the frame.
	Siding string `json:"siding,omitempty"`
	Past   string `json:"past"`
	// MostTogether neighbouring frames of a side are doubled; 0 takes DefaultMostTogether.
	MostTogether int `json:"most_together,omitempty"`
	// Glued says that a sister is glued to its frame, and not bedded and fastened only.
	Glued  bool   `json:"glued,omitempty"`
	Source string `json:"source"`
}

// DefaultMostTogether is two: more than two damaged frames side by side may not be doubled (US Army, TB
// 55-1900-201-45/1, undated, on repairs to wooden boats, as shown at boatmanuals.tpub.com).
const DefaultMostTogether = 2

// Scarf is ScarfRule read. Apart is 0 where nothing is asked.
type Scarf struct {
	Slope  decimal.Decimal
	Source string
	Apart  decimal.Decimal // mm
}

// Sister is SisterRule read. Siding is 0 where it is the frame's.
type Sister struct {
	Size         SisterSize
	Siding, Past decimal.Decimal // mm
	MostTogether int
	Glued        bool
	Source       string
}

func (r *reader) scarf(d *ScarfRule) *Scarf {
	if d == nil {
		return nil
	}
	s := &Scarf{Slope: r.positive("/scarf/slope/value", d.Slope.Value), Source: d.Slope.Source}
	if s.Slope.LessThan(decimal.NewFromInt(scarf.LeastSlope)) || s.Slope.GreaterThan(decimal.NewFromInt(scarf.MostSlope)) {
		r.faults.Add("/scarf/slope/value", "the taper's length to one of depth, from "+strconv.Itoa(scarf.LeastSlope)+" to "+strconv.Itoa(scarf.MostSlope)+", for example 10", "a scarf of %s to one", s.Slope)
	}
	r.named("/scarf/slope/source", d.Slope.Source)
	if d.Apart != "" {
		s.Apart = r.length("/scarf/apart", d.Apart, false)
	}
	return s
}

func (r *reader) sister(d *SisterRule) *Sister {
	if d == nil {
		return nil
	}
	s := &Sister{Size: d.Size, Past: r.length("/sister/past", d.Past, true), MostTogether: d.MostTogether, Glued: d.Glued, Source: d.Source}
	switch d.Size {
	case FullSize:
		if d.Siding != "" {
			r.faults.Add("/sister/siding", "nothing, or the size no_deeper", "a sister of full size is sided as its frame")
		}
	case NoDeeper:
		s.Siding = r.length("/sister/siding", d.Siding, true)
	default:
		r.faults.Add("/sister/size", "full_size or no_deeper", "the size %s is not known", notation.Quote(string(d.Size)))
	}
	if d.MostTogether < 0 || d.MostTogether > 100 {
		r.faults.Add("/sister/most_together", "from 1 to 100", "%d neighbours", d.MostTogether)
	}
	if d.MostTogether <= 0 {
		s.MostTogether = DefaultMostTogether
	}
	r.named("/sister/source", d.Source)
	return s
}
