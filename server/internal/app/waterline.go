package app

import (
	"fmt"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/quantity"
)

// WaterlineAreas is what lies below and above a height: planking of each side, and of both sides together the volume
// below with its centre and the water plane.
type WaterlineAreas struct {
	WaterlineMM float64         `json:"waterline_mm"`
	Sides       []WaterlineSide `json:"sides"`
	VolumeM3    float64         `json:"volume_m3"`
	// The ends of the ranges of both sides together are the sums of the sides': a boat measured on one side errs alike on
	// both.
	VolumeLowM3      float64       `json:"volume_low_m3"`
	VolumeHighM3     float64       `json:"volume_high_m3"`
	Centre           *VolumeCentre `json:"centre,omitempty"`
	WaterplaneM2     float64       `json:"waterplane_m2"`
	WaterplaneLowM2  float64       `json:"waterplane_low_m2"`
	WaterplaneHighM2 float64       `json:"waterplane_high_m2"`
	// WaterplaneXMM is the plane's centre aft of station 0, with what it lies between nine times in ten.
	WaterplaneXMM     *float64 `json:"waterplane_x_mm,omitempty"`
	WaterplaneXLowMM  *float64 `json:"waterplane_x_low_mm,omitempty"`
	WaterplaneXHighMM *float64 `json:"waterplane_x_high_mm,omitempty"`
	Cautions          []string `json:"cautions"`

	below area.Part
	plane area.Plane
	// volume, mm³, and water, mm², are between what they lie.
	volume, water [2]float64
	// open are the half widths of the sides' centres, each times the side's volume, and openX those of the planes', each
	// times its area: a boat measured on one side errs alike on both, so that of both is their mean.
	open  area.OpenCentre
	openX float64
}

// WaterlineSide is one side's part of it.
type WaterlineSide struct {
	Side boat.Side `json:"side"`
	// BelowM2 and AboveM2 are of the planking between the end stations, with what they lie between nine times in ten.
	BelowM2      float64 `json:"below_m2"`
	BelowLowM2   float64 `json:"below_low_m2"`
	BelowHighM2  float64 `json:"below_high_m2"`
	AboveM2      float64 `json:"above_m2"`
	AboveLowM2   float64 `json:"above_low_m2"`
	AboveHighM2  float64 `json:"above_high_m2"`
	VolumeM3     float64 `json:"volume_m3"`
	WaterplaneM2 float64 `json:"waterplane_m2"`
	// What volume and water plane lie between nine times in ten.
	VolumeLowM3      float64 `json:"volume_low_m3"`
	VolumeHighM3     float64 `json:"volume_high_m3"`
	WaterplaneLowM2  float64 `json:"waterplane_low_m2"`
	WaterplaneHighM2 float64 `json:"waterplane_high_m2"`
	// WithEnds are the side's planking and volume with its ends, where any was measured.
	WithEnds *WaterlineWithEnds `json:"with_ends,omitempty"`
}

// side adds one side, whose whole planking is known; what lies above is what is not below.
func (w *WaterlineAreas) side(side boat.Side, d *area.Side, s *hull.Surface, z float64, ends withEnds) error {
	below, err := d.Part(area.Below(z))
	if err != nil {
		return err
	}
	plane, err := d.Waterplane(z)
	if err != nil {
		return err
	}
	with, err := ends.at(d, below, z)
	if err != nil {
		return err
	}
	above := ends.whole.Plus(below, -1)
	open := ends.sure.OfPart(below, ends.whole)
	low, high := open.Area, ends.sure.OfPart(above, ends.whole).Area
	half, err := d.OpenPlane(z, plane, ends.sure)
	if err != nil {
		return err
	}
	at, err := d.OpenCentre(z, below, ends.whole, ends.sure)
	if err != nil {
		return err
	}
	planeAt, err := d.OpenPlaneCentre(z, plane, half)
	if err != nil {
		return err
	}
	volume, water := [2]float64{max(0, below.Volume-open.Volume), below.Volume + open.Volume}, [2]float64{max(0, plane.Area-half), plane.Area + half}
	w.Sides = append(w.Sides, WaterlineSide{
		Side: side, BelowM2: m2(below.Area), BelowLowM2: m2(max(0, below.Area-low)), BelowHighM2: m2(below.Area + low),
		AboveM2: m2(max(0, above.Area)), AboveLowM2: m2(max(0, above.Area-high)), AboveHighM2: m2(max(0, above.Area) + high),
		VolumeM3: m3(below.Volume), VolumeLowM3: m3(volume[0]), VolumeHighM3: m3(volume[1]),
		WaterplaneM2: m2(plane.Area), WaterplaneLowM2: m2(water[0]), WaterplaneHighM2: m2(water[1]), WithEnds: with,
	})
	for i := range volume {
		w.volume[i] += volume[i]
		w.water[i] += water[i]
	}
	w.open.X, w.open.Z, w.openX = w.open.X+at.X*below.Volume, w.open.Z+at.Z*below.Volume, w.openX+planeAt*plane.Area
	w.below = w.below.Plus(below, 1)
	w.plane.Area += plane.Area
	w.plane.Moment += plane.Moment
	w.cautionOf(side, s, z)
	return nil
}

// cautionOf says where the waterline does not cut the side from end to end.
func (w *WaterlineAreas) cautionOf(side boat.Side, s *hull.Surface, z float64) {
	over, under := 0, 0
	stations := s.Stations()
	for _, x := range stations {
		if s.Jet(1, x).Z < z {
			over++
		}
		if s.Jet(0, x).Z > z {
			under++
		}
	}
	n := len(stations)
	switch {
	case over == n:
		w.Cautions = append(w.Cautions, fmt.Sprintf("%s: the whole sheer lies below the waterline, and there is no water plane", side))
	case over > 0:
		w.Cautions = append(w.Cautions, fmt.Sprintf("%s: the sheer lies below the waterline at %d of %d stations, where no water plane is counted", side, over, n))
	}
	switch {
	case under == n:
		w.Cautions = append(w.Cautions, fmt.Sprintf("%s: the whole rabbet lies above the waterline, so nothing is below", side))
	case under > 0:
		w.Cautions = append(w.Cautions, fmt.Sprintf("%s: the rabbet lies above the waterline at %d of %d stations", side, under, n))
	}
}

// close sums what is of both sides.
func (w *WaterlineAreas) close() {
	w.VolumeM3, w.WaterplaneM2 = m3(w.below.Volume), m2(w.plane.Area)
	w.Centre = centre(w.below, area.OpenCentre{X: w.open.X / w.below.Volume, Z: w.open.Z / w.below.Volume})
	w.VolumeLowM3, w.VolumeHighM3 = m3(w.volume[0]), m3(w.volume[1])
	w.WaterplaneLowM2, w.WaterplaneHighM2 = m2(w.water[0]), m2(w.water[1])
	if x, ok := w.plane.Centre(); ok {
		half := w.openX / w.plane.Area
		of := func(mm float64) *float64 { mm = quantity.Thousandth(mm); return &mm }
		w.WaterplaneXMM, w.WaterplaneXLowMM, w.WaterplaneXHighMM = of(x), of(x-half), of(x+half)
	}
	if w.Cautions == nil {
		w.Cautions = []string{}
	}
}
