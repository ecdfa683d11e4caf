package passes_test

import (
	"maps"
	"math/rand"
	"slices"
	"testing"

	"ribband/takeoff/cutting/internal/passes"
)

// Some of the doublings of a number make every number up to it and none above.
func TestDoublingsMakeEveryNumber(t *testing.T) {
	for most := range int64(200) {
		sums := map[int64]bool{0: true}
		for n := range passes.Doublings(most) {
			for _, s := range slices.Collect(maps.Keys(sums)) {
				sums[s+n] = true
			}
		}
		if int64(len(sums)) != most+1 || !sums[most] || sums[most+1] {
			t.Fatalf("%d: %d sums", most, len(sums))
		}
	}
}

// A room is read back last pass first, a pass that may stand again as often as it was marked, and cleared memory marks nothing.
func TestFillReadsBack(t *testing.T) {
	var p passes.Passes
	m := p.Begin(7, 3, 1, true, 100)
	m.Set(3)
	m.Set(6)
	m = p.Begin(9, 64, 2, false, 100)
	m.Set(70)
	type put struct {
		thing int
		n     int64
	}
	read := func(room, first, last int) (out []put) {
		for thing, n := range p.Fill(room, first, last) {
			out = append(out, put{thing, n})
		}
		return out
	}
	if got := read(70, 0, 2); !slices.Equal(got, []put{{9, 2}, {7, 1}, {7, 1}}) {
		t.Errorf("%v", got)
	}
	if got := read(70, 0, 1); got != nil {
		t.Errorf("%v of the first pass alone", got)
	}
	if got := read(6, 1, 2); got != nil {
		t.Errorf("%v of the second pass alone", got)
	}
	p.Clear()
	p.Begin(7, 3, 1, true, 100)
	if got := read(6, 0, 1); got != nil {
		t.Errorf("%v after all was forgotten", got)
	}
}

// Against the definition, room by room: what the table holds after a thing went in, and which rooms it bettered.
func TestOnceAndOftenBetterEveryRoom(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for range 2_000 {
		rooms := 2 + r.Intn(300)
		table, size, value := make([]int64, rooms), 1+r.Intn(rooms-1), int64(1+r.Intn(40))
		for x := range table {
			table[x] = int64(r.Intn(2 * (x + 1)))
		}
		for _, often := range []bool{false, true} {
			want, got, m := slices.Clone(table), slices.Clone(table), make(passes.Marks, rooms/64+1)
			for x := size; x < rooms; x++ {
				from := table
				if often {
					from = want
				}
				want[x] = max(table[x], from[x-size]+value)
			}
			if often {
				m.Often(got, size, value)
			} else {
				m.Once(got, size, value)
			}
			if !slices.Equal(got, want) {
				t.Fatalf("size %d, value %d, often %v: %v, want %v", size, value, often, got, want)
			}
			for x := range table {
				if marked := m[x>>6]>>(x&63)&1 == 1; marked != (want[x] > table[x]) {
					t.Fatalf("size %d, value %d, often %v: room %d is marked: %v", size, value, often, x, marked)
				}
			}
		}
	}
}
