package web

import (
	"strconv"
	"strings"

	"ribband/server/internal/app"
)

// stationRow is one side of one station: what it measures, and how well its points show it.
type stationRow struct {
	What, At string
	Points   int
	Girth    span
	// Area is that of the section, from it to the centreline.
	Area span
	// Radius is the least one; Bends is false where there is no bend to speak of, Open true where the points do not tell it
	// from none, so that its range has no high end.
	Bends, Open bool
	Radius      span
	RadiusAt    string
	Hollow      bool
	// Well says that the least radius is good to a tenth and every bend is shown; Why says what is wanting where it is not.
	Well bool
	Why  string
	More *morePoint
}

// morePoint is where one more point would tell most of the tightest bend; Of names the section, where it is not the row's own.
type morePoint struct{ Along, HalfBreadth, Height, Of string }

func stationRowOf(s app.StationMeasures, in lengths) stationRow {
	row := stationRow{What: "Station " + strconv.Itoa(s.StationNo) + " " + string(s.Side), At: in.nearest(s.XMM), Points: s.Points,
		Girth: in.of(app.Ranged{Value: s.GirthMM, Low: s.GirthLowMM, High: s.GirthHighMM}),
		Area:  in.smallArea(s.SectionAreaM2)}
	if s.LeastRadiusMM != nil {
		r := app.Ranged{Value: *s.LeastRadiusMM, Low: *s.LeastRadiusLowMM, High: *s.LeastRadiusMM}
		row.Open = s.LeastRadiusHighMM == nil
		if !row.Open {
			r.High = *s.LeastRadiusHighMM
		}
		row.Bends, row.Radius, row.RadiusAt, row.Hollow = true, in.of(r), in.nearest(*s.LeastAtMM), s.Bend == "hollow"
	}
	var why []string
	if s.Doubtful {
		why = append(why, "the fair curve did not settle: measure again")
	}
	if len(s.NotShownAtMM) > 0 {
		var places []string
		for _, mm := range s.NotShownAtMM {
			places = append(places, in.nearest(mm))
		}
		why = append(why, "points too far apart to show the bend at "+strings.Join(places, ", "))
	}
	if row.Bends && !s.Sharp && len(why) == 0 {
		why = append(why, "the radius is not good to a tenth")
	}
	row.Well, row.Why = len(why) == 0, strings.Join(why, "; ")
	if m := s.OneMorePoint; m != nil {
		row.More = &morePoint{Along: in.nearest(m.AtMM), HalfBreadth: in.nearest(m.HalfBreadthMM), Height: in.nearest(m.HeightMM)}
	}
	return row
}
