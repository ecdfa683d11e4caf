package buy

import "ribband/takeoff/cutting/flat"

// cost of a plan in minor units, no fewer of a board bought than are sold.
func (l *abreast) cost(plan flat.Plan) int64 {
	sum := int64(0)
	for _, lot := range plan.Bought {
		b, n := l.bought(lot)
		sum += n * b.offer.Price.Minor()
	}
	return sum
}

// bought is at the price of which quantity a lot costs least, and how many that then are: those that other groups buy at that price fill a
// least order too.
func (l *abreast) bought(lot flat.Lot) (row board, n int64) {
	row = l.boards[lot.StockID]
	n = l.sold(lot.N, row)
	others := int64(0)
	for _, b := range l.rows[lot.StockID] {
		others += l.gone[b.offer.ID]
	}
	for _, b := range l.rows[lot.StockID] {
		k := l.sold(lot.N, b)
		if (b.avail < 0 || others+k <= b.avail) && k*b.offer.Price.Minor() < n*row.offer.Price.Minor() {
			row, n = b, k
		}
	}
	return row, n
}

// sold is how many of a board are bought where so many are cut, those that other groups buy filling a least order too.
func (l *abreast) sold(cut int64, b board) int64 {
	return max(cut, b.least-l.gone[b.offer.ID])
}

// offerOf is the offer at whose price a board of the plan is bought.
func (l *abreast) offerOf(stock string) string {
	for _, lot := range l.best.Bought {
		if lot.StockID == stock {
			b, _ := l.bought(lot)
			return b.offer.ID
		}
	}
	return stock
}

// holds says that what all groups buy is for sale, and in no fewer than are sold, with the plan in the place of the groups' own
// boards: those may have filled an order of another group, or have reached its price.
func (l *abreast) holds(from source) bool {
	bought := map[string]int64{}
	for id, n := range l.gone {
		bought[id] += n
	}
	for _, lot := range l.best.Bought {
		b, n := l.bought(lot)
		bought[b.offer.ID] += n
	}
	of := map[string]int64{}
	p := l.g.timber[l.of[0]].pieces
	for _, it := range from.sheet.Boards(p.Species, p.Grade) {
		n := bought[id(from.sheet, it)]
		if n == 0 {
			continue
		}
		of[it.Article()] += n
		if n < it.MinPieces() && !from.single || it.Available >= 0 && of[it.Article()] > it.Available {
			return false
		}
	}
	return true
}
