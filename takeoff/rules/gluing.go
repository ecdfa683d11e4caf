package rules

import (
	"errors"

	"ribband/takeoff/glue"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Where a rate of spread is written for: the whole glue line, or each of its two faces.
const (
	OnGlueLine = "glue_line"
	OnFace     = "face"
)

// How the parts of a mix are measured.
const (
	ByVolume = "volume"
	ByWeight = "weight"
)

// TimesRule is how a glue's times follow the shop: every ten degrees warmer divide them by Factor10C, between LowC and
// HighC. LoadH is until a piece may carry load, at the handling's AtC.
type TimesRule struct {
	Factor10C string `json:"factor_10c"`
	LoadH     string `json:"load_h"`
	LowC      string `json:"low_c"`
	HighC     string `json:"high_c"`
	Source    string `json:"source"`
}

// LayupRule is how the yard lays up blanks: how warm its shop is, what one pair of hands spreads in an hour and how long
// it takes to set a clamp, how far clamps stand apart, and how many of them, of hands, and of hours a day there are.
type LayupRule struct {
	ShopC string `json:"shop_c"`
	// HullC is how warm the hull is where joints are glued in it; without it such joints are in no batch.
	HullC      string `json:"hull_c,omitempty"`
	SpreadM2H  string `json:"spread_m2_h"`
	ClampS     string `json:"clamp_s"`
	ClampPitch string `json:"clamp_pitch"`
	Clamps     int64  `json:"clamps"`
	Hands      int64  `json:"hands"`
	DayH       string `json:"day_h"`
	Source     string `json:"source"`
}

// glue reads a glue: the times ask for the handling, whose hours they stretch, and the lay-up for the times.
func (r *reader) glue(d GlueRule) Glue {
	before := len(r.faults)
	out := Glue{Item: d.Item, Spread: r.positive("/glue/spread_l_m2", d.SpreadLPerM2), Source: d.Source, Handling: r.handling(d.Handling)}
	switch d.SpreadOn {
	case "", OnGlueLine:
	case OnFace:
		out.PerFace = true
	default:
		r.faults.Add("/glue/spread_on", "glue_line or face", "the spread on %s is not known", notation.Quote(d.SpreadOn))
	}
	if d.Times != nil {
		out.Times = r.times(*d.Times, out.Handling, before)
	}
	if d.Layup == nil {
		return out
	}
	layup := r.layup(*d.Layup)
	if d.Times == nil {
		r.faults.Add("/glue/layup", "the glue's times beside it, in /glue/times", "how long the glue works in the shop is not known")
	}
	if len(r.faults) > before || out.Times == nil {
		return out
	}
	r.warm("/glue/layup/shop_c", glue.Form, *out.Times, layup.ShopC)
	if layup.HullC != nil {
		r.warm("/glue/layup/hull_c", glue.Hull, *out.Times, *layup.HullC)
	}
	out.Layup = &layup
	return out
}

// warm: the glue's times must be known at a temperature.
func (r *reader) warm(pointer string, where glue.Place, t glue.Times, c decimal.Decimal) {
	var outside *glue.OutsideError
	if _, err := t.At(c); errors.As(err, &outside) {
		outside.Where = where
		r.faults.Add(pointer, outside.Fix(), "%s", outside.Error())
	} else if err != nil {
		r.faults.Add("/glue/times", "hours and a factor that leave less than a year", "%v", err)
	}
}

func (r *reader) times(d TimesRule, h *Handling, before int) *glue.Times {
	const p = "/glue/times"
	t := glue.Times{Factor: r.positive(p+"/factor_10c", d.Factor10C), LoadH: r.positive(p+"/load_h", d.LoadH), LowC: r.degrees(p+"/low_c", d.LowC), HighC: r.degrees(p+"/high_c", d.HighC)}
	r.named(p+"/source", d.Source)
	if h == nil {
		r.faults.Add(p, "the handling beside them, in /glue/handling", "how long the glue works, and at what temperature, is not written")
		return nil
	}
	t.WorkingH, t.ClampH, t.AtC = h.WorkingH, h.CureH, h.AtC
	if t.LoadH.LessThan(t.ClampH) {
		r.faults.Add(p+"/load_h", "at least the hours to cure", "it would carry load after %s h and has cured after %s", t.LoadH, t.ClampH)
	}
	if len(r.faults) == before { // else hours that could not be read would be told of twice
		r.wrong(p, t.Check())
	}
	return &t
}

func (r *reader) layup(d LayupRule) glue.Layup {
	const p = "/glue/layup"
	y := glue.Layup{
		ShopC: r.degrees(p+"/shop_c", d.ShopC), SpreadM2H: r.positive(p+"/spread_m2_h", d.SpreadM2H), ClampS: r.positive(p+"/clamp_s", d.ClampS),
		PitchMM: r.length(p+"/clamp_pitch", d.ClampPitch, true), Clamps: d.Clamps, Hands: d.Hands, DayH: r.positive(p+"/day_h", d.DayH), Source: d.Source,
	}
	if d.HullC != "" {
		c := r.degrees(p+"/hull_c", d.HullC)
		y.HullC = &c
	}
	r.named(p+"/source", d.Source)
	r.wrong(p, y.Check())
	return y
}

// wrong is the fault of a check, at the place it names; not where the text there was at fault before.
func (r *reader) wrong(p string, err error) {
	var input *glue.InputError
	if !errors.As(err, &input) {
		return
	}
	for _, f := range r.faults {
		if f.Pointer == p+"/"+input.What {
			return
		}
	}
	r.faults.Add(p+"/"+input.What, input.Fix, "%s", input.Detail)
}

func (r *reader) degrees(pointer, text string) decimal.Decimal {
	d, err := quantity.ParseDecimal(text)
	if err != nil {
		r.faults.Add(pointer, "degrees Celsius as a plain decimal, for example 21.1", "%v", err)
	}
	return d
}

// mixed reads how the parts are measured; by weight both densities are needed, else both or none.
func (r *reader) mixed(p string, d HandlingRule, h *Handling) {
	switch d.MixBy {
	case "", ByVolume:
	case ByWeight:
		h.ByWeight = true
	default:
		r.faults.Add(p+"/mix_by", "volume or weight", "mixing by %s is not known", notation.Quote(d.MixBy))
	}
	a, b := d.DensityA != "", d.DensityB != ""
	if a {
		h.DensityA = r.positive(p+"/density_a_kg_l", d.DensityA)
	}
	if b {
		h.DensityB = r.positive(p+"/density_b_kg_l", d.DensityB)
	}
	if a != b || h.ByWeight && !a {
		missing := "/density_a_kg_l"
		if a {
			missing = "/density_b_kg_l"
		}
		r.faults.Add(p+missing, "kilograms in a litre of each part, for example 1.15", "the density is not written")
	}
}

// Mix is the handling as the glue's parts are worked out by.
func (h Handling) Mix() glue.Mix {
	return glue.Mix{PartsA: h.PartsA, PartsB: h.PartsB, ByWeight: h.ByWeight, DensityA: h.DensityA, DensityB: h.DensityB, Source: h.Source}
}

// On is the rate of spread as amounts are worked out by.
func (g Glue) On() glue.Spread {
	return glue.Spread{LPerM2: g.Spread, PerFace: g.PerFace, Source: g.Source}
}
