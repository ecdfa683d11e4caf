package rules

import (
	"strconv"
	"strings"

	"ribband/takeoff/bill"

	"github.com/shopspring/decimal"
)

// SteamRule is how the yard bends solid frames in steam. What it does not say stands as published.
type SteamRule struct {
	// Layers that a frame is bent of on the flat, one on another; 0 takes one. LayersGlued says that they are glued to one another
	// when they have been bent and are dry.
	Layers      int64 `json:"layers,omitempty"`
	LayersGlued bool  `json:"layers_glued,omitempty"`
	// Strap says that the yard bends with a strap along the outside that takes the tension.
	Strap bool `json:"strap,omitempty"`
	// WithoutStrap and WithStrap are the least radius of the concave face over thickness.
	WithoutStrap Sourced `json:"without_strap,omitzero"`
	WithStrap    Sourced `json:"with_strap,omitzero"`
	// HoursPerInch of thickness in steam.
	HoursPerInch Sourced `json:"hours_per_inch,omitzero"`
	// Breakage is the share of what is bought that breaks in bending, in the place of the timber's own loss of that name.
	Breakage Sourced `json:"breakage,omitzero"`
	// StockStep is what the sizes of solid stock go up by at the saw; empty takes DefaultStockStep.
	StockStep string `json:"stock_step,omitempty"`
	// Pattern says that a pattern of each frame is taken, as where it is bent on a trap; without it frames are bent hot into
	// the boat.
	Pattern bool `json:"pattern,omitempty"`
	// Box is how large the steam box is inside; without it each piece is reckoned a load of its own.
	Box *SteamBoxRule `json:"box,omitempty"`
}

// Steam is SteamRule read. Ratios and hours are 0 where the published ones stand, Breakage nil where the timber's losses do.
type Steam struct {
	Layers                                int64
	Strap, Pattern, LayersGlued           bool
	WithoutStrap, WithStrap, HoursPerInch decimal.Decimal
	WithoutStrapSource, WithStrapSource   string
	HoursSource                           string
	StockStep                             decimal.Decimal // mm
	Breakage                              *Loss
	// Box is nil where the yard does not say how large it is.
	Box *SteamBox
}

// Breakage is the name of the loss of pieces that break.
const Breakage = "breakage"

// DefaultStockStep is a quarter of an inch in millimetres, as hardwood is sawn by quarters (common practice, no source). Were
// each frame's stock sawn to its own size, no spare would serve another frame.
var DefaultStockStep = decimal.RequireFromString("6.35")

// MostLayers bent on one another.
const MostLayers = 8

// mostHours in steam of an inch: more is a slip of the decimal point.
var mostHours = decimal.NewFromInt(24)

// mostRatio of radius over thickness: more than any wood asks in steam.
var mostRatio = decimal.NewFromInt(1000)

// DefaultSteam is a yard that says nothing of steam: in one piece, without a strap, by what is published.
func DefaultSteam() Steam { return Steam{Layers: 1, StockStep: DefaultStockStep} }

func (r *reader) steam(d *SteamRule) Steam {
	const p = "/steam"
	s := DefaultSteam()
	if d == nil {
		return s
	}
	s.Strap, s.Pattern, s.LayersGlued, s.Box = d.Strap, d.Pattern, d.LayersGlued, r.steamBox(d.Box)
	if d.Layers < 0 || d.Layers > MostLayers {
		r.faults.Add(p+"/layers", "from 1 to "+strconv.Itoa(MostLayers), "%d layers", d.Layers)
	} else if d.Layers > 0 {
		s.Layers = d.Layers
	}
	if d.LayersGlued && s.Layers < 2 {
		r.faults.Add(p+"/layers_glued", "two layers or more, or nothing", "there is one layer, and nothing that it could be glued to")
	}
	s.WithoutStrap, s.WithoutStrapSource = r.atMost(p+"/without_strap", d.WithoutStrap, mostRatio)
	s.WithStrap, s.WithStrapSource = r.atMost(p+"/with_strap", d.WithStrap, mostRatio)
	s.HoursPerInch, s.HoursSource = r.atMost(p+"/hours_per_inch", d.HoursPerInch, mostHours)
	if s.WithoutStrap.Sign() > 0 && s.WithStrap.GreaterThan(s.WithoutStrap) {
		r.faults.Add(p+"/with_strap/value", "no more than without a strap, "+s.WithoutStrap.String(), "a strap would ask for an easier bend than none, %s", s.WithStrap)
	}
	if d.StockStep != "" {
		s.StockStep = r.length(p+"/stock_step", d.StockStep, true)
	}
	if d.Breakage != (Sourced{}) {
		f := r.fraction(p+"/breakage/value", d.Breakage.Value)
		r.named(p+"/breakage/source", d.Breakage.Source)
		s.Breakage = &Loss{Name: Breakage, Material: string(bill.Timber), Fraction: f, Source: d.Breakage.Source}
	}
	return s
}

// atMost is a sourced number above 0; zero where nothing is written.
func (r *reader) atMost(p string, d Sourced, most decimal.Decimal) (decimal.Decimal, string) {
	if d == (Sourced{}) {
		return decimal.Zero, ""
	}
	n := r.positive(p+"/value", d.Value)
	if n.GreaterThan(most) {
		r.faults.Add(p+"/value", "at most "+most.String(), "%s is out of reach", n)
	}
	r.named(p+"/source", d.Source)
	return n, d.Source
}

// ForSteamed is the losses of timber that is bent in steam: those of timber, with the steam's own breakage in the place of
// a loss of that name, so that none counts twice.
func (r Rules) ForSteamed() []bill.Loss {
	out := r.For(bill.Timber)
	own := r.Steam.Breakage
	if own == nil {
		return out
	}
	one := bill.Loss{Name: own.Name, Fraction: own.Fraction, Source: own.Source}
	kept := []bill.Loss{}
	for _, l := range out {
		if !IsBreakage(l.Name) {
			kept = append(kept, l)
		}
	}
	return append(kept, one)
}

// IsBreakage reports a loss that is named after breakage.
func IsBreakage(name string) bool { return strings.EqualFold(strings.TrimSpace(name), Breakage) }
