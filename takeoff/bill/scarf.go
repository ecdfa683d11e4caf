package bill

import "github.com/shopspring/decimal"

// Scarf is how pieces may be made of two parts glued over each other. Whether one is, buying decides by what boards and hours
// cost: the bill only says what it would take. Lengths are exact mm.
type Scarf struct {
	// Taper is how far the parts lie over each other, Least the shortest that a part may be.
	Taper decimal.Decimal `json:"taper_mm"`
	Least decimal.Decimal `json:"least_mm"`
	// OnlyLonger: the yard scarfs only what no board gives whole.
	OnlyLonger bool `json:"only_longer,omitempty"`
	// Driver is what the steps that make a joint are counted by.
	Driver string `json:"driver"`
	// Counted are the joints that the bill counts already, in its measures and its glue: what is longer than the stock is of two
	// parts at least. A plan's joints take their place.
	Counted int64 `json:"counted,omitempty"`
	// Glue of one joint.
	Glue ScarfGlue `json:"glue"`
}

// ScarfGlue is what one joint takes of glue.
type ScarfGlue struct {
	// Line is the id of the need, on the bill where joints are counted already; Item what the price sheet calls the glue.
	Line string `json:"line"`
	Item string `json:"item"`
	// Face is how long the glued face of one joint is, Width how wide, mm.
	Face  decimal.Decimal `json:"face_mm"`
	Width decimal.Decimal `json:"width_mm"`
	// Spread in litres on a square metre of glue line, or of each of its faces with PerFace; Source is where that is from.
	Spread  decimal.Decimal `json:"spread_l_m2"`
	PerFace bool            `json:"per_face,omitempty"`
	Source  string          `json:"source"`
	Losses  []Loss          `json:"losses"`
}
