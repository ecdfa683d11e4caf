package web

import (
	"cmp"
	"strconv"

	"ribband/takeoff"
	"ribband/takeoff/boat"
)

// floorRow is a floor with what the option does to it.
type floorRow struct {
	takeoff.FloorMeasures
	Remedy boat.Remedy
}

// FloorRows are the floors of the option's boat.
func (o optionPage) FloorRows() []floorRow {
	done := map[boat.Member]boat.Remedy{}
	for _, m := range o.Bill.Measures {
		done[m.Member] = m.Remedy
	}
	for _, f := range o.Bill.Faults {
		if f.Member != nil && done[*f.Member] == "" {
			done[*f.Member] = "not as it stands"
		}
	}
	var out []floorRow
	for _, f := range o.Floors {
		out = append(out, floorRow{f, cmp.Or(done[f.Member], boat.Leave)})
	}
	return out
}

// tenth is a length in millimetres to a tenth, as it is read.
func tenth(mm *float64) string { return grouped(strconv.FormatFloat(*mm, 'f', 1, 64)) }
