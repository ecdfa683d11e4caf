package glue

// day, seconds, of clock: clamps stay on overnight.
const day int64 = 24 * 3600

// days puts the last batch on a gluing day: the first from that of the batch before on which the hands have the hours
// for it and enough clamps are free until it comes out of them. Clamps put on during a day count as held from its
// morning to the evening of the day they come off, the later the safer. hands is the batch's seconds of one pair.
func (p *Plan) days(y Layup, shop InShop, hands int64) {
	k := len(p.Batches) - 1
	b := &p.Batches[k]
	held := up(shop.Clamp, day)
	from := int64(1)
	if k > 0 {
		from = p.Batches[k-1].Day
	}
	left := y.Room(1 << 40).Hands // of a day
	for _, o := range p.Batches[:k] {
		if o.Day == from {
			left -= o.Minutes * 60 * y.Hands
		}
	}
	if k > 0 && left < up(hands, 60*y.Hands)*60*y.Hands {
		from++
	}
	for d := from; ; {
		free, blanks := y.Clamps, len(b.Members)
		waits := int64(0) // until the next clamps come off
		for _, o := range p.Batches[:k] {
			if o.OffDay > d {
				free -= o.Clamps
				blanks += len(o.Members)
				if waits == 0 || o.OffDay < waits {
					waits = o.OffDay
				}
			}
		}
		if free >= b.Clamps {
			b.Day, b.OffDay, b.LoadDay = d, d+held, d+p.DaysToLoad
			p.AtOnce = max(p.AtOnce, blanks)
			return
		}
		d = max(d+1, waits)
	}
}
