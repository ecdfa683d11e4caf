package plank_test

import (
	"slices"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
	"ribband/takeoff/plank"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

func have() plank.Have {
	out := plank.Have{Strakes: map[boat.Side]int{boat.Port: 9}, Frames: map[boat.Side]map[int]decimal.Decimal{boat.Port: {}, boat.Starboard: {}},
		Species: timber.Catalogue{Species: []timber.Species{{Code: "larch"}}}}
	for no := 1; no <= 20; no++ {
		for _, s := range boat.Sides {
			out.Frames[s][no] = decimal.NewFromInt(int64(300 * no))
		}
	}
	return out
}

func row(change func(*plank.Row)) plank.Row {
	from, to := 5, 7
	r := plank.Row{Strake: 3, Side: boat.Port, FromFrame: &from, ToFrame: &to, Species: "larch", Grade: "clear"}
	change(&r)
	return r
}

func num(n int) *int { return &n }

// Every row is held against the strakes, frames and woods that there are, and against the rows before it; all that is wrong is told
// together, each at its place.
func TestPlanksAreRead(t *testing.T) {
	same := func(*plank.Row) {}
	byLength := func(from, to string) func(*plank.Row) {
		return func(r *plank.Row) { r.FromFrame, r.ToFrame, r.From, r.To = nil, nil, from, to }
	}
	byHand := func(length, width string) func(*plank.Row) {
		return func(r *plank.Row) {
			r.FromFrame, r.ToFrame, r.Strake, r.Side, r.ByHand = nil, nil, 12, boat.Starboard, &plank.ByHandRow{Length: length, Width: width}
		}
	}
	whole := func(r *plank.Row) { r.FromFrame, r.ToFrame, r.Whole = nil, nil, true }
	for name, c := range map[string]struct {
		rows []plank.Row
		want []string
		n    int
	}{
		"frames":                 {[]plank.Row{row(same)}, nil, 1},
		"one frame":              {[]plank.Row{row(func(r *plank.Row) { r.ToFrame = r.FromFrame })}, nil, 1},
		"lengths":                {[]plank.Row{row(byLength("1500", "2100"))}, nil, 1},
		"by hand, where unknown": {[]plank.Row{row(byHand("2400", "180")), row(byHand("2400", "180"))}, nil, 2},
		"end to end":             {[]plank.Row{row(same), row(byLength("2100", "3000"))}, nil, 2},
		"a side not planked":     {[]plank.Row{row(func(r *plank.Row) { r.Side = boat.Both })}, []string{"/planks/0/side"}, 0},
		"no side":                {[]plank.Row{row(func(r *plank.Row) { r.Side = "" })}, []string{"/planks/0/side"}, 0},
		"a strake too many":      {[]plank.Row{row(func(r *plank.Row) { r.Strake = 10 })}, []string{"/planks/0/strake"}, 0},
		"strake 0":               {[]plank.Row{row(func(r *plank.Row) { r.Strake = 0 })}, []string{"/planks/0/strake"}, 0},
		"no such frame":          {[]plank.Row{row(func(r *plank.Row) { r.ToFrame = num(21) })}, []string{"/planks/0/to_frame"}, 0},
		"backwards":              {[]plank.Row{row(func(r *plank.Row) { r.ToFrame = num(4) })}, []string{"/planks/0/to_frame"}, 0},
		"backwards by length":    {[]plank.Row{row(byLength("2100", "1500"))}, []string{"/planks/0/to"}, 0},
		"half a place":           {[]plank.Row{row(func(r *plank.Row) { r.ToFrame = nil })}, []string{"/planks/0"}, 0},
		"half a length":          {[]plank.Row{row(byLength("2100", ""))}, []string{"/planks/0"}, 0},
		"no length":              {[]plank.Row{row(byLength("2100", "far aft"))}, []string{"/planks/0/to"}, 0},
		"two places":             {[]plank.Row{row(func(r *plank.Row) { r.From, r.To = "1500", "2100" })}, []string{"/planks/0"}, 0},
		"nowhere":                {[]plank.Row{row(func(r *plank.Row) { r.FromFrame, r.ToFrame = nil, nil })}, []string{"/planks/0"}, 0},
		"no wood, no grade":      {[]plank.Row{row(func(r *plank.Row) { r.Species, r.Grade = "pine", "" })}, []string{"/planks/0/species", "/planks/0/grade"}, 0},
		"thin":                   {[]plank.Row{row(func(r *plank.Row) { r.Thickness = "0" })}, []string{"/planks/0/thickness"}, 0},
		"wider than long":        {[]plank.Row{row(byHand("180", "900"))}, []string{"/planks/0/by_hand"}, 0},
		"a whole one by hand":    {[]plank.Row{row(func(r *plank.Row) { byHand("2400", "180")(r); r.Whole = true })}, []string{"/planks/0/whole"}, 0},
		"over another":           {[]plank.Row{row(same), row(byLength("2000", "3000"))}, []string{"/planks/1"}, 1},
		"the same":               {[]plank.Row{row(same), row(same)}, []string{"/planks/1"}, 1},
		"of a whole one":         {[]plank.Row{row(whole), row(same)}, []string{"/planks/1"}, 1},
		"whole twice":            {[]plank.Row{row(whole), row(whole)}, []string{"/planks/1"}, 1},
		"of another strake":      {[]plank.Row{row(whole), row(func(r *plank.Row) { r.Strake = 4 })}, nil, 2},
	} {
		planks, faults := plank.Read(plank.Document{Notation: notation.Millimetres, Planks: c.rows}, have())
		var at []string
		for _, f := range faults {
			at = append(at, f.Pointer)
			if f.Fix == "" || f.Detail == "" {
				t.Errorf("%s: %+v", name, f)
			}
		}
		if !slices.Equal(at, c.want) || len(planks) != c.n {
			t.Errorf("%s: %v, %v wanted; %d planks", name, faults, c.want, len(planks))
		}
	}
	if _, faults := plank.Read(plank.Document{Notation: "yards"}, plank.Have{}); len(faults) != 1 {
		t.Error(faults)
	}
	if _, faults := plank.Read(plank.Document{Notation: notation.Metres, Planks: make([]plank.Row, plank.MaxPlanks+1)}, plank.Have{}); len(faults) != 1 {
		t.Error(faults)
	}
}
