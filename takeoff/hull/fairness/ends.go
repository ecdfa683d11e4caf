package fairness

// Near its ends a batten says more surely than it may where the others want an offset. It is taken to be as stiff there as
// elsewhere, while a section turns in beside the rabbet, sharpest at the ends of the boat, and a waterline turns in where it
// runs out beside the rabbet. Left out, the offset next to an end leaves only that end to tell of it.
//
// By how much was measured by the offsets of 660 hulls of the eleven families, written without a mistake. Of a hundred inner
// ones one lies farther off than 3.0 standard deviations across and 2.7 along. Next to the rabbet the same share lay
// beyond 3.4 to 4.1, and at the outermost stations beyond 5.6; along, next to the last of a line, beyond 3.5 to 4.1, and where
// the line runs out beside the rabbet beyond 5.2. The factors bring all of these down to between 2.4 and 3.4. Rabbet and sheer
// themselves run fair to their ends (1.9) and need none.
const (
	// byRabbet is how many marks up from the rabbet a section may turn in.
	byRabbet = 2
	// nearRabbet, across, for these marks; endStation, across, for all marks of the first and the last station.
	nearRabbet = 1.25
	endStation = 1.4
	// nextToLast, along, beside the first and the last cell of a line; intoRabbet besides, where that cell stands near the
	// rabbet.
	nextToLast = 1.3
	intoRabbet = 1.5
	// fewTell, along, of the cells farther in on a line of at most fewCells: the six others show too little of how stiff the
	// batten is, and one in a hundred lay beyond 5.2 to 6.5, of eight cells and more beyond 2.8.
	fewTell  = 2.5
	fewCells = 7
	// stretched is by how much less sure a batten is of a place beyond all its other points than it says itself.
	stretched = 3
)

// lessSureAcross is by how many times less sure the station's batten is of a cell between its ends than it says.
func (j *judge) lessSureAcross(c *cell) float64 {
	times := 1.0
	if c.mark <= byRabbet {
		times *= nearRabbet
	}
	if c.station == 0 || c.station == len(j.x)-1 {
		times *= endStation
	}
	return times
}

// lessSure is by how many times less sure the line's batten is of its cell i than it says.
func (l *line) lessSure(i int) float64 {
	last := len(l.cells) - 1
	switch c := l.cells[i]; {
	case i == 0 || i == last:
		return stretched
	case c.end:
		return 1
	case i > 1 && i < last-1:
		if len(l.cells) <= fewCells {
			return fewTell
		}
		return 1
	case c.mark <= byRabbet:
		return nextToLast * intoRabbet
	}
	return nextToLast
}
