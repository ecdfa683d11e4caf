package floor_test

import (
	"math"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/floor"
	"ribband/takeoff/hull"
)

// floorBetween is a floor between straight sides that rise by an angle from the keel, its arms as long as said and as deep at their ends.
func floorBetween(t *testing.T, degrees, depth, reach, end float64) floor.Outline {
	t.Helper()
	s, c := math.Sincos(degrees * math.Pi / 180)
	h := hullOf(t, func(float64) []hull.Point {
		var out []hull.Point
		for i := range 9 {
			out = append(out, hull.Point{Y: 150 * float64(i) * c, Z: 100 + 150*float64(i)*s})
		}
		return out
	})
	port, starboard := lies(t, h, 1200, 0)
	o, err := floor.Draw(floor.Floor{No: 1, Depth: dec("150"), ArmEnd: fromFloat(end), Port: floor.Reach{Girth: fromFloat(reach)}, Starboard: floor.Reach{Girth: fromFloat(reach)}}, port, starboard, math.NaN())
	if err != nil {
		t.Fatal(err)
	}
	return o
}

// Between straight sides at an angle the fibre at half depth is as long as the depth over the tangent; an arm as deep at its end
// as over the keel, square to the planking, is crossed at about the sides' own angle, and none of it below the top is.
func TestGrainOfAFloorBetweenStraightSides(t *testing.T) {
	const tan35 = 0.7002075382
	o := floorBetween(t, 35, 150, 600, 60)
	g := o.Grain()
	holds(t, "the run", g.Run, 150/tan35, 0.5)
	// the upper edge rises from 150 over the keel to the corner: 600 along the side and 60 square to it
	s, c := math.Sincos(35 * math.Pi / 180)
	edge := (600*s + 60*c - 150) / (600*c - 60*s)
	holds(t, "the angle", g.Steepest*180/math.Pi, math.Atan((tan35+edge)/2)*180/math.Pi, 0.8)
	if g.Side != boat.Port && g.Side != boat.Starboard {
		t.Errorf("%+v", g)
	}
	// the middle of an arm passes the top where its own rise is half the depth: 75 mm up the slope of the middle
	y := 75 / ((tan35 + edge) / 2)
	whole := (600*c - 60*s - y) / math.Cos(g.Steepest)
	if got := g.Beyond(boat.Port, 15*math.Pi/180); math.Abs(got-whole) > 60 || got < 100 {
		t.Errorf("%v mm lie beyond, about %v wanted", got, whole)
	}
	if g.Beyond(boat.Starboard, math.Pi/2) != 0 {
		t.Error("more than square")
	}
}

// Of a flat floor every fibre runs through.
func TestGrainOfAFlatFloorRunsThrough(t *testing.T) {
	g := floorBetween(t, 6, 150, 600, 50).Grain()
	if g.Steepest != 0 || g.Side != "" || g.Beyond(boat.Port, 0) != 0 {
		t.Errorf("%+v", g)
	}
	holds(t, "the run", g.Run, 2*600*math.Cos(6*math.Pi/180), 0.5)
}

// A size by hand tells the least angle: 300 - 150 mm in half of 800.
func TestGrainByHand(t *testing.T) {
	f := floor.Floor{No: 1, Depth: dec("150"), ByHand: &floor.ByHand{Across: dec("800"), Height: dec("300")}}
	if g := floor.GrainByHand(f); !g.AtLeast || math.Abs(g.Steepest-math.Atan2(150, 400)) > 1e-12 {
		t.Errorf("%+v", g)
	}
	f.ByHand.Height = dec("100")
	if g := floor.GrainByHand(f); g.Steepest != 0 {
		t.Errorf("%+v", g)
	}
	if g := floor.GrainByHand(floor.Floor{}); g.Steepest != 0 {
		t.Errorf("%+v", g)
	}
}

// Straight grain is as strong as it is, square grain keeps Q of P, and more angle never leaves more.
func TestStrengthLeftFallsWithTheAngle(t *testing.T) {
	if least, most := floor.StrengthLeft(0); least != 1 || most != 1 {
		t.Errorf("%v %v", least, most)
	}
	if least, most := floor.StrengthLeft(math.Pi / 2); math.Abs(least-0.04) > 1e-9 || math.Abs(most-0.10) > 1e-9 {
		t.Errorf("%v %v", least, most)
	}
	before := 1.0
	for d := range 91 {
		least, most := floor.StrengthLeft(float64(d) * math.Pi / 180)
		if !(least <= most) || least > before {
			t.Errorf("%d degrees: %v to %v", d, least, most)
		}
		before = least
	}
	// one in five keeps 55 % (Wood Handbook, table of strength by slope of grain: from memory)
	if least, most := floor.StrengthLeft(math.Atan(0.2)); !(least < 0.55 && 0.55 < most) {
		t.Errorf("%v to %v", least, most)
	}
}
