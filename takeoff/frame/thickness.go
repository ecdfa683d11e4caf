package frame

import (
	"ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// rangeSource says where the ends of a measured range come from.
const rangeSource = "range of this fair curve by 100 curves that its points allow and 100 refits under fresh error, seed fixed; holds the truth nine times in ten over 11 families of trial sections written to 1/8 in (own study, 300 trials a cell)"

// tapeSource says the same of a taped frame.
const tapeSource = "lengths read to the tape's grain; and a bilge is harder in its middle than over its chord: the tightest keeps to half of the chord's radius in 19 of 20 of 11 families of trial sections, chords of a fifth to two fifths of the girth (own study, 300 trials each)"

// limit is how thick the laminates of a frame may be. Straight frames take any thickness, and have no radius.
type limit struct {
	straight bool
	// radius of the tightest laminate at the low end of its range, and the thickest that it takes, mm.
	radius, thickest decimal.Decimal
	// ratio is the least radius over thickness by which it takes that.
	ratio decimal.Decimal
}

// tightest works out, and puts into the table, the radius of the frame's tightest concave face at the low end of its range,
// which is that of its tightest laminate: false where the frame is straight.
func (b *blank) tightest() (decimal.Decimal, bool) {
	var tightest []derivation.Input
	if b.shape.Bilge.Radius > 0 {
		b.t.Derive(b.path+"/bilge_tightest_low", "frame/bilge_tightest_low",
			[]derivation.Input{b.t.Ref("R", b.path+"/bilge_radius"), derivation.Given("m", "frames", b.frame.Moulded, quantity.Millimetre)},
			derivation.ByFactor("f", b.multiple(b.shape.Bilge.Low), b.shape.RangeSource()))
		tightest = append(tightest, b.t.Ref("R", b.path+"/bilge_tightest_low"))
	}
	if b.shape.Hollow.Radius > 0 {
		b.t.Derive(b.path+"/hollow_tightest_low", "frame/hollow_tightest_low",
			[]derivation.Input{b.t.Ref("R", b.path+"/hollow_radius")},
			derivation.ByFactor("f", b.multiple(b.shape.Hollow.Low), b.shape.RangeSource()))
		tightest = append(tightest, b.t.Ref("R", b.path+"/hollow_tightest_low"))
	}
	if len(tightest) == 0 {
		return decimal.Zero, false
	}
	return b.t.Derive(b.path+"/tightest_radius_low", "frame/tightest_radius_low", tightest).Value(), true
}

// limit works out, and puts into the table, the thickest laminate that the frame takes: its tightest laminate at the low
// end of its range by the yard's R/t, or where the rules give none by the working strain of the wood. A
// *timber.MissingValueError where the wood does not say either.
func (b *blank) limit() (limit, error) {
	tightest, bent := b.tightest()
	if !bent {
		return limit{straight: true}, nil
	}
	l := limit{radius: tightest}
	radius, id := []derivation.Input{b.t.Ref("R", b.path+"/tightest_radius_low")}, b.path+"/thickest_laminate"
	if b.rules.BendRatio.Sign() > 0 {
		l.ratio = b.rules.BendRatio
		l.thickest = b.t.Derive(id, "frame/thickest_laminate", radius, derivation.ByFactor("k", b.rules.BendRatio, b.rules.BendRatioSource)).Value()
		return l, nil
	}
	s, err := b.wood.Strain()
	if err != nil {
		return limit{}, err
	}
	if l.ratio, err = bend.StrainRatio(s.Rupture, s.Elasticity.Shift(6), s.Share); err != nil {
		return limit{}, err
	}
	l.thickest = b.t.Derive(id, "frame/thickest_laminate_strain", radius,
		derivation.ByFactor("M", s.Rupture, s.RuptureSource), derivation.ByFactor("E", s.Elasticity, s.ElasticitySource),
		derivation.ByFactor("s", s.Share, s.ShareSource)).Value()
	return l, nil
}

// thickness of the frame's laminates: the thickest of those ripped for the boat that its bends take. Where none is thin
// enough the thinnest is taken, and the fault says what would do.
func (b *blank) thickness() (decimal.Decimal, error) {
	l, err := b.limit()
	if err != nil {
		return decimal.Zero, err
	}
	rips, id := b.ripped(), b.path+"/laminate_thickness"
	if l.straight {
		return b.t.Derive(id, "frame/laminate_thickness_straight", rips).Value(), nil
	}
	t := b.t.Derive(id, "frame/laminate_thickness", append([]derivation.Input{b.t.Ref("T", b.path+"/thickest_laminate")}, rips...)).Value()
	if b.t.Err() == nil && t.GreaterThan(l.thickest) {
		b.tooThick(id, t, l.thickest, l.radius)
	}
	return t, nil
}

func (b *blank) ripped() []derivation.Input {
	var in []derivation.Input
	for _, r := range b.rules.Rips {
		in = append(in, derivation.Given("r", "rules/rips", r.Thickness, quantity.Millimetre))
	}
	return in
}

// tooThick is the fault of a laminate that will not take its bend, with the thickest that would.
func (b *blank) tooThick(figure string, t, limit, radius decimal.Decimal) {
	m := b.frame.Member()
	name := "Frame " + m.String()[len("frame "):]
	if radius.Sign() <= 0 {
		b.faults = append(b.faults, bill.Fault{
			Code: "bend_impossible", Member: &m, Figure: figure,
			Detail: name + ": the inner face would turn on itself: the bend, at the low end of its range, is tighter than the frame is deep.",
			Limit:  &bill.Limit{Value: "0", Unit: quantity.Millimetre},
			Fix:    "Measure more points round this bend, or choose a smaller moulded depth.",
		})
		return
	}
	would, fix := "nothing that a saw can rip will.", "Measure more points round this bend: the low end of its radius decides. Or choose a smaller moulded depth."
	if thin, ok := b.rules.Rippable(limit); ok {
		would = thin + " will."
		fix = "Rip " + thin + " or thinner and add that thickness to the rules, or measure more points round this bend: the low end of its radius decides."
	}
	b.faults = append(b.faults, bill.Fault{
		Code: "laminate_too_thick", Member: &m, Figure: figure,
		Detail: name + ": " + b.rules.Shown(t) + " laminates will not take this bend; " + would,
		Limit:  &bill.Limit{Value: limit.RoundDown(3).StringFixed(3), Unit: quantity.Millimetre},
		Fix:    fix,
	})
}

// multiple is a range's end as an exact factor.
func (b *blank) multiple(x float64) decimal.Decimal {
	d, err := quantity.Decimal(x, quantity.Ratio)
	if err != nil {
		return decimal.NewFromInt(1)
	}
	return d
}
