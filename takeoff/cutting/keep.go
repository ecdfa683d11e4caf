package cutting

import "fmt"

// Keep is what left-overs are worth to the yard: one at least Least long is worth Rate for each whole Per of its length. Strips
// of bought boards that nothing is cut from are left-overs too.
type Keep struct {
	Least int64 `json:"least"`
	// Rate in minor units for each Per of length.
	Rate int64 `json:"rate"`
	Per  int64 `json:"per"`
}

// worth of a left-over of a length, in minor units.
func (k *Keep) worth(length int64) int64 {
	if k == nil || length < k.Least {
		return 0
	}
	return length / k.Per * k.Rate
}

// check refuses what would make it pay to buy boards for their left-overs.
func (k *Keep) check(stock []Stock, r Rules) error {
	if k == nil {
		return nil
	}
	switch {
	case k.Least < 1 || k.Least > MaxLength:
		return &RequestError{"keep", "", fmt.Sprintf("the least length kept runs from 1 to %d", int64(MaxLength))}
	case k.Per < 1 || k.Per > MaxLength:
		return &RequestError{"keep", "", fmt.Sprintf("the length that the rate is for runs from 1 to %d", int64(MaxLength))}
	case k.Rate < 0 || k.Rate > MaxPrice:
		return &RequestError{"keep", "", fmt.Sprintf("the rate runs from 0 to %d", int64(MaxPrice))}
	}
	for _, s := range stock {
		length := s.Length - 2*r.TrimEach
		if length < k.Least || k.Rate == 0 {
			continue
		}
		if worth, ok := times(length/k.Per, k.Rate); !ok || worth > (s.Price-1)/s.Strips {
			return &RequestError{"keep", s.ID, fmt.Sprintf("its strips uncut would be worth as much as the board costs: a rate of at most %d would do", (s.Price-1)/s.Strips/max(1, length/k.Per))}
		}
	}
	return nil
}

// kept is what all left-overs of a plan are worth.
func kept(p Plan, stock []Stock, r Rules) (worth int64) {
	if r.Keep == nil {
		return 0
	}
	for _, c := range p.Cuts {
		worth += c.N * r.Keep.worth(c.Offcut)
	}
	for _, s := range stock {
		for _, l := range p.Bought {
			if l.StockID == s.ID {
				worth += (l.Strips - l.Used) * r.Keep.worth(s.room(r)-r.Kerf)
			}
		}
	}
	return worth
}

// leftOver is what so many cells left of a strip are worth, in units; no less than that where lengths are rounded, and no more than the
// longest strip, which is known to be worth less than its board: a rate that no left-over earns may be past all reckoning.
func (p *problem) leftOver(cells int) int64 {
	return p.rules.Keep.worth(min(int64(cells)*p.step+p.slack, p.longest)-p.rules.Kerf) / p.unit
}

// takes is what cutting a layout takes from the worth of its strip uncut, in units.
func (p *problem) takes(l layout) int64 {
	if p.rules.Keep == nil {
		return 0
	}
	b := p.boards[l.board]
	room := b.room
	for _, c := range l.counts {
		room -= int(c.k) * p.items[c.item].size
	}
	return b.uncut - p.leftOver(room)
}
