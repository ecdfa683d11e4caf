package pair

// span is an open interval of slides, widened to whole numbers: every whole number strictly between overlaps.
type span struct{ low, high int64 }

// slide is the whole slide along X nearest to 0 at which the second's slabs, slid by dy along Y, do not overlap the shape;
// of two the one to the right.
//
// Two slabs overlap at a height y for slides between left - right' and right - left' at y. Both are straight in y, so over
// the heights they share the slides at which they overlap run from the less of the first at both ends to the greater of
// the second.
func (s *shape) slide(second []slab, dy int64) int64 {
	var spans []span
	for _, a := range s.slabs {
		for _, b := range second { // in order of their lower heights
			if b.y0+dy >= a.y1 {
				break
			}
			y0, y1 := max(a.y0, b.y0+dy), min(a.y1, b.y1+dy)
			if y0 >= y1 {
				continue
			}
			spans = append(spans, span{
				min(floor(a.left, b.right, y0, dy), floor(a.left, b.right, y1, dy)),
				max(ceil(a.right, b.left, y0, dy), ceil(a.right, b.left, y1, dy)),
			})
		}
	}
	// the union of open intervals: a whole number is free when it lies strictly inside none
	right, left := int64(0), int64(0)
	for moved := true; moved; {
		moved = false
		for _, t := range spans {
			if t.low < right && right < t.high {
				right, moved = t.high, true
			}
			if t.low < left && left < t.high {
				left, moved = t.low, true
			}
		}
	}
	if -left < right {
		return left
	}
	return right
}

// floor is the greatest whole number not above a - b at a height, b slid up by dy; ceil the least not below.
func floor(a, b edge, y, dy int64) int64 {
	num, den := apart(a, b, y, dy)
	q := num / den
	if num%den < 0 {
		q--
	}
	return q
}

func ceil(a, b edge, y, dy int64) int64 {
	num, den := apart(a, b, y, dy)
	q := num / den
	if num%den > 0 {
		q++
	}
	return q
}

// apart is a - b at a height as a fraction.
func apart(a, b edge, y, dy int64) (num, den int64) {
	an, ad := a.at(y)
	bn, bd := b.at(y - dy)
	return an*bd - bn*ad, ad * bd
}
