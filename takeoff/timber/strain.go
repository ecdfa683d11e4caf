package timber

import (
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Strain is what a dry laminate may be bent to: moduli of rupture, psi, and elasticity, million psi, at 12 % moisture,
// and the share of the strain at rupture, each with its source.
type Strain struct {
	Rupture, Elasticity, Share                   decimal.Decimal
	RuptureSource, ElasticitySource, ShareSource string
}

// Strain of the species; a *MissingValueError where one of its values is not known.
func (s Species) Strain() (Strain, error) {
	var out Strain
	for _, v := range []struct {
		name   string
		from   Value
		number *decimal.Decimal
		source *string
	}{
		{"modulus of rupture at 12 %", s.RuptureAt12, &out.Rupture, &out.RuptureSource},
		{"modulus of elasticity at 12 %", s.ElasticityAt12, &out.Elasticity, &out.ElasticitySource},
		{"working strain share", s.WorkingStrain, &out.Share, &out.ShareSource},
	} {
		if v.from.Number == "" {
			return Strain{}, &MissingValueError{s.Code, v.name}
		}
		d, err := quantity.ParseDecimal(v.from.Number)
		if err != nil {
			return Strain{}, err
		}
		*v.number, *v.source = d, v.from.Source+" ("+string(v.from.Mark)+")"
	}
	return out, nil
}
