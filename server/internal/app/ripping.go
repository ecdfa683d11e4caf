package app

import (
	"context"
	"fmt"
	"strconv"
	"time"

	"ribband/pricing/buy"
	"ribband/pricing/ripping"
	"ribband/server/internal/auth"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Ripping is what to buy for an option, with a drawing of how the boards of each kind of timber are cut.
type Ripping struct {
	BuyList
	Sheet    Sheet
	Drawings []drawing.RippingList
	// Flats are how sheets and rolls are cut, one for each of the packs that are laid out, in their order.
	Flats []drawing.CutSheets
}

// Ripping works out what to buy for an option on version n of a sheet, and lays its boards out for a drawing as wide.
func (a *App) Ripping(ctx context.Context, who auth.Principal, job, option, sheetID string, n, inHand int64, width float64) (Ripping, error) {
	list, err := a.BuyList(ctx, who, job, option, sheetID, n, inHand)
	if err != nil {
		return Ripping{}, err
	}
	j, err := a.Job(ctx, who, job)
	if err != nil {
		return Ripping{}, err
	}
	s, err := a.Sheet(ctx, who, sheetID)
	if err != nil {
		return Ripping{}, err
	}
	yard, _, err := a.letterhead(ctx, who.Yard)
	if err != nil {
		return Ripping{}, err
	}
	out := Ripping{BuyList: list, Sheet: s}
	labels := map[string]string{}
	for _, share := range list.Shares {
		labels[share.Line] = share.Member.String()
		if share.Part != "" {
			labels[share.Line] += ", " + share.Part
		}
	}
	corner := drawing.Sheet{Boat: j.Boat.Name, Note: yard.Note, Revision: fmt.Sprintf("%d of the prices “%s”", n, s.Name), Width: width}
	for _, v := range s.Published {
		if v.N == n {
			corner.Date = v.PublishedAt.Format(time.DateOnly)
		}
	}
	for i, r := range list.Ripping {
		out.Drawings = append(out.Drawings, drawing.RippingList{
			Sheet: corner, Notation: j.Notation, Timber: plainName(r.Species) + ", " + r.Grade,
			Kerf: inMM(r.Kerf), StripThickness: inMM(r.StripThickness), StripWidth: inMM(r.StripWidth),
			Boards: sawn(r, list.Timber[i], j.Notation, labels),
		})
	}
	for _, p := range list.Packs {
		if p.Sheets == nil {
			continue
		}
		cut := boughtSheets(p, j.Notation, labels)
		cut.Sheet = corner
		out.Flats = append(out.Flats, cut)
	}
	return out, nil
}

// RippingDrawing is the drawing of one of the lists, the first is 1; those of sheets come after those of boards. A list that is not there is a *QuestionError.
func (a *App) RippingDrawing(ctx context.Context, who auth.Principal, job, option, sheetID string, n, inHand, list int64, width float64) (DrawingFile, error) {
	r, err := a.Ripping(ctx, who, job, option, sheetID, n, inHand, width)
	if err != nil {
		return DrawingFile{}, err
	}
	all := int64(len(r.Drawings) + len(r.Flats))
	if list < 1 || list > all {
		return DrawingFile{}, &QuestionError{"list", "there is no ripping list " + strconv.FormatInt(list, 10), "a number from 1 to how many kinds of timber and of sheet stuff the buy list cuts, here " + strconv.FormatInt(all, 10)}
	}
	if at := list - int64(len(r.Drawings)); at > 0 {
		body, err := svgOf(r.Flats[at-1].Draw(), nil)
		return DrawingFile{svgKind, body}, err
	}
	body, err := svgOf(r.Drawings[list-1].Draw(), nil)
	return DrawingFile{svgKind, body}, err
}

func sawn(r ripping.List, t buy.Timber, in notation.Notation, labels map[string]string) []drawing.SawnBoard {
	out := make([]drawing.SawnBoard, len(r.Boards))
	for i, b := range r.Boards {
		s := drawing.SawnBoard{
			Name: fmt.Sprintf("Board %d", b.First), Length: inMM(b.LengthMM),
			EndTrim: inMM(b.EndTrim), RandomWidth: b.Widest != "",
		}
		if o, ok := t.Offer(b.Offer); ok {
			s.Size = sizeIn(in, o)
		}
		s.Flat, s.Across = b.Way.Flat, inMM(b.Way.AcrossMM)
		if b.Way.Layers > 1 && b.LayersOff > 0 {
			s.Resaw = &drawing.Resaw{Off: b.LayersOff, Thick: inMM(b.Way.LayerMM), Kerf: inMM(r.ResawKerf), All: b.LayersOff == b.Way.Layers, RipFirst: b.RipFirst}
		}
		for _, rest := range b.Rest {
			s.Rest = append(s.Rest, drawing.SawnRest{Count: rest.Count, Thickness: inMM(rest.ThicknessMM), Width: inMM(rest.WidthMM), Length: inMM(rest.LengthMM), Keep: rest.Keep})
		}
		for _, of := range b.Lengths {
			s.Lengths = append(s.Lengths, drawing.SawnLength{Count: of.Count, Length: inMM(of.LengthMM)})
		}
		if b.Last > b.First {
			s.Name = fmt.Sprintf("Boards %d to %d", b.First, b.Last)
		}
		for _, strip := range b.Strips {
			of := drawing.SawnStrip{Count: strip.Count, OfLength: strip.OfLength, Width: inMM(strip.WidthMM), Over: inMM(strip.Over.Value().Shift(3)), Keep: strip.Keep}
			for _, p := range strip.Pieces {
				piece := drawing.SawnPiece{Label: labels[p.Line], Count: p.Count, Length: inMM(p.Length.Value().Shift(3)), Width: inMM(p.WidthMM)}
				if h := p.Scarf; h != nil {
					piece.Scarf = &drawing.SawnScarf{Taper: inMM(h.Taper), First: h.First, Boards: h.Boards}
				}
				of.Pieces = append(of.Pieces, piece)
			}
			s.Strips = append(s.Strips, of)
		}
		out[i] = s
	}
	return out
}

// inMM is an exact length as a drawing takes it.
func inMM(d decimal.Decimal) float64 { return d.InexactFloat64() }
