package hull

import (
	"errors"
	"math"

	"ribband/takeoff/hull/fair"
	"ribband/takeoff/hull/offsets"
)

// Chain is the line of one measured section from rabbet to sheer: one fair curve, or one between each two of its
// knuckles. It is never changed after FitChain and may be shared.
type Chain struct {
	pieces []piece
	names  []string // of the knuckles, from the rabbet: one fewer than pieces
	girth  float64  // mm
}

// piece is one fair curve of a chain. Both curves that end at a knuckle miss its written point by a little, each its own
// way; moved says that the piece is turned about and stretched so that they meet halfway between.
type piece struct {
	curve   *fair.Curve
	quality *fair.Quality
	moved   bool
	scale   float64
	turn    float64 // radians
	from    Point   // where it begins, and where its own curve did
	was     Point
	before  float64 // girth of the pieces before it, mm
	girth   float64 // mm
}

// Corner is a declared knuckle among points: its name and its place in them, from 0.
type Corner struct {
	Name string
	At   int
}

// PieceError: no fair curve follows the points between two knuckles, or a knuckle and an end.
type PieceError struct {
	From, To string // knuckles; empty for the rabbet and the sheer
	Err      error
}

func (e *PieceError) Error() string { return e.Where() + ": " + e.Err.Error() }
func (e *PieceError) Unwrap() error { return e.Err }

// Where names the piece: "from the rabbet to the knuckle chine".
func (e *PieceError) Where() string { return between(e.From, e.To) }

func between(from, to string) string {
	name := func(knuckle, end string) string {
		if knuckle == "" {
			return end
		}
		return "the knuckle " + knuckle
	}
	return "from " + name(from, "the rabbet") + " to " + name(to, "the sheer")
}

// CornersError: knuckles that do not lie between the ends of the points, in order and apart.
type CornersError struct{}

func (*CornersError) Error() string {
	return "knuckles lie between the rabbet and the sheer, in order from the rabbet, each with a point of its own"
}

// FitChain fits the points of a section from rabbet to sheer, written to a grain in mm, split at its knuckles. Without
// knuckles it needs five points that differ, with them two in each piece, its ends. Errors are those of fair.Judge, a
// *PieceError about them where there are knuckles, and a *CornersError.
func FitChain(w *fair.Workspace, pts []fair.Point, corners []Corner, grain float64) (*Chain, error) {
	c := &Chain{}
	from := 0
	for _, k := range corners {
		if k.At <= from || k.At >= len(pts)-1 {
			return nil, &CornersError{}
		}
		from = k.At
		c.names = append(c.names, k.Name)
	}
	if len(corners) == 0 {
		curve, quality, err := w.Judge(pts, grain)
		if err != nil {
			return nil, err
		}
		c.pieces, c.girth = []piece{{curve: curve, quality: quality, girth: curve.Girth()}}, curve.Girth()
		return c, nil
	}
	from = 0
	for i := range len(corners) + 1 {
		to := len(pts) - 1
		if i < len(corners) {
			to = corners[i].At
		}
		curve, quality, err := w.Piece(told(pts[from:to+1], grain), grain)
		if err != nil {
			return nil, &PieceError{From: c.name(i - 1), To: c.name(i), Err: err}
		}
		c.pieces = append(c.pieces, piece{curve: curve, quality: quality})
		from = to
	}
	c.join()
	return c, nil
}

// told leaves out points of a piece that tell no more than their neighbours: where fewer than five differ, the others
// must not count as if they were measured.
func told(pts []fair.Point, grain float64) []fair.Point {
	apart := func(a, b fair.Point) float64 { return math.Hypot(b.Y-a.Y, b.Z-a.Z) }
	length := 0.0
	for i := range pts[1:] {
		length += apart(pts[i], pts[i+1])
	}
	near, last := max(grain, offsets.OwnShare*length), len(pts)-1
	kept := pts[:1:1]
	for i := 1; i < last; i++ {
		if apart(kept[len(kept)-1], pts[i]) >= near && apart(pts[i], pts[last]) >= near {
			kept = append(kept, pts[i])
		}
	}
	if kept = append(kept, pts[last]); len(kept) >= offsets.MinMarks {
		return pts
	}
	return kept
}

func (c *Chain) name(i int) string {
	if i < 0 || i >= len(c.names) {
		return ""
	}
	return c.names[i]
}

// join moves the pieces so that they meet at their knuckles.
func (c *Chain) join() {
	n := len(c.pieces)
	ends := make([]Point, n+1)
	for i := range c.pieces {
		a, b := c.pieces[i].ends()
		if i == 0 {
			ends[0] = a
		} else {
			ends[i] = Point{(ends[i].Y + a.Y) / 2, (ends[i].Z + a.Z) / 2}
		}
		ends[i+1] = b
	}
	for i := range c.pieces {
		p := &c.pieces[i]
		p.move(ends[i], ends[i+1])
		p.before = c.girth
		c.girth += p.girth
	}
}

// ends of the piece's own curve.
func (p *piece) ends() (from, to Point) {
	ay, az, _, _ := p.curve.At(0)
	by, bz, _, _ := p.curve.At(p.curve.Girth())
	return Point{ay, az}, Point{by, bz}
}

// mostStretch is how much a piece may be stretched or shrunk to meet its neighbours, as a ratio: knuckles move by less
// than their grain, so anything more is a curve that has gone astray, and is only shifted.
const mostStretch = 1.5

// move lays the piece from one place to another, turning and stretching it.
func (p *piece) move(from, to Point) {
	a, b := p.ends()
	p.moved, p.from, p.was = true, from, a
	was, now := math.Hypot(b.Y-a.Y, b.Z-a.Z), math.Hypot(to.Y-from.Y, to.Z-from.Z)
	p.scale = now / was
	p.turn = math.Remainder(math.Atan2(to.Z-from.Z, to.Y-from.Y)-math.Atan2(b.Z-a.Z, b.Y-a.Y), 2*math.Pi)
	if !(p.scale < mostStretch && p.scale > 1/mostStretch) {
		p.scale, p.turn = 1, 0
	}
	p.girth = p.curve.Girth() * p.scale
}

// jet at the share t of the piece's length; width is the part of u that it takes.
func (p *piece) jet(t, width float64) jet {
	g := p.curve.Girth()
	y, z, th, k := p.curve.At(t * g)
	if p.moved {
		sin, cos := math.Sincos(p.turn)
		dy, dz := p.scale*(y-p.was.Y), p.scale*(z-p.was.Z)
		y, z = p.from.Y+dy*cos-dz*sin, p.from.Z+dy*sin+dz*cos
		th, k, g = th+p.turn, k/p.scale, g*p.scale
	}
	g /= width
	sn, cs := math.Sincos(th)
	return jet{y, z, g * cs, g * sn, -g * g * k * sn, g * g * k * cs}
}

// wrong takes the error of a fit apart: what piece it is of, empty for the whole line, and what is wrong.
func wrong(err error) (piece string, what error) {
	var of *PieceError
	if errors.As(err, &of) {
		return " " + of.Where(), of.Err
	}
	return "", err
}

// bent is the tightest bend one way of a chain.
type bent struct {
	kappa float64 // 1/mm
	piece int
	share float64 // of that piece's length
	s     float64 // mm along the chain
}

func (c *Chain) peaks() (bilge, hollow bent) {
	for i := range c.pieces {
		p := &c.pieces[i]
		b, h := p.curve.Peaks()
		for _, one := range []struct {
			peak fair.Peak
			most *bent
		}{{b, &bilge}, {h, &hollow}} {
			k := one.peak.Kappa
			if p.moved {
				k /= p.scale
			}
			if k > one.most.kappa {
				share := one.peak.S / p.curve.Girth()
				s := one.peak.S
				if p.moved {
					s = p.before + share*p.girth
				}
				*one.most = bent{k, i, share, s}
			}
		}
	}
	return bilge, hollow
}
