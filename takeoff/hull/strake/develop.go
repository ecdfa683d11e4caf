package strake

import (
	"math"
	"slices"

	"ribband/takeoff/hull/area"
)

// How many places are laid out along a strake. The greatest is an assumption, no source: ten times what a boat of a
// hundred frames asks, and more than any planking that is read can have.
const (
	minPlaces = 3
	maxPlaces = 3000
)

// Develop lays out strake k, counted from 0 at the rabbet, in so many equal steps along x from end to end.
func Develop(s Surface, e *Edges, k, along int) (*Shape, error) {
	if along < minPlaces-1 || along >= maxPlaces {
		return nil, &CountError{"number of steps along", along, minPlaces - 1, maxPlaces - 1}
	}
	if k < 0 || k >= e.n {
		return nil, &CountError{"strake", k, 0, e.n - 1}
	}
	x0, x1 := s.Reach()
	xs := make([]float64, along+1)
	for i := range xs {
		xs[i] = x0 + (x1-x0)*float64(i)/float64(along)
	}
	out, err := lay(s, e, k, k+1, xs, nil)
	if err != nil {
		return nil, err
	}
	return out[0], nil
}

// Lay lays out all strakes of a side, from the rabbet up, at the places xs, which rise from one end of the surface to
// the other, and on to the lines at her ends; a line that strakes cannot be carried on to is a *HoodError.
func Lay(s Surface, e *Edges, xs []float64, lines ...area.Ending) ([]*Shape, error) {
	if len(xs) < minPlaces || len(xs) > maxPlaces {
		return nil, &CountError{"number of places along", len(xs), minPlaces, maxPlaces}
	}
	x0, x1 := s.Reach()
	for i, x := range xs {
		if !(x >= x0 && x <= x1) || i > 0 && !(x > xs[i-1]) {
			return nil, &PlaceError{i, x, x0, x1}
		}
	}
	if err := e.reach(s.Reach()); err != nil {
		return nil, err
	}
	var ends []*ending
	for _, line := range lines {
		end, err := newEnding(s, line)
		if err != nil {
			return nil, err
		}
		if end == nil {
			continue
		}
		end.carriedOn(e)
		ends = append(ends, end)
	}
	if len(ends) > 2 || len(ends) == 2 && ends[0].aft == ends[1].aft {
		return nil, &HoodError{ends[0].aft, "two lines are given for one end", "one line for each end"}
	}
	return lay(s, e, 0, e.n, xs, ends)
}

// Places are those that Lay is to be given: the ends of the surface, its stations, the wanted ones that lie between its
// ends, and so many more that no step is longer than an along-th of her length. Two nearer than a millionth of it
// become one.
func Places(s Surface, along int, wanted ...float64) []float64 {
	x0, x1 := s.Reach()
	xs := []float64{x0, x1}
	for _, x := range append(s.Stations(), wanted...) {
		if x > x0 && x < x1 {
			xs = append(xs, x)
		}
	}
	slices.Sort(xs)
	length := x1 - x0
	kept := xs[:1]
	for _, x := range xs[1:] {
		if x-kept[len(kept)-1] > 1e-6*length {
			kept = append(kept, x)
		}
	}
	kept[len(kept)-1] = x1
	step := length / float64(max(1, along))
	var out []float64
	for i, x := range kept {
		if i > 0 {
			last := kept[i-1]
			n := int(math.Ceil((x - last) / step * (1 - 1e-9)))
			for j := 1; j < n && len(out) < maxPlaces; j++ {
				out = append(out, last+(x-last)*float64(j)/float64(n))
			}
		}
		out = append(out, x)
	}
	return out
}
