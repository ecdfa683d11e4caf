package app

import (
	"fmt"
	"math"
	"slices"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/area"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/quantity"
)

// SideSurface is one side's planking, inside of plank, between the end stations, and what it encloses to the centreline.
// Beside the surface's figure stands what the trade's rule makes of the stations alone.
type SideSurface struct {
	Side         boat.Side    `json:"side"`
	AreaM2       Ranged       `json:"area_m2"`
	ByRule       AreaByRule   `json:"by_rule"`
	VolumeM3     Ranged       `json:"volume_m3"`
	VolumeByRule VolumeByRule `json:"volume_by_rule"`
	// ByTrapezoids and VolumeByTrapezoids are the same sums by the trapezoidal rule.
	ByTrapezoids       AreaByRule    `json:"by_trapezoids"`
	VolumeByTrapezoids VolumeByRule  `json:"volume_by_trapezoids"`
	Centre             *VolumeCentre `json:"centre,omitempty"`
	// OutsideAreaM2 is the area of the outside of plank between the end stations, where the table gives the thickness.
	OutsideAreaM2 *Ranged `json:"outside_area_m2,omitempty"`
	// Ends are what lies beyond the end stations, where the lines of stem and transom were measured.
	Ends []EndPlanking `json:"ends,omitempty"`
	// WithEnds are the side's figures with those of Ends, where there are any.
	WithEnds *WithEnds `json:"with_ends,omitempty"`
}

// AreaByRule is the sum of girths, by how much of the area it differs, and the two parts of why: differs is the rule's part
// less the slant's.
type AreaByRule struct {
	Rule       string  `json:"rule"`
	AreaM2     float64 `json:"area_m2"`
	DiffersPct float64 `json:"differs_pct"`
	SlantPct   float64 `json:"slant_pct"`
	RulePct    float64 `json:"rule_pct"`
	Because    string  `json:"because"`
}

// VolumeByRule is the sum of sectional areas, and by how much of the volume it differs.
type VolumeByRule struct {
	Rule       string  `json:"rule"`
	VolumeM3   float64 `json:"volume_m3"`
	DiffersPct float64 `json:"differs_pct"`
	Because    string  `json:"because"`
}

// VolumeCentre is the centre of a volume: aft of station 0 and above the baseline, each with what it lies between nine times
// in ten.
type VolumeCentre struct {
	XMM     float64 `json:"x_mm"`
	XLowMM  float64 `json:"x_low_mm"`
	XHighMM float64 `json:"x_high_mm"`
	ZMM     float64 `json:"z_mm"`
	ZLowMM  float64 `json:"z_low_mm"`
	ZHighMM float64 `json:"z_high_mm"`
}

// Zone is the planking of one side between two neighbouring frames, moulding face to moulding face.
type Zone struct {
	Side      boat.Side `json:"side"`
	FromFrame int       `json:"from_frame"`
	ToFrame   int       `json:"to_frame"`
	FromXMM   float64   `json:"from_x_mm"`
	ToXMM     float64   `json:"to_x_mm"`
	AreaM2    float64   `json:"area_m2"`
	// AreaLowM2 and AreaHighM2 are between what it lies nine times in ten.
	AreaLowM2  float64 `json:"area_low_m2"`
	AreaHighM2 float64 `json:"area_high_m2"`
}

// NotCounted is what the measures leave out, why, and the measurement that would give it.
type NotCounted struct {
	What    string `json:"what"`
	Because string `json:"because"`
	Fix     string `json:"fix"`
}

var (
	noSurface = NotCounted{"plank areas, volumes and bevels",
		"patterns and tapes give frames one by one, and not how the boat runs fore and aft between them",
		"measure a table of offsets of three stations or more"}
	unasked = NotCounted{"areas below and above the waterline", "there are no lines to cut at its height", noSurface.Fix}
)

const (
	squareMetre = 1e-6 // of a mm²
	cubicMetre  = 1e-9 // of a mm³
)

func m2(mm2 float64) float64 { return quantity.Thousandth(mm2 * squareMetre) }
func m3(mm3 float64) float64 { return quantity.Thousandth(mm3 * cubicMetre) }

// within is a figure and its range by the share it may be out by.
func within(figure, share, unit float64) Ranged {
	low, high := area.Range(figure, share)
	return ranged(hull.Reading{MM: figure, Low: low, High: high}, unit)
}

// planked measures the surface of both sides, the bays between frames, and what lies on either side of a waterline where
// one is asked for.
func (m *Measures) planked(b *takeoff.Basis, table *offsets.Table, waterline *float64) error {
	if b.Hull == nil {
		m.NotCounted = append(m.NotCounted, noSurface)
		if waterline != nil {
			m.NotCounted = append(m.NotCounted, unasked)
		}
		return nil
	}
	if waterline != nil {
		m.Areas = &WaterlineAreas{WaterlineMM: quantity.Thousandth(*waterline)}
	}
	girths, sections := map[boat.Side][]hull.Reading{}, map[boat.Side][]hull.Measure{}
	for _, of := range b.Hull.Measures() {
		sections[of.Section.Side] = append(sections[of.Section.Side], of)
		girths[of.Section.Side] = append(girths[of.Section.Side], of.Section.Girth)
	}
	for _, side := range boat.Sides {
		s, err := b.Hull.Surface(side)
		if err != nil {
			return err
		}
		d := area.New(s, b.Hull.Grain())
		whole, sure, err := m.side(side, d, girths[side])
		if err != nil {
			return unsummed(err)
		}
		of := &m.Surface[len(m.Surface)-1]
		bare, err := of.outside(d, table, sections[side], sure)
		if err != nil {
			return unsummed(err)
		}
		if err := m.bays(side, d, b, whole, sure); err != nil {
			return unsummed(err)
		}
		ends, missing := of.ends(d, table)
		ends.whole, ends.sure = whole, sure
		of.WithEnds = ends.total()
		if side == boat.Port {
			m.NotCounted = append(m.NotCounted, missing...) // alike on either side
		}
		m.NotCounted = append(m.NotCounted, bare...)
		if m.Areas == nil {
			continue
		}
		if err := m.Areas.side(side, d, s, *waterline, ends); err != nil {
			return unsummed(err)
		}
	}
	if m.Areas != nil {
		m.Areas.close()
	}
	return nil
}

// unsummed is the fault of a table whose surface cannot be summed.
func unsummed(err error) error {
	return document.Faults{{Pointer: "/hull", Detail: err.Error(), Fix: "check the offsets"}}
}

// side adds what one side measures, and gives its whole planking and how sure that is.
func (m *Measures) side(side boat.Side, d *area.Side, girths []hull.Reading) (area.Part, area.Sure, error) {
	beside, err := d.Beside()
	if err != nil {
		return area.Part{}, area.Sure{}, err
	}
	sure, err := d.Sure(girths)
	if err != nil {
		return area.Part{}, area.Sure{}, err
	}
	whole, straight := beside.Whole, beside.Trapezoids()
	if math.IsInf(whole.Area+whole.Volume, 0) || math.IsNaN(whole.Area+whole.Volume) {
		return area.Part{}, area.Sure{}, fmt.Errorf("the surface of the %s side has no area", side)
	}
	open, err := d.OpenCentre(math.Inf(1), whole, whole, sure)
	if err != nil {
		return area.Part{}, area.Sure{}, err
	}
	m.Surface = append(m.Surface, SideSurface{
		Side:   side,
		AreaM2: within(whole.Area, sure.Area, squareMetre), ByRule: areaBy(beside), ByTrapezoids: areaBy(straight),
		VolumeM3: within(whole.Volume, sure.Volume, cubicMetre), VolumeByRule: volumeBy(beside), VolumeByTrapezoids: volumeBy(straight),
		Centre: centre(whole, open),
	})
	return whole, sure, nil
}

// hundredths is a share in per cent.
func hundredths(share float64) float64 { return quantity.Thousandth(100 * share) }

func areaBy(b area.Beside) AreaByRule {
	return AreaByRule{b.ByGirths.Rule, m2(b.ByGirths.Sum), hundredths(b.Differs()), hundredths(b.Slant()), hundredths(b.Rule()), b.Because()}
}

func volumeBy(b area.Beside) VolumeByRule {
	return VolumeByRule{b.BySections.Rule, m3(b.BySections.Sum), hundredths(b.VolumeDiffers()), b.VolumeBecause()}
}

func centre(p area.Part, open area.OpenCentre) *VolumeCentre {
	x, z, ok := p.Centre()
	if !ok {
		return nil
	}
	mm := quantity.Thousandth
	return &VolumeCentre{mm(x), mm(x - open.X), mm(x + open.X), mm(z), mm(z - open.Z), mm(z + open.Z)}
}

// bays between neighbouring frames of one side that both lie within the stations; each is less sure than its share of the
// whole.
func (m *Measures) bays(side boat.Side, d *area.Side, b *takeoff.Basis, whole area.Part, sure area.Sure) error {
	forward, aft := b.Hull.Reach()
	var frames []frame.Frame
	for _, f := range b.Frames {
		if x := f.X.InexactFloat64(); f.Side == side && forward <= x && x <= aft {
			frames = append(frames, f)
		}
	}
	slices.SortStableFunc(frames, func(f, g frame.Frame) int { return f.X.Cmp(g.X) })
	for i := range max(0, len(frames)-1) {
		f, g := frames[i], frames[i+1]
		from, to := f.X.InexactFloat64(), g.X.InexactFloat64()
		p, err := d.Part(area.Between(from, to))
		if err != nil {
			return err
		}
		half := sure.OfPart(p, whole).Area
		m.Zones = append(m.Zones, Zone{side, f.No, g.No, quantity.Thousandth(from), quantity.Thousandth(to), m2(p.Area), m2(max(0, p.Area-half)), m2(p.Area + half)})
	}
	return nil
}
