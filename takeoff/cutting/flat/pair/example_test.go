package pair_test

import (
	"fmt"

	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/cutting/flat/pair"
)

// Eight knees with arms of 90 mm from boards of 400 x 2000 mm: two lie in each other's angle.
func Example() {
	outline, err := pair.Outline([][2]float64{{0, 0}, {300, 0}, {300, 90}, {90, 90}, {90, 350}, {0, 350}}, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	one, _ := pair.Bounds(outline)
	two, _ := pair.Least(outline)
	plan, err := flat.Solve(flat.List{
		Stock:  []flat.Stock{{ID: "board", Width: 400, Length: 2000, Price: 8000, Avail: -1}},
		Pieces: []flat.Piece{{ID: "knee", Width: one.Width, Length: one.Length, Qty: 8, Pair: &two.Size}},
		Rules:  flat.Rules{Kerf: 4, First: flat.Across, Stages: 2},
	})
	fmt.Println(one, two.Size, plan.Cost, plan.Proven, err)
	// Output: {300 350} {300 440} 8000 true <nil>
}
