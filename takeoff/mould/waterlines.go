package mould

import (
	"slices"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// Waterlines are the heights at which a boat was measured, from the lowest.
func Waterlines(o *offsets.Table) []notation.Length {
	var out []notation.Length
	for i := range o.Stations {
		for _, side := range boat.Sides {
			for _, m := range o.Stations[i].Marks(side) {
				if strings.HasPrefix(m.Cell, "wl:") && !slices.Contains(out, m.Z) {
					out = append(out, m.Z)
				}
			}
		}
	}
	slices.SortFunc(out, notation.Length.Compare)
	return out
}
