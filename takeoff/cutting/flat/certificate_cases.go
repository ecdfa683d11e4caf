package flat

import (
	"fmt"
	"math"
)

// Case is one of the cases that all plans fall into. Either it is parted further, or values say which numbers of sheets could
// hold all pieces in it: the cheapest of these cost no less than the certificate's floor.
type Case struct {
	// Values are what one of each piece is worth here, in the order of the certificate's values, in a scale of their own.
	Values []int64 `json:"values,omitempty"`
	// Worths are what one of the strips counted in each part on the way here is worth beside its pieces, first part first.
	Worths []int64 `json:"worths,omitempty"`
	// Part tells two cases apart.
	Part *Parting `json:"part,omitempty"`
}

// Parting counts something in a plan: at most Most of it are one case, more are the other.
type Parting struct {
	// StockID: sheets of a stock are counted; with First as well, those with the first cuts that way.
	StockID string `json:"stock_id,omitempty"`
	First   First  `json:"first,omitempty"`
	// Length and Depth: strips are counted of that length and at least that depth, both with a kerf, from sheets with the
	// first cuts that way, of which the thickest piece that they give is of Thickness. A strip is as deep as its deepest piece.
	Length    int64 `json:"length,omitempty"`
	Depth     int64 `json:"depth,omitempty"`
	Thickness int64 `json:"thickness,omitempty"`
	Most      int64 `json:"most"`
	Fewer     *Case `json:"fewer"`
	More      *Case `json:"more"`
}

// bounded is a parting and the bounds that a case has by it.
type bounded struct {
	*Parting
	few, many int64
}

const unbounded = math.MaxInt64

// So deep may cases be parted, and values of a case be so large.
const (
	deepestCase = 500
	mostWorth   = 1 << 40
)

// cased works through the cases. dear is the floor to show, in units.
func (c Certificate) cased(l List, n *Case, path []bounded, per, dear int64) error {
	switch {
	case n == nil || len(path) > deepestCase || l.Rules.Stages != 2:
		return fmt.Errorf("%d stages, cases parted %d times, one without a word: %t", l.Rules.Stages, len(path), n == nil)
	case n.Part == nil:
		return c.oneCase(l, n, path, per, dear)
	case n.Part.Most < 0 || n.Part.Most > MaxPieces:
		return fmt.Errorf("a case of at most %d", n.Part.Most)
	}
	if err := c.cased(l, n.Part.Fewer, append(path, bounded{n.Part, 0, n.Part.Most}), per, dear); err != nil {
		return err
	}
	return c.cased(l, n.Part.More, append(path, bounded{n.Part, n.Part.Most + 1, unbounded}), per, dear)
}

// oneCase checks a case by its values: all pieces are worth so much, counted strips at least so much more, and no numbers
// of sheets below dear hold it.
func (c Certificate) oneCase(l List, n *Case, path []bounded, per, dear int64) error {
	value, want := map[string]int64{}, int64(0)
	for i, v := range c.Values {
		if i < len(n.Values) {
			value[v.PieceID] = n.Values[i]
		}
	}
	for _, p := range l.Pieces {
		if v := value[p.ID]; v < 0 || v > mostWorth/MaxPieces {
			return fmt.Errorf("value %d of piece %q in a case", v, p.ID)
		}
		want += p.Qty * value[p.ID]
	}
	for i, b := range path {
		w := int64(0)
		if i < len(n.Worths) {
			w = n.Worths[i]
		}
		switch {
		case w < -mostWorth/MaxPieces || w > mostWorth/MaxPieces || w < 0 && b.many == unbounded || w != 0 && b.Depth == 0:
			return fmt.Errorf("part %d of a case: its strips are worth %d", i, w)
		case w < 0:
			want += w * b.many
		default:
			want += w * b.few
		}
	}
	var all []holder
	few, many := make([]int64, len(l.Stock)), make([]int64, len(l.Stock))
	for i, s := range l.Stock {
		kinds, err := c.holders(l, i, value, per, func(first First, length, depth, thick int64) (sum int64) {
			for i, b := range path {
				if b.First == first && b.Length == length && b.Thickness == thick && 0 < b.Depth && b.Depth <= depth && i < len(n.Worths) {
					sum += n.Worths[i]
				}
			}
			return sum
		})
		if err != nil {
			return err
		}
		few[i], many[i] = 0, s.Avail
		for _, b := range path {
			if b.StockID != s.ID || b.Depth > 0 {
				continue
			}
			if b.First == "" {
				few[i] = max(few[i], b.few)
				if many[i] < 0 || many[i] > b.many {
					many[i] = b.many
				}
				continue
			}
			for j := range kinds {
				if kinds[j].first == b.First {
					kinds[j].few, kinds[j].many = max(kinds[j].few, b.few), min(kinds[j].many, b.many)
				}
			}
		}
		all = append(all, kinds...)
	}
	if least, ok, _ := leastHolding(want, dear, all, few, many, checkedHeld); !ok || least < dear {
		return fmt.Errorf("in a case parted %d times sheets for %d units could hold all pieces", len(path), least)
	}
	return nil
}
