package app

import (
	"fmt"

	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/offsets"
)

// meanPlank is the thickness of the planking, mm, each station's counting for half the bay on either hand: the outside
// grows with the thickness in proportion, nearly. ok is false where a station has none.
func meanPlank(t *offsets.Table) (thickness float64, ok bool) {
	length := 0.0
	last := len(t.Stations) - 1
	for i, s := range t.Stations {
		if s.Thickness.Sign() <= 0 {
			return 0, false
		}
		bay := t.Stations[min(last, i+1)].X.MM() - t.Stations[max(0, i-1)].X.MM()
		thickness, length = thickness+bay*s.Thickness.MM(), length+bay
	}
	return thickness / length, length > 0
}

// outside adds the outside of plank, or tells why it is not counted. Where the table gives no thickness nobody asked.
func (s *SideSurface) outside(d *area.Side, t *offsets.Table, sections []hull.Measure, sure area.Sure) ([]NotCounted, error) {
	thickness, ok := meanPlank(t)
	if !ok {
		return nil, nil
	}
	for _, m := range sections {
		if least := m.Section.Least(); !m.Section.Straight && least.Hollow && least.Radius().MM <= thickness {
			return []NotCounted{{fmt.Sprintf("outside of plank, %s", s.Side), fmt.Sprintf("the hollow of station %d is tighter than the plank is thick", m.Station),
				"check plank_thickness, and the figures about this hollow"}}, nil
		}
	}
	outside, err := d.Outside(area.Everything(), thickness)
	if err != nil {
		return nil, err
	}
	figure := within(outside, sure.Area, squareMetre)
	s.OutsideAreaM2 = &figure
	return nil, nil
}
