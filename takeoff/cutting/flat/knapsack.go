package flat

// knapsack is a table of the most that things of some sizes can be worth in each room. They go in one after another; the
// best way to fill a room is read back as of any moment.
type knapsack struct {
	f      []int64 // f[x] is the most for room x
	passes []pass
	work   int64
}

// pass is n of a thing put in together, once or, with again set, any number of times; took has a bit for each room in
// which that bettered the table.
type pass struct {
	thing, size int
	n           int64
	again       bool
	took        []uint64
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
	k.passes = k.passes[:0]
}

// put lets up to most of a thing stand in a room.
func (k *knapsack) put(thing int, size, value, most int64) {
	all := int64(len(k.f)-1) / size
	switch {
	case value <= 0 || most <= 0 || all == 0:
	case most > 1 && most >= all:
		k.pass(thing, size, 1, value, true)
	default:
		for n := int64(1); most > 0; n *= 2 { // 1, 2, 4, ... together make every number up to most
			n = min(n, most)
			if n*size < int64(len(k.f)) {
				k.pass(thing, n*size, n, n*value, false)
			}
			most -= n
		}
	}
}

func (k *knapsack) pass(thing int, size, n, value int64, again bool) {
	words := len(k.f)/64 + 1
	var took []uint64
	if len(k.passes) < cap(k.passes) {
		took = k.passes[:len(k.passes)+1][len(k.passes)].took
	}
	if len(took) != words {
		took = make([]uint64, words)
	} else {
		clear(took)
	}
	k.passes = append(k.passes, pass{thing, int(size), n, again, took})
	k.work += int64(len(k.f)) - size
	at := func(x int) {
		if v := min(k.f[x-int(size)]+value, bigWorth); v > k.f[x] {
			k.f[x] = v
			took[x>>6] |= 1 << (x & 63)
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
	x := int(room)
	for i := last - 1; i >= first; i-- {
		p := &k.passes[i]
		for p.took[x>>6]>>(x&63)&1 == 1 {
			if m := len(out); m > 0 && out[m-1].thing == p.thing {
				out[m-1].n += p.n
			} else {
				out = append(out, pick{p.thing, p.n})
			}
			x -= p.size
			if !p.again {
				break
			}
		}
	}
	return out
}
