package cutting

import "ribband/takeoff/cutting/internal/passes"

// knapsack is the integer table behind everything: the most that layouts of each room can be worth, for all boards
// at once. Items go in one after another; one that may stand several times goes in as 1, 2, 4, ... of it together,
// or any number of times where its room alone limits it.
type knapsack struct {
	items  []item
	most   []int64 // how often each item may stand in one strip
	f      []int64 // f[x] is the most for room x
	base   []int64 // what a room is worth with nothing cut from it, nil for nothing
	passes passes.Passes
	work   int64
}

func newKnapsack(items []item, cells int) *knapsack {
	k := &knapsack{items: items, most: make([]int64, len(items)), f: make([]int64, cells+1)}
	for i, it := range items {
		k.most[i] = min(it.most, int64(cells/it.size))
	}
	return k
}

// run fills the table for these values; items worth nothing stay out. Short pieces go in first, so that long ones
// pass over the low end.
func (k *knapsack) run(values []int64) { k.runWatched(values, func(int) {}) }

// runWatched calls seen after each item.
func (k *knapsack) runWatched(values []int64, seen func(item int)) {
	if clear(k.f); k.base != nil {
		copy(k.f, k.base)
	}
	k.passes.Clear()
	for i := len(k.items) - 1; i >= 0; i-- {
		if values[i] > 0 && k.most[i] > 0 {
			k.putAll(i, values[i])
		}
		seen(i)
	}
}

// putAll puts in as many of an item as may stand in a strip.
func (k *knapsack) putAll(i int, value int64) {
	size, most := k.items[i].size, k.most[i]
	if most > 1 && most >= int64((len(k.f)-1)/size) {
		k.put(i, 1, value, true)
		return
	}
	for n := range passes.Doublings(most) {
		if int64(size)*n < int64(len(k.f)) {
			k.put(i, n, value*n, false)
		}
	}
}

func (k *knapsack) put(i int, n, value int64, again bool) {
	size := k.items[i].size * int(n)
	took := k.passes.Begin(i, size, n, again, len(k.f))
	k.work += int64(len(k.f) - size)
	if again {
		took.Often(k.f, size, value)
	} else {
		took.Once(k.f, size, value)
	}
}

// layout reads the best layout of a room, of the first n passes only.
func (k *knapsack) layout(room, n int) []count {
	var out []count
	for i, k := range k.passes.Fill(room, 0, n) {
		if m := len(out); m > 0 && out[m-1].item == i {
			out[m-1].k += k
		} else {
			out = append(out, count{i, k})
		}
	}
	return out
}
