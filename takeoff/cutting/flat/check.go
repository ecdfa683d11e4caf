package flat

import "fmt"

// check refuses numbers out of range before any arithmetic.
func check(l List) error {
	if err := checkRules(l.Rules); err != nil {
		return err
	}
	if len(l.Stock) > MaxStock || len(l.Pieces) > MaxKinds {
		return &RequestError{"request", "", fmt.Sprintf("at most %d kinds of stock and %d of piece", MaxStock, MaxKinds)}
	}
	ids, per := map[string]bool{}, int64(0)
	for _, s := range l.Stock {
		if ids[s.ID] {
			return &RequestError{"stock", s.ID, "the id stands twice"}
		}
		ids[s.ID] = true
		if err := checkStock(s); err != nil {
			return err
		}
		if l.Rules.Stages == 3 && max(s.Width, s.Length) > MaxFine {
			return &RequestError{"stock", s.ID, fmt.Sprintf("with three stages a side runs to %d: count in a coarser unit", MaxFine)}
		}
		if s.Roll() && per > 0 && s.Per != per {
			return &RequestError{"stock", s.ID, fmt.Sprintf("it is priced by %d of its length, another roll by %d: price all by one length", s.Per, per)}
		}
		per = max(per, s.Per)
	}
	return checkPieces(l)
}

func checkRules(r Rules) error {
	switch {
	case r.Kerf < 0 || r.TrimEach < 0 || r.Kerf > MaxSide || r.TrimEach > MaxSide:
		return &RequestError{"rules", "", fmt.Sprintf("kerf and trim run from 0 to %d", MaxSide)}
	case r.First != Across && r.First != Along && r.First != Either:
		return &RequestError{"rules", "", fmt.Sprintf("the first cuts run %q, %q or %q, not %q", Across, Along, Either, r.First)}
	case r.Stages != 2 && r.Stages != 3:
		return &RequestError{"rules", "", fmt.Sprintf("cuts are made in 2 stages or 3, not %d", r.Stages)}
	}
	return nil
}

func checkStock(s Stock) error {
	switch {
	case s.Width <= 0 || s.Width > MaxSide:
		return &RequestError{"stock", s.ID, fmt.Sprintf("the width runs from 1 to %d, not %d", MaxSide, s.Width)}
	case s.Price <= 0 || s.Price > MaxPrice:
		return &RequestError{"stock", s.ID, fmt.Sprintf("the price runs from 1 to %d, not %d", int64(MaxPrice), s.Price)}
	case s.Per < 0 || s.Per > MaxPer:
		return &RequestError{"stock", s.ID, fmt.Sprintf("a roll is priced by a length of 1 to %d, a sheet has 0", MaxPer)}
	case s.Length < 0 || s.Length == 0 && !s.Roll() || s.Length > MaxSide:
		return &RequestError{"stock", s.ID, fmt.Sprintf("the length runs from 1 to %d, not %d", MaxSide, s.Length)}
	case s.Thickness < 0 || s.Thickness > MaxThick:
		return &RequestError{"stock", s.ID, fmt.Sprintf("the thickness runs from 0 to %d, not %d", int64(MaxThick), s.Thickness)}
	case s.Avail < -1 || s.Avail > MaxCost:
		return &RequestError{"stock", s.ID, "what is for sale is -1 for no limit, or from 0"}
	}
	return nil
}

func checkPieces(l List) error {
	ids, total, depth := map[string]bool{}, int64(0), int64(0)
	for _, p := range l.Pieces {
		switch {
		case ids[p.ID]:
			return &RequestError{"piece", p.ID, "the id stands twice"}
		case p.Width <= 0 || p.Width > MaxSide || p.Length <= 0 || p.Length > MaxSide:
			return &RequestError{"piece", p.ID, fmt.Sprintf("width and length run from 1 to %d, not %d x %d", MaxSide, p.Width, p.Length)}
		case p.Thickness < 0 || p.Thickness > MaxThick:
			return &RequestError{"piece", p.ID, fmt.Sprintf("the thickness runs from 0 to %d, not %d", int64(MaxThick), p.Thickness)}
		case p.AlongOnly && l.Rules.First == Across:
			return &RequestError{"piece", p.ID, "it comes out of sheets first cut along, and none may be"}
		case p.Qty < 0 || p.Qty > MaxPieces:
			return &RequestError{"piece", p.ID, fmt.Sprintf("the number runs from 0 to %d", MaxPieces)}
		case p.Pair != nil && (p.Pair.Width < p.Width || p.Pair.Length < p.Length || p.Pair.Width > MaxSide || p.Pair.Length > MaxSide):
			return &RequestError{"piece", p.ID, fmt.Sprintf("the rectangle of a pair is at least %d x %d", p.Width, p.Length)}
		}
		ids[p.ID] = true
		depth += p.Qty * (max(p.Width, p.Length) + l.Rules.Kerf)
		if total += p.Qty; total > MaxPieces {
			return &RequestError{"pieces", "", fmt.Sprintf("at most %d all together", MaxPieces)}
		}
	}
	for _, s := range l.Stock {
		// every piece on a sheet or at the end of a roll of its own is more than any plan buys
		most := float64(s.Price) * float64(total)
		if s.Roll() {
			most = float64(s.Price) * float64(depth) / float64(s.Per)
		}
		if most > MaxCost {
			return &RequestError{"stock", s.ID, "so many pieces at this price could cost more than is carried"}
		}
	}
	return nil
}
