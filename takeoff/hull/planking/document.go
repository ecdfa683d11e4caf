package planking

import "ribband/takeoff/boat"

// Document says how one side is planked. Lengths are texts in the notation of the table of offsets, places along the
// boat aft of station 0.
type Document struct {
	Side    boat.Side `json:"side"`
	Strakes Division  `json:"strakes"`
	// PlankThickness is that of the finished plank; empty where it is not known.
	PlankThickness string `json:"plank_thickness,omitempty"`
	// StockLengths that boards come in. With them butts are proposed for the strakes that Butts does not name.
	StockLengths []string `json:"stock_lengths,omitempty"`
	// Butts that are there and stay.
	Butts []Given `json:"butts,omitempty"`
	// ButtsOnFrames: the yard has butts on frames too, not only on blocks between them.
	ButtsOnFrames bool `json:"butts_on_frames,omitempty"`
	// ApartByBoth asks for both the frame spaces and the length between butts of adjacent strakes.
	ApartByBoth bool `json:"apart_by_both,omitempty"`
	// Replace is what is damaged and comes out.
	Replace []Damage `json:"replace,omitempty"`
}

// Division of the side into strakes: a count of equal ones, or the edges between them.
type Division struct {
	Count int       `json:"count,omitempty"`
	Edges []EdgeRow `json:"edges,omitempty"`
}

// EdgeRow is the edges between the strakes at one station, from the garboard's upper edge to the lower edge of the
// uppermost strake: as fractions of the girth, or as girths measured from the rabbet.
type EdgeRow struct {
	StationNo int       `json:"station_no"`
	Fractions []float64 `json:"fractions,omitempty"`
	Girths    []string  `json:"girths,omitempty"`
}

// Given are the butts of one strake, counted from 1 at the rabbet. A strake with a row without any is in one piece.
type Given struct {
	Strake int      `json:"strake"`
	X      []string `json:"x"`
}

// Damage is a piece of a strake that comes out.
type Damage struct {
	Strake int    `json:"strake"`
	From   string `json:"from"`
	To     string `json:"to"`
}
