package area_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"ribband/takeoff/hull/area"
)

// prow is a boat by level lines: half-breadths at a share s of each line, from the stem on, and at a height.
type prow struct {
	length, depth float64
	stem          func(z float64) float64
	by            func(s, h float64) float64
}

func (p prow) half(x, z float64) float64 {
	s := (x - p.stem(z)) / (p.length - p.stem(z))
	return p.by(max(0, s), z/p.depth)
}

func (p prow) form() form {
	return form{p.length, func(x, t float64) (y, z float64) { z = p.depth * t; return p.half(x, z), z }}
}

// prows are of random dimensions: fine, full, hollow at the foot, round, and with a curved stem.
var prows = []func(r *rand.Rand) prow{
	func(r *rand.Rand) prow { // fine, straight raked stem
		l, b, d, rake, k := from(r, 5000, 9000), from(r, 1800, 2800), from(r, 900, 1500), from(r, .04, .14), from(r, .8, 1.2)
		return prow{l, d, func(z float64) float64 { return rake * l * (1 - z/d) },
			func(s, h float64) float64 { return b / 2 * s * (2 - s) * math.Pow(h, k) }}
	},
	func(r *rand.Rand) prow { // hollow entrance
		l, b, d, rake, k := from(r, 7000, 12000), from(r, 2000, 3200), from(r, 1100, 1700), from(r, .05, .15), from(r, .6, 1)
		return prow{l, d, func(z float64) float64 { return rake * l * (1 - z/d) },
			func(s, h float64) float64 {
				return b / 2 * (s*s*(3-2*s)*(1-h*.6) + s*(2-s)*h*.6) * math.Pow(h, k)
			}}
	},
	func(r *rand.Rand) prow { // full entrance, curved stem
		l, b, d, rake := from(r, 6000, 11000), from(r, 2200, 3600), from(r, 1000, 1800), from(r, .03, .1)
		full := from(r, 2.5, 4)
		return prow{l, d, func(z float64) float64 { h := z / d; return rake * l * (1 - h) * (1 - h) },
			func(s, h float64) float64 { return b / 2 * (1 - math.Pow(1-min(1, s), full)) * (1 - (1-h)*(1-h)) }}
	},
	func(r *rand.Rand) prow { // flare: lines fuller above
		l, b, d, rake := from(r, 5000, 12000), from(r, 1700, 3300), from(r, 900, 1800), from(r, .05, .16)
		return prow{l, d, func(z float64) float64 { h := z / d; return rake * l * (1 - h*(1.4-.4*h)) },
			func(s, h float64) float64 { return b / 2 * math.Tanh((1.2+h)*s) / math.Tanh(1.2+h) * math.Pow(h, .7) }}
	},
	func(r *rand.Rand) prow { // bluff: lines come in square
		l, b, d, rake := from(r, 6000, 9000), from(r, 2200, 3200), from(r, 1000, 1500), from(r, .02, .05)
		power := from(r, .5, .6)
		return prow{l, d, func(z float64) float64 { return rake * l * (1 - z/d) },
			func(s, h float64) float64 { return b / 2 * math.Pow(s*(2-s), power) * math.Pow(h, .6) }}
	},
}

// held counts an area and a volume against their half widths.
func (c *coverage) held(area0, volume0 float64, p area.Part, open area.Open) {
	c.of++
	if math.Abs(p.Area-area0) <= open.Area {
		c.area++
	}
	if math.Abs(p.Volume-volume0) <= open.Volume {
		c.volume++
	}
}

// The ranges of ends, of sides with their ends, and of what of them lies below and above a level, hold nine times in ten,
// pooled over the shapes, with exact points and lines and with both written to eighths. Truth is by strips of the formulas.
func TestOpenHolds(t *testing.T) {
	counts, trials := []int{5, 7, 13}, 2
	if testing.Short() {
		counts, trials = []int{7}, 2
	}
	got := map[string]*coverage{}
	count := func(what string) *coverage {
		if got[what] == nil {
			got[what] = &coverage{}
		}
		return got[what]
	}
	for i, of := range prows {
		r := rand.New(rand.NewPCG(733, uint64(i)))
		for range trials {
			p := of(r)
			first, level := p.stem(0), .55*p.depth
			aft := func(float64) float64 { return p.length }
			endA, endV := truth(p.half, p.stem, func(float64) float64 { return first }, 0, p.depth)
			allA, allV := truth(p.half, p.stem, aft, 0, p.depth)
			lowA, lowV := truth(p.half, p.stem, aft, 0, level)
			for _, n := range counts {
				for _, eighths := range []bool{false, true} {
					grain := 0.0
					line := make([]area.Profile, 7)
					for i := range line {
						z := p.depth * float64(i) / 6
						line[i] = area.Profile{Z: z, X: p.stem(z)}
					}
					at := make([]float64, n)
					for i := range at {
						at[i] = first + (p.length-first)*float64(i)/float64(n-1)
					}
					if eighths {
						grain = 3.175
						for i := range line {
							z := math.Round(line[i].Z/grain) * grain
							line[i] = area.Profile{Z: z, X: math.Round(p.stem(z)/grain) * grain}
						}
					}
					h := fitted(t, p.form().document(table{at, 11, eighths}))
					d := area.New(surface(t, h), grain)
					sure, err := d.Sure(girths(h))
					if err != nil {
						t.Fatal(err)
					}
					end, err := d.End(area.Ending{Line: line}, math.Inf(1))
					if err != nil {
						t.Fatal(err)
					}
					endLow, err := d.End(area.Ending{Line: line}, level)
					if err != nil {
						t.Fatal(err)
					}
					whole, low := d.Whole(), part(t, d, area.Below(level))
					count("ends").held(endA, endV, end.Part, end.Open)
					count("sides with ends").held(allA, allV, whole.Plus(end.Part, 1), sure.Of(whole).Plus(end.Open))
					count("below").held(lowA, lowV, low.Plus(endLow.Part, 1), sure.OfPart(low, whole).Plus(endLow.Open))
					above, endHigh := whole.Plus(low, -1), end.Plus(endLow.Part, -1)
					count("above").held(allA-lowA, allV-lowV, above.Plus(endHigh, 1), sure.OfPart(above, whole).Plus(end.Open))
				}
			}
		}
	}
	for what, c := range got {
		a, v := c.share()
		t.Logf("%s: area %.0f %%, volume %.0f %% of %d", what, a, v, c.of)
		if a < 90 || v < 90 {
			t.Errorf("%s: the range holds area %.0f %% and volume %.0f %% of %d", what, a, v, c.of)
		}
	}
}

// What lies below and above a level of shapes that nothing was measured on; the truth is straight from their formulas.
func TestPartOfUnseen(t *testing.T) {
	trials := 3
	if testing.Short() {
		trials = 1
	}
	var low, high [2]coverage
	for i, s := range unseen {
		r := rand.New(rand.NewPCG(5081, uint64(i)))
		for range trials {
			f := s.of(r)
			_, keel := f.at(f.length/2, 0)
			_, sheer := f.at(f.length/2, 1)
			level := keel + from(r, .3, .7)*(sheer-keel)
			allA, allV := dense(f)
			lowA, lowV := denseBelow(f, level)
			for _, n := range []int{3, 5, 7, 9, 13} {
				for k, eighths := range []bool{false, true} {
					h := fitted(t, f.document(table{even(f, n), 9, eighths}))
					d := area.New(surface(t, h), 3.175*float64(k))
					sure, err := d.Sure(girths(h))
					if err != nil {
						t.Fatal(err)
					}
					whole, below := d.Whole(), part(t, d, area.Below(level))
					above := whole.Plus(below, -1)
					low[k].held(lowA, lowV, below, sure.OfPart(below, whole))
					high[k].held(allA-lowA, allV-lowV, above, sure.OfPart(above, whole))
				}
			}
		}
	}
	for k, written := range []string{"exact", "eighths"} {
		for what, c := range map[string]coverage{"below": low[k], "above": high[k]} {
			a, v := c.share()
			t.Logf("%s, %s: area %.0f %%, volume %.0f %% of %d", what, written, a, v, c.of)
			if a < 90 || v < 90 {
				t.Errorf("%s, %s: the range holds area %.0f %% and volume %.0f %% of %d", what, written, a, v, c.of)
			}
		}
	}
}
