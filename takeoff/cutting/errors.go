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
	// InParts says of a piece too long for any board what scarfing it would take; nil when that would not do either.
	InParts *InParts
}

// InParts is a piece too long for any board made of parts from the longest.
type InParts struct {
	// Parts are their lengths, as equal as may be, each but the last with a joint to the next. Where the rules name no joint
	// they are told without one.
	Parts []int64
	// Joint is the length of one, Price what making all of them costs; with Known unset the rules say neither.
	Joint, Price int64
	Known        bool
	// Allowed: the piece may be scarfed, but takes more parts than two.
	Allowed bool
}

// String says it in words.
func (p InParts) String() string {
	text := fmt.Sprintf("%d joint", len(p.Parts)-1)
	if len(p.Parts) > 2 {
		text += "s"
	}
	if p.Known {
		text += fmt.Sprintf(" %d long (%d to make)", p.Joint, p.Price)
	}
	text += fmt.Sprintf(" in parts of %d", p.Parts[0])
	if last := p.Parts[len(p.Parts)-1]; last != p.Parts[0] {
		text += fmt.Sprintf(" and %d", last)
	}
	if !p.Known {
		text += ", longer by what the joint takes"
	}
	return text
}

// inParts is nil where no number of parts makes the piece.
func inParts(p Piece, longest int64, r Rules) *InParts {
	out := InParts{}
	if r.Scarf != nil {
		out.Known, out.Joint, out.Allowed = true, r.Scarf.Length, p.MayScarf
	}
	if longest <= out.Joint || out.Known && longest < r.Scarf.Least {
		return nil
	}
	n := (p.Length-out.Joint-1)/(longest-out.Joint) + 1
	if n < 2 || n > 100 {
		return nil
	}
	all := p.Length + (n-1)*out.Joint
	for i := range n {
		part := all / n
		if i < all%n {
			part++
		}
		out.Parts = append(out.Parts, part)
	}
	if out.Known {
		if out.Parts[n-1] < r.Scarf.Least {
			return nil
		}
		out.Price = (n - 1) * r.Scarf.Price
	}
	return &out
}

func (e *ShortError) Error() string {
	if trim := (e.NeedsLength - e.Piece.Length) / 2; e.NeedsLength > 0 && e.Longest <= 0 {
		return fmt.Sprintf("%d trimmed off each end leaves nothing of any board for sale: less of it, or for piece %s of length %d a board of at least %d, would do",
			trim, e.Piece.ID, e.Piece.Length, e.NeedsLength)
	}
	if e.NeedsLength > 0 {
		text := fmt.Sprintf("piece %s of length %d is longer than any board for sale gives (%d): a board of at least %d would do",
			e.Piece.ID, e.Piece.Length, e.Longest, e.NeedsLength)
		if e.InParts != nil {
			text += ", or " + e.InParts.String()
		}
		return text
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
	if i := tooLong(stock, pieces, r); i >= 0 {
		longest := pieces[i]
		e.Piece, e.Short, e.NeedsLength = longest, longest.Qty, longest.Length+2*r.TrimEach
		e.InParts = inParts(longest, e.Longest, r)
		return e
	}
	laid, joints := lumps(stock, pieces, r, halvings[0], nil)
	if short == 0 { // the strips sufficed, but not the boards that must be bought at least
		stuck, short = laid[0].Piece, laid[0].Qty
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
	e.StockID, e.Boards = more(stock, laid, joints, r, best)
	return e
}

// more is how many further boards of stock best make a plan. The search doubles and then halves, so that it ends
// after some forty plans.
func more(stock []Stock, pieces []lump, joints []Joint, r Rules, best int) (string, int64) {
	works := func(n int64) bool {
		with := append([]Stock{}, stock...)
		with[best].Avail += n
		l := filling{rules: r, stock: with, open: orders(with, r)[0], joints: joints}
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
