package hull

import (
	"fmt"
	"slices"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull/offsets"
)

// OnPattern is the section of a single pattern: the line through points picked up off one frame, at x mm aft of station
// 0, with how many differing points it has. It answers what a station's section answers, and names no station.
func OnPattern(c *Chain, points int, x float64, side boat.Side) *Section {
	f := &surface{curves: []*Chain{c}, points: []int{points}}
	f.lay()
	s := &Section{X: x, Side: side, RestsOn: boat.OnPattern, Points: points, surface: f, one: -1,
		Sharp: c.sharp(), Doubtful: !c.settled(), Unshown: c.unshown(0)}
	s.atStation(0)
	return s
}

// MovedTo is the same section standing at another x and on another side: y runs outboard on both, so a mirrored
// section has the same figures.
func (s *Section) MovedTo(x float64, side boat.Side) *Section {
	out := *s
	out.X, out.Side = x, side
	return &out
}

// FewSectionsError: too few sections to run a fair line along.
type FewSectionsError struct{ Have int }

func (e *FewSectionsError) Error() string {
	return fmt.Sprintf("%d other sections; a fair line along the boat needs at least %d: measure more stations or take more patterns", e.Have, offsets.MinStations)
}

// KnucklesError: sections along the boat that do not all have the same knuckles.
type KnucklesError struct {
	X, Beside float64 // mm aft of station 0
	Has, Have []string
}

func (e *KnucklesError) Error() string {
	list := func(names []string) string {
		if len(names) == 0 {
			return "no knuckle"
		}
		return "the knuckles " + strings.Join(names, ", ")
	}
	return fmt.Sprintf("the section at %.0f mm has %s, that at %.0f mm %s; a knuckle is given at every section or at none, in one order", e.X, list(e.Has), e.Beside, list(e.Have))
}

// Among is the section at x of the surface that runs fairly through others, sections with a curve of their own: those
// of stations and of patterns. Others without one are left out. Errors are *FewSectionsError, *KnucklesError,
// *OutsideError where x lies outside of them, and that of sections too unevenly spaced.
func Among(others []*Section, x float64, side boat.Side) (*Section, error) {
	return AmongIn(others, Plane{X: x}, side)
}

// AmongIn is Among in any plane; its errors are those of Among and of SectionIn.
func AmongIn(others []*Section, p Plane, side boat.Side) (*Section, error) {
	own := slices.DeleteFunc(slices.Clone(others), func(s *Section) bool { return s == nil || s.one < 0 })
	slices.SortStableFunc(own, func(a, b *Section) int {
		switch {
		case a.X < b.X:
			return -1
		case a.X > b.X:
			return 1
		}
		return 0
	})
	if len(own) < offsets.MinStations {
		return nil, &FewSectionsError{len(own)}
	}
	f, xs := &surface{}, make([]float64, len(own))
	for i, o := range own {
		xs[i] = o.X
		f.curves = append(f.curves, o.surface.curves[o.one])
		f.points = append(f.points, o.surface.points[o.one])
		if has, have := f.curves[i].names, f.curves[0].names; !slices.Equal(has, have) {
			return nil, &KnucklesError{o.X, own[0].X, has, have}
		}
	}
	f.lay()
	var err error
	if f.weights, err = newWeights(xs); err != nil {
		return nil, fmt.Errorf("no fair line runs along the other sections: %w", err)
	}
	s := &Section{X: p.X, Side: side, surface: f, one: -1, Sharp: true}
	if err := s.in(p, func(first, last int) { s.among(own[first : last+1]) }); err != nil {
		return nil, err
	}
	return s, nil
}

// among notes what neighbours the section rests on: its points and kind are those of the neighbour known less well.
func (s *Section) among(near []*Section) {
	widest := near[0]
	for _, o := range near {
		s.Near = append(s.Near, o.Near...)
		s.Doubtful = s.Doubtful || o.Doubtful
		s.Sharp = s.Sharp && o.Sharp
		s.Unshown = append(s.Unshown, o.Unshown...)
		r, w := o.Least().Radius(), widest.Least().Radius()
		if r.High*w.Low > w.High*r.Low {
			widest = o
		}
	}
	s.Points, s.RestsOn = widest.Points, widest.RestsOn
}
