package takeoff

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"
	"ribband/takeoff/scarf"
)

// Scarf is one joint of a piece let into a frame, as it is marked out. Places are mm along the girth from the rabbet.
type Scarf struct {
	Member boat.Member `json:"member"`
	Piece  string      `json:"piece"`
	// End of the piece that it joins: towards the heel or the head.
	End string `json:"end"`
	// FayingTipMM is where the cut runs out at the faying face, InnerTipMM where it does at the inner face.
	FayingTipMM float64 `json:"faying_tip_mm"`
	InnerTipMM  float64 `json:"inner_tip_mm"`
	Slope       float64 `json:"slope"`
	TaperMM     float64 `json:"taper_mm"`
	FaceMM      float64 `json:"face_mm"`
	// Straight is what a straight edge laid from the faying tip would give; absent where the frame's line is not known.
	Straight *Straightedge `json:"straight_edge,omitempty"`
	Note     string        `json:"note"`
	// Why it is as steep as it is, what the next Steeper and Flatter would have meant, and what it would take to change it.
	Why     string          `json:"why"`
	Steeper *ScarfOtherwise `json:"steeper,omitempty"`
	Flatter *ScarfOtherwise `json:"flatter,omitempty"`
	Change  string          `json:"change"`

	face float64
}

// Straightedge is how far a straight cut gets before it leaves the frame, and the slope that comes out.
type Straightedge struct {
	AlongMM     float64 `json:"along_mm"`
	ShortfallMM float64 `json:"shortfall_mm"`
	Slope       float64 `json:"slope"`
}

// scarfs of a part. Their faying tips lie in the old wood, so that the new piece covers the taper from outboard.
func (b Basis) scarfs(s stand, p frame.Part, piece string) []Scarf {
	f := scarf.Feather{Slope: b.Rules.Scarf.Slope.InexactFloat64(), Depth: s.frame.Moulded.InexactFloat64()}
	var out []Scarf
	one := func(end string, from, to float64) {
		x := Scarf{Member: s.frame.Member(), Piece: piece, End: end, FayingTipMM: quantity.Thousandth(from), InnerTipMM: quantity.Thousandth(to),
			Slope: f.Slope, TaperMM: quantity.Thousandth(f.Length()), face: f.Face(),
			Note: "The taper follows the curve: at every place along the faying face the cut lies as deep as its share of the taper."}
		if c := s.curve(); c != nil {
			back := to < from
			x.face = f.Lay(c, from, back, 2).Face
			straight := f.Straight(c, from, back)
			x.Straight = &Straightedge{quantity.Thousandth(straight.Along), quantity.Thousandth(straight.Shortfall), quantity.Thousandth(straight.Slope)}
			if straight.Shortfall > 0 {
				x.Note += fmt.Sprintf(" A straight edge would leave the wood after %.0f mm, at %.1f to one.", straight.Along, straight.Slope)
			}
		}
		x.FaceMM = quantity.Thousandth(x.face)
		out = append(out, x)
	}
	if !p.Heel {
		one("heel", p.LowTip.InexactFloat64(), p.From.InexactFloat64())
	}
	if !p.Head {
		one("head", p.High.InexactFloat64(), p.To.InexactFloat64())
	}
	return out
}

// curve is the faying face of a frame by length along it; nil where its line is not known in a plane.
func (s stand) curve() scarf.Curve {
	if s.target == nil {
		return nil
	}
	girth := s.target.Girth.MM
	return func(along float64) (y, z, theta float64) {
		p := s.target.At(s.target.Share(along / girth))
		return p.Y, p.Z, p.Theta
	}
}

// abreast are the warnings of scarfs in neighbouring frames of a side that lie nearer to each other along the girth than
// the yard's rules ask for.
func (b Basis) abreast(scarfs []Scarf) []bill.Warning {
	if b.Rules.Scarf == nil || !b.Rules.Scarf.Apart.IsPositive() {
		return nil
	}
	apart := b.Rules.Scarf.Apart.InexactFloat64()
	middle := func(s Scarf) float64 { return (s.FayingTipMM + s.InnerTipMM) / 2 }
	var out []bill.Warning
	for i, s := range scarfs {
		for _, o := range scarfs[i+1:] {
			gap := middle(s) - middle(o)
			if s.Member.Side != o.Member.Side || s.Member.No-o.Member.No != -1 && s.Member.No-o.Member.No != 1 || gap >= apart || gap <= -apart {
				continue
			}
			m := o.Member
			out = append(out, bill.Warning{Code: "scarfs_abreast", Member: &m,
				Detail: fmt.Sprintf("Frame %d %s: a scarf lies %.0f mm along the girth from one in frame %d; the yard keeps them %.0f mm apart.", m.No, m.Side, max(gap, -gap), s.Member.No, apart),
				Fix:    "Let a longer piece into one of the two, so that its scarf falls elsewhere, or replace one of the frames."})
			break
		}
	}
	return out
}
