package glue

import (
	"cmp"
	"slices"
)

// day, seconds, of clock: clamps stay on overnight.
const day int64 = 24 * 3600

// put gives a batch its gluing day among those that have one, and says from which its pieces may carry load: the first day
// not before from on which the hands have the hours for it and enough clamps are free until it comes out of them. Clamps
// put on during a day count as held from its morning to the evening of the day they come off, the later the safer. hands
// is the batch's seconds of one pair.
func (p *Plan) put(b Batch, y Layup, here InShop, hands, from int64) Batch {
	held := up(here.Clamp, day)
	whole := y.Room(1 << 40).Hands // of a day
	asks := min(whole, up(hands, 60*y.Hands)*60*y.Hands)
	for d := max(1, from); ; {
		left, next := whole, d+1
		for _, o := range p.Batches {
			if o.Day == d {
				left -= o.Minutes * 60 * y.Hands
			}
		}
		if left >= asks {
			free := p.free(y.Clamps, d, d+held)
			if free >= b.Clamps {
				b.Day, b.OffDay, b.LoadDay = d, d+held, d+up(here.Load, day)
				p.Batches = append(p.Batches, b)
				return b
			}
			next = p.nextOff(d)
		}
		d = max(d+1, next)
	}
}

// free clamps on the day from one to another on which the fewest are; clamps change hands only on days that batches begin.
func (p *Plan) free(clamps, from, to int64) int64 {
	least := clamps
	look := func(d int64) {
		held := int64(0)
		for _, o := range p.Batches {
			if o.Day <= d && d < o.OffDay {
				held += o.Clamps
			}
		}
		least = min(least, clamps-held)
	}
	look(from)
	for _, o := range p.Batches {
		if from < o.Day && o.Day < to {
			look(o.Day)
		}
	}
	return least
}

// nextOff is the first day after d on which clamps come off.
func (p *Plan) nextOff(d int64) int64 {
	next := int64(0)
	for _, o := range p.Batches {
		if o.OffDay > d && (next == 0 || o.OffDay < next) {
			next = o.OffDay
		}
	}
	return next
}

// number puts the batches in the order of their days, and counts how many blanks are in clamps together.
func (p *Plan) number() {
	slices.SortStableFunc(p.Batches, func(a, b Batch) int { return cmp.Compare(a.Day, b.Day) })
	for k := range p.Batches {
		b := &p.Batches[k]
		b.No = k + 1
		blanks := 0
		for _, o := range p.Batches {
			if o.Day <= b.Day && b.Day < o.OffDay {
				blanks += len(o.Members)
			}
		}
		p.AtOnce = max(p.AtOnce, blanks)
	}
}
