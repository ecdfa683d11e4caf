package fastening

import (
	"errors"
	"fmt"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// RodDocument asks what round rod weighs: bolts and drifts before heads and nuts. Lengths are written in the notation.
type RodDocument struct {
	Notation notation.Notation `json:"notation"`
	Metal    Metal             `json:"metal"`
	Rods     []RodRow          `json:"rods"`
}

// RodRow is rods alike.
type RodRow struct {
	Count    int64  `json:"count"`
	Diameter string `json:"diameter"`
	Length   string `json:"length"`
}

// Bounds of one question; diameters and lengths in mm, far beyond any bolt.
const (
	MostRodRows  = 100
	MostRods     = 10_000
	MostDiameter = 200
	MostRod      = 20_000
)

// RodAnswer is what the rods weigh.
type RodAnswer struct {
	Metal Metal           `json:"metal"`
	KgM3  decimal.Decimal `json:"density_kg_m3"`
	Rods  []RodWeight     `json:"rods"`
	Kg    decimal.Decimal `json:"kg"`
	Lb    decimal.Decimal `json:"lb"`
	// Why says how it is reckoned, and what is not in it.
	Why    string `json:"why"`
	Source string `json:"source"`
}

// RodWeight is rods alike: each, and all of the row.
type RodWeight struct {
	Count  int64           `json:"count"`
	EachKg decimal.Decimal `json:"each_kg"`
	Kg     decimal.Decimal `json:"kg"`
	Lb     decimal.Decimal `json:"lb"`
}

// poundKg is exact, by the international agreement of 1959.
var poundKg = dec("0.45359237")

// grams is how many places of a kilogram are told.
const grams = 3

// Weigh reads the question and answers it; all that is wrong comes back together as document.Faults.
func (d RodDocument) Weigh() (RodAnswer, error) {
	var f document.Faults
	out := RodAnswer{Metal: d.Metal, Rods: []RodWeight{}, Why: "A quarter of pi times the square of the diameter times the length times the density. Heads, nuts, rings and zinc are extra."}
	var err error
	if _, out.KgM3, out.Source, err = Density(d.Metal); err != nil {
		f.Add("/metal", "steel, silicon_bronze, copper or monel", "the density of %q is not known", string(d.Metal))
	}
	if !d.Notation.Known() {
		f.Add("/notation", "one of feet_inches_eighths, inches, mm, m", "the notation %q is not known", string(d.Notation))
	}
	if len(d.Rods) == 0 || len(d.Rods) > MostRodRows {
		f.Add("/rods", fmt.Sprintf("between 1 and %d rows of rods", MostRodRows), "%d rows", len(d.Rods))
	}
	if err := f.Err(); err != nil {
		return RodAnswer{}, err
	}
	total := decimal.Zero
	for i, r := range d.Rods {
		at := fmt.Sprintf("/rods/%d", i)
		if r.Count < 1 || r.Count > MostRods {
			f.Add(at+"/count", fmt.Sprintf("a whole number from 1 to %d", MostRods), "%d rods", r.Count)
		}
		diameter := d.length(r.Diameter, at+"/diameter", MostDiameter, &f)
		length := d.length(r.Length, at+"/length", MostRod, &f)
		if diameter.IsZero() || length.IsZero() {
			continue
		}
		each, err := RodKg(d.Metal, diameter, length)
		if err != nil {
			return RodAnswer{}, err
		}
		kg := each.Mul(decimal.NewFromInt(r.Count))
		total = total.Add(kg)
		out.Rods = append(out.Rods, RodWeight{r.Count, each.Round(grams), kg.Round(grams), kg.DivRound(poundKg, grams)})
	}
	out.Kg, out.Lb = total.Round(grams), total.DivRound(poundKg, grams)
	if err := f.Err(); err != nil {
		return RodAnswer{}, err
	}
	return out, nil
}

// length in mm, 0 where it is none.
func (d RodDocument) length(text, pointer string, most int64, f *document.Faults) decimal.Decimal {
	l, err := d.Notation.ParseCell(text, false)
	var told *notation.Error
	if errors.As(err, &told) {
		f.Add(pointer, "written like "+told.Example, "%s", told.Error())
		return decimal.Zero
	}
	if mm := l.Decimal(); mm.Sign() > 0 && !mm.GreaterThan(decimal.NewFromInt(most)) {
		return mm
	}
	f.Add(pointer, fmt.Sprintf("above 0 and at most %d mm", most), "a length of %s", l)
	return decimal.Zero
}
