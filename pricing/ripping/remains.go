package ripping

import (
	"cmp"
	"math/big"
	"slices"

	"ribband/pricing/buy"
	"ribband/pricing/money"

	"github.com/shopspring/decimal"
)

// Remains is what is left of the boards of one kind of timber, and where it goes.
type Remains struct {
	Species string `json:"species"`
	Grade   string `json:"grade"`
	// Kept goes back on the rack; Scrap is too short to keep; Undecided is where the yard says no least length.
	Kept      []Remnant `json:"kept"`
	Scrap     []Remnant `json:"scrap"`
	Undecided []Remnant `json:"undecided"`
	// BoardsM3 is what the boards taken up hold, PiecesM3 what leaves the saw as pieces, KeptM3 what is kept; OtherM3 is the rest of
	// it: scrap, kerfs, trimmed ends, and what is planed off later is still in the pieces. Each to 4 places; they add up.
	BoardsM3 string `json:"boards_m3"`
	PiecesM3 string `json:"pieces_m3"`
	KeptM3   string `json:"kept_m3"`
	OtherM3  string `json:"other_m3"`
}

// Remnant is Count lengths alike, rough.
type Remnant struct {
	Count       int64           `json:"count"`
	ThicknessMM decimal.Decimal `json:"thickness_mm"`
	WidthMM     decimal.Decimal `json:"width_mm"`
	// LengthMM is cut down to the millimetre.
	LengthMM decimal.Decimal `json:"length_mm"`
	// What it is: "strip", what is left of one that was cut, or "board", a part of one that was not.
	What string `json:"what"`
}

func (r Remnant) m3() *big.Rat {
	return r.ThicknessMM.Mul(r.WidthMM).Mul(r.LengthMM).Mul(decimal.NewFromInt(r.Count)).Shift(-9).Rat()
}

// Remaining is what is left of a list's boards once they are cut as the ripping lists say, in the order of those.
func Remaining(l buy.List, ripping []List) []Remains {
	out := make([]Remains, len(ripping))
	for i, list := range ripping {
		out[i] = remains(list, l.Timber[i])
	}
	return out
}

func remains(list List, t buy.Timber) Remains {
	out := Remains{Species: list.Species, Grade: list.Grade, Kept: []Remnant{}, Scrap: []Remnant{}, Undecided: []Remnant{}}
	boards, pieces := new(big.Rat), new(big.Rat)
	for _, b := range list.Boards {
		n := b.Last - b.First + 1
		if o, ok := t.Offer(b.Offer); ok {
			boards.Add(boards, Remnant{n, o.ThicknessMM, o.WidthMM, b.LengthMM, ""}.m3())
		}
		thickness, width := b.Way.Strip()
		for _, s := range b.Strips {
			if s.WidthMM.Sign() > 0 {
				width = s.WidthMM
			}
			for _, p := range s.Pieces {
				pieces.Add(pieces, Remnant{n * s.Count * p.Count, thickness, p.wide(width), millimetres(p.Length), ""}.m3())
			}
			if len(s.Pieces) > 0 {
				out.add(Remnant{n * s.Count, thickness, width, millimetres(s.Over), "strip"}, s.Keep)
			}
		}
		for _, r := range b.Rest {
			out.add(Remnant{n * r.Count, r.ThicknessMM, r.WidthMM, r.LengthMM.Floor(), "board"}, r.Keep)
		}
	}
	kept := new(big.Rat)
	for _, r := range out.Kept {
		kept.Add(kept, r.m3())
	}
	for _, all := range [][]Remnant{out.Kept, out.Scrap, out.Undecided} {
		slices.SortStableFunc(all, func(a, b Remnant) int {
			return cmp.Or(cmp.Compare(a.What, b.What), b.LengthMM.Cmp(a.LengthMM), b.WidthMM.Cmp(a.WidthMM), b.ThicknessMM.Cmp(a.ThicknessMM))
		})
	}
	m3 := func(r *big.Rat) decimal.Decimal { return money.HalfUp.RoundRat(r, 4) }
	b, p, k := m3(boards), m3(pieces), m3(kept)
	out.BoardsM3, out.PiecesM3, out.KeptM3, out.OtherM3 = b.StringFixed(4), p.StringFixed(4), k.StringFixed(4), b.Sub(p).Sub(k).StringFixed(4)
	return out
}

// wide is how wide a piece out of such a strip is.
func (p Piece) wide(strip decimal.Decimal) decimal.Decimal {
	if p.WidthMM.Sign() > 0 {
		return p.WidthMM
	}
	return strip
}

// add counts a remnant with those that are alike.
func (r *Remains) add(one Remnant, keep *bool) {
	if one.Count < 1 || one.LengthMM.Sign() <= 0 || one.WidthMM.Sign() <= 0 || one.ThicknessMM.Sign() <= 0 {
		return
	}
	into := &r.Undecided
	if keep != nil && *keep {
		into = &r.Kept
	} else if keep != nil {
		into = &r.Scrap
	}
	for i, o := range *into {
		if o.What == one.What && o.LengthMM.Equal(one.LengthMM) && o.WidthMM.Equal(one.WidthMM) && o.ThicknessMM.Equal(one.ThicknessMM) {
			(*into)[i].Count += one.Count
			return
		}
	}
	*into = append(*into, one)
}
