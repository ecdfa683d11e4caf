package app

import (
	"context"
	"errors"

	"ribband/server/internal/auth"
	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/floor"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/pattern"
	"ribband/takeoff/quantity"
	"ribband/takeoff/rules"
)

// Measures is what a hull measures: every station and side, and every frame and side where frames are known.
type Measures struct {
	// Grain is what the offsets were written to, in their notation; GrainAssumed that nobody declared it. Every range
	// rests on it. Empty where there are no lines.
	Grain        string `json:"grain,omitempty"`
	GrainAssumed bool   `json:"grain_assumed"`
	// Measured is the face of the plank that the offsets are to, "inside" or "outside"; everything here is of the inside.
	Measured string            `json:"measured_surface,omitempty"`
	Stations []StationMeasures `json:"stations"`
	Frames   []frame.Measures  `json:"frames,omitempty"`
	// Floors are every floor's rectangle, arms and grain, the grain held against rules.DefaultSawnGrain.
	Floors []takeoff.FloorMeasures `json:"floors,omitempty"`
	// Surface is the planking of each side, Zones its bays between frames, Areas what a waterline cuts it into where one
	// was asked for. All are of the lines, so empty where there are none.
	Surface    []SideSurface   `json:"surface,omitempty"`
	Zones      []Zone          `json:"zones,omitempty"`
	Areas      *WaterlineAreas `json:"areas,omitempty"`
	NotCounted []NotCounted    `json:"not_counted"`
	// Warnings are of a table that was read worse than it was written, of marks that could not be laid to the inside of plank
	// as they stand, and of patterns: read worse than they were written, off the lines, or of no frame.
	Warnings []bill.Warning `json:"warnings,omitempty"`
	// Fairness is of the lines, so absent where there are none.
	Fairness *Fairness `json:"fairness,omitempty"`
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
	// SectionAreaM2 is from the section to the centreline.
	SectionAreaM2 Ranged `json:"section_area_m2"`
	LeastBend
	// OneMorePoint is where one more would tell most of the tightest bend; absent where there is none, and of a section
	// with knuckles.
	OneMorePoint *OneMorePoint `json:"one_more_point,omitempty"`
}

// OneMorePoint is a place to measure: along the girth from the rabbet, and where the line runs there now.
type OneMorePoint struct {
	AtMM          float64 `json:"at_mm"`
	HalfBreadthMM float64 `json:"half_breadth_mm"`
	HeightMM      float64 `json:"height_mm"`
}

// stationsMeasured are all stations of a hull, from forward, port before starboard.
func stationsMeasured(h *hull.Hull) ([]StationMeasures, error) {
	grain := h.Grain()
	type place struct {
		no   int
		side boat.Side
	}
	more := map[place]*OneMorePoint{}
	for _, side := range boat.Sides {
		wanted, err := h.Wanted(side)
		if err != nil {
			return nil, err
		}
		for _, w := range wanted {
			more[place{w.Station, side}] = &OneMorePoint{quantity.Thousandth(w.Along), quantity.Thousandth(w.Y), quantity.Thousandth(w.Z)}
		}
	}
	var out []StationMeasures
	for _, m := range h.Measures() {
		one := stationMeasures(m, grain)
		if !one.Straight {
			one.OneMorePoint = more[place{m.Station, m.Section.Side}]
		}
		out = append(out, one)
	}
	return out, nil
}

// stationMeasures of a station written to the grain, mm.
func stationMeasures(m hull.Measure, grain float64) StationMeasures {
	s := m.Section
	return StationMeasures{
		StationNo: m.Station, XMM: quantity.Thousandth(m.X), Side: s.Side, RestsOn: s.RestsOn, Points: s.Points,
		GirthMM: quantity.Thousandth(s.Girth.MM), GirthLowMM: quantity.Thousandth(s.Girth.Low), GirthHighMM: quantity.Thousandth(s.Girth.High),
		SectionAreaM2: ranged(s.Area(grain), squareMetre), LeastBend: leastBend(s),
	}
}

// Measures of a job as it stands: of its lines where it has them, of its frames and its floors. waterline, mm, is nil where none is
// asked for.
func (a *App) Measures(ctx context.Context, who auth.Principal, job string, waterline *float64) (Measures, error) {
	if _, err := a.Job(ctx, who, job); err != nil {
		return Measures{}, err
	}
	of, err := a.measured(ctx, who, job)
	if err != nil {
		return Measures{}, err
	}
	if of.Hull == nil && of.Frames == nil {
		return Measures{}, &MissingDocumentError{"the job has neither a hull nor frames yet", "put the offsets of the job, or frames with their tapes or patterns, first"}
	}
	m, err := a.MeasuresOf(ctx, of, waterline)
	var faults document.Faults
	if errors.As(err, &faults) {
		return Measures{}, &ComputeError{faults}
	}
	return m, err
}

// Measured is what can be measured: lines, patterns, frames and floors, each nil where there is none.
type Measured struct {
	Hull     *offsets.Document
	Patterns *pattern.Document
	Frames   *frame.Document
	Floors   *floor.Document
}

// measured are a job's documents.
func (a *App) measured(ctx context.Context, who auth.Principal, job string) (m Measured, err error) {
	h, err := a.Hull(ctx, who, job)
	if m.Hull, err = present(h, err); err != nil {
		return m, err
	}
	p, err := a.Patterns(ctx, who, job)
	if m.Patterns, err = present(p, err); err != nil {
		return m, err
	}
	f, err := a.Frames(ctx, who, job)
	if m.Frames, err = present(f, err); err != nil {
		return m, err
	}
	across, err := a.Floors(ctx, who, job)
	m.Floors, err = present(across, err)
	return m, err
}

// present is a document, or nil where there is none.
func present[T any](d Written[T], err error) (*T, error) {
	if gone(err) {
		return nil, nil
	}
	return &d.Doc, err
}

// MeasuresOf what came along. waterline, mm, is nil where none is asked for.
func (a *App) MeasuresOf(ctx context.Context, of Measured, waterline *float64) (Measures, error) {
	done, err := a.heavy(ctx)
	if err != nil {
		return Measures{}, err
	}
	defer done()
	shapes, faults := readShapes(of.Hull, of.Patterns)
	var b takeoff.Basis
	if of.Frames != nil {
		read, inFrames := frame.Read(*of.Frames)
		faults = append(faults, inFrames.Under("/frames")...)
		b.Frames = read
	}
	if of.Floors != nil {
		read, inFloors := floor.Read(*of.Floors)
		faults = append(faults, inFloors.Under("/floors")...)
		b.Floors = read
	}
	if len(faults) > 0 {
		return Measures{}, faults
	}
	b.Rules.ShapeTolerance = rules.DefaultShapeTolerance
	if faults = shapes.fit(&b); len(faults) > 0 {
		return Measures{}, faults
	}
	out := Measures{Stations: []StationMeasures{}}
	if b.Hull != nil {
		out.Grain, out.GrainAssumed = shapes.offsets.Notation.Format(shapes.offsets.Grain), shapes.offsets.GrainAssumed
		out.Measured, out.Warnings = shapes.offsets.Surface, append(takeoff.ReadWorse(b.Hull), takeoff.Crossed(b.Hull)...)
		var err error
		if out.Stations, err = stationsMeasured(b.Hull); err != nil {
			return Measures{}, err
		}
	}
	out.Fairness = fairnessOf(shapes.judged(b.Hull))
	if err := out.planked(&b, shapes.offsets, waterline); err != nil {
		return Measures{}, err
	}
	if of.Frames != nil || b.Hull != nil && of.Floors != nil {
		result, faults, err := run(b)
		if err != nil {
			return Measures{}, err
		}
		if len(faults) > 0 {
			return Measures{}, faults
		}
		out.Frames, out.Floors = result.Frames, result.Floors
		out.Warnings = append(out.Warnings, ofPatterns(result.Bill.Warnings)...)
	}
	return out, nil
}

// ofPatterns are those of a takeoff's warnings that concern how patterns were measured.
func ofPatterns(all []bill.Warning) []bill.Warning {
	var out []bill.Warning
	for _, w := range all {
		switch w.Code {
		case "pattern_off_lines", "patterns_read_worse", "pattern_of_no_frame":
			out = append(out, w)
		}
	}
	return out
}
