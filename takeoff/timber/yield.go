package timber

import (
	"strconv"

	"ribband/takeoff/document"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Yield is the clear face that a grade of a wood promises: so many twelfths of a board's surface measure, in cuttings no
// smaller than Cutting. It is a floor on the poorer face, not the yield of boat parts: it stands beside a yard's own loss
// for grade and is never multiplied with it.
type Yield struct {
	Grade     string `json:"grade"`
	ClearOf12 string `json:"clear_of_12"`
	Cutting   string `json:"cutting,omitempty"`
	Source    string `json:"source"`
	Mark      Mark   `json:"mark"`
}

// MaxYields is how many grades one wood has.
const MaxYields = 30

// YieldOf is what a grade of the wood promises.
func (s Species) YieldOf(grade string) (Yield, bool) {
	for _, y := range s.Yields {
		if y.Grade == grade {
			return y, true
		}
	}
	return Yield{}, false
}

// Percent is the clear face as a share of the whole, in hundredths to one place, cut down: a floor is never told higher.
func (y Yield) Percent() (decimal.Decimal, error) {
	d, err := quantity.ParseDecimal(y.ClearOf12)
	if err != nil {
		return decimal.Zero, err
	}
	return d.Mul(decimal.NewFromInt(100)).DivRound(twelve, 12).RoundFloor(1), nil
}

func checkYields(yields []Yield, p string, f *document.Faults) {
	if len(yields) > MaxYields {
		f.Add(p+"/yields", "at most "+strconv.Itoa(MaxYields)+" grades", "%d grades", len(yields))
		return
	}
	seen := map[string]bool{}
	for i, y := range yields {
		at := p + "/yields/" + strconv.Itoa(i)
		if y.Grade == "" {
			f.Add(at+"/grade", "the grade as price sheets call it", "a yield of no grade")
		}
		if seen[y.Grade] {
			f.Add(at+"/grade", "each grade once", "%s is given twice", y.Grade)
		}
		seen[y.Grade] = true
		Value{"1", y.Source, y.Mark}.check(at, f) // its source and mark; the number is looked at below
		if d, err := quantity.ParseDecimal(y.ClearOf12); err != nil || d.Sign() <= 0 || d.GreaterThan(twelve) {
			f.Add(at+"/clear_of_12", "twelfths of the face, above 0 and at most 12", "%q twelfths", y.ClearOf12)
		}
	}
}
