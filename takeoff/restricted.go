package takeoff

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/timber"
)

// restricted warns where a wood stands on a list that restricts its trade, and names the nearest wood of the yard's that
// stands on none.
func restricted(wood timber.Species, yard timber.Catalogue) (bill.Warning, bool) {
	l := wood.Trade.Listing
	if l == nil {
		return bill.Warning{}, false
	}
	detail := fmt.Sprintf("%s stands in Appendix %s of CITES", wood.Name, l.Appendix)
	if l.InForce != "" {
		detail += ", in force from " + l.InForce
	}
	if l.Scope != "" {
		detail += " (" + l.Scope + ")"
	}
	fix := "Have the supplier's papers of its origin before it is bought, and ask the authority before the boat crosses a border."
	if near, ok := yard.Nearest(wood); ok {
		fix += fmt.Sprintf(" The nearest of the yard's woods that is not listed, as durable and of the nearest weight, is %s; whether it is as strong stands in its figures.", near.Name)
	}
	return bill.Warning{Code: "restricted_timber", Detail: detail + ": " + wood.Trade.Source + ".", Fix: fix}, true
}
