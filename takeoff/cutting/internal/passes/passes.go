// Package passes remembers how the table of a knapsack was filled, so that the best way to fill a room can be read back as
// of any moment: pass by pass, with a bit for each room in which the pass bettered the table.
package passes

import "iter"

// Pass is N of a thing put in together, Size in all, once or, with Again set, any number of times.
type Pass struct {
	Thing, Size int
	N           int64
	Again       bool
	took        Marks
}

// Marks has a bit for each room.
type Marks []uint64

// Set marks a room as bettered.
func (m Marks) Set(room int) { m[room>>6] |= 1 << (room & 63) }

func (m Marks) has(room int) bool { return m[room>>6]>>(room&63)&1 == 1 }

// Passes over one table, in the order they were made. Its memory is used again after Clear.
type Passes []Pass

// Clear forgets all passes.
func (p *Passes) Clear() { *p = (*p)[:0] }

// Begin adds a pass over a table of so many rooms and gives its marks, none set.
func (p *Passes) Begin(thing, size int, n int64, again bool, rooms int) Marks {
	words := rooms/64 + 1
	var took Marks
	if len(*p) < cap(*p) {
		took = (*p)[:len(*p)+1][len(*p)].took
	}
	if len(took) != words {
		took = make(Marks, words)
	} else {
		clear(took)
	}
	*p = append(*p, Pass{thing, size, n, again, took})
	return took
}

// Fill is how a room is filled best by the passes from first up to before last, last put in first: how many of which thing,
// a thing that several passes put in told several times.
func (p Passes) Fill(room, first, last int) iter.Seq2[int, int64] {
	return func(yield func(thing int, n int64) bool) {
		for i := last - 1; i >= first; i-- {
			for at := &p[i]; at.took.has(room); {
				if !yield(at.Thing, at.N) {
					return
				}
				if room -= at.Size; !at.Again {
					break
				}
			}
		}
	}
}

// Doublings are 1, 2, 4, ... and what then remains: sums of some of them make every number up to most.
func Doublings(most int64) iter.Seq[int64] {
	return func(yield func(n int64) bool) {
		for n := int64(1); most > 0; n *= 2 {
			n = min(n, most)
			if most -= n; !yield(n) {
				return
			}
		}
	}
}
