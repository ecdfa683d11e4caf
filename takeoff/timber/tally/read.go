package tally

import (
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/document"
	"ribband/takeoff/quantity"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// row is boards alike, read.
type row struct {
	count                    int64
	thickness, width, length size
}

// list is a document read.
type list struct {
	Document
	halfFrom string
	rows     []row
	wood     *timber.Species
	moisture decimal.Decimal
	stated   decimal.Decimal
	grade    *timber.Grade
}

// Yard is what a list may lean on: the yard's woods, and what its rules say of half a foot; empty where they say nothing.
type Yard struct {
	Species  timber.Catalogue
	HalfFoot timber.Tie
}

// joined lists words of a kind.
func joined[T ~string](words []T) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = string(w)
	}
	return strings.Join(out, ", ")
}

func (d Document) read(y Yard) (list, document.Faults) {
	l := list{Document: d, halfFrom: "given with the list"}
	var f document.Faults
	if !slices.Contains(Rules, d.Rule) {
		f.Add("/rule", "one of "+joined(Rules), "the rule %q is not known", string(d.Rule))
	}
	if !d.Written.known() {
		f.Add("/written", "one of "+joined(Ways), "sizes written in %q are not known", string(d.Written))
	}
	if d.Measured != Green && d.Measured != Dry {
		f.Add("/measured", "green for a gross tally, taken before drying; dry for a net one", "the state %q is not known", string(d.Measured))
	}
	l.half(y, &f)
	l.graded(&f)
	l.dressed(&f)
	l.weighed(y, &f)
	l.statedFeet(&f)
	if len(d.Boards) == 0 || len(d.Boards) > MostRows {
		f.Add("/boards", fmt.Sprintf("between 1 and %d rows of boards", MostRows), "%d rows", len(d.Boards))
		return l, f
	}
	if d.Written.known() {
		l.boards(&f)
	}
	return l, f
}

// half finds what half a foot counts, and where that comes from.
func (l *list) half(y Yard, f *document.Faults) {
	switch {
	case l.HalfFoot != "" && l.Rule != SurfaceMeasure:
		f.Add("/half_foot", "nothing: only surface_measure rounds faces", "half a foot does not come up by the rule %s", l.Rule)
	case l.HalfFoot != "" && !l.HalfFoot.Known():
		f.Add("/half_foot", "one of up, down, alternate", "the rule %q for half a foot is not known", string(l.HalfFoot))
	case l.HalfFoot == "" && y.HalfFoot.Known():
		l.HalfFoot, l.halfFrom = y.HalfFoot, "the yard's rules"
	case l.HalfFoot == "":
		l.HalfFoot, l.halfFrom = timber.TieAlternate, "from memory: up and down by turns, up first; the printed rule was not seen, so say in the list or in the yard's rules which it is"
	}
}

func (l *list) graded(f *document.Faults) {
	if l.Grade == "" {
		return
	}
	if l.Rule != SurfaceMeasure {
		f.Add("/grade", "nothing, or the rule surface_measure", "grades of hardwood go by surface measure, not by %s", l.Rule)
		return
	}
	g, err := timber.GradeNamed(l.Grade)
	if err != nil {
		f.Add("/grade", "one of FAS, F1F, Selects, No.1C, No.2A, No.3A, No.3B", "the grade %q is not in the table of grades", l.Grade)
		return
	}
	l.grade = &g
}

func (l *list) dressed(f *document.Faults) {
	switch l.Dressed {
	case "":
		if l.Rule == NominalSoftwood {
			f.Add("/dressed", "one of surfaced_dry, surfaced_green, rough_dry", "nominal softwood measures less than its name: it is not said how it is dressed")
		}
	case SurfacedDry, SurfacedGreen, RoughDry:
		if l.Rule != NominalSoftwood {
			f.Add("/dressed", "nothing, or the rule nominal_softwood", "only nominal softwood is dressed to a standard")
		}
	default:
		f.Add("/dressed", "one of surfaced_dry, surfaced_green, rough_dry", "%q is not known", string(l.Dressed))
	}
}

// MostMoisture is how wet timber may be, per cent.
const MostMoisture = 200

func (l *list) weighed(y Yard, f *document.Faults) {
	if l.Species == "" && l.MoisturePct == "" {
		return
	}
	if l.Species == "" {
		f.Add("/species", "the code of one of the yard's species", "a moisture content is given, and no wood to weigh")
	} else if s, ok := y.Species.Find(l.Species); ok {
		l.wood = &s
	} else {
		f.Add("/species", "one of "+codes(y.Species), "the yard has no species %q", l.Species)
	}
	if l.MoisturePct == "" {
		f.Add("/moisture_pct", "per cent of the dry weight; air-dried timber has 12 to 20", "a wood is given to weigh, and not how wet it is")
		return
	}
	m, err := quantity.ParseDecimal(l.MoisturePct)
	if err != nil || m.Sign() < 0 || m.GreaterThan(decimal.NewFromInt(MostMoisture)) {
		f.Add("/moisture_pct", fmt.Sprintf("per cent of the dry weight, from 0 to %d", MostMoisture), "%q is no moisture content that timber has", l.MoisturePct)
		l.wood = nil
		return
	}
	l.moisture = m
	if l.wood != nil {
		if _, err := l.wood.DensityAt(m); err != nil {
			f.Add("/species", "that value in the yard's species with its source, or another wood", "%s", err)
			l.wood = nil
		}
	}
}

func codes(c timber.Catalogue) string {
	out := make([]string, len(c.Species))
	for i, s := range c.Species {
		out[i] = s.Code
	}
	return strings.Join(out, ", ")
}

func (l *list) statedFeet(f *document.Faults) {
	if l.StatedBoardFeet == "" {
		return
	}
	d, err := quantity.ParseDecimal(l.StatedBoardFeet)
	if err != nil || d.Sign() <= 0 {
		f.Add("/stated_board_feet", "board feet above 0 as a plain number, for example 212 or 212.5", "%q is no footage", l.StatedBoardFeet)
		return
	}
	l.stated = d
}

func (l *list) boards(f *document.Faults) {
	var total int64
	for i, b := range l.Boards {
		at := fmt.Sprintf("/boards/%d", i)
		r := row{b.Count, l.Written.read(b.Thickness, thicknessSide, at+"/thickness", f), l.Written.read(b.Width, widthSide, at+"/width", f), l.Written.read(b.Length, lengthSide, at+"/length", f)}
		if b.Count < 1 || b.Count > MostBoards {
			f.Add(at+"/count", fmt.Sprintf("a whole number from 1 to %d", MostBoards), "%d boards", b.Count)
			r.count = 0
		}
		if total += r.count; total > MostBoards {
			f.Add("/boards", fmt.Sprintf("at most %d boards in one list", MostBoards), "there are more boards than a list holds")
			return
		}
		if l.Rule == SurfaceMeasure && r.length.mm.IsPositive() {
			if _, err := timber.StandardLength(r.length.feet()); err != nil {
				f.Add(at+"/length", "a length from 4 ft to under 17 ft, or the rule exact for shorter and longer timbers", "hardwood is tallied in whole feet from 4 to 16; this board is %s ft long", r.length.feet().Round(3))
			}
		}
		l.rows = append(l.rows, r)
	}
}
