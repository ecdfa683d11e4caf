package planking

import (
	"fmt"
	"slices"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/strake"
)

// Planking is one side laid out.
type Planking struct {
	Side      boat.Side
	Thickness float64 // of the finished plank; 0 where it is not known
	Strakes   []Strake
	Frames    []butt.Frame // of the side, those within the strakes
	Stations  []hull.Measure
	Area      hull.Reading // of all strakes
	Ends      [2]End       // forward and aft
	Breaches  []butt.Breach
	Replaced  []Replaced

	side *butt.Side // nil where there are no two frames
}

// Strake is one strake laid out, with its planks.
type Strake struct {
	No int // from 1, the garboard
	*strake.Shape
	Butts  []Butt
	Planks []Plank
	// Proposed says that the butts are a proposal; Stuck that none was found for want of longer stock.
	Proposed bool
	Stuck    *butt.Stuck
}

// Butt is where two planks of a strake meet.
type Butt struct {
	X     float64
	At    int // the place of Shape.X
	Where string
}

// Plank is a piece of a strake between two butts or hood ends.
type Plank struct {
	From, To           int // places of Shape.X
	FromWhere, ToWhere string
	// Along is how long a board must be, laid along the line between the plank's ends. Stock is the shortest length of
	// stock that is as long; 0 where none is, or none is known.
	Along, Stock float64
	strake.Figures
}

// Offcut is what is left of the stock, mm; 0 where there is none.
func (q Plank) Offcut() float64 {
	if q.Stock == 0 {
		return 0
	}
	return q.Stock - q.Along
}

// Replaced is the shortest plank for a damaged piece, or why there is none.
type Replaced struct {
	Piece
	butt.Replacement
	Plank Plank
	None  *butt.DamageError
}

// NoFramesError says that butts were asked for and the side has no two frames to butt between.
type NoFramesError struct{ Side boat.Side }

func (e *NoFramesError) Error() string {
	return fmt.Sprintf("butts stand between frames, and the %s side has no two frames within the stations", e.Side)
}

// leastSteps along a side's length that strakes are laid out at: twice those that the round of an edge is good to a
// quarter of a millimetre with.
const leastSteps = 32

// Lay lays out a side of a hull with its frames. The error is a *NoFramesError, a *butt.FramesError, or one of package
// strake where the surface or the edges make no strake.
func Lay(h *hull.Hull, frames []butt.Frame, t Terms) (*Planking, error) {
	surface, err := h.Surface(t.Side)
	if err != nil {
		return nil, err
	}
	forward, aft := surface.Reach()
	p := &Planking{Side: t.Side, Thickness: t.Thickness}
	for _, f := range frames {
		if f.X >= forward && f.X <= aft {
			p.Frames = append(p.Frames, f)
		}
	}
	if len(p.Frames) > butt.MaxFrames {
		return nil, &butt.FramesError{Detail: fmt.Sprintf("the side has %d frames; at most %d make bays", len(p.Frames), butt.MaxFrames)}
	}
	slices.SortStableFunc(p.Frames, func(a, b butt.Frame) int {
		switch {
		case a.X < b.X:
			return -1
		case a.X > b.X:
			return 1
		}
		return 0
	})
	for _, m := range h.Measures() {
		if m.Section.Side == t.Side {
			p.Stations = append(p.Stations, m)
		}
	}
	terms := butt.Usual()
	terms.OnFrames, terms.Both = t.OnFrames, t.Both
	if len(t.Stock) > 0 {
		terms.Longest = t.Stock[len(t.Stock)-1]
	}
	wanted := butt.Places(terms, p.Frames)
	for _, f := range p.Frames {
		wanted = append(wanted, f.X)
	}
	for _, xs := range t.Butts {
		wanted = append(wanted, xs...)
	}
	shapes, err := p.shapes(surface, t, strake.Places(surface, leastSteps, wanted...))
	if err != nil {
		return nil, err
	}
	if err := p.keepWithin(shapes, t.Butts); err != nil {
		return nil, err
	}
	for k, s := range shapes {
		p.Strakes = append(p.Strakes, Strake{No: k + 1, Shape: s})
		p.Area.MM += s.Area.MM
		// What is open between neighbours is not open of the side.
		p.Area.Low += s.Area.Low + s.Shared
		p.Area.High += s.Area.High - s.Shared
	}
	bare := len(t.Stock) == 0 && len(t.Butts) == 0 && len(t.Replace) == 0
	if len(p.Frames) < 2 && !bare {
		return nil, &NoFramesError{t.Side}
	}
	board := func(k int, x0, x1 float64) float64 {
		return shapes[k].Along(shapes[k].Place(x0), shapes[k].Place(x1))
	}
	side, err := butt.New(terms, p.Frames, reaches(shapes), board)
	if bare {
		if err == nil {
			p.side = side
		}
		return p, p.planks(nil, t.Stock)
	}
	if err != nil {
		return nil, err
	}
	p.side = side
	p.place(side, t)
	return p, p.planks(side, t.Stock)
}

// place sets the butts, those given and those proposed, and what is to be said of them.
func (p *Planking) place(side *butt.Side, t Terms) {
	butts := make([][]float64, len(p.Strakes))
	for k, xs := range t.Butts {
		butts[k] = xs
	}
	var stuck []butt.Stuck
	if len(t.Stock) > 0 {
		butts, stuck = side.Arrange(t.Butts)
	}
	for i := range stuck {
		p.Strakes[stuck[i].Strake].Stuck = &stuck[i]
	}
	for k := range p.Strakes {
		s := &p.Strakes[k]
		_, given := t.Butts[k]
		s.Proposed = len(t.Stock) > 0 && !given && s.Stuck == nil
		for _, x := range butts[k] {
			s.Butts = append(s.Butts, Butt{x, s.Place(x), side.Where(x)})
		}
	}
	for _, b := range side.Check(butts) {
		if b.Rule != butt.Stock || p.Strakes[b.Strake].Stuck == nil {
			p.Breaches = append(p.Breaches, b)
		}
	}
	for _, piece := range t.Replace {
		p.Replaced = append(p.Replaced, p.replace(side, piece, butts, t.Stock))
	}
}

func (p *Planking) replace(side *butt.Side, piece Piece, butts [][]float64, stock []float64) Replaced {
	out := Replaced{Piece: piece}
	xs := p.Strakes[piece.Strake].X
	from, to := max(piece.From, xs[0]), min(piece.To, xs[len(xs)-1])
	if !(from < to) {
		out.None = &butt.DamageError{Strake: piece.Strake, From: piece.From, To: piece.To, Detail: fmt.Sprintf(
			"the piece from %.0f to %.0f mm lies beyond the hood ends of strake %d, which reaches from %.0f to %.0f mm", piece.From, piece.To, piece.Strake+1, xs[0], xs[len(xs)-1])}
		return out
	}
	r, err := side.Replace(piece.Strake, from, to, butts)
	if err != nil {
		out.None = &butt.DamageError{Strake: piece.Strake, From: piece.From, To: piece.To, Detail: err.Error()}
		return out
	}
	out.Replacement = r
	s := p.Strakes[piece.Strake]
	plank, err := p.plank(s.Shape, side, s.Place(r.From), s.Place(r.To), stock)
	if err != nil {
		out.None = &butt.DamageError{Strake: piece.Strake, From: piece.From, To: piece.To, Detail: err.Error()}
	}
	out.Plank = plank
	return out
}

// planks cuts every strake at its butts.
func (p *Planking) planks(side *butt.Side, stock []float64) error {
	for k := range p.Strakes {
		s := &p.Strakes[k]
		from := 0
		for i := 0; i <= len(s.Butts); i++ {
			to := len(s.X) - 1
			if i < len(s.Butts) {
				to = s.Butts[i].At
			}
			plank, err := p.plank(s.Shape, side, from, to, stock)
			if err != nil {
				return err
			}
			s.Planks = append(s.Planks, plank)
			from = to
		}
	}
	return nil
}

func (p *Planking) plank(s *strake.Shape, side *butt.Side, from, to int, stock []float64) (Plank, error) {
	f, err := s.Between(from, to)
	if err != nil {
		return Plank{}, err
	}
	out := Plank{From: from, To: to, Figures: f, Along: s.Along(from, to), FromWhere: "forward hood end" + p.Ends[0].on(), ToWhere: "after hood end" + p.Ends[1].on()}
	if from > 0 && side != nil {
		out.FromWhere = side.Where(s.X[from])
	}
	if to < len(s.X)-1 && side != nil {
		out.ToWhere = side.Where(s.X[to])
	}
	for _, l := range stock {
		if l+0.01 >= out.Along { // as butts are placed: a hundredth of a millimetre is rounding
			out.Stock = l
			break
		}
	}
	return out, nil
}
