package web

import (
	"math"
	"strconv"
	"strings"

	"ribband/server/internal/app"
)

// strakesTable is one side's planking laid out flat.
type strakesTable struct {
	app.Strakes
	Area span
	Rows []strakeRow
	// Butts is false where no stock was named; Planks are then none.
	Butts  bool
	Planks []plankRow
}

// plankRow is one plank between butts or hood ends, with the board that she is spiled from.
type plankRow struct {
	Name                        string
	From, To                    string
	Along, Stock, Offcut, Width string
	Spiling                     span
}

// strakeRow is one strake: along her longer edge, the board that a spiled plank of its whole length needs, its round, and
// where it butts.
type strakeRow struct {
	No                                      int
	Length, Least, Most, BoardLength, Board span
	RoundLower, RoundUpper, Spiling         span
	BoardThickness, Where                   string
}

func strakesTableOf(s app.Strakes, in lengths) strakesTable {
	out := strakesTable{Strakes: s, Area: in.area(s.Area)}
	for _, x := range s.Strakes {
		longer := x.LengthLower
		if x.LengthUpper.Value > longer.Value {
			longer = x.LengthUpper
		}
		row := strakeRow{No: x.No, Length: in.of(longer), Least: in.of(x.WidthLeast), Most: in.of(x.WidthMost), BoardLength: in.of(x.BoardLength), Board: in.of(x.BoardWidth),
			RoundLower: in.of(x.RoundLower), RoundUpper: in.of(x.RoundUpper), Spiling: spiling(x.Spiling)}
		if x.BoardThickness != nil {
			row.BoardThickness = in.nearest(*x.BoardThickness)
		}
		var where []string
		for _, b := range x.Butts {
			where = append(where, b.Where+" ("+in.nearest(b.XMM)+")")
		}
		row.Where = strings.Join(where, "; ")
		if x.Stuck != nil {
			row.Where = "none by the rules: " + x.Stuck.Fix
		}
		out.Butts = out.Butts || len(x.Butts) > 0 || x.Stuck != nil
		out.Rows = append(out.Rows, row)
		for i, q := range x.Planks {
			out.Planks = append(out.Planks, plankRowOf(strconv.Itoa(x.No)+", plank "+strconv.Itoa(i+1), q, in))
		}
	}
	if !out.Butts {
		out.Planks = nil
	}
	return out
}

func plankRowOf(name string, q app.PlankLaid, in lengths) plankRow {
	row := plankRow{Name: name, From: q.From, To: q.To, Along: in.write(q.AlongMM, math.Ceil), Stock: "none as long", Offcut: "–", Width: in.of(q.BoardWidth).High, Spiling: spiling(q.Spiling)}
	if q.StockMM != nil {
		row.Stock, row.Offcut = in.nearest(*q.StockMM), in.write(*q.OffcutMM, math.Floor)
	}
	return row
}

func spiling(r app.Ranged) span { return decimals(100*r.Value, 100*r.Low, 100*r.High, 0) }
