package takeoff

import (
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/hull/fairness"
)

// mostOutOfLine is how many offsets are warned of one by one; a table with more is written wrong throughout.
const mostOutOfLine = 10

// outOfLine are the warnings of offsets that stand out of line. Nothing is altered: what was written is reckoned with.
func outOfLine(r *fairness.Report) []bill.Warning {
	var out []bill.Warning
	beyond := r.Beyond()
	for i, o := range beyond {
		if i == mostOutOfLine {
			out = append(out, bill.Warning{Code: "offset_out_of_line",
				Detail: fmt.Sprintf("%d more offsets stand out of line.", len(beyond)-i), Fix: "Check the whole table against the boat; the measures of the hull list them."})
			break
		}
		at := Where(o)
		out = append(out, bill.Warning{Code: "offset_out_of_line",
			Detail: fmt.Sprintf("%s%s: written %s; %s would be fair.", strings.ToUpper(at[:1]), at[1:], o.WrittenText, o.FairText),
			Fix:    "Check it against the boat. It is reckoned with as written."})
	}
	return out
}

// ends are the figures of rabbet, knuckle and sheer in words.
var ends = map[string]string{
	"rabbet_height": "height of the rabbet", "rabbet_half_breadth": "half-breadth of the rabbet",
	"sheer_height": "height of the sheer", "sheer_half_breadth": "half-breadth of the sheer",
	"knuckle_height": "height of the knuckle", "knuckle_half_breadth": "half-breadth of the knuckle",
	"x": "distance aft of station 0",
}

// Where names an offset for a person: "station 3 port, waterline 1-0-0".
func Where(o fairness.Offset) string {
	what := ends[o.Line]
	switch o.Line {
	case "wl":
		what = "waterline " + o.At
	case "buttock", "diagonal":
		what = o.Line + " " + o.At
	case "knuckle_height", "knuckle_half_breadth":
		what = ends[o.Line] + " " + o.At
	}
	if o.Side == "both" {
		return fmt.Sprintf("station %d both sides, %s", o.Station, what)
	}
	return fmt.Sprintf("station %d %s, %s", o.Station, o.Side, what)
}
