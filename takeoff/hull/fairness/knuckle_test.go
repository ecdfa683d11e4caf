package fairness_test

import (
	"fmt"
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fairness"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/notation"
)

// chined is a boat of hollow bottom and straight topside that meet in a chine, written to millimetres: her chine rises to
// the ends, so that it crosses waterlines and buttocks.
func chined() *offsets.Document {
	doc := &offsets.Document{Notation: notation.Millimetres, Grain: "1", Surface: offsets.Inside}
	mm := func(v float64) string { return fmt.Sprintf("%.0f", v) }
	for i := range stations {
		t := float64(i)/4 - 1
		beam, rise := 1100*(1-.6*t*t), 150*t*t
		chineY, chineZ, sheerY, sheerZ := .8*beam, 400+rise, beam, 1200+rise/2
		s := offsets.SideOffsets{Side: boat.Both, Rabbet: &offsets.EndOffsets{Height: mm(200 + rise/2), HalfBreadth: "40"},
			Knuckles: []offsets.KnuckleOffsets{{Name: "chine", Height: mm(chineZ), HalfBreadth: mm(chineY)}},
			Sheer:    &offsets.EndOffsets{Height: mm(sheerZ), HalfBreadth: mm(sheerY)}}
		for z := 300.0; z < sheerZ-20; z += 100 {
			if z > chineZ+20 {
				s.Waterlines = append(s.Waterlines, offsets.WaterlineOffsets{Height: mm(z), HalfBreadth: mm(chineY + (sheerY-chineY)*(z-chineZ)/(sheerZ-chineZ))})
			}
		}
		for y := 100.0; y < chineY-20; y += 100 {
			u := (y - 40) / (chineY - 40)
			s.Buttocks = append(s.Buttocks, offsets.ButtockOffsets{HalfBreadth: mm(y), Height: mm(200 + rise/2 + (200+rise/2)*(.6*u+.4*u*u))})
		}
		doc.Stations = append(doc.Stations, offsets.StationOffsets{No: i, X: mm(1000 * float64(i)), Sides: []offsets.SideOffsets{s}})
	}
	return doc
}

// The corner of a declared knuckle is no offset out of line, neither across the boat nor where its line crosses others; a
// figure misread between knuckles is told, and so is the knuckle's own.
func TestAKnuckleIsNotOutOfLine(t *testing.T) {
	if r := sound(t, chined()); len(r.Beyond()) > 0 || len(r.Offsets) < 150 {
		t.Errorf("%d judged, told: %+v", len(r.Offsets), r.Beyond())
	}
	between := chined()
	w := &between.Stations[4].Sides[0].Waterlines[3]
	was, _ := between.Notation.Parse(w.HalfBreadth)
	w.HalfBreadth = fmt.Sprintf("%.0f", was.MM()+25)
	r := sound(t, between)
	if told(r, 4, "wl:"+w.Height) != 0 || len(r.Beyond()) != 1 || math.Abs(r.Offsets[0].Fair.MM()-was.MM()) > 3 {
		t.Errorf("a waterline between knuckles 25 mm off: %+v", r.Beyond())
	}
	own := chined()
	k := &own.Stations[4].Sides[0].Knuckles[0]
	was, _ = own.Notation.Parse(k.Height)
	k.Height = fmt.Sprintf("%.0f", was.MM()-60)
	r = sound(t, own)
	if told(r, 4, "knuckle_height:chine") != 0 {
		t.Fatalf("a knuckle 60 mm too low: %+v", r.Beyond())
	}
	if o := r.Offsets[0]; o.Line != "knuckle_height" || o.At != "chine" || o.Way != fairness.Low || math.Abs(o.Fair.MM()-was.MM()) > 6 {
		t.Errorf("told: %+v", o)
	}
}
