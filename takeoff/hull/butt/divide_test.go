package butt_test

import (
	"testing"

	"ribband/takeoff/hull/butt"
)

// One more butt parts a plank where both parts come out of the longest board and keep to the least length, nearest the middle,
// clear of the butts beside it; where nothing does, there is none.
func TestOneButtMore(t *testing.T) {
	var frames []butt.Frame
	for no := range 31 {
		frames = append(frames, butt.Frame{No: no, X: 300 * float64(no)})
	}
	s, err := butt.New(butt.Usual(), frames, butt.Alike(3, 0, 9000), func(_ int, a, b float64) float64 { return b - a })
	if err != nil {
		t.Fatal(err)
	}
	for name, c := range map[string]struct {
		beside  []float64
		longest float64
		want    float64
		ok      bool
	}{
		"in the middle":          {nil, 5000, 4350, true},
		"clear of one beside it": {[]float64{4350}, 6000, 5250, true},
		"boards too short":       {nil, 4400, 0, false},
	} {
		x, ok := s.Divide(1, 0, 9000, [][]float64{c.beside, nil, nil}, c.longest)
		if ok != c.ok || x != c.want {
			t.Errorf("%s: %v %v, %v %v wanted", name, x, ok, c.want, c.ok)
		}
	}
	if _, ok := s.Divide(1, 0, 3300, make([][]float64, 3), 9000); ok {
		t.Error("a plank of eleven spaces was parted into two of at least six")
	}
}
