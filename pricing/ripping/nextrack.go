package ripping

import (
	"fmt"
	"slices"
	"strings"

	"ribband/pricing/buy"
	"ribband/pricing/rack"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// NextRack is the rack once a list's boards are cut: what was taken from it is gone, with the stretches of marked boards that
// were not, each now a board by itself, and what the yard keeps is added under mark and a number. Lengths are never written
// longer than they are. What is added is worth nothing: the job that bought its board has paid for all of it. Dropped is how
// many lengths found no place, because a rack holds no more rows or the notation writes nothing so small.
//
// The document and what is left are those of the list; a *buy.NeedError when they are not.
func NextRack(now rack.Document, l buy.List, left []Remains, mark string) (next rack.Document, dropped int64, err error) {
	read, faults := rack.Read(now)
	if err := faults.Err(); err != nil {
		return rack.Document{}, 0, err
	}
	next = now
	next.Boards = []rack.Row{}
	used, ids := stretchesUsed(l), map[string]bool{}
	for _, row := range now.Boards {
		ids[row.ID] = true
	}
	name := func(mark string) string {
		for n := 1; ; n++ {
			if id := fmt.Sprintf("%s %d", mark, n); !ids[id] {
				ids[id] = true
				return id
			}
		}
	}
	for i, row := range now.Boards {
		rows, err := takenFrom(row, read.Boards[i], used[row.ID], now.Notation)
		if err != nil {
			return rack.Document{}, 0, err
		}
		for k := range rows {
			if rows[k].ID == "" {
				rows[k].ID = name(row.ID + " part")
			}
		}
		next.Boards = append(next.Boards, rows...)
	}
	for _, of := range left {
		for _, k := range of.Kept {
			row := rack.Row{Count: k.Count, Species: of.Species, Grade: of.Grade, Thickness: writtenDown(k.ThicknessMM, now.Notation),
				Width: writtenDown(k.WidthMM, now.Notation), Length: writtenDown(k.LengthMM, now.Notation)}
			for row.Count > 0 {
				one := row
				one.Count = min(row.Count, rack.MaxCount)
				row.Count -= one.Count
				if len(next.Boards) >= rack.MaxRows || thin(one) {
					dropped += one.Count
					continue
				}
				one.ID = name(mark)
				if k.What == "strip" { // cut square at both ends: nothing is trimmed off it again
					one.Clear = []rack.Stretch{{From: writtenDown(decimal.Zero, now.Notation), To: one.Length}}
				}
				next.Boards = append(next.Boards, one)
			}
		}
	}
	return next, dropped, nil
}

// thin reports a row of which some size is nothing once it is written down.
func thin(row rack.Row) bool {
	return slices.ContainsFunc([]string{row.Thickness, row.Width, row.Length}, func(size string) bool { return strings.Trim(size, "0-") == "" })
}

// stretchesUsed are how many of each board in hand are cut, by where their stretch begins; of boards without marks at 0.
func stretchesUsed(l buy.List) map[string]map[string]int64 {
	out := map[string]map[string]int64{}
	for _, t := range l.Timber {
		for _, b := range t.Boards {
			o, ok := t.Offer(b.Offer)
			if !ok || o.Rack == nil {
				continue
			}
			on := o.Rack
			from := decimal.Zero
			if on.FromMM != nil {
				from = *on.FromMM
			}
			if out[on.ID] == nil {
				out[on.ID] = map[string]int64{}
			}
			out[on.ID][from.String()] += b.Count
		}
	}
	return out
}

// takenFrom is a row of the rack with so many of each stretch gone.
func takenFrom(row rack.Row, b rack.Board, used map[string]int64, n notation.Notation) ([]rack.Row, error) {
	most, least := int64(0), row.Count
	for _, c := range b.Clear {
		u := used[c.From.String()]
		if u > row.Count {
			return nil, &buy.NeedError{Line: "rack: " + row.ID, Reason: fmt.Sprintf("the list cuts %d and the rack has %d", u, row.Count)}
		}
		most, least = max(most, u), min(least, u)
	}
	whole := row
	whole.Count = row.Count - most
	var out []rack.Row
	if whole.Count > 0 || row.Count == 0 {
		out = append(out, whole)
	}
	if !b.Marked || most == least {
		return out, nil
	}
	worth, err := b.Worths()
	if err != nil {
		return nil, err
	}
	for k, c := range b.Clear { // the stretches that stay of boards of which another was taken
		count := most - used[c.From.String()]
		if count == 0 {
			continue
		}
		one := row
		one.ID, one.Count, one.Length = "", count, writtenDown(c.Length(), n)
		one.Clear = []rack.Stretch{{From: writtenDown(decimal.Zero, n), To: one.Length}}
		if one.Worth = ""; b.Worth.Sign() > 0 {
			one.Worth = worth[k].String()
		}
		out = append(out, one)
	}
	return out, nil
}

// writtenDown is a length in a notation, never longer than it is: down to a sixteenth of an inch in feet, inches and eighths, a
// sixty-fourth in inches, and to the nanometre in the others.
func writtenDown(mm decimal.Decimal, n notation.Notation) string {
	grain := map[notation.Notation]string{notation.FeetInchesEighths: "1.5875", notation.Inches: "0.396875"}[n]
	if grain == "" {
		grain = "0.000001"
	}
	step := decimal.RequireFromString(grain)
	parts, _ := mm.QuoRem(step, 0)
	l, err := notation.Millimetres.Parse(parts.Mul(step).String())
	if err != nil {
		return ""
	}
	return n.Format(l)
}
