package app

import (
	"math"

	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/offsets"
)

// EndPlanking is what lies beyond an end station of one side, to the stem's or the transom's line, by level lines. It is
// in none of the other figures. A transom short of the last station takes away, and the figures are below 0.
type EndPlanking struct {
	End      string  `json:"end"` // stem or transom
	AreaM2   float64 `json:"area_m2"`
	VolumeM3 float64 `json:"volume_m3"`
	Caution  string  `json:"caution,omitempty"`
}

const coarseEnd = "the end is round and its end station stands farther from the stem than an eighth of the stations' spacing: measure sections at a half and at an eighth of the spacing"

// notBeyond is an end whose line was not measured.
func notBeyond(what, because, fix string) NotCounted {
	return NotCounted{"planking " + what, because, fix}
}

// ends of one side, of those whose lines were measured; the others are told as not counted.
func (s *SideSurface) ends(d *area.Side, t *offsets.Table) (found withEnds, missing []NotCounted) {
	for _, e := range []struct {
		name, what, fix string
		line            []offsets.Profile
		ending          area.Ending
	}{
		{"stem", "forward of the first station", "measure the line of the stem: at two heights or more, how far from station 0 the rabbet stands", t.Stem, area.Ending{}},
		{"transom", "aft of the last station", "measure the line of the transom, at two heights or more, or a station at the end of the planking", t.Transom, area.Ending{Aft: true, Transom: true}},
	} {
		for _, p := range e.line {
			e.ending.Line = append(e.ending.Line, area.Profile{Z: p.Z.MM(), X: p.X.MM()})
		}
		if len(e.line) == 0 {
			missing = append(missing, notBeyond(e.what, "the surface runs between the end stations, and the line on which it ends was not measured", e.fix))
			continue
		}
		end, err := d.End(e.ending, math.Inf(1))
		if err != nil {
			missing = append(missing, notBeyond(e.what, err.Error(), e.fix))
			continue
		}
		out := EndPlanking{End: e.name, AreaM2: m2(end.Area), VolumeM3: m3(end.Volume)}
		if end.Coarse {
			out.Caution = coarseEnd
		}
		s.Ends = append(s.Ends, out)
		found.endings = append(found.endings, e.ending)
		found.part, found.open = found.part.Plus(end.Part, 1), found.open.Plus(end.Open)
	}
	return found, missing
}
