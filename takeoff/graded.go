package takeoff

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/rules"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// Graded is what the grade of a wood that is needed promises, beside what the yard itself loses to grade.
type Graded struct {
	Species string `json:"species"`
	Grade   string `json:"grade"`
	// ClearFace is the least clear share of the poorer face, per cent, cut down to a tenth; in pieces no smaller than Cutting.
	ClearFace string `json:"clear_face_pct"`
	Cutting   string `json:"cutting,omitempty"`
	Source    string `json:"source"`
	// Loss is the yard's own loss for grade, a fraction of what is bought; empty where it has none.
	Loss string `json:"loss,omitempty"`
	// Why says how the two go together.
	Why string `json:"why"`
}

// graded tells of every wood and grade on the bill what the grade promises, in the order of the bill; woods without yields
// are left out.
func graded(lines []bill.Line, woods timber.Catalogue, r rules.Rules) ([]Graded, error) {
	var out []Graded
	told := map[[2]string]bool{}
	loss := gradeLoss(r)
	for _, l := range lines {
		if l.Pieces == nil || told[[2]string{l.Pieces.Species, l.Pieces.Grade}] {
			continue
		}
		told[[2]string{l.Pieces.Species, l.Pieces.Grade}] = true
		wood, ok := woods.Find(l.Pieces.Species)
		if !ok {
			continue
		}
		y, ok := wood.YieldOf(l.Pieces.Grade)
		if !ok {
			continue
		}
		clear, err := y.Percent()
		if err != nil {
			return nil, fmt.Errorf("%s %s: %w", wood.Code, y.Grade, err)
		}
		out = append(out, Graded{Species: wood.Code, Grade: y.Grade, ClearFace: clear.String(), Cutting: y.Cutting, Source: y.Source, Loss: loss, Why: whyGraded(clear, y.Cutting, loss)})
	}
	return out, nil
}

// gradeLoss is the yard's loss of timber named grade.
func gradeLoss(r rules.Rules) string {
	for _, l := range r.For(bill.Timber) {
		if l.Name == "grade" {
			return l.Fraction.String()
		}
	}
	return ""
}

func whyGraded(clear decimal.Decimal, cutting, loss string) string {
	text := "The grade promises at least " + clear.String() + " % of the poorer face clear"
	if cutting != "" {
		text += ", in pieces of " + cutting + " and more"
	}
	if loss == "" {
		return text + ". That is a floor for the merchant, not what boat parts come to: the yard's rules name no loss for grade, and none is reckoned."
	}
	fraction, _ := decimal.NewFromString(loss)
	return text + ". That is a floor for the merchant, not what boat parts come to: what is reckoned is the yard's own loss for grade, " + fraction.Shift(2).String() + " % of what is bought."
}
