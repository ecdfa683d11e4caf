package flat

import "ribband/takeoff/cutting/internal/passes"

// knapsack is a table of the most that things of some sizes can be worth in each room. They go in one after another; the
// best way to fill a room is read back as of any moment.
type knapsack struct {
	f      []int64 // f[x] is the most for room x
	passes passes.Passes
	work   int64
}

// pick is n of a thing.
type pick struct {
	thing int
	n     int64
}

func newKnapsack(room int64) *knapsack { return &knapsack{f: make([]int64, room+1)} }

// clear forgets all that was put in.
func (k *knapsack) clear() {
	clear(k.f)
	k.passes.Clear()
}

// put lets up to most of a thing stand in a room.
func (k *knapsack) put(thing int, size, value, most int64) {
	all := int64(len(k.f)-1) / size
	switch {
	case value <= 0 || most <= 0 || all == 0:
	case most > 1 && most >= all:
		k.pass(thing, size, 1, value, true)
	default:
		for n := range passes.Doublings(most) {
			if n*size < int64(len(k.f)) {
				k.pass(thing, n*size, n, n*value, false)
			}
		}
	}
}

func (k *knapsack) pass(thing int, size, n, value int64, again bool) {
	took := k.passes.Begin(thing, int(size), n, again, len(k.f))
	k.work += int64(len(k.f)) - size
	at := func(x int) {
		if v := min(k.f[x-int(size)]+value, bigWorth); v > k.f[x] {
			k.f[x] = v
			took.Set(x)
		}
	}
	if again {
		for x := int(size); x < len(k.f); x++ {
			at(x)
		}
		return
	}
	for x := len(k.f) - 1; x >= int(size); x-- {
		at(x)
	}
}

// fill reads how a room is filled best by the passes from first up to before last, last put in first.
func (k *knapsack) fill(room int64, first, last int) []pick {
	var out []pick
	for thing, n := range k.passes.Fill(int(room), first, last) {
		if m := len(out); m > 0 && out[m-1].thing == thing {
			out[m-1].n += n
		} else {
			out = append(out, pick{thing, n})
		}
	}
	return out
}
