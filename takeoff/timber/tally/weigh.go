package tally

import (
	"fmt"
	"strings"

	"ribband/takeoff/notation"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

var (
	poundKg     = decimal.RequireFromString("0.45359237") // exactly, by the international agreement of 1959
	cubicFootM3 = timber.CubicMetres(decimal.NewFromInt(12))
)

// OneHandKg is what one person lifts under the best of conditions; a board is long and awkward, so it is no more than that.
// Load constant of the revised lifting equation of the US National Institute for Occupational Safety and Health, 1991: 51 lb;
// from memory.
var OneHandKg = decimal.NewFromInt(51).Mul(poundKg)

// wet, per cent: from here on wood no longer swells.
var wet = decimal.NewFromInt(30)

// shrunk is what a cubic metre of green boards weighs, kg, once it has dried to the list's moisture: the wood in it stays, and
// the water is its share of that.
func (l list) shrunk() (decimal.Decimal, error) {
	green, err := l.wood.DensityAt(wet)
	if err != nil {
		return decimal.Zero, err
	}
	share := func(m decimal.Decimal) decimal.Decimal { return one.Add(m.Shift(-2)) }
	return green.Mul(share(l.moisture)).DivRound(share(wet), volumePlaces), nil
}

const oneHandSource = "load constant of the lifting equation of the US National Institute for Occupational Safety and Health, 1991: 51 lb, from memory"

func plainMark(m timber.Mark) string { return strings.ReplaceAll(string(m), "_", " ") }

// true volume of one board, m3: of nominal softwood by its dressed section where the standard has it.
func (l list) true(r row, x Line) decimal.Decimal {
	if x.Actual == nil {
		return r.m3()
	}
	section := decimal.NewFromInt(1)
	for _, side := range []string{x.Actual.Thickness, x.Actual.Width} {
		in, err := notation.Inches.Parse(side)
		if err != nil {
			return r.m3()
		}
		section = section.Mul(in.Decimal())
	}
	return section.Mul(r.length.mm).Shift(-9)
}

// weigh fills in what the boards weigh.
func (l list) weigh(a *Answer) error {
	if l.wood == nil {
		return nil
	}
	density, err := l.wood.DensityAt(l.moisture)
	if err != nil {
		return err
	}
	told := density
	if l.Measured == Green && l.moisture.LessThan(wet) {
		if density, err = l.shrunk(); err != nil {
			return err
		}
	}
	w := Weight{Species: l.wood.Code, MoisturePct: l.moisture, DensityKgM3: told.Round(weightPlaces), DensityLb: told.Mul(cubicFootM3).DivRound(poundKg, weightPlaces),
		LbBoardFt: told.Mul(timber.BoardFootM3).DivRound(poundKg, 2),
		Source:    l.wood.GravityAt12.Source + " (" + plainMark(l.wood.GravityAt12.Mark) + ")"}
	var volume, most decimal.Decimal
	for i, r := range l.rows {
		m3 := l.true(r, a.Rows[i])
		volume = volume.Add(m3.Mul(decimal.NewFromInt(r.count)))
		if m3.GreaterThan(most) {
			most, w.HeaviestRow = m3, i
		}
	}
	kg, heaviest := volume.Mul(density), most.Mul(density)
	w.M3, w.Kg, w.Lb = volume.Round(volumePlaces), kg.Round(weightPlaces), kg.DivRound(poundKg, weightPlaces)
	w.HeaviestKg, w.HeaviestLb = heaviest.Round(weightPlaces), heaviest.DivRound(poundKg, weightPlaces)
	w.Why = "Density is 1000 kg/m3 times the specific gravity at 12 % moisture, brought to this moisture by the wood's shrinkage, times one and its share of water. The sizes are taken to be those at this moisture, the lengths whole."
	if !told.Equal(density) {
		w.Why = "Density is that of the wood at this moisture. The boards were measured green and are smaller by then: what is weighed is the wood that was in the green boards, with the water that is left, the lengths whole."
	}
	a.Weight = &w
	return nil
}

// warn adds what to look at.
func (l list) warn(a *Answer) {
	add := func(source, text string, args ...any) {
		a.Cautions = append(a.Cautions, Caution{fmt.Sprintf(text, args...), source})
	}
	if g := a.Grade; g != nil && len(g.TooSmall) > 0 {
		rows := make([]string, len(g.TooSmall))
		for i, r := range g.TooSmall {
			rows[i] = fmt.Sprint(r + 1)
		}
		add(g.Source, "Boards of row %s are below the least of %s, %d in by %d ft: they are not of that grade.", strings.Join(rows, ", "), g.Grade, l.grade.BoardWidth, l.grade.BoardLength)
	}
	if l.Rule == SurfaceMeasure && l.Measured == Dry {
		add("National Hardwood Lumber Association, rules of 2023, p. 56, as quoted at nhla.com, 28 February 2025",
			"Rough kiln-dried boards may be 1/16 in thin from 3/8 to 1 3/4 in, 1/8 in from 2 in on, and 1/4 in narrow: look whether the parts still come out of them.")
	}
	if l.Rule == NominalSoftwood {
		var rows []string
		for i, x := range a.Rows {
			if x.Actual == nil {
				rows = append(rows, fmt.Sprint(i+1))
			}
		}
		if len(rows) > 0 {
			add("Tenn. Comp. R. & Regs. 0080-07-07-.06, Table 4", "What boards of row %s measure is not in the table of dressed sizes: volume and weight are those of the nominal size, which is more than there is.", strings.Join(rows, ", "))
		}
	}
	if w := a.Weight; w != nil && w.HeaviestKg.GreaterThan(OneHandKg) {
		add(oneHandSource,
			"The heaviest board, of row %d, weighs %s kg (%s lb), more than one person should lift even where all is at hand: more hands, rollers or a hoist, and fresh-sawn timber is heavier still.", w.HeaviestRow+1, w.HeaviestKg, w.HeaviestLb)
	}
}
