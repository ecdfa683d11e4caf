package reconcile

import (
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/quote"
	"ribband/takeoff/notation"
)

// step is the code of the step that a cell names, by its code or by its name as it is shown. A code goes before a
// name.
func (r *reader) step(cell string) string {
	if r.job.Steps == nil || cell == "" || cell == quote.General {
		return cell
	}
	for _, written := range []func(KnownStep) string{
		func(s KnownStep) string { return s.Code },
		func(s KnownStep) string { return s.Name },
	} {
		var codes []string
		for _, s := range append([]KnownStep{{quote.General, ""}}, r.job.Steps...) {
			text := written(s)
			if text == cell && text == s.Code {
				return s.Code
			}
			if text != "" && fold(text) == fold(cell) && !slices.Contains(codes, s.Code) {
				codes = append(codes, s.Code)
			}
		}
		if len(codes) == 1 {
			return codes[0]
		}
		if len(codes) > 1 {
			r.fault("step", fmt.Sprintf("step %s may be any of several", notation.Quote(cell)), "write the code: "+strings.Join(codes, " or "))
			return cell
		}
	}
	r.fault("step", fmt.Sprintf("step %s is not known", notation.Quote(cell)), "one of "+r.steps()+", by code or name, or empty")
	return cell
}

// steps lists the codes, shortened when there are many.
func (r *reader) steps() string {
	const most = 20
	var codes []string
	for _, s := range r.job.Steps {
		if !slices.Contains(codes, s.Code) {
			codes = append(codes, s.Code)
		}
	}
	more := ""
	if n := len(codes) - most; n > 0 {
		codes, more = codes[:most], fmt.Sprintf(" and %d more", n)
	}
	return strings.Join(append(codes, quote.General), ", ") + more
}
