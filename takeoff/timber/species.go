// Package timber is what the yard knows of its woods: species records as versioned data, each value with its source
// and how far that source was seen.
package timber

import (
	"strconv"

	"ribband/takeoff/derivation"
	"ribband/takeoff/document"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Catalogue is one version of the yard's species.
type Catalogue struct {
	// Note says where the records come from.
	Note    string    `json:"note"`
	Species []Species `json:"species"`
}

// Species is one wood. Code is what price sheets and remedies call it.
type Species struct {
	Code      string `json:"code"`
	Name      string `json:"name"`
	Botanical string `json:"botanical"`
	// GravityAt12 is the specific gravity on volume at 12 % moisture content; the density at 12 % rests on it.
	GravityAt12 Value `json:"gravity_12"`
	// ShrinkageR, T and V are radial, tangential and volumetric, green to oven-dry, per cent.
	ShrinkageR Value `json:"shrinkage_radial_pct"`
	ShrinkageT Value `json:"shrinkage_tangential_pct"`
	ShrinkageV Value `json:"shrinkage_volumetric_pct"`
	// ShrinksFrom is the moisture content at which shrinking begins, per cent, where it is not 30.
	ShrinksFrom Value `json:"shrinks_from_pct,omitzero"`
	// RuptureAt12 and ElasticityAt12 are the moduli at 12 %, psi and million psi as the source prints them.
	RuptureAt12    Value `json:"modulus_of_rupture_psi"`
	ElasticityAt12 Value `json:"modulus_of_elasticity_mpsi"`
	// WorkingStrain is the share of the strain at rupture, MOR/MOE, that a dry laminate is bent to.
	WorkingStrain Value `json:"working_strain_share,omitzero"`
	// Yields are what its grades promise, where the yard buys it graded.
	Yields []Yield `json:"yields,omitempty"`
	// Decay is the resistance of the heartwood.
	Decay Decay `json:"decay_resistance"`
	// Gluing is what a gluer should know.
	Gluing Gluing `json:"gluing"`
	// Trade is the state of trade restrictions, with its date.
	Trade Trade `json:"trade"`
}

// Mark says how far a value was seen in its source.
type Mark string

// Seen in the source named; worked out from seen values; or from memory, to be checked before it is relied on.
const (
	Seen       Mark = "seen"
	Derived    Mark = "derived"
	FromMemory Mark = "from_memory"
)

// Value is an exact number with its source. An empty Number is a value nobody has.
type Value struct {
	Number string `json:"value"`
	Source string `json:"source"`
	Mark   Mark   `json:"mark"`
}

// Words is something said rather than measured, with its source.
type Words struct {
	Text   string `json:"text"`
	Source string `json:"source"`
	Mark   Mark   `json:"mark"`
}

// Gluing is what a gluer should know of a wood. Doubtful asks for a trial block before anything is relied on.
type Gluing struct {
	Words
	Doubtful bool `json:"doubtful,omitempty"`
}

// Decay is how the heartwood stands against decay; sapwood of no species does.
type Decay struct {
	Words
	Group DecayGroup `json:"group,omitempty"`
}

// DecayGroup is the class of a heartwood's resistance. Empty: not known.
type DecayGroup string

// The groups, from the best.
const (
	Exceptional DecayGroup = "exceptional"
	Resistant   DecayGroup = "resistant"
	Moderate    DecayGroup = "moderate"
	Slight      DecayGroup = "slight_or_none"
)

// Trade is the state of trade restrictions.
type Trade struct {
	Words
	// Listing is where the species stands on a list that restricts trade; nil where it stands on none.
	Listing *Listing `json:"listing,omitempty"`
}

// Listing is a species' place in the appendices of CITES (the Convention on International Trade in Endangered Species).
type Listing struct {
	Appendix string `json:"appendix"` // I, II or III
	// Scope is what of it is listed.
	Scope string `json:"scope,omitempty"`
	// InForce is the day or the year from which it holds, as the source gives it.
	InForce string `json:"in_force_date,omitempty"`
}

// MaxSpecies is how many woods a catalogue holds.
const MaxSpecies = 500

// Find is the species with this code.
func (c Catalogue) Find(code string) (Species, bool) {
	for _, s := range c.Species {
		if s.Code == code {
			return s, true
		}
	}
	return Species{}, false
}

// Check says everything that is wrong with a catalogue.
func (c Catalogue) Check() document.Faults {
	var f document.Faults
	if len(c.Species) == 0 || len(c.Species) > MaxSpecies {
		f.Add("/species", "between 1 and "+strconv.Itoa(MaxSpecies)+" species", "%d species are given", len(c.Species))
		return f
	}
	seen := map[string]bool{}
	for i, s := range c.Species {
		p := "/species/" + strconv.Itoa(i)
		if s.Code == "" || s.Name == "" {
			f.Add(p, "a code such as white_oak and a name", "a species without code or name")
		}
		if seen[s.Code] {
			f.Add(p+"/code", "each species once", "%s is given twice", s.Code)
		}
		seen[s.Code] = true
		s.GravityAt12.check(p+"/gravity_12", &f)
		s.ShrinkageR.check(p+"/shrinkage_radial_pct", &f)
		s.ShrinkageT.check(p+"/shrinkage_tangential_pct", &f)
		s.ShrinkageV.check(p+"/shrinkage_volumetric_pct", &f)
		s.RuptureAt12.check(p+"/modulus_of_rupture_psi", &f)
		s.ElasticityAt12.check(p+"/modulus_of_elasticity_mpsi", &f)
		s.ShrinksFrom.check(p+"/shrinks_from_pct", &f)
		s.WorkingStrain.check(p+"/working_strain_share", &f)
		checkYields(s.Yields, p, &f)
		s.checkGroups(p, &f)
	}
	return f
}

// checkGroups says what is wrong with decay group and listing.
func (s Species) checkGroups(p string, f *document.Faults) {
	switch s.Decay.Group {
	case "", Exceptional, Resistant, Moderate, Slight:
	default:
		f.Add(p+"/decay_resistance/group", "exceptional, resistant, moderate, slight_or_none, or nothing", "the group %q is not known", string(s.Decay.Group))
	}
	if l := s.Trade.Listing; l != nil && l.Appendix != "I" && l.Appendix != "II" && l.Appendix != "III" {
		f.Add(p+"/trade/listing/appendix", "I, II or III", "the appendix %q is not known", l.Appendix)
	}
}

func (v Value) check(pointer string, f *document.Faults) {
	if v.Number == "" {
		return
	}
	if d, err := quantity.ParseDecimal(v.Number); err != nil || d.Sign() <= 0 {
		f.Add(pointer+"/value", "a plain decimal above 0, or nothing", "%q is not a value above 0", v.Number)
	}
	if v.Source == "" {
		f.Add(pointer+"/source", "the source, or the words: from memory", "a value without a source")
	}
	switch v.Mark {
	case Seen, Derived, FromMemory:
	default:
		f.Add(pointer+"/mark", "seen, derived or from_memory", "the mark %q is not known", string(v.Mark))
	}
}

// MissingValueError: a species without the value that is asked for.
type MissingValueError struct{ Species, Value string }

func (e *MissingValueError) Error() string {
	return "species " + e.Species + " has no " + e.Value + ": enter it with its source, or choose a species that has it"
}

// moisture content, per cent, that densities are stated at
var at12 = decimal.NewFromInt(12)

// DensityFigure is the id of a species' density in a table of figures.
func DensityFigure(code string) string { return "species/" + code + "/density" }

// Density puts the density at 12 % moisture into the table, once, and returns it; a *MissingValueError where the
// species has no specific gravity.
func (s Species) Density(t *derivation.Table) (quantity.Quantity, error) {
	id := DensityFigure(s.Code)
	if f, ok := t.Find(id); ok {
		d, err := decimal.NewFromString(f.Value)
		if err != nil {
			return quantity.Quantity{}, err
		}
		return quantity.Of(d, f.Unit)
	}
	if s.GravityAt12.Number == "" {
		return quantity.Quantity{}, &MissingValueError{s.Code, "specific gravity at 12 %"}
	}
	g, err := quantity.ParseDecimal(s.GravityAt12.Number)
	if err != nil {
		return quantity.Quantity{}, err
	}
	q := t.Derive(id, "timber/density", nil,
		derivation.ByFactor("G", g, s.GravityAt12.Source+" ("+string(s.GravityAt12.Mark)+")"),
		derivation.ByFactor("m", at12, "moisture content that densities are stated at"))
	return q, t.Err()
}
