package app

import (
	"math"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/quantity"
)

// Fairness tells which offsets of the table stand farthest off the boat that all the others make.
type Fairness struct {
	// Judged figures, those out of line, and those that stand where too few others do to judge them.
	Judged    int `json:"judged"`
	OutOfLine int `json:"out_of_line"`
	Unjudged  int `json:"unjudged"`
	// Worst first.
	Worst []OffsetJudged `json:"worst"`
}

// OffsetJudged is one written figure, and what would be fair instead.
type OffsetJudged struct {
	StationNo int          `json:"station_no"`
	Side      boat.Side    `json:"side"`
	Cell      string       `json:"cell"`
	Where     string       `json:"where"`
	Written   string       `json:"written"`
	Fair      string       `json:"fair"`
	OffMM     float64      `json:"off_mm"`
	OffGrains float64      `json:"off_grains"`
	Way       fairness.Way `json:"way"`
	Times     float64      `json:"times"`
	OutOfLine bool         `json:"out_of_line"`
	AcrossMM  *float64     `json:"across_mm,omitempty"`
	AlongMM   *float64     `json:"along_mm,omitempty"`
	Pointer   string       `json:"pointer"`
}

// mostJudged is how many of the worst are listed; all that are out of line are.
const mostJudged = 20

func fairnessOf(r *fairness.Report) *Fairness {
	if r == nil {
		return nil
	}
	beyond := len(r.Beyond())
	out := &Fairness{Judged: len(r.Offsets), OutOfLine: beyond, Unjudged: r.Unjudged, Worst: []OffsetJudged{}}
	known := func(v float64) *float64 {
		if math.IsNaN(v) {
			return nil
		}
		v = quantity.Thousandth(v)
		return &v
	}
	for _, o := range r.Worst(max(mostJudged, beyond)) {
		out.Worst = append(out.Worst, OffsetJudged{
			StationNo: o.Station, Side: o.Side, Cell: o.Cell, Where: takeoff.Where(o), Written: o.WrittenText, Fair: o.FairText,
			OffMM: quantity.Thousandth(o.Off), OffGrains: quantity.Thousandth(o.Grains), Way: o.Way, Times: quantity.Thousandth(o.Times),
			OutOfLine: o.Beyond, AcrossMM: known(o.Across), AlongMM: known(o.Along), Pointer: "/hull" + o.Pointer,
		})
	}
	return out
}
