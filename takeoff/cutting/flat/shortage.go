package flat

import "errors"

// shortage says how much more of the stock nearest in price would do; the search doubles and then halves.
func (p *problem) shortage(short error) error {
	var e *ShortError
	if !errors.As(short, &e) {
		return short
	}
	return p.list.more(e)
}

// more finds, for a piece that found no room, how much more of which stock lets shelves hold everything.
func (l List) more(e *ShortError) error {
	for i, s := range l.Stock {
		if s.Avail < 0 || !s.Takes(e.Piece, l.Rules) {
			continue
		}
		works := func(n int64) bool {
			with := l
			with.Stock = append([]Stock{}, l.Stock...)
			with.Stock[i].Avail += n
			plan, _ := reduce(with, coarse).shelves()
			return plan != nil
		}
		low, high := int64(0), int64(1)
		for high < MaxCost/4 && !works(high) {
			low, high = high, 2*high
			if high > 4*MaxSide*MaxPieces/10 {
				break
			}
		}
		for high-low > 1 {
			if mid := (low + high) / 2; works(mid) {
				high = mid
			} else {
				low = mid
			}
		}
		if works(high) && (e.StockID == "" || s.Price*high < e.price) {
			e.StockID, e.More, e.price = s.ID, high, s.Price*high
		}
	}
	return e
}
