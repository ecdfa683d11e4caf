package rules

import "github.com/shopspring/decimal"

// SawnGrain is the greatest angle, degrees, at which grain may cross the arm of a floor sawn from one board.
type SawnGrain struct {
	Most   decimal.Decimal
	Source string
}

// DefaultSawnGrain is 15 degrees, about one in four: arms that rise more are laminated, or cut from a crook (common practice, no
// source).
var DefaultSawnGrain = SawnGrain{decimal.NewFromInt(15), "common practice, no source"}

// mostGrain, degrees: grain at right angles to an arm.
var mostGrain = decimal.NewFromInt(90)

// Grain is the yard's own limit, or the default.
func (r Rules) Grain() SawnGrain {
	if r.SawnGrain != nil {
		return *r.SawnGrain
	}
	return DefaultSawnGrain
}

func (r *reader) sawnGrain(d Sourced) *SawnGrain {
	n, source := r.atMost("/sawn_grain_deg", d, mostGrain)
	if d == (Sourced{}) {
		return nil
	}
	return &SawnGrain{n, source}
}
