package butt

import (
	"fmt"
	"math"
	"sort"
)

// Frame is one frame of the side: its number and where it stands, mm.
type Frame struct {
	No int
	X  float64
}

// Side is a side's strakes and what holds for their butts. It is never changed after New and may be shared.
type Side struct {
	terms   Terms
	frames  []Frame
	reach   []Reach // of every strake, from the rabbet
	strakes int
	board   Board
	places  []float64 // where a new butt may stand, rising
}

// Reach is where the two hood ends of a strake are, mm: at a raked stem every strake has its own.
type Reach struct{ Forward, Aft float64 }

// Alike are the reaches of so many strakes that all end at the same two places.
func Alike(strakes int, forward, aft float64) []Reach {
	out := make([]Reach, max(0, strakes))
	for k := range out {
		out[k] = Reach{forward, aft}
	}
	return out
}

// Board is how long a board the plank of a strake asks for, from x0 to x1, mm.
type Board func(strake int, x0, x1 float64) float64

// FramesError says that frames do not make bays: there are too few or they do not rise. Longer than any boat is an error
// too.
type FramesError struct{ Detail string }

func (e *FramesError) Error() string { return e.Detail }

// MaxFrames on one side; an assumption, no source.
const MaxFrames = 400

// New takes the frames of a side from forward and where each of its strakes ends.
func New(t Terms, frames []Frame, reach []Reach, board Board) (*Side, error) {
	if len(frames) < 2 || len(frames) > MaxFrames {
		return nil, &FramesError{fmt.Sprintf("the side has %d frames; 2 to %d make bays", len(frames), MaxFrames)}
	}
	for i, f := range frames {
		if math.IsNaN(f.X) || math.IsInf(f.X, 0) || i > 0 && !(f.X > frames[i-1].X) {
			return nil, &FramesError{fmt.Sprintf("frame %d, at %g mm, does not stand abaft the one before it", f.No, f.X)}
		}
	}
	if len(reach) == 0 {
		return nil, &FramesError{"no strakes"}
	}
	// A butt stands within the strake that reaches least far: what lies beyond is no longer than a hood end.
	first, last := math.Inf(-1), math.Inf(1)
	for k, r := range reach {
		if !(r.Aft > r.Forward) {
			return nil, &FramesError{fmt.Sprintf("strake %d from %g to %g mm", k+1, r.Forward, r.Aft)}
		}
		first, last = max(first, r.Forward), min(last, r.Aft)
	}
	s := &Side{terms: t, frames: frames, reach: reach, strakes: len(reach), board: board}
	for _, x := range Places(t, frames) {
		if x > first && x < last {
			s.places = append(s.places, x)
		}
	}
	return s, nil
}

// Places are where a butt may stand: the middles of the bays, and the frames where the terms say so.
func Places(t Terms, frames []Frame) []float64 {
	var out []float64
	for i, f := range frames {
		if t.OnFrames && i > 0 && i+1 < len(frames) {
			out = append(out, f.X)
		}
		if i+1 < len(frames) {
			out = append(out, (f.X+frames[i+1].X)/2)
		}
	}
	return out
}

// At is x in frame spaces from the foremost frame; beyond the end frames the spaces go on as wide as the last.
func (s *Side) At(x float64) float64 {
	i := sort.Search(len(s.frames), func(i int) bool { return s.frames[i].X > x }) - 1
	i = max(0, min(len(s.frames)-2, i))
	return float64(i) + (x-s.frames[i].X)/(s.frames[i+1].X-s.frames[i].X)
}

// spaces between two places.
func (s *Side) spaces(a, b float64) float64 { return math.Abs(s.At(b) - s.At(a)) }

// onFrame is the index of the frame that x stands on.
func (s *Side) onFrame(x float64) (int, bool) {
	p := s.At(x)
	i := int(math.Round(p))
	return i, i >= 0 && i < len(s.frames) && math.Abs(p-float64(i)) <= s.terms.nearFrame
}

// Where names a place: "between frames 11 and 12", "on frame 12".
func (s *Side) Where(x float64) string {
	if i, on := s.onFrame(x); on {
		return fmt.Sprintf("on frame %d", s.frames[i].No)
	}
	p := s.At(x)
	i := int(math.Floor(p))
	switch {
	case i < 0:
		return fmt.Sprintf("forward of frame %d", s.frames[0].No)
	case i+1 >= len(s.frames):
		return fmt.Sprintf("abaft frame %d", s.frames[len(s.frames)-1].No)
	}
	return fmt.Sprintf("between frames %d and %d", s.frames[i].No, s.frames[i+1].No)
}

// Bay is the frames that a place stands between, or the one, twice, that it stands on; false where it lies beyond the end frames.
func (s *Side) Bay(x float64) (fore, aft Frame, ok bool) {
	if i, on := s.onFrame(x); on {
		return s.frames[i], s.frames[i], true
	}
	i := int(math.Floor(s.At(x)))
	if i < 0 || i+1 >= len(s.frames) {
		return Frame{}, Frame{}, false
	}
	return s.frames[i], s.frames[i+1], true
}

// bays are the first and the last bay that a butt stands in: one on a frame is in the bays on both its sides.
func (s *Side) bays(x float64) (first, last int) {
	if i, on := s.onFrame(x); on {
		return i - 1, i
	}
	i := int(math.Floor(s.At(x)))
	return i, i
}

// apart says whether butts in adjacent strakes stand far enough apart.
func (s *Side) apart(a, b float64) bool {
	spaces := s.spaces(a, b)*(1+1e-9) >= s.terms.ApartSpaces
	length := math.Abs(b-a)+slack >= s.terms.ApartMM
	if s.terms.Both {
		return spaces && length
	}
	return spaces || length
}

// against is the rule that two butts in different strakes break between them, nil where they break none.
func (s *Side) against(k int, x float64, other int, at float64) *Rule {
	between := k - other
	if between < 0 {
		between = -between
	}
	if between == 1 && !s.apart(x, at) {
		return &Adjacent
	}
	if between >= 1 && between <= s.terms.Solid {
		a0, a1 := s.bays(x)
		b0, b1 := s.bays(at)
		if a0 <= b1 && b0 <= a1 {
			return &SameBay
		}
	}
	return nil
}

// longEnough says whether a plank keeps to the least length.
func (s *Side) longEnough(k int, a, b float64) bool {
	return s.spaces(a, b)*(1+1e-9) >= s.terms.LeastSpaces && s.board(k, a, b)+slack >= s.terms.LeastMM
}

// held says whether a plank can be got out of the stock.
func (s *Side) held(k int, a, b float64) bool {
	return s.terms.Longest == 0 || s.board(k, a, b) <= s.terms.Longest+slack
}

// free says whether a butt may stand at x in strake k beside the butts of the other strakes.
func (s *Side) free(k int, x float64, butts [][]float64) bool {
	reach := max(1, s.terms.Solid)
	for other := max(0, k-reach); other <= min(len(butts)-1, k+reach); other++ {
		if other == k {
			continue
		}
		for _, at := range butts[other] {
			if s.against(k, x, other, at) != nil {
				return false
			}
		}
	}
	return true
}
