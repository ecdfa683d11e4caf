// Package spare shares what is lost of whole pieces over all pieces of a boat that are alike, so that it is rounded up once
// and not with every frame.
package spare

import (
	"cmp"
	"slices"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
)

// Alike are the lines that pick takes, in groups of one wood, grade and section, each from the longest piece down, or of one item;
// groups stand as their first lines do, so that figures come in the same order each time.
func Alike(lines []bill.Line, pick func(bill.Line) bool) [][]*bill.Line {
	var out [][]*bill.Line
	at := map[string]int{}
	for i := range lines {
		l := &lines[i]
		if !pick(*l) {
			continue
		}
		k := kind(*l)
		if _, ok := at[k]; !ok {
			at[k], out = len(out), append(out, nil)
		}
		out[at[k]] = append(out[at[k]], l)
	}
	for _, group := range out {
		slices.SortFunc(group, longestFirst)
	}
	return out
}

// kind is what pieces have in common of which one may be a spare for another.
func kind(l bill.Line) string {
	p := l.Pieces
	if p == nil {
		return strings.Join([]string{string(l.Material), l.Item}, "\x00")
	}
	return strings.Join([]string{p.Species, p.Grade, p.Thickness.String(), p.Siding.String(), p.Planing.String()}, "\x00")
}

func longestFirst(a, b *bill.Line) int {
	length := 0
	if a.Pieces != nil && b.Pieces != nil {
		length = b.Pieces.Length.Value().Cmp(a.Pieces.Length.Value())
	}
	return cmp.Or(length, boat.Compare(a.Member, b.Member), strings.Compare(a.ID, b.ID))
}

// Count puts the gross of a line into it and into t, counting on from the figure before, empty for the first of a group as
// Alike gives it; the line's own count comes back.
//
// A spare is a whole piece: had with each frame, six tenths of one would cost a whole one each time. So the pieces alike are
// counted on from the longest, and a spare is had with the frame at which the count, over what is left after the losses,
// passes it. A short piece cannot stand in for a long one that broke, but a long one can for a short one: however many of the
// longest are taken, so many at least as long are bought as their losses ask. Over all of them there is one rounding up, no
// frame has fewer than stay in it, and the order that the frames are in changes nothing.
func Count(l *bill.Line, before string, t *derivation.Table) string {
	count := l.ID + "_counted"
	var earlier []derivation.Input
	if before != "" {
		earlier = []derivation.Input{t.Ref("p", before)}
	}
	t.Derive(count, "bill/running_pieces", append(slices.Clone(earlier), t.Ref("n", l.NetFigure)))
	factors := make([]derivation.Factor, len(l.Losses))
	for i, loss := range l.Losses {
		factors[i] = derivation.ByFactor("l", loss.Fraction, loss.Name+": "+loss.Source)
	}
	l.Gross = t.Derive(l.GrossFigure, "bill/shared_pieces", append(slices.Clone(earlier), t.Ref("r", count)), factors...)
	return count
}
