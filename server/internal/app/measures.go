package app

import (
	"context"
	"errors"
	"math"

	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"
)

// Measures is what a hull measures: every station and side, and every frame and side where frames are known.
type Measures struct {
	// Grain is what the offsets were written to, in their notation; GrainAssumed that nobody declared it. Every range
	// rests on it.
	Grain        string            `json:"grain"`
	GrainAssumed bool              `json:"grain_assumed"`
	Stations     []StationMeasures `json:"stations"`
	Frames       []frame.Measures  `json:"frames,omitempty"`
}

// StationMeasures is what one side of one station measures, with the range that holds nine times in ten.
type StationMeasures struct {
	StationNo   int          `json:"station_no"`
	XMM         float64      `json:"x_mm"`
	Side        boat.Side    `json:"side"`
	RestsOn     boat.RestsOn `json:"rests_on"`
	Points      int          `json:"points"`
	GirthMM     float64      `json:"girth_mm"`
	GirthLowMM  float64      `json:"girth_low_mm"`
	GirthHighMM float64      `json:"girth_high_mm"`
	// Straight: the section has no bend to speak of. Doubtful: the fair curve did not settle.
	Straight          bool     `json:"straight"`
	Doubtful          bool     `json:"doubtful"`
	LeastRadiusMM     *float64 `json:"least_radius_mm,omitempty"`
	LeastRadiusLowMM  *float64 `json:"least_radius_low_mm,omitempty"`
	LeastRadiusHighMM *float64 `json:"least_radius_high_mm,omitempty"`
	LeastAtMM         *float64 `json:"least_at_mm,omitempty"`
	Bend              string   `json:"bend,omitempty"`
}

func stationMeasures(m hull.Measure) StationMeasures {
	s := m.Section
	out := StationMeasures{
		StationNo: m.Station, XMM: quantity.Thousandth(m.X), Side: s.Side, RestsOn: s.RestsOn, Points: s.Points,
		GirthMM: quantity.Thousandth(s.Girth.MM), GirthLowMM: quantity.Thousandth(s.Girth.Low), GirthHighMM: quantity.Thousandth(s.Girth.High),
		Doubtful: s.Doubtful,
	}
	least := s.Least()
	r := least.Radius()
	if s.Straight || math.IsInf(r.MM, 0) {
		out.Straight = true
		return out
	}
	of := func(x float64) *float64 { x = quantity.Thousandth(x); return &x }
	out.LeastRadiusMM, out.LeastRadiusLowMM, out.LeastAtMM = of(r.MM), of(r.Low), of(least.S)
	// Where the points do not tell the bend from none there is no high end; the low end stands all the same, as it does
	// for a frame there.
	if !math.IsInf(r.High, 0) {
		out.LeastRadiusHighMM = of(r.High)
	}
	out.Bend = "bilge"
	if least.Hollow {
		out.Bend = "hollow"
	}
	return out
}

// Measures of a job's hull as it stands, with the frames where there are any.
func (a *App) Measures(ctx context.Context, who auth.Principal, job string) (Measures, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Measures{}, err
	}
	h, err := a.Hull(ctx, who, job)
	if err != nil {
		return Measures{}, absent(err, "the job has no hull yet", "put the offsets of the job first")
	}
	var frames *frame.Document
	f, err := a.Frames(ctx, who, job)
	var none *store.NotFoundError
	switch {
	case err == nil:
		frames = &f.Doc
	case !errors.As(err, &none):
		return Measures{}, err
	}
	m, err := a.MeasuresOf(ctx, h.Doc, frames)
	var faults document.Faults
	if errors.As(err, &faults) {
		return Measures{}, &ComputeError{faults}
	}
	return m, err
}

// MeasuresOf a hull that came along, and of frames where they did.
func (a *App) MeasuresOf(ctx context.Context, doc hull.Document, frames *frame.Document) (Measures, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return Measures{}, err
	}
	defer done()
	offsets, wrong := hull.Read(&doc)
	faults := hullFaults(wrong).Under("/hull")
	var b takeoff.Basis
	if frames != nil {
		read, inFrames := frame.Read(*frames)
		faults = append(faults, inFrames.Under("/frames")...)
		b.Frames = read
	}
	if len(faults) > 0 {
		return Measures{}, faults
	}
	h, err := offsets.Fit()
	var unfair *hull.FaultsError
	if errors.As(err, &unfair) {
		return Measures{}, hullFaults(unfair.Faults).Under("/hull")
	}
	if err != nil {
		return Measures{}, err
	}
	out := Measures{Grain: offsets.Notation.Format(offsets.Grain), GrainAssumed: offsets.GrainAssumed, Stations: []StationMeasures{}}
	for _, m := range h.Measures() {
		out.Stations = append(out.Stations, stationMeasures(m))
	}
	if frames != nil {
		b.Hull = h
		result, faults, err := run(b)
		if err != nil {
			return Measures{}, err
		}
		if len(faults) > 0 {
			return Measures{}, faults
		}
		out.Frames = result.Frames
	}
	return out, nil
}
