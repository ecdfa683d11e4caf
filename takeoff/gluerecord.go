package takeoff

import (
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/glue"
	"ribband/takeoff/quantity"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// GlueRecord is the record of one blank, of the scarfs within its laminates, or of the joint of one piece: what is known of it, and what is to be filled in.
type GlueRecord struct {
	// Path is the blank's own: of a whole frame the member's, of a piece one below it, and of its joint one below that.
	Path   string      `json:"blank"`
	Member boat.Member `json:"member"`
	// Where it is glued: on the bench or its form in the shop, or in the hull.
	Where   glue.Place `json:"where"`
	Species string     `json:"species"`
	// OldSpecies is the wood of the old frame that a joint in the hull is glued to; empty where nobody wrote it down.
	OldSpecies string `json:"old_species,omitempty"`
	// Trial asks for a trial block, for the reason in Note.
	Trial bool   `json:"trial_block"`
	Note  string `json:"note,omitempty"`
	// Laminates of a blank, or layers of one bent in steam, Scarfs of the joint of a piece let in or within laminates; a sister's side has neither.
	Laminates *quantity.Quantity `json:"laminates,omitempty"`
	Scarfs    *quantity.Quantity `json:"scarfs,omitempty"`
	// Length of the blank, of the scarfs' faces together, of one scarf's within laminates, or of the side; Area of glue line and Mixed glue; PartA and PartB
	// of it where the mix is known.
	Length quantity.Quantity  `json:"length"`
	Area   quantity.Quantity  `json:"glue_line_area"`
	Mixed  quantity.Quantity  `json:"glue_mixed"`
	PartA  *quantity.Quantity `json:"part_a,omitempty"`
	PartB  *quantity.Quantity `json:"part_b,omitempty"`
	// Clamps, Batch and Day are 0 where the rules do not say how the yard lays up, or no lay-up takes the blank.
	Clamps int64      `json:"clamps,omitempty"`
	Batch  int        `json:"batch,omitempty"`
	Day    int64      `json:"day,omitempty"`
	Fill   []glue.Ask `json:"fill_in"`
	// MadeUp is how a blank's laminates are made up of lengths; nil where each is one.
	MadeUp *frame.MadeUp `json:"made_up,omitempty"`
}

// glueing is how the glue of a line of the bill is spread: by the end of the line's id.
type glueing struct {
	line  string // "/glue"
	joint string // added to the path of the piece
	where glue.Place
	// figures of the piece
	area, length, clamps string
}

// glueings of a frame's blank, of the scarfs within its laminates, of the scarfs of a piece, and of a sister's side.
var glueings = []glueing{
	{"/laminate_scarf_glue", "/laminate_scarfs", glue.Bench, "/laminate_scarf_area", "/laminate_scarf_face", "/laminate_scarf_clamps"},
	{"/scarf_glue", "/scarfs", glue.Hull, "/scarf_area", "/scarf_faces", "/scarf_clamps"},
	{"/side_glue", "/side", glue.Hull, "/side_area", "/girth", "/side_clamps"},
	{"/glue", "", glue.Form, "/glue_line_area", "/blank_length", "/clamps"},
}

// glueingOf a line of the bill, with the path of its piece; false for glue that is spread in another way.
func glueingOf(l bill.Line) (glueing, string, bool) {
	for _, g := range glueings {
		if piece, ok := strings.CutSuffix(l.ID, g.line); ok {
			return g, piece, true
		}
	}
	return glueing{}, "", false
}

// record of one line of glue from the figures of its piece.
func (b Basis) record(g glueing, piece string, l bill.Line, wood timber.Species, t *derivation.Table) GlueRecord {
	r := GlueRecord{
		Path: piece + g.joint, Member: l.Member, Where: g.where, Species: wood.Code, Length: t.Quantity(piece + g.length), Area: t.Quantity(piece + g.area), Mixed: l.Gross,
	}
	old, known := wood, true
	if g.where == glue.Hull {
		if old, known = b.oldWood(l.Member); known {
			r.OldSpecies = old.Code
		}
	}
	r.Note = joined(wood, old, known)
	r.Trial, r.Fill = r.Note != "", glue.Asks(g.where, r.Note != "")
	given := func(id string) *quantity.Quantity {
		q := t.Quantity(id)
		return &q
	}
	switch g.joint {
	case "":
		layers := piece + "/laminates"
		if _, steamed := t.Find(piece + "/steamed_pieces"); steamed {
			layers = piece + "/steamed_pieces"
		}
		r.Laminates = given(layers)
	case "/scarfs":
		r.Scarfs = given(piece + "/scarfs")
	case "/laminate_scarfs":
		r.Scarfs = given(piece + "/laminate_joints")
	}
	if b.Rules.Glue.Handling != nil {
		r.PartA, r.PartB = given(l.ID+"_part_a"), given(l.ID+"_part_b")
	}
	if b.Rules.Glue.Layup != nil {
		r.Clamps, _ = t.Quantity(piece + g.clamps).Int()
	}
	return r
}

// blank is the record as it is planned. piece is that of a joint; scarfed says that its laminates are scarfed first.
func (r GlueRecord) blank(piece string, scarfed bool) glue.Blank {
	out := glue.Blank{Path: r.Path, Where: r.Where, Asks: r.Note, Lines: 1, AreaM2: r.Area.Value(), Litres: r.Mixed.Value()}
	switch r.Where {
	case glue.Hull:
		out.After, out.Clamps = piece, r.Clamps
		return out
	case glue.Bench:
		n, _ := r.Scarfs.Int()
		out.Lines, out.Clamps, out.Apart = n, r.Clamps, n
		return out
	}
	if scarfed {
		out.After = piece + "/laminate_scarfs"
	}
	n, _ := r.Laminates.Int()
	out.Lines, out.LengthMM = n-1, r.Length.Value().Mul(decimal.NewFromInt(1000))
	return out
}
