package hull

import "ribband/takeoff/boat"

// Measure is what one side of one station measures.
type Measure struct {
	Station int
	X       float64 // mm
	Section *Section
}

// Measures of every station from forward, port before starboard.
func (h *Hull) Measures() []Measure {
	var out []Measure
	for _, st := range h.stations {
		for _, side := range boat.Sides {
			// A station lies within the stations and the side is one, so there is nothing to refuse.
			if s, err := h.Section(st.X.MM(), side); err == nil {
				out = append(out, Measure{st.No, st.X.MM(), s})
			}
		}
	}
	return out
}
