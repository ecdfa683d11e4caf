package fairness

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
)

// Threshold is how many standard deviations off an offset is out of line. Measured over 792 hulls of the eleven families of
// sections that nothing was tuned by, nine stations and some 130 figures each, to eighths of an inch: 27 false alarms, 0.03 a
// table, 15 of them in hard bilges whose turn lies between two marks; over 264 each of five to twenty-one stations and to grains
// of a sixteenth to a quarter 0.03 to 0.08 a table. Of half-breadths misread one at a time at any station 15
// in 100 are told at a quarter inch, 60 at a half, 87 at an inch and 92 at two; of those a foot wrong 97, nine tenths by
// being refused on reading.
const Threshold = 4.0

// judge judges one table.
type judge struct {
	offsets      *offsets.Table
	x            []float64
	grain, worse float64 // mm; times that
	work         fair.Workspace
	slope        map[*cell]float64 // of a cell's line along the boat
}

// Judge holds every offset of a table against the others. worse is how many times the error of its grain the table was
// read with, as hull.Hull.ReadWorse tells; below 1 it counts as 1. A table of exact lengths is judged as if it were
// written to the grain that its notation is written to as a rule.
func Judge(o *offsets.Table, worse float64) *Report {
	j := &judge{offsets: o, grain: o.Grain.MM(), worse: 1, slope: map[*cell]float64{}}
	if j.grain == 0 {
		j.grain = o.Notation.DefaultGrain().MM()
	}
	if worse > 1 && !math.IsInf(worse, 0) {
		j.worse = worse
	}
	for i := range o.Stations {
		j.x = append(j.x, o.Stations[i].X.MM())
	}
	r := &Report{Grain: j.grain}
	var port *side
	for _, of := range boat.Sides {
		s := j.side(of, port)
		if of == boat.Starboard && j.mirrored() {
			break
		}
		j.settle(s)
		j.report(s, r)
		port = s
	}
	r.sort()
	return r
}

// mirrored says that both sides are written as one throughout.
func (j *judge) mirrored() bool {
	for i := range j.offsets.Stations {
		if !j.offsets.Stations[i].Mirrored {
			return false
		}
	}
	return true
}

// side gathers the cells of one side. What was set aside of a station that is written for both sides is known from the
// side before.
func (j *judge) side(of boat.Side, before *side) *side {
	s := &side{of: of}
	for i := range j.offsets.Stations {
		st := &j.offsets.Stations[i]
		cells := cellsOf(i, st.Marks(of))
		for k, c := range cells {
			c.now = nothing()
			if before != nil && st.Mirrored {
				b := before.stations[i][k]
				c.aside, c.value, c.held = b.aside, b.value, true
			}
		}
		s.stations = append(s.stations, cells)
	}
	s.gather()
	return s
}

// settle judges all, sets the worst aside, and judges what it touches anew, until none is out of line.
func (j *judge) settle(s *side) {
	for i := range s.stations {
		j.across(s.stations[i], j.offsets.Stations[i].Marks(s.of))
	}
	for _, l := range s.lines {
		j.along(l)
	}
	for {
		j.combine(s)
		worst := j.worst(s)
		if worst == nil {
			break
		}
		worst.aside, worst.value = true, worst.written.MM()-worst.now.off
		j.again(s, worst)
	}
	// What was set aside while a worse mistake misled its battens is put back.
	for _, cells := range s.stations {
		for _, c := range cells {
			if c.aside && !c.held && c.now.times <= Threshold {
				c.aside, c.held, c.value = false, true, c.written.MM()
				j.again(s, c)
			}
		}
	}
	j.combine(s)
}

func (j *judge) combine(s *side) {
	own := j.grain * j.worse / math.Sqrt(12)
	for _, cells := range s.stations {
		for _, c := range cells {
			c.together(own)
		}
	}
}

// worst is the cell most out of line that may be set aside: of no station and no line more than a third, but one always.
func (j *judge) worst(s *side) *cell {
	var worst *cell
	for _, cells := range s.stations {
		for _, c := range cells {
			if c.aside || c.held || !c.now.judged || c.now.times <= Threshold || worst != nil && c.now.times <= worst.now.times {
				continue
			}
			if room(cells) && room(s.line(c).cells) {
				worst = c
			}
		}
	}
	return worst
}

func (s *side) line(c *cell) *line {
	for _, l := range s.lines {
		if l.name == c.line {
			return l
		}
	}
	return &line{}
}

func room(cells []*cell) bool {
	aside := 0
	for _, c := range cells {
		if c.aside {
			aside++
		}
	}
	return aside < max(1, len(cells)/3)
}

// again judges the station and the line of a cell anew.
func (j *judge) again(s *side, c *cell) {
	j.across(s.stations[c.station], j.offsets.Stations[c.station].Marks(s.of))
	j.along(s.line(c))
}

// report adds what was judged of a side.
func (j *judge) report(s *side, r *Report) {
	worst := -1 // of the stations' places: a misplaced one misleads its neighbours, so only one is told at a time
	for i, cells := range s.stations {
		st := &j.offsets.Stations[i]
		of := s.of
		if st.Mirrored {
			if of == boat.Starboard {
				continue // told with port
			}
			of = boat.Both
		}
		for _, c := range cells {
			if !c.now.judged {
				r.Unjudged++
				continue
			}
			v := c.now
			o := Offset{Station: st.No, Side: of, Cell: c.name, Line: c.kind, At: c.at, Written: c.written, Off: v.off, Grains: v.off / j.grain,
				Way: c.way(v.off), Times: v.times, Beyond: v.times > Threshold, Across: v.across, Along: v.along, Pointer: c.pointer}
			o.Fair = toGrain(c.written.MM()-v.off, j.grain, c.axis == height)
			j.words(&o)
			r.Offsets = append(r.Offsets, o)
		}
		if o, ok := j.place(cells, of, st); ok {
			r.Offsets = append(r.Offsets, o)
			at := len(r.Offsets) - 1
			if worst >= 0 && r.Offsets[worst].Times < o.Times {
				r.Offsets[worst].Beyond = false
				worst = at
			} else if worst >= 0 {
				r.Offsets[at].Beyond = false
			} else {
				worst = at
			}
		}
	}
}

func (j *judge) words(o *Offset) {
	n := j.offsets.Notation
	o.WrittenText, o.FairText = n.Format(o.Written), n.Format(o.Fair)
}
