package flat

import "fmt"

// RequestError: a number that no yard means, or that does not go with the others.
type RequestError struct {
	// What and ID say where: "stock", "ply-9"; ID is empty for the rules and for the whole list.
	What, ID string
	Reason   string
}

func (e *RequestError) Error() string {
	if e.ID == "" {
		return e.What + ": " + e.Reason
	}
	return fmt.Sprintf("%s %s: %s", e.What, e.ID, e.Reason)
}

// LargeError: a piece that no stock for sale gives.
type LargeError struct {
	Piece Piece
	// StockID is the nearest, the one to which least would have to be added; empty when there is no stock at all.
	StockID string
	// Width and Length that the nearest stock would need to be at least, its trim included; Length is 0 for a roll of which
	// any length may be cut off.
	Width, Length int64
	// Thickness that it would need where it is too thin; 0 where it is not.
	Thickness int64
}

func (e *LargeError) Error() string {
	size := fmt.Sprintf("piece %s of %d x %d", e.Piece.ID, e.Piece.Width, e.Piece.Length)
	switch {
	case e.StockID != "" && e.Thickness > 0:
		return fmt.Sprintf("%s is thicker than anything for sale gives: the nearest is %s, which would do %d thick, at %d x %d", size, e.StockID, e.Thickness, e.Width, e.Length)
	case e.StockID == "":
		return size + ": nothing is for sale to cut it from"
	case e.Length == 0:
		return fmt.Sprintf("%s is larger than anything for sale gives: the nearest is %s, which would do at a width of %d", size, e.StockID, e.Width)
	}
	return fmt.Sprintf("%s is larger than anything for sale gives: the nearest is %s, which would do at %d x %d", size, e.StockID, e.Width, e.Length)
}

// ShortError: pieces that fit what is for sale, but not all of them.
type ShortError struct {
	// Piece is the first kind that found no room, and Short how many of it.
	Piece Piece
	Short int64
	// StockID is what would do if More of it were for sale: sheets, or length of a roll.
	StockID string
	More    int64
	price   int64
}

func (e *ShortError) Error() string {
	return fmt.Sprintf("%d of piece %s (%d x %d) found no room: not enough is for sale; %d more of %s would do",
		e.Short, e.Piece.ID, e.Piece.Width, e.Piece.Length, e.More, e.StockID)
}

// nearest names, for a piece that fits nothing, the stock to which least area would have to be added, of what lacks least thickness.
func nearest(l List, p Piece) *LargeError {
	e, least, thin := &LargeError{Piece: p}, int64(-1), int64(-1)
	for _, s := range l.Stock {
		lacks := max(0, p.Thickness-s.Thickness)
		if thin >= 0 && lacks > thin {
			continue
		}
		if lacks < thin {
			least = -1
		}
		thin = lacks
		for _, turned := range []bool{false, true} {
			w, h := p.Width, p.Length
			if turned {
				if !p.MayTurn {
					continue
				}
				w, h = h, w
			}
			w, h = max(s.Width, w+2*l.Rules.TrimEach), max(s.Length, h+2*l.Rules.TrimEach)
			add := w*h - s.Width*s.Length
			if s.Roll() {
				h, add = 0, (w-s.Width)*p.Length
				if s.Length > 0 {
					h = max(s.Length, p.Length)
				}
			}
			if least < 0 || add < least || add == least && s.ID < e.StockID {
				least, e.StockID, e.Width, e.Length = add, s.ID, w, h
				if e.Thickness = 0; lacks > 0 {
					e.Thickness = p.Thickness
				}
			}
		}
	}
	return e
}
