package app

import (
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
)

// WithEnds is one side's planking and volume with what lies beyond the end stations as far as that was measured.
type WithEnds struct {
	AreaM2   Ranged `json:"area_m2"`
	VolumeM3 Ranged `json:"volume_m3"`
}

// WaterlineWithEnds is what of it lies below and above a height.
type WaterlineWithEnds struct {
	BelowM2  Ranged `json:"below_m2"`
	AboveM2  Ranged `json:"above_m2"`
	VolumeM3 Ranged `json:"volume_m3"`
}

// withEnds is a side between its end stations, and its ends whose lines were measured.
type withEnds struct {
	whole   area.Part
	sure    area.Sure
	endings []area.Ending
	part    area.Part // of all endings
	open    area.Open
}

// about is a figure and its range by a half width.
func about(figure, half, unit float64) Ranged {
	return ranged(hull.Reading{MM: figure, Low: max(0, figure-half), High: figure + half}, unit)
}

// total of the side, nil where no end was measured.
func (w *withEnds) total() *WithEnds {
	if len(w.endings) == 0 {
		return nil
	}
	p, open := w.whole.Plus(w.part, 1), w.sure.Of(w.whole).Plus(w.open)
	return &WithEnds{about(p.Area, open.Area, squareMetre), about(p.Volume, open.Volume, cubicMetre)}
}

// at cuts the side and its ends at the height z, below being what of the side lies below it; nil where no end was measured.
func (w *withEnds) at(d *area.Side, below area.Part, z float64) (*WaterlineWithEnds, error) {
	if len(w.endings) == 0 {
		return nil, nil
	}
	low, open := below, w.sure.OfPart(below, w.whole)
	for _, e := range w.endings {
		end, err := d.End(e, z)
		if err != nil {
			return nil, err
		}
		low, open = low.Plus(end.Part, 1), open.Plus(end.Open)
	}
	above := w.whole.Plus(w.part, 1).Plus(low, -1)
	openAbove := w.sure.OfPart(w.whole.Plus(below, -1), w.whole).Plus(w.open)
	return &WaterlineWithEnds{
		BelowM2:  about(low.Area, open.Area, squareMetre),
		AboveM2:  about(max(0, above.Area), openAbove.Area, squareMetre),
		VolumeM3: about(low.Volume, open.Volume, cubicMetre),
	}, nil
}
