package cutting

import "fmt"

// RequestError: a number that no yard means, or that does not go with the others.
type RequestError struct {
	// What and ID say where: "stock", "oak-16"; ID is empty for the rules and for the whole list.
	What, ID string
	Reason   string
}

func (e *RequestError) Error() string {
	if e.ID == "" {
		return e.What + ": " + e.Reason
	}
	return fmt.Sprintf("%s %s: %s", e.What, e.ID, e.Reason)
}

// ShortError: boards for sale from which not all pieces come.
type ShortError struct {
	// Piece is the first kind that found no strip, and Short how many of it.
	Piece Piece
	Short int64
	// Longest piece that any board for sale can give; 0 when none gives any.
	Longest int64
	// NeedsLength is how long a board must be at least to give Piece; 0 when some board for sale is long enough, and
	// it is their number that falls short.
	NeedsLength int64
	// StockID is the board that would do if Boards more of it were for sale; empty when NeedsLength is set.
	StockID string
	Boards  int64
}

func (e *ShortError) Error() string {
	if e.NeedsLength > 0 {
		return fmt.Sprintf("piece %s of length %d is longer than any board for sale gives (%d): a board of at least %d would do",
			e.Piece.ID, e.Piece.Length, e.Longest, e.NeedsLength)
	}
	return fmt.Sprintf("%d of piece %s (length %d) found no board: not enough are for sale; %d more of %s would do",
		e.Short, e.Piece.ID, e.Piece.Length, e.Boards, e.StockID)
}

// shortage says what stands in the way and the nearest thing that would do: for a piece too long, the least length
// of a board; for too few boards, how many more of the cheapest that takes the piece.
func shortage(stock []Stock, pieces []Piece, r Rules, stuck Piece, short int64) error {
	e := &ShortError{}
	for _, s := range stock {
		e.Longest = max(e.Longest, s.room(r)-r.Kerf)
	}
	if longest := pieces[0]; longest.Length > e.Longest {
		e.Piece, e.Short, e.NeedsLength = longest, longest.Qty, longest.Length+2*r.TrimEach
		return e
	}
	if short == 0 { // the strips sufficed, but not the boards that must be bought at least
		stuck, short = pieces[0], pieces[0].Qty
	}
	e.Piece, e.Short = stuck, short
	best := -1
	for i, s := range stock {
		if s.room(r) < stuck.Length+r.Kerf || s.Strips < 1 {
			continue
		}
		if best < 0 || rate(s, r).Cmp(rate(stock[best], r)) < 0 {
			best = i
		}
	}
	e.StockID, e.Boards = more(stock, pieces, r, best)
	return e
}

// more is how many further boards of stock best make a plan. The search doubles and then halves, so that it ends
// after some forty plans.
func more(stock []Stock, pieces []Piece, r Rules, best int) (string, int64) {
	works := func(n int64) bool {
		with := append([]Stock{}, stock...)
		with[best].Avail += n
		l := filling{rules: r, stock: with, open: orders(with, r)[0]}
		for _, s := range with {
			l.left = append(l.left, s.strips())
		}
		if _, _, ok := l.fill(pieces); !ok {
			return false
		}
		_, ok := l.plan(SeveralBoards)
		return ok
	}
	low, high := int64(0), int64(1)
	for high < MaxPieces && !works(high) {
		low, high = high, 2*high
	}
	for high-low > 1 {
		if mid := (low + high) / 2; works(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	return stock[best].ID, high
}
