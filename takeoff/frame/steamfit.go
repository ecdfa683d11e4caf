package frame

import (
	"fmt"
	"strings"

	"ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// bendInSteam holds the frame's tightest bend against the limits, and says what would do where the yard cannot bend it.
func (b *blank) bendInSteam(how steam) (Steamed, error) {
	thick := b.t.Quantity(b.path + "/steamed_thickness").Value()
	out := Steamed{Member: b.frame.Member(), Layers: how.Layers, Thickness: thick, Stock: b.stock, Hours: b.t.Quantity(b.path + "/steam_hours_each").Value(), Strap: how.Strap,
		LeastFree: how.SteamRule.WithoutStrap, LeastFreeSource: how.freeSource, LeastStrapped: how.SteamRule.WithStrap, LeastStrappedSource: how.strapSource}
	radius, bent := b.tightest()
	if bent {
		ratio := b.t.Derive(b.path+"/steam_ratio", "steam/ratio", []derivation.Input{b.t.Ref("R", b.path+"/tightest_radius_low"), b.t.Ref("t", b.path+"/steamed_thickness")}).Value()
		out.Radius, out.Ratio = &radius, &ratio
	}
	if err := b.t.Err(); err != nil {
		return Steamed{}, err
	}
	at, err := how.Bend(radius, thick, !bent)
	if err != nil {
		return Steamed{}, err
	}
	out.Needs, out.Bends = at.Strap, how.does(at.Strap)
	if out.More, err = b.inLayers(how, radius, !bent, how.Layers+1); err != nil {
		return Steamed{}, err
	}
	if how.Layers > 1 {
		if out.Fewer, err = b.inLayers(how, radius, !bent, how.Layers-1); err != nil {
			return Steamed{}, err
		}
	}
	out.Why = why(how, out)
	if !out.Bends {
		out.WouldDo = b.wouldBend(how, out, radius)
		b.tooTight(how, out)
	}
	return out, nil
}

// layer is how thick each of so many layers is, mm, rounded up.
func (b *blank) layer(n int64) decimal.Decimal {
	return quantity.SnapDecimal(b.depth().DivRound(decimal.NewFromInt(n), derivation.DivisionPlaces)).RoundCeil(quantity.Millimetre.Places())
}

// inLayers is the frame in so many.
func (b *blank) inLayers(how steam, radius decimal.Decimal, straight bool, n int64) (*SteamedOtherwise, error) {
	thick := b.layer(n)
	at, err := how.Bend(radius, thick, straight)
	if err != nil {
		return nil, err
	}
	return &SteamedOtherwise{n, thick, at.Strap, how.does(at.Strap), at.Minutes.DivRound(decimal.NewFromInt(60), derivation.DivisionPlaces).RoundCeil(quantity.Hour.Places())}, nil
}

// why a frame bends, or does not.
func why(how steam, s Steamed) string {
	if s.Radius == nil {
		return "it is straight and asks for no bend"
	}
	if s.Radius.Sign() <= 0 {
		return "its inner face would turn on itself: the bend, at the low end of its range, is tighter than the frame is deep"
	}
	had := fmt.Sprintf("its tightest face bends to a radius of %s at the low end of its range, %s times its thickness of %s", millimetres(*s.Radius), s.Ratio.RoundDown(2), millimetres(s.Thickness))
	switch s.Needs {
	case bend.Free:
		return had + fmt.Sprintf("; at least %s times bends without a strap", s.LeastFree)
	case bend.Strapped:
		return had + fmt.Sprintf("; below %s times it asks for a strap, which bends down to %s times", s.LeastFree, s.LeastStrapped)
	case bend.BestOnly:
		return had + fmt.Sprintf("; a strap bends down to %s times as a rule, and only the straightest ash, oak or elm to %s times", s.LeastStrapped, how.AtBest)
	}
	return had + fmt.Sprintf("; nothing bends below %s times, even with a strap", how.AtBest)
}

// least ratio that the yard bends to, as it works.
func (s steam) least() decimal.Decimal {
	if s.Strap {
		return s.SteamRule.WithStrap
	}
	return s.SteamRule.WithoutStrap
}

// wouldBend says with figures what would make the bend possible: a strap, thinner layers, a smaller moulded depth,
// laminates.
func (b *blank) wouldBend(how steam, s Steamed, radius decimal.Decimal) []string {
	var out []string
	if radius.Sign() > 0 {
		if s.Needs == bend.Strapped {
			out = append(out, fmt.Sprintf("bend it with a strap, which takes a radius of %s at this thickness", millimetres(s.LeastStrapped.Mul(s.Thickness))))
		}
		if n := bend.Laminates(b.depth(), radius.DivRound(how.least(), derivation.DivisionPlaces)); n > how.Layers && n <= mostSteamed && radius.GreaterThanOrEqual(how.least().Mul(b.layer(n))) {
			out = append(out, fmt.Sprintf("bend it in %d layers of %s", n, millimetres(b.layer(n).RoundUp(2))))
		}
	}
	if m := b.shallowest(how); m.Sign() > 0 {
		out = append(out, "mould it no more than "+b.rules.Shown(m))
	}
	if glued := b.gluedUp(); glued != "" {
		out = append(out, glued)
	}
	return append(out, "measure more points round this bend: the low end of its radius decides")
}

// mostSteamed layers are named.
const mostSteamed = 8

// shallowest is the greatest moulded depth, to the next practical step below, at which every bend of the frame takes the
// yard's least ratio. In a bilge a shallower frame also has an easier inner face: R f - m >= k (m + e + c) / n. Zero where
// there is none.
func (b *blank) shallowest(how steam) decimal.Decimal {
	k := how.least().DivRound(decimal.NewFromInt(how.Layers), derivation.DivisionPlaces)
	more := k.Mul(b.extra.Add(b.rules.CleaningUp))
	of := func(bend Bend) decimal.Decimal {
		r, err := quantity.Decimal(bend.Radius*bend.Low, quantity.Millimetre)
		if err != nil {
			return decimal.Zero
		}
		return r
	}
	var depths []decimal.Decimal
	if b.shape.Bilge.Radius > 0 {
		depths = append(depths, of(b.shape.Bilge).Sub(more).DivRound(k.Add(decimal.NewFromInt(1)), derivation.DivisionPlaces))
	}
	if b.shape.Hollow.Radius > 0 {
		depths = append(depths, of(b.shape.Hollow).Sub(more).DivRound(k, derivation.DivisionPlaces))
	}
	if len(depths) == 0 {
		return decimal.Zero
	}
	return b.rules.Below(decimal.Min(depths[0], depths[1:]...))
}

// gluedUp says how thin laminates would have to be; empty where the wood does not say, or nothing is thin enough.
func (b *blank) gluedUp() string {
	dry := newBlank(Job{Frame: b.frame, Shape: b.shape, Choice: b.choice, Wood: b.wood}, b.rules, derivation.NewTable())
	l, err := dry.limit()
	if err != nil || dry.t.Err() != nil || l.straight {
		return ""
	}
	if thick, ok := b.rules.ThickestOf(l.thickest); ok {
		return fmt.Sprintf("glue it up of %d laminates of %s, which the yard rips", bend.Laminates(b.depth(), thick), b.rules.Shown(thick))
	}
	if thin, ok := b.rules.Rippable(l.thickest); ok {
		return "glue it up of laminates of " + thin + " or thinner, which the yard does not rip now"
	}
	return ""
}

// tooTight is the fault of a frame that does not bend as the yard works.
func (b *blank) tooTight(how steam, s Steamed) {
	m := b.frame.Member()
	code := "steam_bend_too_tight"
	switch {
	case s.Radius.Sign() <= 0:
		code = "bend_impossible"
	case s.Needs == bend.Strapped:
		code = "steam_bend_needs_strap"
	}
	b.faults = append(b.faults, bill.Fault{
		Code: code, Member: &m, Figure: b.path + "/steam_ratio",
		Detail: fmt.Sprintf("Frame %d %s does not bend in steam as the yard works: %s.", m.No, m.Side, s.Why),
		Limit:  &bill.Limit{Value: how.least().String(), Unit: quantity.Ratio},
		Fix:    anyOf(s.WouldDo),
	})
}

// anyOf is a sentence of ways of which each would do.
func anyOf(ways []string) string {
	say := strings.Join(ways, "; or ") + "."
	return strings.ToUpper(say[:1]) + say[1:]
}
