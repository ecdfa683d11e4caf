package takeoff

import (
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
)

// Stretch is where a piece lies along its frame, mm along the girth from the rabbet: From and To are its ends, the tips of
// its tapers counted in; it has its full depth from Low to High.
type Stretch struct {
	Piece               string
	From, Low, High, To float64
}

// Stretches of the pieces of these members, let in or laid alongside, in their order along the frame, as the figures of a
// takeoff tell them.
func Stretches(figures []derivation.Figure, members []boat.Member) map[boat.Member][]Stretch {
	of := make(map[string]boat.Member, len(members))
	for _, m := range members {
		of[m.Path()] = m
	}
	at := derivation.Index(figures)
	out := map[boat.Member][]Stretch{}
	for _, f := range figures {
		path, ok := strings.CutSuffix(f.ID, "/girth")
		cut := strings.LastIndexByte(path, '/')
		if !ok || f.Formula != "frame/stretch" || cut < 0 {
			continue
		}
		m, ok := of[path[:cut]]
		if !ok {
			continue
		}
		s := Stretch{Piece: path[cut+1:], From: given(f, "a"), To: given(f, "b")}
		s.Low, s.High = s.From, s.To
		if faces, ok := at.Find(path + "/scarf_faces"); ok {
			s.taper(given(faces, "m")*given(faces, "s"), path, at)
		}
		out[m] = append(out[m], s)
	}
	return out
}

// taper takes the tapers of a part's scarfs off its full depth: of two both, of one that at the end which is not the heel.
func (s *Stretch) taper(length float64, path string, at derivation.Finder) {
	n, _ := at.Find(path + "/scarfs")
	if both := n.Value == "2"; both || s.From > 0 {
		s.Low += length
		if !both {
			return
		}
	}
	s.High -= length
}

// given is an input of a figure by its symbol; 0 where it has none such.
func given(f derivation.Figure, symbol string) float64 {
	for _, in := range f.Inputs {
		if in.Symbol == symbol {
			d, _ := quantity.ParseDecimal(in.Value)
			return d.InexactFloat64()
		}
	}
	return 0
}
