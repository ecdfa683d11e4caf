package app

import (
	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/hull/strake"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
)

// hoodsOnTop says what the lengths of strakes leave out.
const hoodsOnTop = "Strakes are laid out from the first to the last station: what a plank reaches beyond them, into the rabbet of stem or post or to the transom, comes on top of its length and of the stock it wants. Measure it along the plank on the boat before ordering."

// planksOff is the caution that stands wherever planks come off.
const planksOff = "With planks off, the hull is no longer the structure its stands were set for: leave enough planks on to hold her shape, or set ribbands and braces first, take off few at a time, and measure for change of shape. Where a surveyor, local codes or a licensed practitioner ask for more, theirs is the word that counts."

// Strakes is one side's planking laid out flat. Ranges are those that the girths of the sections leave open.
type Strakes struct {
	Side         boat.Side         `json:"side"`
	Notation     notation.Notation `json:"notation"`
	Grain        string            `json:"grain"`
	GrainAssumed bool              `json:"grain_assumed"`
	Area         Ranged            `json:"area_m2"`
	Strakes      []StrakeLaid      `json:"strakes"`
	Breaches     []ButtBreach      `json:"breaches"`
	Replacements []Replacing       `json:"replacements,omitempty"`
	Rules        []ButtRule        `json:"rules"`
	Cautions     []string          `json:"cautions"`
}

// Ranged is a figure with its range.
type Ranged struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
}

// PlankFigures are the measures of a strake or plank laid flat, in millimetres and square metres.
type PlankFigures struct {
	LengthLower    Ranged   `json:"length_lower_mm"`
	LengthUpper    Ranged   `json:"length_upper_mm"`
	WidthLeast     Ranged   `json:"width_least_mm"`
	WidthMost      Ranged   `json:"width_most_mm"`
	Area           Ranged   `json:"area_m2"`
	RoundLower     Ranged   `json:"round_lower_mm"`
	RoundUpper     Ranged   `json:"round_upper_mm"`
	BoardLength    Ranged   `json:"board_length_mm"`
	BoardWidth     Ranged   `json:"board_width_mm"`
	Spiling        Ranged   `json:"spiling_loss"`
	Backing        float64  `json:"backing_out_mm"`
	BoardThickness *float64 `json:"board_thickness_mm,omitempty"`
	Mismatch       float64  `json:"mismatch_mm"`
}

// StrakeLaid is one strake; No counts from the garboard.
type StrakeLaid struct {
	No int `json:"no"`
	PlankFigures
	Widths   []StationWidth `json:"widths"`
	Butts    []ButtPlace    `json:"butts"`
	Proposed bool           `json:"butts_proposed"`
	Stuck    *StuckStrake   `json:"no_butts,omitempty"`
	Planks   []PlankLaid    `json:"planks"`
}

// StationWidth is how wide a strake is at a station, over the surface.
type StationWidth struct {
	StationNo int     `json:"station_no"`
	XMM       float64 `json:"x_mm"`
	MM        Ranged  `json:"width_mm"`
	Written   string  `json:"written"`
}

// ButtPlace is where a butt stands.
type ButtPlace struct {
	XMM     float64 `json:"x_mm"`
	Written string  `json:"written"`
	Where   string  `json:"where"`
}

// StuckStrake says what would give a strake butts that keep to the rules: stock of StockMM, where any does.
type StuckStrake struct {
	BoardMM float64  `json:"board_mm"`
	StockMM *float64 `json:"stock_mm,omitempty"`
	Fix     string   `json:"fix"`
}

// PlankLaid is a plank between two butts or hood ends. AlongMM is the board's length along the line between its ends,
// StockMM the shortest stock as long.
type PlankLaid struct {
	From    string   `json:"from"`
	To      string   `json:"to"`
	FromMM  float64  `json:"from_mm"`
	ToMM    float64  `json:"to_mm"`
	AlongMM float64  `json:"along_mm"`
	StockMM *float64 `json:"stock_mm,omitempty"`
	// OffcutMM is what is left of that stock.
	OffcutMM *float64 `json:"offcut_mm,omitempty"`
	PlankFigures
}

// ButtBreach is one rule that is not kept.
type ButtBreach struct {
	Rule   string  `json:"rule"`
	Strake int     `json:"strake"`
	XMM    float64 `json:"x_mm"`
	Detail string  `json:"detail"`
	Fix    string  `json:"fix"`
}

// ButtRule is a rule with where it comes from.
type ButtRule struct {
	Name   string `json:"name"`
	Says   string `json:"says"`
	Source string `json:"source"`
}

// Replacing is the shortest plank for a damaged piece, or Fault, why there is none.
type Replacing struct {
	Strake      int        `json:"strake"`
	DamageFrom  float64    `json:"damage_from_mm"`
	DamageTo    float64    `json:"damage_to_mm"`
	Plank       *PlankLaid `json:"plank,omitempty"`
	FrameSpaces float64    `json:"frame_spaces,omitempty"`
	LeftForward float64    `json:"left_forward_mm"`
	LeftAft     float64    `json:"left_aft_mm"`
	Fault       string     `json:"fault,omitempty"`
}

func strakesOf(p *planking.Planking, n notation.Notation) Strakes {
	out := Strakes{Side: p.Side, Notation: n, Area: ranged(p.Area, 1e-6), Strakes: []StrakeLaid{}, Breaches: []ButtBreach{}, Rules: []ButtRule{}, Cautions: []string{planksOff, hoodsOnTop}}
	for _, r := range butt.Rules() {
		out.Rules = append(out.Rules, ButtRule(r))
	}
	for _, s := range p.Strakes {
		out.Strakes = append(out.Strakes, strakeOf(p, s, n))
	}
	for _, b := range p.Breaches {
		out.Breaches = append(out.Breaches, ButtBreach{b.Rule.Name, b.Strake + 1, quantity.Thousandth(b.X), b.Detail, b.Fix})
	}
	for _, r := range p.Replaced {
		one := Replacing{Strake: r.Piece.Strake + 1, DamageFrom: quantity.Thousandth(r.Piece.From), DamageTo: quantity.Thousandth(r.Piece.To)}
		if r.None != nil {
			one.Fault = r.None.Detail
		} else {
			plank := plankOf(p, p.Strakes[r.Piece.Strake], r.Plank)
			one.Plank, one.FrameSpaces = &plank, quantity.Thousandth(r.Spaces)
			one.LeftForward, one.LeftAft = quantity.Thousandth(r.Forward), quantity.Thousandth(r.After)
		}
		out.Replacements = append(out.Replacements, one)
	}
	return out
}

func strakeOf(p *planking.Planking, s planking.Strake, n notation.Notation) StrakeLaid {
	out := StrakeLaid{No: s.No, PlankFigures: figuresOf(s.Figures, p.Thickness), Widths: []StationWidth{}, Butts: []ButtPlace{}, Proposed: s.Proposed, Planks: []PlankLaid{}}
	for _, m := range p.Stations {
		w := s.Width(s.Place(m.X))
		out.Widths = append(out.Widths, StationWidth{m.Station, quantity.Thousandth(m.X), ranged(w, 1), written(n, w.MM)})
	}
	for _, b := range s.Butts {
		out.Butts = append(out.Butts, ButtPlace{quantity.Thousandth(b.X), written(n, b.X), b.Where})
	}
	if s.Stuck != nil {
		stuck := StuckStrake{BoardMM: quantity.Thousandth(s.Stuck.Board), Fix: "scarf the boards before they are bent on, so that nothing butts on the boat; no stock that is shorter than the strake gives butts by the rules"}
		if s.Stuck.Stock > 0 {
			stuck.StockMM = inThousandths(s.Stuck.Stock)
			stuck.Fix = "stock of " + written(n, s.Stuck.Stock) + " gives butts by the rules beside those of the other strakes; or scarf the boards before they are bent on"
		}
		out.Stuck = &stuck
	}
	for _, q := range s.Planks {
		out.Planks = append(out.Planks, plankOf(p, s, q))
	}
	return out
}

func plankOf(p *planking.Planking, s planking.Strake, q planking.Plank) PlankLaid {
	out := PlankLaid{From: q.FromWhere, To: q.ToWhere, FromMM: quantity.Thousandth(s.X[q.From]), ToMM: quantity.Thousandth(s.X[q.To]),
		AlongMM: quantity.Thousandth(q.Along), PlankFigures: figuresOf(q.Figures, p.Thickness)}
	if q.Stock > 0 {
		out.StockMM, out.OffcutMM = inThousandths(q.Stock), inThousandths(max(0, q.Offcut()))
	}
	return out
}

func figuresOf(f strake.Figures, thickness float64) PlankFigures {
	out := PlankFigures{
		LengthLower: ranged(f.LengthLower, 1), LengthUpper: ranged(f.LengthUpper, 1),
		WidthLeast: ranged(f.WidthLeast, 1), WidthMost: ranged(f.WidthMost, 1), Area: ranged(f.Area, 1e-6),
		RoundLower: ranged(f.RoundLower, 1), RoundUpper: ranged(f.RoundUpper, 1),
		BoardLength: ranged(f.BoardLength, 1), BoardWidth: ranged(f.BoardWidth, 1),
		Spiling: ranged(f.Loss, 1), Backing: quantity.Thousandth(f.Backing), Mismatch: quantity.Thousandth(f.Mismatch),
	}
	if thickness > 0 {
		out.BoardThickness = inThousandths(f.Thickness(thickness))
	}
	return out
}

func inThousandths(mm float64) *float64 { mm = quantity.Thousandth(mm); return &mm }

func ranged(r hull.Reading, unit float64) Ranged {
	return Ranged{quantity.Thousandth(r.MM * unit), quantity.Thousandth(r.Low * unit), quantity.Thousandth(r.High * unit)}
}

// written is a length as the table of offsets writes them.
func written(n notation.Notation, mm float64) string {
	l, err := notation.FromMM(mm)
	if err != nil {
		return ""
	}
	return n.Format(l)
}
