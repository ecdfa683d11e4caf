package area

import (
	"fmt"
	"math"
)

// Beside is what the trade makes of one side from its stations alone, beside what the surface gives, and why they differ.
type Beside struct {
	// ByGirths is the sum of girths, mm²; BySections that of sectional areas, mm³.
	ByGirths, BySections Trade
	// Whole is what the surface gives.
	Whole Part

	straightGirths, straightSections Trade
}

// Beside reckons a side by the rules; spacings that differ by no more than the grain count as even. Errors are those of
// package simpson.
func (d *Side) Beside() (Beside, error) {
	girths, sections := make([]float64, len(d.stations)), make([]float64, len(d.stations))
	for i, x := range d.stations {
		s, err := d.Strip(x, Everything())
		if err != nil {
			return Beside{}, err
		}
		girths[i], sections[i] = s.Girth, s.Section
	}
	out := Beside{Whole: d.Whole()}
	var err error
	if out.ByGirths, err = ByRule(d.stations, girths, d.grain); err != nil {
		return Beside{}, err
	}
	if out.BySections, err = ByRule(d.stations, sections, d.grain); err != nil {
		return Beside{}, err
	}
	if out.straightGirths, err = ByTrapezoids(d.stations, girths); err != nil {
		return Beside{}, err
	}
	out.straightSections, err = ByTrapezoids(d.stations, sections)
	return out, err
}

// Trapezoids is the same with both sums by the trapezoidal rule, whatever the stations allow.
func (b Beside) Trapezoids() Beside {
	b.ByGirths, b.BySections = b.straightGirths, b.straightSections
	return b
}

// Slant is how much of the area girths alone leave out, because the surface runs at a bevel to the sections: a share of
// the area, never negative.
func (b Beside) Slant() float64 { return share(b.Whole.Area-b.Whole.Girths, b.Whole.Area) }

// Rule is what the rule itself adds or leaves out, summing girths at the stations alone: a share of the area.
func (b Beside) Rule() float64 { return share(b.ByGirths.Sum-b.Whole.Girths, b.Whole.Area) }

// Differs is by how much the sum of girths differs from the area, a share of it: Rule less Slant.
func (b Beside) Differs() float64 { return share(b.ByGirths.Sum-b.Whole.Area, b.Whole.Area) }

// VolumeDiffers is by how much the sum of sectional areas differs from the volume, a share of it. Sections know no
// slant, so all of it is the rule's own.
func (b Beside) VolumeDiffers() float64 {
	return share(b.BySections.Sum-b.Whole.Volume, b.Whole.Volume)
}

func share(of, whole float64) float64 {
	if whole == 0 {
		return 0
	}
	return of / whole
}

// shown is the share below which two figures are the same for the trade: a hundredth of a per cent.
const shown = 5e-5

// Because says in words why the sum of girths differs from the area, both parts in per cent.
func (b Beside) Because() string {
	slant, rule := b.Slant(), b.Rule()
	said := "the planking runs square to the sections, so girths alone leave nothing out"
	if slant >= shown {
		said = fmt.Sprintf("girths alone leave out %.2f %%, the slant of the planking (its bevels)", 100*slant)
	}
	if math.Abs(rule) < shown {
		return said + "; the rule itself adds and takes away nothing to speak of"
	}
	way := "adds"
	if rule < 0 {
		way = "leaves out"
	}
	return said + fmt.Sprintf("; the %s on the girths of the stations %s %.2f %%", b.ByGirths.Rule, way, 100*math.Abs(rule))
}

// VolumeBecause says in words why the sum of sectional areas differs from the volume.
func (b Beside) VolumeBecause() string {
	by := b.VolumeDiffers()
	if math.Abs(by) < shown {
		return "the rule and the surface between the stations agree"
	}
	way := "adds"
	if by < 0 {
		way = "leaves out"
	}
	return fmt.Sprintf("the %s on the sectional areas of the stations %s %.2f %% against the surface between them", b.BySections.Rule, way, 100*math.Abs(by))
}
