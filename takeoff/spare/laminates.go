package spare

import (
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"
)

// The figures of a blank that Laminates goes by, each below the path of the blank: its whole laminates, those of them that are
// bought, and those that are ripped. In one length these two are the same.
const (
	laminates = "/laminates"
	bought    = "/laminates_timber"
	ripped    = "/laminates_gross"
)

// Laminate is a line of timber for laminates of the blank at path, of which the figure net says how many stay in the boat. Its
// gross is open until Laminates.
func Laminate(path, name, net string, l bill.Line, t *derivation.Table) bill.Line {
	l.ID, l.NetFigure = path+"/"+name, net
	l.GrossFigure, l.Net = l.ID+"_gross", t.Quantity(net)
	l.Material, l.Driver, l.Gross = bill.Timber, string(step.Laminates), l.Net
	return l
}

// Ripped is what the work on the laminates of the blank at path is counted by, open until Laminates: whole ones, those lost
// with them.
func Ripped(path string, l bill.Line) bill.Measure {
	return bill.Measure{Driver: string(step.Laminates), Member: l.Member, Zone: l.Zone, Remedy: l.Remedy, Quantity: quantity.Zero(quantity.Each), Figure: path + ripped}
}

// Laminates shares the gross of all laminates of a bill over those that are alike, those of floors with those of frames, and
// what their ripping is counted by.
func Laminates(of *bill.Bill, t *derivation.Table) error {
	figures := map[string]string{} // of what is ripped, by the blank's own
	for _, group := range Alike(of.Lines, func(l bill.Line) bool { return l.Driver == string(step.Laminates) && l.Pieces != nil }) {
		before := ""
		for _, l := range group {
			before = Count(l, before, t)
		}
		countRipped(group, figures, t)
	}
	for i := range of.Measures {
		m := &of.Measures[i]
		if to, ok := figures[m.Figure]; ok && m.Driver == string(step.Laminates) {
			m.Figure, m.Quantity = to, t.Quantity(to)
		}
	}
	return t.Err()
}

// countRipped counts the whole laminates of the blanks that lines are of, on from that with the longest. Where every one of
// these blanks has its laminates in one length they are what is bought.
func countRipped(group []*bill.Line, figures map[string]string, t *derivation.Table) {
	var blanks []*bill.Line
	seen := map[string]bool{}
	one := true
	for _, l := range group {
		one = one && strings.HasSuffix(l.ID, bought) && l.NetFigure == path(l)+laminates
		if p := path(l); !seen[p] {
			seen[p], blanks = true, append(blanks, l)
		}
	}
	before := ""
	for _, l := range blanks {
		p := path(l)
		if one {
			figures[p+ripped] = l.GrossFigure
			continue
		}
		work := bill.Line{ID: p + laminates, NetFigure: p + laminates, GrossFigure: p + ripped, Losses: l.Losses}
		before = Count(&work, before, t)
		figures[p+ripped] = p + ripped
	}
}

// path of the blank that a line is of.
func path(l *bill.Line) string { return l.ID[:strings.LastIndexByte(l.ID, '/')] }
