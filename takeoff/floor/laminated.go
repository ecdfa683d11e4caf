package floor

import (
	"fmt"
	"math"

	"ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
	"ribband/takeoff/spare"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// noTurn, radians, is the turn over the keel up to which laminates run across as if it were straight: 3 degrees, as for the
// corners of frames (common practice, no source).
const noTurn = 3 * math.Pi / 180

// Laminated works out a floor glued up of laminates that run from arm to arm over the keel, as deep all along as over it. They
// are the thickest of those that the yard rips that its arms' bends, and the chock over the keel, take. Their gross is open until
// spare.Laminates shares it over all that are alike. A floor whose
// arms meet at an angle needs the radius that it is laid over the keel with; without it that is a fault. Errors are
// *timber.MissingValueError and the wood's own.
func (j Job) Laminated(r rules.Rules, t *derivation.Table) (Replacement, error) {
	w := j.work(r, t)
	w.size()
	if w.Size.ByHand && w.Size.Along <= 0 || w.Floor.ThroatRadius.Sign() <= 0 && (w.Size.ByHand || w.Size.Turn > noTurn) {
		w.unbent()
		return w.out, t.Err()
	}
	thick, err := w.thickness()
	if err != nil {
		return Replacement{}, err
	}
	siding, depth := given("S", "floors", w.Floor.Siding), given("d", "floors", w.Floor.Depth)
	if w.Size.ByHand {
		t.Derive(w.path+"/along", "floor/by_hand", []derivation.Input{given("a", "floors/by_hand", w.Floor.ByHand.Along)})
	} else {
		t.Measured(w.path+"/along", "floor/along", w.Size.Along, given("x", "floors", w.Size.X))
	}
	length := t.Derive(w.path+"/blank_length", "floor/blank_length", []derivation.Input{t.Ref("A", w.path+"/along"), given("a", "rules/blank_trim", r.BlankTrim)})
	n := t.Derive(w.path+"/laminates", "floor/laminates", []derivation.Input{depth, given("c", "rules/cleaning_up", r.CleaningUp), t.Ref("t", w.path+"/laminate_thickness")})
	blank := []derivation.Input{t.Ref("n", w.path+"/laminates"), siding, t.Ref("L", w.path+"/blank_length")}
	t.Derive(w.path+"/glue_line_area", "frame/glue_line_area", blank)
	t.Derive(w.path+"/net_volume", "frame/net_volume", append(blank, t.Ref("t", w.path+"/laminate_thickness")))
	t.Derive(w.path+"/board_feet", "timber/board_feet", []derivation.Input{t.Ref("V", w.path+"/net_volume")})
	if err := w.weigh(); err != nil {
		return Replacement{}, err
	}
	if t.Err() != nil || n.IsZero() {
		return Replacement{}, t.Err()
	}
	line := bill.Line{Losses: r.For(bill.Timber), Member: w.Floor.Member(), Remedy: w.Remedy, Pieces: &bill.Pieces{
		Species: w.Wood.Code, Grade: w.Grade, Thickness: thick, Siding: w.Floor.Siding, Planing: r.Planing, Length: length,
	}}
	w.out.Lines = append(w.out.Lines, spare.Laminate(w.path, "laminates_timber", w.path+"/laminates", line, t))
	w.out.Measures = append(w.out.Measures, spare.Ripped(w.path, line))
	w.glue()
	w.worked()
	return w.out, t.Err()
}

// glue of the lines between laminates, its parts and its clamps.
func (w *work) glue() {
	t, net := w.t, w.path+"/glue_net"
	w.rules.Glue.On().Net(t, net, w.path+"/glue_line_area")
	if !t.Quantity(net).IsZero() {
		w.need("glue", bill.Line{Material: bill.Glue, Item: w.rules.Glue.Item, Driver: string(step.GlueLine)}, net, w.rules.For(bill.Glue), "bill/gross_litres")
		if h := w.rules.Glue.Handling; h != nil {
			h.Mix().Parts(t, w.path+"/glue", w.path+"/glue_gross")
		}
		if y := w.rules.Glue.Layup; y != nil {
			t.Derive(w.path+"/clamps", "glue/clamps", []derivation.Input{t.Ref("L", w.path+"/blank_length"), given("p", "rules/glue/layup/clamp_pitch", y.PitchMM)})
		}
	}
	w.count(step.GlueLine, w.path+"/glue_line_area")
}

// unbent is the fault of a floor of which it is not known over what its laminates are bent.
func (w *work) unbent() {
	m := w.Floor.Member()
	f := bill.Fault{Code: "floor_throat_unknown", Member: &m, Figure: w.path + "/across",
		Detail: fmt.Sprintf("Floor %d: its arms meet over the keel at %.0f degrees, and nothing says with what radius its laminates are laid there.", m.No, w.Size.Turn*180/math.Pi),
		Fix:    "Enter throat_radius, the radius of its lower face over the keel, in its row; or saw it, where its arms rise little."}
	if w.Size.ByHand {
		f.Detail = fmt.Sprintf("Floor %d: its size was measured by hand, and of a floor that is bent its length along the lower face and the radius over the keel are needed too.", m.No)
		f.Fix = "Enter by_hand/along and throat_radius in its row; or saw it, where its arms rise little."
	}
	w.out.Faults = append(w.out.Faults, f)
}

// thickness of its laminates.
func (w *work) thickness() (decimal.Decimal, error) {
	t := w.t
	var tightest []derivation.Input
	at := func(name, formula string, in ...derivation.Input) {
		t.Derive(w.path+"/"+name, formula, in)
		tightest = append(tightest, t.Ref("R", w.path+"/"+name))
	}
	depth := given("m", "floors", w.Floor.Depth)
	if w.Floor.ThroatRadius.IsPositive() {
		at("throat_tightest", "floor/tightest", given("R", "floors", w.Floor.ThroatRadius), depth)
	}
	for i, b := range w.Size.Bends {
		name := fmt.Sprintf("bend_%d", i+1)
		t.Measured(w.path+"/"+name, "floor/bend", b.Radius, given("x", "floors", w.Size.X))
		in := []derivation.Input{t.Ref("R", w.path+"/"+name)}
		if !b.Hollow {
			in = append(in, depth) // of a hollow the laminate at the lower face is the tightest
		}
		at(name+"_tightest", "floor/tightest", in...)
	}
	var rips []derivation.Input
	for _, rip := range w.rules.Rips {
		rips = append(rips, given("r", "rules/rips", rip.Thickness))
	}
	id := w.path + "/laminate_thickness"
	if len(tightest) == 0 {
		return t.Derive(id, "frame/laminate_thickness_straight", rips).Value(), t.Err()
	}
	t.Derive(w.path+"/tightest_radius_low", "frame/tightest_radius_low", tightest)
	radius := t.Ref("R", w.path+"/tightest_radius_low")
	var limit quantity.Quantity
	if w.rules.BendRatio.Sign() > 0 {
		limit = t.Derive(w.path+"/thickest_laminate", "frame/thickest_laminate", []derivation.Input{radius}, derivation.ByFactor("k", w.rules.BendRatio, w.rules.BendRatioSource))
	} else {
		s, err := w.Wood.Strain()
		if err != nil {
			return decimal.Zero, err
		}
		if _, err := bend.StrainRatio(s.Rupture, s.Elasticity.Shift(6), s.Share); err != nil {
			return decimal.Zero, err
		}
		limit = t.Derive(w.path+"/thickest_laminate", "frame/thickest_laminate_strain", []derivation.Input{radius},
			derivation.ByFactor("M", s.Rupture, s.RuptureSource), derivation.ByFactor("E", s.Elasticity, s.ElasticitySource), derivation.ByFactor("s", s.Share, s.ShareSource))
	}
	thick := t.Derive(id, "floor/laminate_thickness", append([]derivation.Input{t.Ref("T", w.path+"/thickest_laminate")}, rips...)).Value()
	if t.Err() == nil && thick.GreaterThan(limit.Value()) {
		m := w.Floor.Member()
		fix := "Lay it over the keel with a greater throat_radius, make it less deep, or saw it, where its arms rise little."
		if thin, ok := w.rules.Rippable(limit.Value()); ok {
			fix = "Rip " + thin + " or thinner and add that thickness to the rules; or lay it over the keel with a greater throat_radius, make it less deep, or saw it, where its arms rise little."
		}
		w.out.Faults = append(w.out.Faults, bill.Fault{Code: "laminate_too_thick", Member: &m, Figure: id,
			Detail: fmt.Sprintf("Floor %d: %s laminates will not take its bends, %.0f mm at the tightest laminate.", m.No, w.rules.Shown(thick), mm(t.Quantity(w.path+"/tightest_radius_low"))),
			Limit:  &bill.Limit{Value: limit.Value().RoundDown(3).StringFixed(3), Unit: quantity.Millimetre}, Fix: fix})
	}
	return thick, t.Err()
}
