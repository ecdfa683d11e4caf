package buy

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// NeedError: a need or a shop figure that boards and packs cannot be counted from.
type NeedError struct {
	// Line is the id of the need; empty for a shop figure.
	Line   string
	Reason string
}

func (e *NeedError) Error() string {
	if e.Line == "" {
		return "shop figures: " + e.Reason
	}
	return e.Line + ": " + e.Reason
}

// ShortBoardsError: boards for sale from which not all pieces of a group come.
type ShortBoardsError struct {
	// Item is the timber, Line the need whose pieces found no board, Short how many of them.
	Item  string
	Line  string
	Short int64
	// PieceMM is the length of such a piece. LongestMM is the longest piece that any board gives.
	PieceMM, LongestMM decimal.Decimal
	// BoardMM is how long a board would have to be; zero when boards are long enough and too few.
	BoardMM decimal.Decimal
	// Offer is the board that would do if More were for sale.
	Offer string
	More  int64
}

func (e *ShortBoardsError) Error() string {
	if !e.BoardMM.IsZero() {
		return fmt.Sprintf("%s: a piece of %s is %s long and the longest board for sale gives %s mm; a board of at least %s would do",
			e.Item, e.Line, shown(e.PieceMM), e.LongestMM, shown(e.BoardMM))
	}
	pieces := "1 piece of %s, %s long, finds"
	if e.Short != 1 {
		pieces = fmt.Sprintf("%d pieces", e.Short) + " of %s, %s long, find"
	}
	return fmt.Sprintf("%s: "+pieces+" no board, too few are for sale; %d more of %s would do", e.Item, e.Line, shown(e.PieceMM), e.More, e.Offer)
}
