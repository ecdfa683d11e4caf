package fairness

import (
	"cmp"
	"math"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

// Way is to which side of the fair boat an offset lies.
type Way string

// The ways. A mark of waterline or buttock lies out of the fair surface or in, a half-breadth of an end as well; the height
// of an end is high or low; a station's place is aft or forward of where it would be fair.
const (
	Out     Way = "out"
	In      Way = "in"
	High    Way = "high"
	Low     Way = "low"
	Aft     Way = "aft"
	Forward Way = "forward"
)

// Offset is one written cell, judged.
type Offset struct {
	Station int
	// Side is boat.Both where the two sides are written as one.
	Side boat.Side
	// Cell names it as the table does: "wl:1-0-0", "buttock:0-6-0", "sheer_height"; "x" is the station's own place.
	Cell string
	// Line and At tell a cell's line and its height or half-breadth apart: "wl" and "1-0-0".
	Line, At string
	// Written is what stands there, Fair what would be fair, to the grain; both also as text in the table's notation.
	Written, Fair         notation.Length
	WrittenText, FairText string
	// Off is how far the written value lies from the fair one, before that is brought to the grain, mm; positive where
	// it is the greater. Grains is the same in grains.
	Off, Grains float64
	Way         Way
	// Times is how far off it is in standard deviations of what grain and others explain, and Beyond that this is more
	// than the Threshold.
	Times  float64
	Beyond bool
	// Across and Along are what either batten alone says of Off, mm; NaN where it says nothing.
	Across, Along float64
	Pointer       string // of the cell in the document
}

// Report is a table judged.
type Report struct {
	// Offsets, worst first: all that could be judged.
	Offsets []Offset
	// Unjudged cells stand where neither batten has points enough.
	Unjudged int
	// Grain is what the table was judged by, mm.
	Grain float64
}

// Beyond are the offsets out of line, worst first.
func (r *Report) Beyond() []Offset {
	if r == nil {
		return nil
	}
	n := 0
	for n < len(r.Offsets) && r.Offsets[n].Beyond {
		n++
	}
	return r.Offsets[:n:n]
}

// Worst are the first n, or all where there are fewer.
func (r *Report) Worst(n int) []Offset {
	n = max(0, min(n, len(r.Offsets)))
	return r.Offsets[:n:n]
}

func (r *Report) sort() {
	slices.SortStableFunc(r.Offsets, func(a, b Offset) int {
		if a.Beyond != b.Beyond {
			if a.Beyond {
				return -1
			}
			return 1
		}
		return cmp.Compare(b.Times, a.Times)
	})
}

// toGrain is the length nearest to v mm that is a whole number of grains, never below nothing where it may not be.
func toGrain(v, grain float64, mayBeNegative bool) notation.Length {
	v = math.Round(v/grain) * grain
	if !mayBeNegative {
		v = max(0, v)
	}
	l, err := notation.FromMM(v)
	if err != nil {
		return notation.Length{}
	}
	return l
}
