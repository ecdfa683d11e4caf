package step

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Limits of a step library. Assumption: no yard tells more kinds of work apart.
const (
	MaxSteps    = 200
	MaxCautions = 20
	MaxName     = 200 // letters of a code, name or trade
)

// Most hours per unit or for setting up, and the greatest factor of difficulty: beyond them a slip of the decimal point
// is likelier than a boat.
var (
	maxHours  = decimal.NewFromInt(10_000)
	maxFactor = decimal.NewFromInt(100)
)

// Check says everything that is wrong with a step library.
func (l Library) Check() document.Faults {
	var f document.Faults
	if len(l.Steps) > MaxSteps {
		f.Add("/steps", "at most "+strconv.Itoa(MaxSteps), "%d steps are given", len(l.Steps))
		return f
	}
	seen := map[string]bool{}
	for i, s := range l.Steps {
		p := "/steps/" + strconv.Itoa(i)
		s.check(p, &f)
		if seen[s.Code] {
			f.Add(p+"/code", "each step once", "%s is given twice", notation.Quote(s.Code))
		}
		seen[s.Code] = true
	}
	return f
}

func (s Step) check(p string, f *document.Faults) {
	for _, part := range [][2]string{{"/code", s.Code}, {"/name", s.Name}, {"/trade", s.Trade}} {
		if n := utf8.RuneCountInString(part[1]); strings.TrimSpace(part[1]) == "" || n > MaxName {
			f.Add(p+part[0], "a name of 1 to "+strconv.Itoa(MaxName)+" letters", "%d letters are written here", n)
		}
	}
	if !s.Driver.Known() {
		f.Add(p+"/driver", "shored_frames, patterns, frames, laminates, laminate_joints, steamed_pieces, steam_h, glue_line_m2, scarfs, girth_m, strap_m, floors, sawn_pieces, planks, plank_m, new_butts, plank_fastenings or resawn_m", "nothing is counted by %s", notation.Quote(string(s.Driver)))
	}
	for _, h := range []struct {
		name        string
		value, most decimal.Decimal
	}{{"/per_unit_h", s.PerUnitH, maxHours}, {"/factor", s.Factor, maxFactor}, {"/setup_h", s.SetupH, maxHours}} {
		if h.value.IsNegative() || h.value.GreaterThan(h.most) {
			f.Add(p+h.name, "from 0 to "+h.most.String(), "%s is out of reach", h.value)
		}
	}
	if len(s.Cautions) > MaxCautions {
		f.Add(p+"/cautions", "at most "+strconv.Itoa(MaxCautions), "%d cautions are given", len(s.Cautions))
	}
}
