package takeoff

import (
	"fmt"
	"slices"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
	"ribband/takeoff/plank"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// NewPlank is a new plank as it is marked out. Lengths are millimetres; of one by hand only the rectangle is known.
type NewPlank struct {
	Member boat.Member `json:"member"`
	Part   string      `json:"part,omitempty"`
	ByHand bool        `json:"by_hand,omitempty"`
	// FromWhere and ToWhere are where its ends stand, NewButts how many of them are butts that were not there.
	FromWhere string   `json:"from_where,omitempty"`
	ToWhere   string   `json:"to_where,omitempty"`
	X0MM      *float64 `json:"from_mm,omitempty"`
	X1MM      *float64 `json:"to_mm,omitempty"`
	NewButts  int      `json:"new_butts"`
	// Length and Width of the board that it asks for before trim and planing, and how sure they are.
	Length PlankSize `json:"length"`
	Width  PlankSize `json:"width"`
	// ThicknessMM is that of the board: finished plank and backing out.
	ThicknessMM string   `json:"thickness_mm"`
	BackingMM   *float64 `json:"backing_mm,omitempty"`
	// RoundMM is how far its rounder edge bows from its chord; SpilingLoss what the board loses to it, in the board's size
	// already; TwistMM how far it is from lying flat.
	RoundMM     *float64 `json:"round_mm,omitempty"`
	SpilingLoss *float64 `json:"spiling_loss,omitempty"`
	TwistMM     *float64 `json:"twist_mm,omitempty"`
	// Crossings that are fastened with the plank, Counted those that are with a renewed frame.
	Crossings int `json:"crossings"`
	Counted   int `json:"crossings_with_frames"`
	// Blocks are the butt blocks that it makes new, EndsOnBlocks how many planks' ends are fastened to blocks with it, HoodEnds its
	// ends at stem, stern or transom.
	Blocks       []NewBlock `json:"butt_blocks,omitempty"`
	EndsOnBlocks int        `json:"ends_on_blocks,omitempty"`
	HoodEnds     int        `json:"hood_ends,omitempty"`
	// Scarfs that it is made with at least, where it is longer than the stock; of more than two lengths they are all alike.
	Scarfs int64 `json:"scarfs,omitempty"`
}

// NewBlock is a butt block as it is made, exact mm.
type NewBlock struct {
	End         string `json:"end"`
	Where       string `json:"where"`
	LengthMM    string `json:"length_mm"`
	WidthMM     string `json:"width_mm"`
	ThicknessMM string `json:"thickness_mm"`
}

// made adds what came of working the plank out.
func (n *NewPlank) made(r plank.Result) {
	n.Scarfs = r.Scarfs
	for _, b := range r.Blocks {
		n.Blocks = append(n.Blocks, NewBlock{b.End, b.Where, b.Length.String(), b.Width.String(), b.Thickness.String()})
	}
}

// PlankSize is a size with its range.
type PlankSize struct {
	MM   float64 `json:"mm"`
	Low  float64 `json:"low_mm"`
	High float64 `json:"high_mm"`
}

func sizeOf(r hull.Reading) PlankSize {
	return PlankSize{quantity.Thousandth(r.MM), quantity.Thousandth(r.Low), quantity.Thousandth(r.High)}
}

func (b Basis) newPlank(l laidPlank, j plank.Job) NewPlank {
	out := NewPlank{Member: j.Member, Part: j.Part, NewButts: j.Butts, Crossings: j.Crossings, Counted: j.Counted, HoodEnds: j.Ends.Hoods}
	if b.Rules.ButtBlock != nil {
		out.EndsOnBlocks = j.Ends.Landed
	}
	if h := l.of.ByHand; h != nil {
		exact := func(mm float64) PlankSize { return sizeOf(hull.Reading{MM: mm, Low: mm, High: mm}) }
		out.ByHand, out.Length, out.Width, out.ThicknessMM = true, exact(h.Length.InexactFloat64()), exact(h.Width.InexactFloat64()), j.Thickness.String()
		return out
	}
	of := func(x float64) *float64 { x = quantity.Thousandth(x); return &x }
	m := l.made
	out.FromWhere, out.ToWhere, out.X0MM, out.X1MM = m.FromWhere, m.ToWhere, of(m.X0), of(m.X1)
	out.Length, out.Width = sizeOf(m.BoardLength), sizeOf(m.BoardWidth)
	out.BackingMM, out.RoundMM, out.TwistMM = of(m.Backing), of(max(m.RoundLower.MM, m.RoundUpper.MM)), of(m.Mismatch)
	loss := quantity.Snap(m.Spiling)
	out.SpilingLoss = &loss
	if board, err := quantity.Decimal(m.Backing, quantity.Millimetre); err == nil {
		out.ThicknessMM = j.Thickness.Add(board.RoundCeil(1)).String()
	}
	return out
}

// plankJob is a plank ready to be worked out; false where something is wanting, which the bill then says.
func (b Basis) plankJob(l laidPlank, nth int, at map[boat.Member]stand, plans map[boat.Member]plan, out *bill.Bill) (plank.Job, bool, error) {
	m := l.of.Member()
	wood, ok := b.Species.Find(l.of.Species)
	if !ok {
		return plank.Job{}, false, document.Faults{{Detail: fmt.Sprintf("%s: the species %q is not known", m, l.of.Species), Fix: b.Species.Meant(l.of.Species)}}
	}
	j := plank.Job{Longest: b.longestBoard(l.of.Side), Member: m, Nth: nth, Species: wood, Grade: l.of.Grade, Thickness: b.plankThickness(l.of)}
	if !j.Thickness.IsPositive() {
		out.Faults = append(out.Faults, bill.Fault{Code: "plank_thickness_unknown", Member: &m, Detail: fmt.Sprintf("Strake %d %s: nobody said how thick the finished plank is.", m.No, m.Side),
			Fix: "Put plank_thickness with how she is planked, or thickness with the plank."})
		return plank.Job{}, false, nil
	}
	crossings := b.crossingsOf(l)
	if len(crossings) > 0 {
		j.Part = framesFrom(crossings[0].No, crossings[len(crossings)-1].No)
	}
	if l.made == nil {
		j.Size = plank.Size{ByHand: l.of.ByHand}
	} else {
		r := l.made
		j.Size = plank.Size{Length: r.BoardLength.High, Width: r.BoardWidth.High, Run: (r.LengthLower.MM + r.LengthUpper.MM) / 2, Area: r.Area.MM, Backing: r.Backing, X0: r.X0, X1: r.X1}
		j.Divide = r.Divide
		if j.Part == "" {
			j.Part = r.FromWhere + " to " + r.ToWhere
		}
		for _, is := range []bool{r.NewForward, r.NewAft} {
			if is {
				j.Butts++
			}
		}
		j.Ends = b.plankEnds(r.Ends, m.Side)
	}
	if rule := b.Rules.ButtBlock; rule != nil && len(j.Ends.Blocks) > 0 {
		if j.BlockWood, ok = b.Species.Find(rule.Species); !ok {
			out.Faults = append(out.Faults, bill.Fault{Code: "butt_block_wood_unknown", Member: &m, Detail: fmt.Sprintf("%s: butt blocks are of %s by the yard's rules, a wood that is not among its species.", j.Name(), notation.Quote(rule.Species)),
				Fix: "In butt_blocks of the rules, " + b.Species.Meant(rule.Species) + "."})
			j.Ends.Blocks = nil
		}
	}
	for _, c := range crossings {
		if b.fastenedWithFrame(boat.Member{Kind: boat.Frame, No: c.No, Side: m.Side}, c, at, plans) {
			j.Counted++
		} else {
			j.Crossings++
		}
	}
	return j, true, nil
}

// plankEnds are a plank's ends as the bill counts them.
func (b Basis) plankEnds(of [2]planking.PlankEnd, side boat.Side) plank.Ends {
	var out plank.Ends
	for i, e := range of {
		switch {
		case e.Hood:
			out.Hoods++
		case e.OnFrame || e.Shared:
		case e.New:
			out.Landed += 2
			out.Blocks = append(out.Blocks, plank.Block{End: [2]string{"forward", "aft"}[i], Where: e.Where, X: e.X, Width: e.Width, Room: e.Room, Siding: b.siding(side, e.Fore.No, e.Aft.No)})
		default:
			out.Landed++
		}
	}
	return out
}

// siding of the thickest of some frames of a side, mm.
func (b Basis) siding(side boat.Side, nos ...int) decimal.Decimal {
	out := decimal.Zero
	for _, f := range b.Frames {
		if f.Side == side && slices.Contains(nos, f.No) {
			out = decimal.Max(out, f.Siding)
		}
	}
	return out
}

// longestBoard that the stock of a side gives, its ends trimmed, mm; 0 where nobody said.
func (b Basis) longestBoard(side boat.Side) decimal.Decimal {
	stock := b.Planking[side].Stock
	if len(stock) == 0 {
		return decimal.Zero
	}
	longest, err := quantity.Decimal(stock[len(stock)-1], quantity.Millimetre)
	if err != nil {
		return decimal.Zero
	}
	return decimal.Max(decimal.Zero, longest.Sub(b.Rules.EndTrim).Sub(b.Rules.EndTrim))
}

func framesFrom(first, last int) string {
	if first == last {
		return fmt.Sprintf("frame %d", first)
	}
	return fmt.Sprintf("frames %d to %d", first, last)
}

// crossingsOf are the frames that a plank lies on; of one by hand those that it is said to run from and to, over all of
// their girth, for where it lies on them is not known.
func (b Basis) crossingsOf(l laidPlank) []planking.Crossing {
	if l.made != nil {
		return l.made.Crossings
	}
	if !l.of.Placed {
		return nil
	}
	var out []planking.Crossing
	from, to := l.of.From.InexactFloat64(), l.of.To.InexactFloat64()
	for _, f := range b.bays(l.of.Side) {
		if f.X >= from && f.X <= to {
			out = append(out, planking.Crossing{Frame: f, Lower: 0, Upper: 1})
		}
	}
	return out
}

// fastenedWithFrame says whether a crossing is on the bill with a renewed frame: with all of it, or with a piece that takes the
// middle of the strake. The share of the girth is taken for that of the frame's own, which a knuckle may move by a strake.
func (b Basis) fastenedWithFrame(m boat.Member, c planking.Crossing, at map[boat.Member]stand, plans map[boat.Member]plan) bool {
	p, worked := plans[m]
	s, stands := at[m]
	if !worked || !stands || len(p.faults) > 0 || len(p.jobs) == 0 && p.steamed == nil || b.Rules.Fastening == nil || s.frame.Planking == nil {
		return false
	}
	if p.whole() {
		return true
	}
	middle := (c.Lower + c.Upper) / 2 * s.shape.Girth
	for _, j := range p.jobs {
		if middle >= j.Piece.From.InexactFloat64() && middle <= j.Piece.To.InexactFloat64() {
			return true
		}
	}
	return false
}

// roughPlank is from what share of its width on a board's range is told of: a sixteenth of a strake is a seam's work with the
// plane. An assumption, no source.
const roughPlank = 1. / 16

// warnings of one plank.
func (l laidPlank) warnings(j plank.Job) []bill.Warning {
	if l.made == nil {
		return nil
	}
	var out []bill.Warning
	m := j.Member
	for _, e := range l.made.Bare {
		out = append(out, bill.Warning{Code: "hood_end_not_measured", Member: &m,
			Detail: fmt.Sprintf("%s: %s, so the plank is laid out no farther than the end station and its board is longer by what lies beyond.", j.Name(), e.Because), Fix: capitalised(e.Fix) + "."})
	}
	if w := l.made.BoardWidth; w.MM > 0 && quantity.Snap(w.High/w.MM-1) > roughPlank {
		out = append(out, bill.Warning{Code: "plank_width_rough", Member: &m,
			Detail: fmt.Sprintf("%s: the board that holds it is %.0f mm wide, and may have to be %.0f mm: the lines do not say more.", j.Name(), w.MM, w.High),
			Fix:    "Spile the plank on the boat and give its size by hand, or measure the sections there with more points."})
	}
	return out
}
