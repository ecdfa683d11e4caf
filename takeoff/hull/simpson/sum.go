package simpson

import "math"

// Sum is what a rule makes of its ordinates, with the columns of the table from which it came.
type Sum struct {
	Rule     Rule
	Interval float64 // the whole one
	// Multipliers and Levers of every ordinate; levers are in whole intervals from the first ordinate.
	Multipliers, Levers []float64
	// Products is the sum of ordinate times multiplier, MomentProducts of these times lever (by 5-8-minus-1: the sum
	// by 3, 10, -1).
	Products, MomentProducts float64
	// Area is Rule.Factor times Products, Moment the moment of the area about the first ordinate.
	Area, Moment float64
}

// Centroid is how far the centroid lies from the first ordinate; there is none where the area is nothing.
func (s *Sum) Centroid() (from float64, ok bool) {
	c := s.Moment / s.Area
	if math.IsNaN(c) || math.IsInf(c, 0) {
		return 0, false
	}
	return c, true
}

func newSum(r Rule, interval float64, n int) *Sum {
	return &Sum{Rule: r, Interval: interval, Multipliers: make([]float64, n), Levers: make([]float64, n)}
}

// piece lays one repeat of a rule on the ordinates from number i, whose lever is at, its intervals being so great a
// share of the whole one; the lever of its last ordinate comes back.
func (s *Sum) piece(i int, at, share float64, of []float64) float64 {
	for j, m := range of {
		s.Multipliers[i+j] += share * m
		s.Levers[i+j] = at + share*float64(j)
	}
	return at + share*float64(len(of)-1)
}

// over sums the ordinates.
func (s *Sum) over(ordinates []float64) (*Sum, error) {
	if !(s.Interval > 0) || math.IsInf(s.Interval, 0) {
		return nil, &IntervalError{s.Interval}
	}
	for i, y := range ordinates {
		if math.IsNaN(y) || math.IsInf(y, 0) {
			return nil, &OrdinateError{i, y}
		}
		p := s.Multipliers[i] * y
		s.Products += p
		s.MomentProducts += p * s.Levers[i]
	}
	f := s.Rule.Factor(s.Interval)
	s.Area = f * s.Products
	s.Moment = f * s.MomentProducts * s.Interval
	if v := s.Area + s.Moment; math.IsInf(v, 0) || math.IsNaN(v) {
		return nil, &SizeError{s.Rule}
	}
	return s, nil
}
