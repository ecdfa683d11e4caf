package takeoff

import "ribband/takeoff/hull"

// Band is the pattern of a frame as the section has it, points of both faces, by its member's path.
func (b Basis) Band(path string) (faying, inner []hull.Point, err error) {
	stands, err := b.stands()
	for _, s := range stands {
		if s.frame.Member().Path() == path {
			o := bandOf(s)
			faying, inner = o.faying, o.inner
		}
	}
	return faying, inner, err
}
