package frame

import (
	"ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// Steamed is how a frame is bent of solid stock in steam, and why. Lengths are exact millimetres.
type Steamed struct {
	Member boat.Member `json:"member"`
	// Layers bent on one another, each so thick.
	Layers    int64           `json:"layers"`
	Thickness decimal.Decimal `json:"thickness_mm"`
	// Stock is the thickness that it is sawn to and bought at, and planed from before it is bent.
	Stock decimal.Decimal `json:"stock_mm"`
	// Radius of the tightest concave face at the low end of its range, and that over the thickness; absent of a straight
	// frame.
	Radius *decimal.Decimal `json:"radius_low_mm,omitempty"`
	Ratio  *decimal.Decimal `json:"ratio,omitempty"`
	// LeastFree and LeastStrapped are the least ratios without a strap and with one, with where they come from.
	LeastFree           decimal.Decimal `json:"least_ratio_without_strap"`
	LeastFreeSource     string          `json:"least_ratio_without_strap_source"`
	LeastStrapped       decimal.Decimal `json:"least_ratio_with_strap"`
	LeastStrappedSource string          `json:"least_ratio_with_strap_source"`
	// Needs is what the bend asks for, Strap whether the yard bends with one, and Bends whether it bends as the yard works;
	// where not there is a fault.
	Needs bend.Strap `json:"needs"`
	Strap bool       `json:"strap_used"`
	Bends bool       `json:"bends"`
	// Hours in steam of each piece.
	Hours decimal.Decimal `json:"hours_each"`
	// PerLoad is how many of its pieces go into the steam box at once; 0 where the yard does not say how large that is, or they do
	// not go in. Glued says that its layers are glued to one another when they are dry.
	PerLoad int64  `json:"per_load,omitempty"`
	Glued   bool   `json:"layers_glued,omitempty"`
	Why     string `json:"why"`
	// Fewer and More are the frame in one layer fewer and one more; Fewer is absent where it is of one.
	Fewer *SteamedOtherwise `json:"one_layer_fewer,omitempty"`
	More  *SteamedOtherwise `json:"one_layer_more,omitempty"`
	// WouldDo is what would make a bend possible that the yard cannot do as it works; empty where it bends.
	WouldDo []string `json:"would_do,omitempty"`
}

// SteamedOtherwise is a frame bent in another number of layers.
type SteamedOtherwise struct {
	Layers    int64           `json:"layers"`
	Thickness decimal.Decimal `json:"thickness_mm"`
	Needs     bend.Strap      `json:"needs"`
	Bends     bool            `json:"bends"`
	Hours     decimal.Decimal `json:"hours_each"`
}

// steam is how the yard bends in steam: its own figures, and the published ones where it has none.
type steam struct {
	bend.SteamRule
	rules.Steam
	freeSource, strapSource, hoursSource string
}

// steaming reads the rules. A published limit gives way to a yard's own on the other side of it.
func steaming(r rules.Rules) steam {
	s := steam{bend.Published(), r.Steam, "", "", ""}
	s.Layers = max(1, s.Layers)
	if s.StockStep.Sign() <= 0 {
		s.StockStep = rules.DefaultStockStep
	}
	s.freeSource, s.strapSource, s.hoursSource = s.RatioSource, s.RatioSource, s.ForHowLong
	own := r.Steam
	if own.WithStrap.Sign() > 0 {
		s.SteamRule.WithStrap, s.strapSource = own.WithStrap, own.WithStrapSource
		s.SteamRule.WithoutStrap = decimal.Max(s.SteamRule.WithoutStrap, own.WithStrap)
	}
	if own.WithoutStrap.Sign() > 0 {
		s.SteamRule.WithoutStrap, s.freeSource = own.WithoutStrap, own.WithoutStrapSource
		s.SteamRule.WithStrap = decimal.Min(s.SteamRule.WithStrap, own.WithoutStrap)
	}
	s.AtBest = decimal.Min(s.AtBest, s.SteamRule.WithStrap)
	if own.HoursPerInch.Sign() > 0 {
		s.MinutesPerInch, s.hoursSource = own.HoursPerInch.Mul(decimal.NewFromInt(60)), own.HoursSource
	}
	return s
}

// hoursPerInch of thickness.
func (s steam) hoursPerInch() decimal.Decimal {
	return s.MinutesPerInch.DivRound(decimal.NewFromInt(60), 6)
}

// does reports whether the yard can do what a bend needs, as it works.
func (s steam) does(needs bend.Strap) bool {
	return needs == bend.Free || needs == bend.Strapped && s.Strap
}

// Steam works out a frame bent of solid stock in place of the job's, with every figure put into t. Its pieces are the
// layers that the rules bend on one another, as wide as the siding and together as deep as moulded, what the bevel asks
// for and cleaning up; their gross is put in by Spares, over all frames alike.
func (j Job) Steam(r rules.Rules, t *derivation.Table) (Replacement, error) {
	b := newBlank(j, r, t)
	how := steaming(r)
	b.side()
	b.solid(how)
	b.long()
	told, err := b.bendInSteam(how)
	if err != nil {
		return Replacement{}, err
	}
	told.PerLoad, told.Glued = b.perLoad(how), how.LayersGlued
	b.corners("a bent piece")
	b.t.Derive(b.path+"/net_volume", "steam/net_volume", []derivation.Input{
		t.Ref("n", b.path+"/steamed_pieces"), t.Ref("t", b.path+"/steamed_thickness"), b.siding, t.Ref("L", b.path+"/blank_length")})
	if err := b.weigh(j.Wood); err != nil {
		return Replacement{}, err
	}
	b.pieces()
	if how.LayersGlued {
		t.Derive(b.path+"/glue_line_area", "frame/glue_line_area", []derivation.Input{t.Ref("n", b.path+"/steamed_pieces"), b.siding, t.Ref("L", b.path+"/blank_length")})
		b.glue()
	}
	if how.Pattern {
		b.pattern()
	}
	b.worked()
	return Replacement{Lines: b.lines, Measures: b.measures, Faults: b.faults, WeightFigure: b.path + "/weight", Steamed: &told}, t.Err()
}

// solid: how many pieces, and how thick.
func (b *blank) solid(how steam) {
	n := derivation.Given("n", "rules/steam/layers", decimal.NewFromInt(how.Layers), quantity.Each)
	b.t.Derive(b.path+"/steamed_pieces", "steam/pieces", []derivation.Input{n})
	deep := []derivation.Input{derivation.Given("m", "frames", b.frame.Moulded, quantity.Millimetre), derivation.Given("c", "rules/cleaning_up", b.rules.CleaningUp, quantity.Millimetre), n}
	if b.extra.Sign() > 0 {
		deep = append(deep, b.t.Ref("e", b.path+"/extra_moulding"))
	}
	b.t.Derive(b.path+"/steamed_thickness", "steam/thickness", deep)
	b.stock = b.sawn("/steamed_stock", b.t.Ref("t", b.path+"/steamed_thickness"), how)
	b.sided = b.wide
	if b.shape.Lie != nil { // swept blanks are each as wide as their sweep asks
		b.sided = b.sawn("/steamed_stock_siding", b.t.Ref("t", b.path+"/blank_siding"), how)
	}
	b.t.Derive(b.path+"/steam_hours_each", "steam/hours_each", []derivation.Input{b.t.Ref("t", b.path+"/steamed_thickness")},
		derivation.ByFactor("k", how.hoursPerInch(), how.hoursSource))
}

// sawn is a size, mm, that stock is sawn to.
func (b *blank) sawn(name string, size derivation.Input, how steam) decimal.Decimal {
	return b.t.Derive(b.path+name, "steam/stock", []derivation.Input{size, derivation.Given("q", "rules/steam/stock_step", how.StockStep, quantity.Millimetre)}).Value()
}

// pieces puts the timber on the bill, and what the work in steam is counted by. Gross is open until Spares.
func (b *blank) pieces() {
	net := b.path + "/steamed_pieces"
	b.lines = append(b.lines, bill.Line{
		ID: b.path + "/steamed_timber", NetFigure: net, GrossFigure: b.path + "/steamed_timber_gross", Net: b.t.Quantity(net), Gross: b.t.Quantity(net),
		Material: bill.Timber, Driver: string(step.Steamed), Losses: b.rules.ForSteamed(), Member: b.frame.Member(), Remedy: b.choice.Remedy,
		Pieces: &bill.Pieces{Species: b.choice.Species, Grade: b.choice.Grade, Thickness: b.stock, Siding: b.sided,
			Planing: b.rules.Planing, Length: b.length},
	})
}
