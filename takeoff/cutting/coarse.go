package cutting

// coarse is a scale on which exactly the same layouts fit as on the step of the list, in fewer cells.
//
// Lengths in whole millimetres and a kerf in inches share only a very small step, though what fits hardly depends on it.
// All sizes are base + d x n with one base below d; k pieces fit a room R when d x sum(n) + k x base <= R, that is when
// sum(n) is at most a limit for each k. A piece of n x cells + extra and a room chosen between those limits say the same
// with few cells to the d, as few pieces fit a board.
type coarse struct {
	base, d      int64
	cells, extra int64 // of a piece: n x cells + extra
}

// More pieces than this to a strip, or more cells to the d, are not tried.
const (
	mostAlong  = 48
	mostCoarse = 32
)

// coarsen finds the scale with fewest cells to the d for these sizes and rooms, in any unit; ok is false where none was
// found that saves half the cells of a table in steps of step.
func coarsen(sizes, rooms []int64, step int64) (c coarse, ok bool) {
	least, longest := sizes[0], int64(0)
	for _, size := range sizes {
		least = min(least, size)
		c.d = gcd(c.d, max(size-sizes[0], sizes[0]-size))
	}
	for _, room := range rooms {
		longest = max(longest, room)
	}
	if c.d <= 2*step || longest/least > mostAlong {
		return coarse{}, false
	}
	c.base = sizes[0] % c.d
	for c.cells = 1; c.cells <= mostCoarse && 2*c.cells*step <= c.d; c.cells++ {
		for c.extra = 0; c.extra <= c.cells; c.extra++ {
			if c.serves(rooms, least) {
				return c, true
			}
		}
	}
	return coarse{}, false
}

func (c coarse) serves(rooms []int64, least int64) bool {
	for _, room := range rooms {
		if _, ok := c.room(room, least); !ok {
			return false
		}
	}
	return true
}

// size of a piece in cells.
func (c coarse) size(size int64) int64 { return size/c.d*c.cells + c.extra }

// room in cells; ok is false where no number of cells holds exactly what the room holds. least is the shortest piece.
func (c coarse) room(room, least int64) (cells int64, ok bool) {
	most := room / least
	above := int64(1) << 62
	for k := int64(1); k <= most; k++ {
		limit := (room-k*c.base)/c.d*c.cells + k*c.extra
		cells, above = max(cells, limit), min(above, limit+c.cells)
	}
	return cells, cells < above && cells < (most+1)*c.size(least)
}
