package floor_test

import (
	"slices"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/notation"
)

func rows(change func(*floor.Row)) floor.Document {
	r := floor.Row{No: 12, Stands: floor.Aft, Siding: "2 1/2", Depth: "6", Seat: "-1", ArmEnd: "2", Arm: &floor.ArmRow{Girth: "20"}}
	if change != nil {
		change(&r)
	}
	return floor.Document{Notation: notation.Inches, Floors: []floor.Row{r}}
}

func TestRead(t *testing.T) {
	got, faults := floor.Read(rows(nil))
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	f := got[0]
	if f.Member() != (boat.Member{Kind: boat.Floor, No: 12}) || f.Member().Path() != "floor/12" || f.Member().String() != "floor 12" {
		t.Error(f.Member())
	}
	if f.Siding.String() != "63.5" || f.Depth.String() != "152.4" || f.Seat.String() != "-25.4" || f.Port.Girth.String() != "508" || !f.Reach(boat.Starboard).Girth.Equal(f.Port.Girth) {
		t.Errorf("%+v", f)
	}
	got, faults = floor.Read(rows(func(r *floor.Row) { r.Port = &floor.ArmRow{Height: "8"} }))
	if len(faults) > 0 || got[0].Port.Height.String() != "203.2" || got[0].Starboard.Girth.String() != "508" {
		t.Errorf("%+v, %v", got, faults)
	}
	// numbers from forward, whatever the order of rows
	d := rows(nil)
	d.Floors = append(d.Floors, d.Floors[0])
	d.Floors[1].No = 3
	if got, faults = floor.Read(d); len(faults) > 0 || got[0].No != 3 {
		t.Errorf("%+v, %v", got, faults)
	}
}

func TestEveryFaultOfAFloorIsNamed(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*floor.Row)
		want  []string
	}{
		"no place":        {func(r *floor.Row) { r.Stands = "" }, []string{"/stands"}},
		"two places":      {func(r *floor.Row) { r.X = "20" }, []string{"/stands"}},
		"siding":          {func(r *floor.Row) { r.Siding = "0" }, []string{"/siding"}},
		"siding in words": {func(r *floor.Row) { r.Siding = "thick" }, []string{"/siding"}},
		"depth":           {func(r *floor.Row) { r.Depth = "60" }, []string{"/depth"}},
		"seat":            {func(r *floor.Row) { r.Seat = "-50" }, []string{"/seat"}},
		"arm end":         {func(r *floor.Row) { r.ArmEnd = "-1" }, []string{"/arm_end"}},
		"no arm":          {func(r *floor.Row) { r.Arm = nil }, []string{"/arm"}},
		"no starboard":    {func(r *floor.Row) { r.Arm, r.Port = nil, &floor.ArmRow{Girth: "20"} }, []string{"/arm"}},
		"no port":         {func(r *floor.Row) { r.Arm, r.Starboard = nil, &floor.ArmRow{Girth: "20"} }, []string{"/arm"}},
		"arm twice":       {func(r *floor.Row) { r.Arm.Height = "4" }, []string{"/arm"}},
		"arm thrice":      {func(r *floor.Row) { r.Port, r.Starboard = &floor.ArmRow{Girth: "20"}, &floor.ArmRow{Girth: "20"} }, []string{"/arm"}},
		"arm of nothing":  {func(r *floor.Row) { r.Arm.Girth = "0" }, []string{"/arm/girth"}},
		"throat":          {func(r *floor.Row) { r.ThroatRadius = "0" }, []string{"/throat_radius"}},
		"number":          {func(r *floor.Row) { r.No = -1 }, []string{"/no"}},
		"by hand":         {func(r *floor.Row) { r.ByHand = &floor.ByHandRow{Across: "30", Height: ""} }, []string{"/by_hand/height"}},
		"short along":     {func(r *floor.Row) { r.ByHand = &floor.ByHandRow{Across: "30", Height: "9", Along: "20"} }, []string{"/by_hand/along"}},
	} {
		_, faults := floor.Read(rows(c.spoil))
		var got []string
		for _, f := range faults {
			got = append(got, f.Pointer[len("/floors/0"):])
			if f.Fix == "" || f.Detail == "" {
				t.Errorf("%s: %+v", name, f)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, %v wanted", name, got, c.want)
		}
	}
	d := rows(nil)
	d.Floors = append(d.Floors, d.Floors[0])
	if _, faults := floor.Read(d); len(faults) != 1 || faults[0].Pointer != "/floors/1/no" {
		t.Errorf("%v", faults)
	}
	d.Notation = "cubits"
	if _, faults := floor.Read(d); len(faults) != 1 || faults[0].Pointer != "/notation" {
		t.Errorf("%v", faults)
	}
	d = rows(nil)
	d.Floors = slices.Repeat(d.Floors, floor.MaxFloors+1)
	if _, faults := floor.Read(d); len(faults) != 1 || faults[0].Pointer != "/floors" {
		t.Errorf("%v", faults)
	}
}
