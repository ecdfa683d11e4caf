package glue

import "github.com/shopspring/decimal"

// shared are blanks of which those whose joints need not be closed in one go are parted, where they have no room together: into as few
// shares as each have room, each of whole joints, no two shares more than a joint apart. One joint without room stays as it is.
func (y Layup) shared(blanks []Blank, r Room) []Blank {
	var out []Blank
	for _, b := range blanks {
		out = append(out, y.share(b, r)...)
	}
	return out
}

func (y Layup) share(b Blank, r Room) []Blank {
	fits := func(b Blank) bool {
		l, err := y.Load(b)
		return err == nil && r.holds(l.Hands(), l.Clamps)
	}
	if b.Apart < 2 || b.Clamps < b.Apart || fits(b) {
		return []Blank{b}
	}
	for n := int64(2); n <= b.Apart; n++ {
		if !fits(b.of(up(b.Apart, n))) {
			continue
		}
		var out []Blank
		left := b
		for k := n; k > 0; k-- {
			one := left.of(up(left.Apart, k))
			out = append(out, one)
			left.Apart, left.Lines, left.Clamps = left.Apart-one.Apart, left.Lines-one.Lines, left.Clamps-one.Clamps
			left.AreaM2, left.Litres = left.AreaM2.Sub(one.AreaM2), left.Litres.Sub(one.Litres)
		}
		return out
	}
	return []Blank{b}
}

// of is so many of its joints, and their share of all else. All of them are all of it, to the last digit.
func (b Blank) of(joints int64) Blank {
	if joints >= b.Apart {
		return b
	}
	n, all := decimal.NewFromInt(joints), decimal.NewFromInt(b.Apart)
	b.AreaM2, b.Litres = b.AreaM2.Mul(n).DivRound(all, 9), b.Litres.Mul(n).DivRound(all, 9)
	b.Clamps, b.Lines, b.Apart = b.Clamps/b.Apart*joints, joints, joints
	return b
}
