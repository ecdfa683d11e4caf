package passes

// Once puts a thing of a size and value into a table of the most that each room holds, at most once in each, and marks the rooms that
// it betters. Marks are written a word at a time, which takes a quarter less than room by room.
func (m Marks) Once(table []int64, size int, value int64) {
	for word := (len(table) - 1) >> 6; word >= size>>6; word-- {
		first := max(word<<6, size)
		to := table[first:min(word<<6+64, len(table))]
		from := table[first-size:]
		from = from[:len(to)]
		var bits uint64
		for x := len(to) - 1; x >= 0; x-- {
			if v := from[x] + value; v > to[x] {
				to[x] = v
				bits |= 1 << (x & 63)
			}
		}
		m[word] = bits << (first & 63)
	}
}

// Often is Once for a thing that may go in any number of times.
func (m Marks) Often(table []int64, size int, value int64) {
	to := table[size:]
	from := table[:len(to)]
	for x := 0; x < len(to); {
		word, bit := (x+size)>>6, uint64(1)<<((x+size)&63)
		var bits uint64
		for end := min(len(to), (word+1)<<6-size); x < end; x++ {
			if v := from[x] + value; v > to[x] {
				to[x] = v
				bits |= bit
			}
			bit <<= 1
		}
		m[word] = bits
	}
}
