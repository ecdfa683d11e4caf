package drawing_test

import (
	"fmt"
	"testing"

	"ribband/seed"
	"ribband/takeoff/boat"
	"ribband/takeoff/drawing"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/butt"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
	"ribband/takeoff/timber"
)

// demo is the invented boat, read and faired.
type demo struct {
	sheet   drawing.Sheet
	offsets *offsets.Table
	hull    *hull.Hull
	frames  []frame.Frame
	options []seed.Option
	species timber.Catalogue
}

// fairDemo is the demo boat, faired once for all tests.
var fairDemo *demo

func loadDemo(t testing.TB) demo {
	t.Helper()
	if fairDemo == nil {
		d := newDemo(t)
		fairDemo = &d
	}
	return *fairDemo
}

func newDemo(t testing.TB) demo {
	t.Helper()
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	table := hulltest.Read(t, &d.Hull)
	h := hulltest.Fit(t, table)
	frames, wrong := frame.Read(d.Frames)
	if len(wrong) > 0 {
		t.Fatal(wrong)
	}
	return demo{
		sheet:   drawing.Sheet{Boat: d.Job.Boat, Date: d.Job.OpenedDate, Revision: "1", Note: d.Job.Description},
		offsets: table, hull: h, frames: frames, options: d.Options, species: d.Species,
	}
}

// on the sheet laid out for a width.
func (d demo) on(width float64) drawing.Sheet {
	s := d.sheet
	s.Width = width
	return s
}

func (d demo) bodyPlan(width float64) drawing.BodyPlan {
	return drawing.BodyPlan{Sheet: d.on(width), Offsets: d.offsets, Hull: d.hull}
}

func (d demo) profile(width float64) drawing.Profile {
	return drawing.Profile{Sheet: d.on(width), Offsets: d.offsets, Hull: d.hull}
}

func (d demo) halfBreadths(width float64) drawing.HalfBreadths {
	return drawing.HalfBreadths{Sheet: d.on(width), Offsets: d.offsets, Hull: d.hull}
}

// framePlan of the demo's option with that index.
func (d demo) framePlan(t testing.TB, width float64, option int) drawing.FramePlan {
	t.Helper()
	choices, faults := frame.ReadRemedies(d.options[option].Remedies, d.frames, d.species)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return drawing.FramePlan{
		Sheet: d.on(width), Option: d.options[option].Name, Notation: d.offsets.Notation,
		Frames: d.frames, Hull: d.hull, Work: drawing.WorkOf(choices, nil),
	}
}

// mixedPlan has every remedy on it, scarfs of known and of unknown length among them.
func (d demo) mixedPlan(width float64) drawing.FramePlan {
	work := map[boat.Member]drawing.Work{}
	for i, f := range d.frames {
		switch i % 7 {
		case 1:
			work[f.Member()] = drawing.Work{Remedy: boat.ReplaceLaminated}
		case 2:
			work[f.Member()] = drawing.Work{Remedy: boat.ScarfIn, Pieces: []drawing.Piece{{From: 300, Low: 600, High: 900, To: 1200}}}
		case 3:
			work[f.Member()] = drawing.Work{Remedy: boat.Sister, Pieces: []drawing.Piece{{From: 500, Low: 500, High: 1500, To: 1500}}}
		case 4:
			work[f.Member()] = drawing.Work{Remedy: "not_yet_heard_of"}
		case 5:
			work[f.Member()] = drawing.Work{Remedy: boat.ReplaceSteamed}
		}
	}
	return drawing.FramePlan{Sheet: d.on(width), Notation: d.offsets.Notation, Frames: d.frames, Hull: d.hull, Work: work}
}

// plankExpansion of the demo's port side in twelve strakes, with butts of stock in metres as given; none, none.
func (d demo) plankExpansion(t testing.TB, width float64, change func(*planking.Document)) drawing.PlankExpansion {
	t.Helper()
	doc := planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 12}, PlankThickness: "0-1-0", StockLengths: []string{"12-0-0", "16-0-0", "20-0-0"}}
	if change != nil {
		change(&doc)
	}
	return drawing.PlankExpansion{Sheet: d.on(width), Notation: d.offsets.Notation, Planking: laid(t, d.hull, d.frames, doc, d.offsets.Notation)}
}

// renewed is the expansion with two planks of it renewed beside one butt that is there.
func (d demo) renewed(t testing.TB, width float64) drawing.PlankExpansion {
	t.Helper()
	doc := planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 12}, PlankThickness: "0-1-0", Butts: []planking.Given{{Strake: 5, X: []string{"15-0-3"}}}}
	p := drawing.PlankExpansion{Sheet: d.on(width), Notation: d.offsets.Notation, Planking: laid(t, d.hull, d.frames, doc, d.offsets.Notation), Option: "Two planks"}
	terms, faults := planking.Read(doc, d.hull, d.offsets.Notation)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	made, none := p.Planking.Renew(terms, []planking.Asked{{Strake: 4, From: 4000, To: 5000}, {Strake: 8, From: 2000, To: 2100}})
	if len(none) > 0 {
		t.Fatal(none)
	}
	p.Renewed = made
	return p
}

// hooded is the expansion with a stem and a transom, both raked, that the demo was given for this drawing alone.
func (d demo) hooded(t testing.TB, width float64) drawing.PlankExpansion {
	t.Helper()
	s, err := d.hull.Surface(boat.Port)
	if err != nil {
		t.Fatal(err)
	}
	forward, aft := s.Reach()
	// The stem stands where the level lines run in to it as straight as three quarters of their slope at the station.
	foot, middle, head := s.Jet(0, forward), s.Jet(.5, forward), s.Jet(1, forward)
	in := func(j hull.Jet) float64 { return forward - (j.Y-foot.Y)/j.Yx/.75 }
	stem := []area.Profile{{Z: foot.Z, X: forward}, {Z: middle.Z, X: in(middle)}, {Z: head.Z + 30, X: in(head)}}
	low, high := s.Jet(0, aft).Z, s.Jet(1, aft).Z
	transom := []area.Profile{{Z: low, X: aft + 40}, {Z: high, X: aft + 330}}
	t.Log(stem, transom)
	doc := planking.Document{Side: boat.Port, Strakes: planking.Division{Count: 12}, PlankThickness: "0-1-0", StockLengths: []string{"12-0-0", "16-0-0", "20-0-0"}}
	return drawing.PlankExpansion{Sheet: d.on(width), Notation: d.offsets.Notation, Planking: laid(t, d.hull, d.frames, doc, d.offsets.Notation,
		area.Ending{Line: stem}, area.Ending{Aft: true, Transom: true, Line: transom})}
}

// planked is what was laid out once for all tests, by hull and document.
var planked = map[string]*planking.Planking{}

func laid(t testing.TB, h *hull.Hull, frames []frame.Frame, doc planking.Document, n notation.Notation, ends ...area.Ending) *planking.Planking {
	t.Helper()
	forward, aft := h.Reach()
	key := fmt.Sprint(forward, aft, len(frames), doc, ends)
	if p, done := planked[key]; done {
		return p
	}
	terms, faults := planking.Read(doc, h, n, ends...)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	var bays []butt.Frame
	for _, f := range frames {
		if f.Side == doc.Side {
			bays = append(bays, butt.Frame{No: f.No, X: f.X.InexactFloat64()})
		}
	}
	p, err := planking.Lay(h, bays, terms)
	if err != nil {
		t.Fatal(err)
	}
	planked[key] = p
	return p
}
