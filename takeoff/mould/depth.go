package mould

import (
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// depth is how deep the frame is moulded at the fraction u of its section, mm. A frame that tapers does so evenly along its
// girth, which u is a share of where the section has no knuckles; where it has, the share is sought.
func depth(f frame.Frame, s *hull.Section, u float64) float64 {
	if !f.Tapers() || len(s.Knuckles()) == 0 {
		return f.MouldedAt(u)
	}
	const halvings = 50 // to the last bits of a share
	low, high := 0.0, 1.0
	for range halvings {
		if mid := (low + high) / 2; s.Share(mid) < u {
			low = mid
		} else {
			high = mid
		}
	}
	return f.MouldedAt((low + high) / 2)
}
