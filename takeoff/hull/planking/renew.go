package planking

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"ribband/takeoff/hull/butt"
)

// Asked is what is renewed of a strake: a damaged piece, mm, for which the shortest plank is found, or all its planks.
type Asked struct {
	Strake   int // from 0
	From, To float64
	Whole    bool
}

// Renewed is one new plank for what was asked.
type Renewed struct {
	Of     int // into what was asked
	Strake int // from 0
	Plank
	X0, X1 float64 // where its ends are, mm
	// NewForward and NewAft say that its end is a butt that was not there.
	NewForward, NewAft bool
	// Bare: an end at a line that was not measured, so that the plank reaches farther than it is laid out.
	Bare []End
	// Divide says where one more butt would part it so that both parts come out of the longest stock; empty where none would, or
	// where no stock is given.
	Divide    string
	Crossings []Crossing
	Ends      [2]PlankEnd // forward and aft
}

// Crossing is a frame that a plank lies on, and between which shares of the girth there.
type Crossing struct {
	butt.Frame
	Lower, Upper float64
}

// RenewError says why what was asked cannot be done as it stands.
type RenewError struct {
	Of          int
	Detail, Fix string
}

func (e *RenewError) Error() string { return e.Detail }

// onButt is how near a frame is to a plank's end to be one that it is fastened to, mm: a butt on a frame, rounded.
const onButt = 0.01

// Renew finds the planks for all that is asked, from forward in every strake, each beside the butts that are given and those
// that the planks before it leave. A whole strake whose butts are not given has those that are proposed for the stock. What cannot be done is told, and the others are done all the same.
func (p *Planking) Renew(t Terms, asked []Asked) ([]Renewed, []*RenewError) {
	var out []Renewed
	var faults []*RenewError
	butts := make([][]float64, len(p.Strakes))
	for k, xs := range t.Butts { // those that are only proposed are not there
		butts[k] = append(butts[k], xs...)
	}
	order := make([]int, len(asked))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Or(cmp.Compare(asked[a].Strake, asked[b].Strake), cmp.Compare(asked[a].From, asked[b].From))
	})
	strake, limit := -1, 0.0
	for _, i := range order {
		a := asked[i]
		if a.Strake < 0 || a.Strake >= len(p.Strakes) {
			faults = append(faults, &RenewError{i, fmt.Sprintf("there is no strake %d; the side has %d", a.Strake+1, len(p.Strakes)), fmt.Sprintf("a strake from 1, the garboard, to %d", len(p.Strakes))})
			continue
		}
		if a.Strake != strake {
			strake, limit = a.Strake, math.Inf(-1)
		}
		made, err := p.renewOne(t, i, a, limit, butts)
		if err != nil {
			faults = append(faults, err)
			continue
		}
		for _, m := range made {
			limit = max(limit, m.X1)
		}
		out = append(out, made...)
	}
	p.ended(out)
	return out, faults
}

func (p *Planking) renewOne(t Terms, i int, a Asked, limit float64, butts [][]float64) ([]Renewed, *RenewError) {
	s := p.Strakes[a.Strake]
	first, last := s.X[0], s.X[len(s.X)-1]
	if a.Whole {
		if s.Proposed {
			for _, b := range s.Butts {
				butts[a.Strake] = append(butts[a.Strake], b.X)
			}
		}
		ends := append(append([]float64{first}, butts[a.Strake]...), last)
		var out []Renewed
		for j := 0; j+1 < len(ends); j++ {
			m, err := p.made(t, i, a.Strake, ends[j], ends[j+1])
			if err != nil {
				return nil, err
			}
			m.NewAft = s.Proposed && j+2 < len(ends)
			m.Divide = p.divide(t, a.Strake, ends[j], ends[j+1], butts)
			out = append(out, m)
		}
		return out, nil
	}
	from, to := max(a.From, first), min(a.To, last)
	if !(from <= to) {
		return nil, &RenewError{i, fmt.Sprintf("the piece from %.0f to %.0f mm lies beyond the ends of strake %d, which reaches from %.0f to %.0f mm", a.From, a.To, a.Strake+1, first, last),
			"a piece of the strake, or its size by hand"}
	}
	if to <= limit {
		return nil, &RenewError{i, fmt.Sprintf("strake %d is renewed there already: the plank for the piece forward of it reaches to %s", a.Strake+1, p.side.Where(limit)),
			"leave it out, or write the two as one piece"}
	}
	from = max(from, limit)
	if p.side == nil {
		return nil, &RenewError{i, "planks butt between frames, and the side has no two frames within the stations", "frames of that side, from forward, or the plank's size by hand"}
	}
	r, err := p.side.ReplaceAbaft(a.Strake, from, to, limit, butts)
	if err != nil {
		return nil, &RenewError{i, err.Error(), "a longer piece, the whole strake, or the plank's size by hand"}
	}
	m, fault := p.made(t, i, a.Strake, r.From, r.To)
	if fault != nil {
		return nil, fault
	}
	is := func(x float64) bool {
		return x == first || x == last || slices.Contains(butts[a.Strake], x)
	}
	m.NewForward, m.NewAft = !is(r.From), !is(r.To)
	kept := []float64{}
	for _, x := range butts[a.Strake] {
		if x <= r.From || x >= r.To {
			kept = append(kept, x)
		}
	}
	for _, x := range []float64{r.From, r.To} {
		if !is(x) {
			kept = append(kept, x)
		}
	}
	slices.Sort(kept)
	butts[a.Strake] = kept
	m.Divide = p.divide(t, a.Strake, r.From, r.To, butts)
	return []Renewed{m}, nil
}

// divide is where a plank may have one more butt beside the butts of the other strakes.
func (p *Planking) divide(t Terms, k int, from, to float64, butts [][]float64) string {
	if len(t.Stock) == 0 || p.side == nil {
		return ""
	}
	x, ok := p.side.Divide(k, from, to, butts, t.Stock[len(t.Stock)-1])
	if !ok {
		return ""
	}
	return p.side.Where(x)
}

// made is the plank of strake k from one place to another.
func (p *Planking) made(t Terms, i, k int, from, to float64) (Renewed, *RenewError) {
	s := p.Strakes[k]
	plank, err := p.plank(s.Shape, p.side, s.Place(from), s.Place(to), t.Stock)
	if err != nil {
		return Renewed{}, &RenewError{i, err.Error(), "the plank's size by hand"}
	}
	out := Renewed{Of: i, Strake: k, Plank: plank, X0: from, X1: to}
	for j, at := range []bool{plank.From == 0, plank.To == len(s.X)-1} {
		if at && !p.Ends[j].Laid {
			out.Bare = append(out.Bare, p.Ends[j])
		}
	}
	for _, f := range p.Frames {
		if f.X >= from-onButt && f.X <= to+onButt {
			out.Crossings = append(out.Crossings, Crossing{f, t.Edges.At(k, f.X), t.Edges.At(k+1, f.X)})
		}
	}
	return out, nil
}
