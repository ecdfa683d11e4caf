package rules

import (
	"strconv"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Limits on the lists of a rules document.
const (
	MaxRips   = 40
	MaxLosses = 60
	// MaxLength, mm, is the greatest length in a yard's rules: more than any heel or trim, and less than a slip of the
	// unit.
	MaxLength = 2000
)

// Read takes a document over, or says everything that is wrong with it.
func Read(d Document) (Rules, document.Faults) {
	r := &reader{n: d.Notation}
	if !d.Notation.Known() {
		r.faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %q is not known", string(d.Notation))
		return Rules{}, r.faults
	}
	out := Rules{
		Notation: d.Notation,
		Planing:  r.length("/planing", d.Planing, false), Kerf: r.length("/kerf", d.Kerf, false),
		EndTrim: r.length("/end_trim", d.EndTrim, false), CleaningUp: r.length("/cleaning_up", d.CleaningUp, false),
		Heel: r.length("/heel", d.Heel, false), Head: r.length("/head", d.Head, false), BlankTrim: r.length("/blank_trim", d.BlankTrim, false),
		DifferentLaminates: max(1, d.DifferentLaminates),
		Glue:               r.glue(d.Glue),
		PatternItem:        d.PatternItem, ShapeTolerance: DefaultShapeTolerance,
	}
	if d.ShapeTolerance != "" {
		out.ShapeTolerance = r.length("/shape_tolerance", d.ShapeTolerance, true)
	}
	out.Scarf, out.Sister, out.Straps, out.Steam = r.scarf(d.Scarf), r.sister(d.Sister), r.straps(d.Straps), r.steam(d.Steam)
	if d.LeastShort != "" {
		out.LeastShort = r.length("/least_short", d.LeastShort, true)
	}
	out.Resaw = r.resaw(d.Resaw)
	out.LaminateJoints = r.laminateJoints(d.LaminateJoints)
	if d.BendRatio != (Sourced{}) {
		out.BendRatio, out.BendRatioSource = r.positive("/bend_ratio/value", d.BendRatio.Value), d.BendRatio.Source
		r.named("/bend_ratio/source", d.BendRatio.Source)
	}
	if d.DifferentLaminates < 0 || d.DifferentLaminates > MaxRips {
		r.faults.Add("/different_laminates", "from 1 to "+strconv.Itoa(MaxRips)+", or nothing for the fewest", "%d different thicknesses", d.DifferentLaminates)
	}
	if d.HalfFoot != "" && !d.HalfFoot.Known() {
		r.faults.Add("/half_foot", "up, down, alternate, or nothing", "the rule %q for half a foot is not known", string(d.HalfFoot))
	}
	r.named("/glue/item", d.Glue.Item)
	r.named("/glue/source", d.Glue.Source)
	r.named("/pattern_item", d.PatternItem)
	out.Rips = r.rips(d.Rips)
	out.SawnGrain = r.sawnGrain(d.SawnGrainDeg)
	out.Springback = r.springback(d.Springback)
	out.Fastening = r.fastening(d.PlankFastenings)
	out.PlankScarf = r.plankScarf(d.PlankScarf)
	out.ButtBlock = r.buttBlock(d.ButtBlocks)
	out.Losses = r.losses(d.Losses)
	return out, r.faults
}

// For is the losses of one material, in the order written.
func (r Rules) For(material bill.Material) []bill.Loss {
	out := []bill.Loss{}
	for _, l := range r.Losses {
		if l.Material == string(material) {
			out = append(out, bill.Loss{Name: l.Name, Fraction: l.Fraction, Source: l.Source})
		}
	}
	return out
}

type reader struct {
	n      notation.Notation
	faults document.Faults
}

func (r *reader) length(pointer, text string, above bool) decimal.Decimal {
	l, err := r.n.Parse(text)
	if err != nil {
		r.faults.Add(pointer, "a length in "+r.n.Name()+", for example "+r.n.Example(), "%v", err)
		return decimal.Zero
	}
	if d := l.Decimal(); d.GreaterThan(decimal.NewFromInt(MaxLength)) {
		r.faults.Add(pointer, "a length of at most "+strconv.Itoa(MaxLength)+" mm", "%s is %s mm", notation.Quote(text), d)
	}
	if l.Sign() < 0 || above && l.Sign() == 0 {
		r.faults.Add(pointer, "a length of "+map[bool]string{true: "more than 0", false: "0 or more"}[above], "%s is too small", notation.Quote(text))
	}
	return l.Decimal()
}

func (r *reader) positive(pointer, text string) decimal.Decimal {
	d, err := quantity.ParseDecimal(text)
	if err != nil {
		r.faults.Add(pointer, "a plain decimal above 0", "%v", err)
		return decimal.NewFromInt(1)
	}
	if d.Sign() <= 0 {
		r.faults.Add(pointer, "a plain decimal above 0", "%s is not above 0", text)
	}
	return d
}

// handling: a glue that has cured before it is out of its working time was written down wrong.
func (r *reader) handling(d *HandlingRule) *Handling {
	if d == nil {
		return nil
	}
	const p = "/glue/handling"
	h := &Handling{
		PartsA: r.positive(p+"/parts_a", d.PartsA), PartsB: r.positive(p+"/parts_b", d.PartsB),
		WorkingH: r.positive(p+"/working_h", d.WorkingH), CureH: r.positive(p+"/cure_h", d.CureH), Source: d.Source,
	}
	h.AtC = r.degrees(p+"/at_c", d.AtC)
	r.mixed(p, *d, h)
	if h.CureH.LessThan(h.WorkingH) {
		r.faults.Add(p+"/cure_h", "at least the working time", "it cures in %s h and can be worked for %s h", d.CureH, d.WorkingH)
	}
	r.named(p+"/source", d.Source)
	return h
}

func (r *reader) named(pointer, text string) {
	if text == "" {
		r.faults.Add(pointer, "a name or a source, not empty", "nothing is written here")
	}
}

func (r *reader) rips(written []string) []Rip {
	if len(written) == 0 || len(written) > MaxRips {
		r.faults.Add("/rips", "between 1 and "+strconv.Itoa(MaxRips)+" thicknesses", "%d thicknesses are given", len(written))
		return nil
	}
	var out []Rip
	for i, w := range written {
		pointer := "/rips/" + strconv.Itoa(i)
		before := len(r.faults)
		t := r.length(pointer, w, true)
		if len(r.faults) == before && t.LessThan(thinnestRip) {
			r.faults.Add(pointer, "a thickness of at least "+thinnestRip.String()+" mm", "%s is %s mm: nothing so thin leaves a saw whole", notation.Quote(w), t)
		}
		for _, o := range out {
			if o.Thickness.Equal(t) {
				r.faults.Add(pointer, "each thickness once", "%s is given twice", w)
			}
		}
		out = append(out, Rip{w, t})
	}
	return out
}

func (r *reader) losses(written []LossRule) []Loss {
	if len(written) > MaxLosses {
		r.faults.Add("/losses", "at most "+strconv.Itoa(MaxLosses), "%d losses are given", len(written))
		return nil
	}
	seen := map[[2]string]bool{}
	var out []Loss
	for i, w := range written {
		pointer := "/losses/" + strconv.Itoa(i)
		switch bill.Material(w.Material) {
		case bill.Timber, SawnTimber, PlankTimber, bill.Glue, bill.Pattern, bill.Metal, bill.Cloth, bill.Fastenings, bill.Plugs:
		default:
			r.faults.Add(pointer+"/material", "timber, sawn_timber, plank_timber, glue, pattern_stock, metal, cloth, fastenings or plugs", "the material %s is not known", notation.Quote(w.Material))
		}
		r.named(pointer+"/name", w.Name)
		r.named(pointer+"/source", w.Source)
		if bill.Material(w.Material) == PlankTimber && strings.EqualFold(strings.TrimSpace(w.Name), "spiling") {
			r.faults.Add(pointer+"/name", "no loss for spiling: the board of a plank is the rectangle round it, its round in it", "spiling of planks is measured, and would be counted twice")
		}
		f := r.fraction(pointer+"/fraction", w.Fraction)
		if key := [2]string{w.Material, w.Name}; seen[key] {
			r.faults.Add(pointer+"/name", "each loss of a material once", "%s is given twice for %s", w.Name, w.Material)
		} else {
			seen[key] = true
		}
		out = append(out, Loss{w.Name, w.Material, f, w.Source})
	}
	return out
}

// fraction of what is bought.
func (r *reader) fraction(pointer, text string) decimal.Decimal {
	f, err := quantity.ParseDecimal(text)
	if err != nil || f.Sign() < 0 || f.GreaterThanOrEqual(decimal.NewFromInt(1)) {
		r.faults.Add(pointer, "a fraction of what is bought, from 0 to below 1, for example 0.15",
			"%s is not a fraction of what is bought", notation.Quote(text))
	}
	return f
}
