package flat_test

import (
	"testing"

	"ribband/takeoff/cutting/flat"
)

// Hand-worked: boards at 212 and 304 and joints at 97 form 1032 + 97, and nothing from 1106 on below it. Against adding up all numbers, for small ones.
func TestLeastSum(t *testing.T) {
	if got := flat.LeastSum(1106-97, []int64{304, 212, 304}); got != 1032 {
		t.Errorf("%d", got)
	}
	for floor := range int64(60) {
		for _, p := range [][]int64{{7, 11}, {5, 9, 13}, {4}, {6, 10}} {
			formed := map[int64]bool{0: true}
			want := floor
			for sum := int64(1); sum < 200; sum++ {
				for _, price := range p {
					formed[sum] = formed[sum] || formed[sum-price]
				}
			}
			for floor > 0 && !formed[want] {
				want++
			}
			if got := flat.LeastSum(floor, p); got != want {
				t.Errorf("%d of %v: %d, %d wanted", floor, p, got, want)
			}
		}
	}
	if got := flat.LeastSum(5, []int64{0, 3}); got != 5 {
		t.Errorf("with a price of nothing %d", got)
	}
}
