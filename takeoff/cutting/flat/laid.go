package flat

// Laid is a layout as it lies on its sheet, or on the length cut off a roll: every piece in its place, and the cuts that
// free them in the order they are made. X runs across the grain from the left edge, Y along it; untrimmed edges are at 0.
type Laid struct {
	Width, Length int64
	Pieces        []LaidPiece
	Cuts          []SawCut
}

// LaidPiece is a rectangle of a piece, or of two of it where it is Paired.
type LaidPiece struct {
	PieceID       string
	X, Y          int64
	Width, Length int64 // across the grain and along it, as it lies
	Turned        bool
	Paired        bool
}

// SawCut is Times cuts alike, one after another, each Measure from the edge that the last one left.
type SawCut struct {
	Of    Place `json:"of"`
	Frees Freed `json:"frees"`
	// Runs says which way the saw goes: along the length or across it.
	Runs    First `json:"runs"`
	Times   int64 `json:"times"`
	Measure int64 `json:"measure"`
	// PieceID of the piece that falls; empty where none does yet. Paired: two of it, still in one rectangle.
	PieceID string `json:"piece_id,omitempty"`
	Paired  bool   `json:"paired,omitempty"`
}

// Place is what is cut: a sheet, or one or several strips of it, or stacks of these; each number counts from 1.
type Place struct {
	FirstStrip int64 `json:"first_strip,omitempty"`
	LastStrip  int64 `json:"last_strip,omitempty"`
	FirstStack int64 `json:"first_stack,omitempty"`
	LastStack  int64 `json:"last_stack,omitempty"`
}

// Freed is what a cut takes off.
type Freed string

// What cuts take off.
const (
	Edge    Freed = "edge"    // trimmed away
	AStrip  Freed = "strip"   // to be cut on
	AStack  Freed = "stack"   // to be cut on
	APiece  Freed = "piece"   // done
	Surplus Freed = "surplus" // what a piece is deeper or wider than it should be
)

// Lay puts a layout of a plan for the list on its sheet.
func (l List) Lay(y Layout) Laid {
	s := l.stockOf(y.StockID)
	w := laying{list: l, along: y.First == Along, trim: l.Rules.TrimEach, out: Laid{Width: s.Width, Length: s.Length}}
	depth, edges := s.Length-2*w.trim, int64(4)
	w.room = s.Width - 2*w.trim
	if w.along {
		depth, w.room = w.room, depth
	}
	begin := w.trim
	if s.Roll() {
		depth, begin, edges = -1, 0, 2
		w.out.Length = 0
		for _, t := range y.Strips {
			w.out.Length += t.N * (t.Depth + l.Rules.Kerf)
		}
	}
	if w.trim > 0 {
		w.cut(SawCut{Frees: Edge, Runs: Along, Times: edges, Measure: w.trim})
	}
	w.strips(y, begin, depth)
	return w.out
}

func (l List) stockOf(id string) Stock {
	for _, s := range l.Stock {
		if s.ID == id {
			return s
		}
	}
	return Stock{}
}

// laying is one layout being laid. Its own directions are along the strips and across them.
type laying struct {
	list  List
	along bool // strips run along the length
	trim  int64
	room  int64 // along a strip
	out   Laid
}

func (w *laying) cut(c SawCut) {
	if c.Times > 0 {
		w.out.Cuts = append(w.out.Cuts, c)
	}
}

// runs is the way of the cuts that part strips, and of those that go through a strip.
func (w *laying) runs() (between, through First) {
	if w.along {
		return Along, Across
	}
	return Across, Along
}

// strips are parted first, all of them, then each is cut on. Of a roll, whose depth is below 0, each is cut off.
func (w *laying) strips(y Layout, begin, depth int64) {
	between, _ := w.runs()
	number, left := int64(1), depth
	for _, t := range y.Strips {
		w.cut(SawCut{Of: Place{}, Frees: AStrip, Runs: between, Times: w.times(t.N, t.Depth, &left, depth < 0), Measure: t.Depth})
	}
	for _, t := range y.Strips {
		of := Place{FirstStrip: number, LastStrip: number + t.N - 1}
		number += t.N
		w.stacks(t, of)
		for range t.N {
			w.place(t, begin)
			begin += t.Depth + w.list.Rules.Kerf
		}
	}
}

// times is how many cuts free n things of a size from what is left: the last needs none where nothing remains beside it.
func (w *laying) times(n, size int64, left *int64, endless bool) int64 {
	*left -= n * (size + w.list.Rules.Kerf)
	if !endless && *left == -w.list.Rules.Kerf {
		return n - 1
	}
	return n
}

// stacks are the cuts in strips alike.
func (w *laying) stacks(t Strip, of Place) {
	between, through := w.runs()
	left, number := w.room, int64(1)
	for _, k := range t.Stacks {
		c := SawCut{Of: of, Frees: AStack, Runs: through, Times: w.times(k.N, k.Width, &left, false), Measure: k.Width}
		if q, whole := w.whole(k, t.Depth); whole {
			c.Frees, c.PieceID, c.Paired = APiece, q.PieceID, q.Paired
		}
		w.cut(c)
	}
	for _, k := range t.Stacks {
		in := of
		in.FirstStack, in.LastStack = number, number+k.N-1
		number += k.N
		if _, whole := w.whole(k, t.Depth); whole {
			continue
		}
		rest := t.Depth
		for _, q := range k.Pieces {
			_, d := w.size(q)
			w.cut(SawCut{Of: in, Frees: APiece, Runs: between, Times: w.times(q.K, d, &rest, false), Measure: d, PieceID: q.PieceID, Paired: q.Paired})
		}
		for _, q := range k.Pieces {
			if a, _ := w.size(q); a < k.Width {
				w.cut(SawCut{Of: in, Frees: Surplus, Runs: through, Times: q.K, Measure: a, PieceID: q.PieceID, Paired: q.Paired})
			}
		}
	}
}

// whole reports whether a stack is one piece that fills it, which it then is.
func (w *laying) whole(k Stack, depth int64) (Part, bool) {
	if len(k.Pieces) != 1 || k.Pieces[0].K != 1 {
		return Part{}, false
	}
	a, d := w.size(k.Pieces[0])
	return k.Pieces[0], a == k.Width && d == depth
}

// size of a part along a strip and across it.
func (w *laying) size(q Part) (along, deep int64) {
	for _, p := range w.list.Pieces {
		if p.ID != q.PieceID {
			continue
		}
		along, deep = p.Width, p.Length
		if q.Paired && p.Pair != nil {
			along, deep = p.Pair.Width, p.Pair.Length
		}
		if q.Turned != w.along {
			along, deep = deep, along
		}
	}
	return along, deep
}

// place puts the pieces of one strip that begins at a depth.
func (w *laying) place(t Strip, begin int64) {
	kerf, at := w.list.Rules.Kerf, w.trim
	for _, k := range t.Stacks {
		for range k.N {
			deep := begin
			for _, q := range k.Pieces {
				a, d := w.size(q)
				for range q.K {
					p := LaidPiece{PieceID: q.PieceID, X: at, Y: deep, Width: a, Length: d, Turned: q.Turned, Paired: q.Paired}
					if w.along {
						p.X, p.Y, p.Width, p.Length = deep, at, d, a
					}
					w.out.Pieces = append(w.out.Pieces, p)
					deep += d + kerf
				}
			}
			at += k.Width + kerf
		}
	}
}
