package pair

import "ribband/takeoff/cutting/flat"

// firstLooks are into how many steps the greater side is parted for a first look; about the best of them each whole slide is
// tried.
const firstLooks = 64

// LeastOf lays two outlines that need not be the same against each other: for some slides along Y, outwards from 0, and then
// for each about the best of them, the second lies as it is or Turned at the slide along X nearest to where its box has the
// first's corner at which the two do not overlap. Of those it is the rectangle of least area, and of all slides there may be a
// lesser one; two beside each other are never beaten by what is answered. An *OutlineError when points make no outline.
func LeastOf(first, second []Point) (Fit, error) {
	a, err := read(first)
	if err != nil {
		return Fit{}, err
	}
	b, err := read(second)
	if err != nil {
		return Fit{}, err
	}
	l := laying{a: a, b: b, turned: b.turned()}
	l.best = Fit{Size: l.box(a.size.Width, 0), DX: a.size.Width}
	most := max(a.size.Length, b.size.Length)
	step := max(1, most/firstLooks)
	for up := int64(0); up <= most && l.mayGain(up); up += step {
		for _, turned := range []bool{true, false} {
			l.try(turned, up)
			if up > 0 {
				l.try(turned, -up)
			}
		}
	}
	for near, turned, d := l.best.DY, l.best.Turned, int64(1); d < step; d++ {
		l.try(turned, near-d)
		l.try(turned, near+d)
	}
	return l.best, nil
}

// laying is the best way so far of laying b, or b turned, against a.
type laying struct {
	a, b   *shape
	turned []slab
	best   Fit
}

// box is what both lie in.
func (l *laying) box(dx, dy int64) flat.Size {
	a, b := l.a.size, l.b.size
	return flat.Size{Width: max(a.Width, dx+b.Width) - min(0, dx), Length: max(a.Length, dy+b.Length) - min(0, dy)}
}

// mayGain is false where the rectangle is no smaller than the best at any slide by up or more: it is no less wide than the
// wider of the two. Slid up or down by less than the one is longer, it grows on one side only.
func (l *laying) mayGain(up int64) bool {
	least := min(l.box(0, up).Length, l.box(0, -up).Length)
	return max(l.a.size.Width, l.b.size.Width)*least < l.best.Size.Width*l.best.Size.Length
}

func (l *laying) try(turned bool, dy int64) {
	slabs := l.b.slabs
	if turned {
		slabs = l.turned
	}
	dx := l.a.slide(slabs, dy)
	if size := l.box(dx, dy); size.Width*size.Length < l.best.Size.Width*l.best.Size.Length {
		l.best = Fit{size, turned, dx, dy}
	}
}
