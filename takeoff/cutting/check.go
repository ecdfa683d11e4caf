package cutting

import "fmt"

// check refuses numbers out of range before any arithmetic.
func check(stock []Stock, pieces []Piece, r Rules) error {
	if r.Kerf < 0 || r.TrimEach < 0 || r.Kerf > MaxLength || r.TrimEach > MaxLength {
		return &RequestError{"rules", "", fmt.Sprintf("kerf and trim run from 0 to %d", int64(MaxLength))}
	}
	if len(stock) > MaxStock || len(pieces) > MaxKinds {
		return &RequestError{"request", "", fmt.Sprintf("at most %d kinds of board and %d of piece", MaxStock, MaxKinds)}
	}
	ids := map[string]bool{}
	for _, s := range stock {
		switch {
		case ids[s.ID]:
			return &RequestError{"stock", s.ID, "the id stands twice"}
		case s.Length <= 0 || s.Length > MaxLength:
			return &RequestError{"stock", s.ID, fmt.Sprintf("the length runs from 1 to %d", int64(MaxLength))}
		case s.Price <= 0 || s.Price > MaxPrice:
			return &RequestError{"stock", s.ID, fmt.Sprintf("the price runs from 1 to %d", int64(MaxPrice))}
		case s.Strips < 1 || s.Strips > MaxStrips:
			return &RequestError{"stock", s.ID, fmt.Sprintf("a board gives 1 to %d strips", MaxStrips)}
		case s.Avail < -1 || s.Least < 0 || s.Least > MaxPieces:
			return &RequestError{"stock", s.ID, "the number for sale is -1 for no limit, or from 0; the least order is from 0"}
		}
		ids[s.ID] = true
	}
	if err := r.Keep.check(stock, r); err != nil {
		return err
	}
	total, err := checkPieces(pieces)
	if err != nil {
		return err
	}
	joints := int64(0)
	for _, p := range pieces {
		if p.MayScarf && r.Scarf == nil {
			return &RequestError{"piece", p.ID, "it may be scarfed, but the rules do not say how"}
		}
		if p.MayScarf {
			joints += p.Qty
		}
	}
	if r.Scarf != nil {
		if err := r.Scarf.check(stock, pieces, r); err != nil {
			return err
		}
		if _, ok := times(2*joints, 2*r.Scarf.Price); !ok {
			return &RequestError{"scarf", "", "the joints could cost more than is carried"}
		}
	}
	total += joints
	dearest := int64(0)
	for _, s := range stock {
		total, dearest = total+s.Least, max(dearest, s.Price)
	}
	if _, ok := times(total, dearest); !ok {
		return &RequestError{"request", "", "the boards could cost more than is carried"}
	}
	return nil
}

// checkPieces gives how many pieces there are.
func checkPieces(pieces []Piece) (total int64, err error) {
	ids := map[string]bool{}
	for _, p := range pieces {
		switch {
		case ids[p.ID]:
			return 0, &RequestError{"piece", p.ID, "the id stands twice"}
		case p.Length <= 0 || p.Length > MaxLength:
			return 0, &RequestError{"piece", p.ID, fmt.Sprintf("the length runs from 1 to %d", int64(MaxLength))}
		case p.Qty < 0 || p.Qty > MaxPieces:
			return 0, &RequestError{"piece", p.ID, fmt.Sprintf("the number runs from 0 to %d", MaxPieces)}
		}
		ids[p.ID] = true
		if total += p.Qty; total > MaxPieces {
			return 0, &RequestError{"pieces", "", fmt.Sprintf("at most %d all together", MaxPieces)}
		}
	}
	return total, nil
}

// Check looks over a plan from nothing but its own figures and the request: every piece is cut exactly as often as
// it is asked for, each strip keeps sum(piece + kerf) <= length - 2 trim + kerf, no more strips are cut than the
// boards give, no more boards are bought than are for sale nor fewer than the least order, the cost is the sum of
// the boards and the joints, and the bound is not above it. It shares no code with Solve.
func Check(plan Plan, stock []Stock, pieces []Piece, r Rules) error {
	length, need := map[string]int64{}, map[Count]int64{} // by id, and by part with K left out
	for _, p := range pieces {
		length[p.ID] = p.Length
		need[Count{PieceID: p.ID}] += p.Qty
	}
	if err := checkJoints(plan, pieces, r, need); err != nil {
		return err
	}
	boards := map[string]Stock{}
	for _, s := range stock {
		boards[s.ID] = s
	}
	used := map[string]int64{}
	for i, c := range plan.Cuts {
		s, ok := boards[c.StockID]
		if !ok || c.N < 1 || len(c.Pieces) == 0 {
			return fmt.Errorf("cut %d: stock %q, %d strips, %d kinds of piece", i, c.StockID, c.N, len(c.Pieces))
		}
		used[c.StockID] += c.N
		along := int64(0)
		for _, k := range c.Pieces {
			l, ok := length[k.PieceID]
			if !ok || k.K < 1 {
				return fmt.Errorf("cut %d: %d of piece %q", i, k.K, k.PieceID)
			}
			if k.Part != 0 {
				l = k.Part
			}
			along += k.K * (l + r.Kerf)
			need[Count{PieceID: k.PieceID, Part: k.Part}] -= k.K * c.N
		}
		if left := s.Length - 2*r.TrimEach - along; along <= s.Length-2*r.TrimEach+r.Kerf && c.Offcut != max(0, left) {
			return fmt.Errorf("cut %d of stock %s: %d left over, not %d", i, c.StockID, left, c.Offcut)
		}
		if along > s.Length-2*r.TrimEach+r.Kerf {
			return fmt.Errorf("cut %d of stock %s: pieces and kerfs take %d of %d", i, c.StockID, along, s.Length-2*r.TrimEach+r.Kerf)
		}
	}
	for id, n := range need {
		if n != 0 {
			return fmt.Errorf("piece %s, part %d: %d not cut", id.PieceID, id.Part, n)
		}
	}
	return checkBoards(plan, boards, used, r)
}

// checkJoints turns pieces made of two into parts that must be cut: both long enough, together longer by one joint.
func checkJoints(plan Plan, pieces []Piece, r Rules, need map[Count]int64) error {
	may := map[string]int64{}
	for _, p := range pieces {
		if p.MayScarf {
			may[p.ID] = p.Length
		}
	}
	for _, j := range plan.Joints {
		l, ok := may[j.PieceID]
		if !ok || r.Scarf == nil || j.N < 1 {
			return fmt.Errorf("piece %s: %d of two parts", j.PieceID, j.N)
		}
		if j.First+j.Second != l+r.Scarf.Length || min(j.First, j.Second) < r.Scarf.Least || j.From != l-j.Second || j.To != j.First || j.Cost != j.N*r.Scarf.Price {
			return fmt.Errorf("piece %s: parts of %d and %d, joined from %d to %d, for %d", j.PieceID, j.First, j.Second, j.From, j.To, j.Cost)
		}
		need[Count{PieceID: j.PieceID}] -= j.N
		need[Count{PieceID: j.PieceID, Part: j.First}] += j.N
		need[Count{PieceID: j.PieceID, Part: j.Second}] += j.N
	}
	return nil
}

func checkBoards(plan Plan, boards map[string]Stock, used map[string]int64, r Rules) error {
	cost := int64(0)
	seen := map[string]bool{}
	for _, l := range plan.Bought {
		s, ok := boards[l.StockID]
		switch {
		case !ok || seen[l.StockID] || l.Boards < 1:
			return fmt.Errorf("stock %q bought %d times, twice listed %t", l.StockID, l.Boards, seen[l.StockID])
		case s.Avail >= 0 && l.Boards > s.Avail:
			return fmt.Errorf("stock %s: %d boards, %d for sale", l.StockID, l.Boards, s.Avail)
		case l.Boards < s.Least:
			return fmt.Errorf("stock %s: %d boards, %d is the least order", l.StockID, l.Boards, s.Least)
		case l.Strips != l.Boards*s.Strips || l.Used != used[l.StockID] || l.Used > l.Strips:
			return fmt.Errorf("stock %s: %d strips of %d boards, %d used", l.StockID, l.Strips, l.Boards, l.Used)
		case l.Cost != l.Boards*s.Price:
			return fmt.Errorf("stock %s: cost %d", l.StockID, l.Cost)
		}
		seen[l.StockID] = true
		cost += l.Cost
	}
	for id := range used {
		if !seen[id] {
			return fmt.Errorf("stock %s is cut and not bought", id)
		}
	}
	for _, j := range plan.Joints {
		cost += j.Cost
	}
	worth := int64(0)
	if r.Keep != nil {
		for _, c := range plan.Cuts {
			worth += c.N * r.Keep.worth(c.Offcut)
		}
		for _, l := range plan.Bought {
			worth += (l.Strips - l.Used) * r.Keep.worth(boards[l.StockID].Length-2*r.TrimEach)
		}
	}
	if cost != plan.Cost || worth != plan.Kept || plan.Bound > cost-worth {
		return fmt.Errorf("cost %d, its boards and joints %d, kept %d, worth %d, bound %d", plan.Cost, cost, plan.Kept, worth, plan.Bound)
	}
	return nil
}
