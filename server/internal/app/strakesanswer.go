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

// hoodsOnTop says what the lengths of strakes leave out at an end where they stop at the end station.
func hoodsOnTop(e planking.End) string {
	at, on := "forward they are laid out from the first station", "into the rabbet of the stem"
	if e.Aft {
		at, on = "aft they are laid out to the last station", "to the transom or into the rabbet of the post"
	}
	return "Strakes end short: " + at + ", for " + e.Because + ". What a plank reaches beyond it, " + on +
		", comes on top of its length and of the stock it wants. To have it laid out, " + e.Fix + "; before ordering, measure it along the plank on the boat."
}

// hoodsDrawn says how far planks that run to a line are to be trusted there.
func hoodsDrawn(e planking.End, n notation.Notation) string {
	if e.Transom {
		return "Beyond the last station planks run on to the transom's line as they left the station; nothing was measured between. Leave hood ends long and cut them to the boat."
	}
	return "Beyond the first station planks run to the stem's line and close on a half-siding of " + written(n, e.HalfSiding) +
		", the half-breadth of the rabbet at that station; nothing was measured between, and hood ends are set midway between sharing the rabbet as the strakes share the girth and keeping the slope they left the station with; their ranges reach to both. Leave hood ends long and fit them to the boat."
}

// planksOff is the caution that stands wherever planks come off.
const planksOff = "With planks off, the hull is no longer the structure its stands were set for: leave enough planks on to hold her shape, or set ribbands and braces first, take off few at a time, and measure for change of shape. Where a surveyor, local codes or a licensed practitioner ask for more, theirs is the word that counts."

// Strakes is one side's planking laid out flat. Ranges are those that the girths of the sections leave open.
type Strakes struct {
	Side         boat.Side         `json:"side"`
	Notation     notation.Notation `json:"notation"`
	Grain        string            `json:"grain"`
	GrainAssumed bool              `json:"grain_assumed"`
	Area         Ranged            `json:"area_m2"`
	Ends         []StrakeEnd       `json:"ends"`
	Strakes      []StrakeLaid      `json:"strakes"`
	Breaches     []ButtBreach      `json:"breaches"`
	Replacements []Replacing       `json:"replacements,omitempty"`
	Rules        []ButtRule        `json:"rules"`
	Cautions     []string          `json:"cautions"`
}

// StrakeEnd is how the strakes end forward or aft: on the line of stem or transom, or short, at the end station.
type StrakeEnd struct {
	End     string `json:"end"` // stem or transom
	RunToIt bool   `json:"run_to_it"`
	// HalfSidingMM is what hood ends close on at a stem.
	HalfSidingMM *float64 `json:"half_siding_mm,omitempty"`
	Area         *Ranged  `json:"area_m2,omitempty"`
	Because      string   `json:"because,omitempty"`
	Fix          string   `json:"fix,omitempty"`
}

// HoodLaid is where a strake ends on such a line, and what it has beyond the last place that is cut square to the boat.
type HoodLaid struct {
	End     string  `json:"end"`
	LowerX  float64 `json:"lower_x_mm"`
	LowerZ  float64 `json:"lower_height_mm"`
	UpperX  float64 `json:"upper_x_mm"`
	UpperZ  float64 `json:"upper_height_mm"`
	Width   Ranged  `json:"width_mm"`
	Written string  `json:"written"`
	Lower   Ranged  `json:"length_lower_mm"`
	Upper   Ranged  `json:"length_upper_mm"`
	Area    Ranged  `json:"area_m2"`
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
	Hoods    []HoodLaid     `json:"hood_ends"`
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
	out := Strakes{Side: p.Side, Notation: n, Area: ranged(p.Area, 1e-6), Strakes: []StrakeLaid{}, Breaches: []ButtBreach{}, Rules: []ButtRule{}, Ends: []StrakeEnd{}, Cautions: []string{planksOff}}
	for _, e := range p.Ends {
		one := StrakeEnd{End: e.Name(), RunToIt: e.Laid, Because: e.Because, Fix: e.Fix}
		caution := hoodsOnTop(e)
		if e.Laid {
			area := ranged(e.Area, 1e-6)
			one.Area, caution = &area, hoodsDrawn(e, n)
			if !e.Transom {
				one.HalfSidingMM = inThousandths(e.HalfSiding)
			}
		}
		out.Ends, out.Cautions = append(out.Ends, one), append(out.Cautions, caution)
	}
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
	out := StrakeLaid{No: s.No, PlankFigures: figuresOf(s.Figures, p.Thickness), Widths: []StationWidth{}, Hoods: []HoodLaid{}, Butts: []ButtPlace{}, Proposed: s.Proposed, Planks: []PlankLaid{}}
	for _, m := range p.Stations {
		w := s.Width(s.Place(m.X))
		out.Widths = append(out.Widths, StationWidth{m.Station, quantity.Thousandth(m.X), ranged(w, 1), written(n, w.MM)})
	}
	for _, h := range s.Hoods {
		out.Hoods = append(out.Hoods, HoodLaid{p.Ends[0].Name(), quantity.Thousandth(h.LowerX), quantity.Thousandth(h.LowerZ), quantity.Thousandth(h.UpperX), quantity.Thousandth(h.UpperZ),
			ranged(h.Width, 1), written(n, h.Width.MM), ranged(h.LengthLower, 1), ranged(h.LengthUpper, 1), ranged(h.Area, 1e-6)})
		if h.Aft {
			out.Hoods[len(out.Hoods)-1].End = p.Ends[1].Name()
		}
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
