package frame

import (
	"sort"
	"strconv"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Read takes the frames over, sorted from forward, port before starboard, or says everything that is wrong.
func Read(d Document) ([]Frame, document.Faults) {
	r := &reader{n: d.Notation}
	if !d.Notation.Known() {
		r.faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %q is not known", string(d.Notation))
	}
	r.face("/moulding_face", d.MouldingFace)
	r.grain = r.readGrain("/grain", d.Grain, r.n.DefaultGrain().Decimal())
	if d.Spacing == nil && len(d.Frames) == 0 {
		r.faults.Add("", "a spacing, or single frames, or both", "no frames are given")
		return nil, r.faults
	}
	at := map[boat.Member]Frame{}
	if d.Spacing != nil {
		r.spaced(*d.Spacing, d.MouldingFace, at)
	}
	r.rows(d.Frames, d.MouldingFace, at)
	planking := r.planking(d.Planking)
	out := make([]Frame, 0, len(at))
	for _, f := range at {
		f.Planking = planking
		out = append(out, f)
	}
	sort.Slice(out, func(i, j int) bool { return boat.Compare(out[i].Member(), out[j].Member()) < 0 })
	r.ordered(out)
	alike(out, &r.faults)
	return out, r.faults
}

// maxSpacing, mm, between frames of a run.
const maxSpacing = 10_000

type reader struct {
	n      notation.Notation
	grain  decimal.Decimal // of taped lengths, mm, where a row does not say its own
	faults document.Faults
}

func (r *reader) face(pointer string, f Face) {
	if f != Forward && f != Aft {
		r.faults.Add(pointer, "forward or aft", "the moulding face %s is not known", notation.Quote(string(f)))
	}
}

// length reads one. While the notation is not known nothing is said of lengths.
func (r *reader) length(pointer, text string) decimal.Decimal {
	return r.faults.Length(r.n, pointer, text)
}

// scantling is a siding or a moulded depth: above nothing, and no greater than boats have.
func (r *reader) scantling(pointer, text string) decimal.Decimal {
	return r.within(pointer, text, decimal.NewFromInt(MaxScantling))
}

// within is a length above 0 and not above most, mm.
func (r *reader) within(pointer, text string, most decimal.Decimal) decimal.Decimal {
	return r.faults.LengthWithin(r.n, pointer, text, most)
}

func (r *reader) spaced(s Spacing, face Face, at map[boat.Member]Frame) {
	const p = "/spacing"
	if s.Count < 1 || s.Count > MaxFrames {
		r.faults.Add(p+"/count", "from 1 to "+strconv.Itoa(MaxFrames), "%d frames are asked for", s.Count)
		s.Count = 0
	}
	if s.FirstNo < 0 || s.FirstNo > MaxFrames {
		r.faults.Add(p+"/first_no", "from 0 to "+strconv.Itoa(MaxFrames), "%d is not a frame's number", s.FirstNo)
	}
	first, apart := r.length(p+"/first_x", s.FirstX), r.within(p+"/spacing", s.Spacing, decimal.NewFromInt(maxSpacing))
	siding, moulded := r.scantling(p+"/siding", s.Siding), r.scantling(p+"/moulded", s.Moulded)
	wood := r.wood(p+"/species", s.Species)
	sidingHead, mouldedHead := r.head(p+"/siding_head", s.SidingHead, siding, decimal.Zero), r.head(p+"/moulded_head", s.MouldedHead, moulded, decimal.Zero)
	for i := range s.Count {
		for _, side := range boat.Sides {
			f := Frame{No: s.FirstNo + i, Side: side, X: first.Add(apart.Mul(decimal.NewFromInt(int64(i)))), Siding: siding, Moulded: moulded,
				SidingHead: sidingHead, MouldedHead: mouldedHead, MouldingFace: face, Pointer: p, Species: wood}
			at[f.Member()] = f
		}
	}
}

func (r *reader) rows(rows []Row, usual Face, at map[boat.Member]Frame) {
	if len(rows) > 2*MaxFrames {
		r.faults.Add("/frames", "at most "+strconv.Itoa(2*MaxFrames)+" rows", "%d rows are given", len(rows))
		return
	}
	seen := map[boat.Member]int{}
	for i, row := range rows {
		p := "/frames/" + strconv.Itoa(i)
		if row.No < 0 || row.No > 2*MaxFrames {
			r.faults.Add(p+"/no", "from 0 to "+strconv.Itoa(2*MaxFrames), "%d is not a frame's number", row.No)
		}
		sides := row.Side.Expand()
		if len(sides) == 0 {
			r.faults.Add(p+"/side", "port, starboard or both", "the side %q is not known", string(row.Side))
		}
		of := r.ofRow(row, p, at)
		of.Cant, of.Lean = r.stance(p, row)
		of.Run = r.run(p, row)
		of.Tape, of.Target = r.tape(p+"/tape", row), r.target(p, row)
		face := usual
		if row.MouldingFace != "" {
			face = row.MouldingFace
			r.face(p+"/moulding_face", face)
		}
		for _, side := range sides {
			f := of
			f.No, f.Side, f.MouldingFace, f.BetterSide, f.Pointer = row.No, side, face, row.better(side), p
			if j, twice := seen[f.Member()]; twice {
				r.faults.Add(p, "each frame and side once", "%s is already given in /frames/%d", f.Member(), j)
			}
			seen[f.Member()] = i
			at[f.Member()] = f
		}
	}
}

// ofRow reads where a row's frame stands and how heavy it is. What is not written is the run's, where the frame is of it.
func (r *reader) ofRow(row Row, p string, at map[boat.Member]Frame) Frame {
	var f Frame
	var run bool
	if sides := row.Side.Expand(); len(sides) > 0 {
		f, run = at[boat.Member{Kind: boat.Frame, No: row.No, Side: sides[0]}]
	}
	if !run || row.X != "" {
		f.X = r.length(p+"/x", row.X)
	}
	if !run || row.Siding != "" {
		f.Siding = r.scantling(p+"/siding", row.Siding)
	}
	if !run || row.Moulded != "" {
		f.Moulded = r.scantling(p+"/moulded", row.Moulded)
	}
	if row.Species != "" {
		f.Species = r.wood(p+"/species", row.Species)
	}
	f.SidingHead = r.head(p+"/siding_head", row.SidingHead, f.Siding, f.SidingHead)
	f.MouldedHead = r.head(p+"/moulded_head", row.MouldedHead, f.Moulded, f.MouldedHead)
	return f
}

// longestCode of a wood.
const longestCode = 60

// wood reads the code of a wood. Whether it is one of the yard's is for whoever has those to say.
func (r *reader) wood(pointer, code string) string {
	if len(code) > longestCode {
		r.faults.Add(pointer, "the code of one of the yard's species, at most "+strconv.Itoa(longestCode)+" letters", "the code %s is too long", notation.Quote(code))
		return ""
	}
	return code
}

// ordered: numbers count from forward, so places must grow with them on each side.
func (r *reader) ordered(frames []Frame) {
	if len(r.faults) > 0 {
		return
	}
	last := map[boat.Side]Frame{}
	for _, f := range frames {
		if p, ok := last[f.Side]; ok && !f.X.GreaterThan(p.X) {
			r.faults.Add(f.Pointer, "places that grow with the number, counted from forward",
				"frame %d %s stands at %s mm, not abaft frame %d at %s mm", f.No, f.Side, f.X, p.No, p.X)
		}
		last[f.Side] = f
	}
}
