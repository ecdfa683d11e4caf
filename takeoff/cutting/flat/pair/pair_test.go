package pair_test

import (
	"errors"
	"math"
	"math/rand"
	"testing"

	"ribband/takeoff/cutting/flat"
	"ribband/takeoff/cutting/flat/pair"
)

type pt = pair.Point

// Closed forms, computed by hand. A rectangle w x h: two beside or behind each other. Two right
// triangles make their rectangle. A trapezium of sides a and b with one square end: (a + b) x h without waste; with two equal slanting ends its
// rectangle hangs over by half the difference, a + (a + b)/2. A right angle with arms t wide in w x h: slid by t along
// the side that leaves the less, min((w + t) h, w (h + t)). A staple with arms a wide, a gap g wider than they, depth h and
// a back b thick: turned, an arm lies in the gap, slid by a across and by b along, (2 a + g + a) x (h + b).
func TestClosedForms(t *testing.T) {
	for name, c := range map[string]struct {
		outline []pt
		want    flat.Size
	}{
		"rectangle lying":   {[]pt{{0, 0}, {70, 0}, {70, 30}, {0, 30}}, flat.Size{Width: 140, Length: 30}},
		"right triangle":    {[]pt{{5, 5}, {105, 5}, {5, 45}}, flat.Size{Width: 100, Length: 40}},
		"square trapezium":  {[]pt{{0, 0}, {90, 0}, {50, 40}, {0, 40}}, flat.Size{Width: 140, Length: 40}},
		"even trapezium":    {[]pt{{0, 0}, {90, 0}, {70, 40}, {20, 40}}, flat.Size{Width: 160, Length: 40}},
		"right angle":       {[]pt{{0, 0}, {100, 0}, {100, 30}, {30, 30}, {30, 120}, {0, 120}}, flat.Size{Width: 100, Length: 150}},
		"right angle, flat": {[]pt{{0, 0}, {0, 60}, {20, 60}, {20, 20}, {100, 20}, {100, 0}}, flat.Size{Width: 120, Length: 60}},
		"staple":            {[]pt{{0, 0}, {70, 0}, {70, 80}, {50, 80}, {50, 10}, {20, 10}, {20, 80}, {0, 80}}, flat.Size{Width: 90, Length: 90}},
	} {
		got, err := pair.Least(c.outline)
		if err != nil || got.Size != c.want {
			t.Errorf("%s: %+v, want %+v, %v", name, got, c.want, err)
		}
	}
}

// A floor: a bow of chord 1000 and rise 200, inside that a chord of less, 150 deep. Two lie behind each other as they are,
// slid by what the bow is deep along the grain at its ends, a little more than 150: at half the angle a = asin(500/R) it is
// 150/cos a, but the inner arc ends before that, so that it lies between the two.
func TestBow(t *testing.T) {
	var mm [][2]float64
	r := (500.0*500 + 200*200) / (2 * 200)
	half := math.Asin(500 / r)
	arc := func(radius float64, from, to float64) {
		for i := range 13 {
			a := from + (to-from)*float64(i)/12
			mm = append(mm, [2]float64{radius * math.Sin(a), radius * math.Cos(a)})
		}
	}
	arc(r, -half, half)
	arc(r-150, half, -half)
	outline, err := pair.Outline(mm, 10)
	if err != nil {
		t.Fatal(err)
	}
	one, err := pair.Bounds(outline)
	if err != nil {
		t.Fatal(err)
	}
	two, err := pair.Least(outline)
	if err != nil {
		t.Fatal(err)
	}
	if low, high := int64(1500), int64(1500/math.Cos(half)); two.Turned || two.DX != 0 || two.DY < low || two.DY > high {
		t.Errorf("%+v of %+v", two, one)
	}
	area := two.Size.Width * two.Size.Length
	t.Logf("one %+v, two %+v: %.1f %% of two rectangles", one, two, 100*float64(area)/float64(2*one.Width*one.Length))
}

// overlap is the area that a polygon and another have in common, by fans of triangles from the first point: each
// triangle counts with the sign of its turn, so that outlines need not be convex. It shares nothing with the package.
func overlap(a, b []pt) float64 {
	sum := 0.0
	for i := 1; i+1 < len(a); i++ {
		for j := 1; j+1 < len(b); j++ {
			s, t := [3]pt{a[0], a[i], a[i+1]}, [3]pt{b[0], b[j], b[j+1]}
			sum += turn(s) * turn(t) * common(s, t)
		}
	}
	return math.Abs(sum)
}

func turn(t [3]pt) float64 {
	v := (t[1].X-t[0].X)*(t[2].Y-t[0].Y) - (t[1].Y-t[0].Y)*(t[2].X-t[0].X)
	switch {
	case v > 0:
		return 1
	case v < 0:
		return -1
	}
	return 0
}

// common is the area of two triangles' common part, the first cut by the sides of the second.
func common(s, t [3]pt) float64 {
	if turn(s) == 0 || turn(t) == 0 {
		return 0
	}
	type p struct{ x, y float64 }
	var poly []p
	for _, q := range s {
		poly = append(poly, p{float64(q.X), float64(q.Y)})
	}
	sign := turn(t)
	for k := range 3 {
		a, b := t[k], t[(k+1)%3]
		inside := func(q p) float64 {
			return sign * (float64(b.X-a.X)*(q.y-float64(a.Y)) - float64(b.Y-a.Y)*(q.x-float64(a.X)))
		}
		var out []p
		for i, q := range poly {
			n := poly[(i+1)%len(poly)]
			u, v := inside(q), inside(n)
			if u >= 0 {
				out = append(out, q)
			}
			if u > 0 && v < 0 || u < 0 && v > 0 {
				f := u / (u - v)
				out = append(out, p{q.x + f*(n.x-q.x), q.y + f*(n.y-q.y)})
			}
		}
		if poly = out; len(poly) == 0 {
			return 0
		}
	}
	area := 0.0
	for i, q := range poly {
		n := poly[(i+1)%len(poly)]
		area += q.x*n.y - q.y*n.x
	}
	return math.Abs(area) / 2
}

// slid is the outline, turned by half a turn within its bounds from 0, 0 or not, and slid.
func slid(outline []pt, size flat.Size, f pair.Fit) []pt {
	var out []pt
	for _, p := range outline {
		if f.Turned {
			p = pt{size.Width - p.X, size.Length - p.Y}
		}
		out = append(out, pt{p.X + f.DX, p.Y + f.DY})
	}
	return out
}

// drawn is a random outline from 0, 0, or none when the points made none.
func drawn(r *rand.Rand) ([]pt, flat.Size, bool) {
	n := 3 + r.Intn(7)
	var out []pt
	for range n {
		out = append(out, pt{r.Int63n(13), r.Int63n(13)})
	}
	size, err := pair.Bounds(out)
	if err != nil {
		return nil, size, false
	}
	low := out[0]
	for _, p := range out {
		low = pt{min(low.X, p.X), min(low.Y, p.Y)}
	}
	for i := range out {
		out[i] = pt{out[i].X - low.X, out[i].Y - low.Y}
	}
	return out, size, true
}

// Trying every whole slide of drawn outlines, hollow ones too, finds nothing less, and what was found does not overlap.
func TestAgainstEverySlide(t *testing.T) {
	tried, gained := 0, 0
	for seed := 0; tried < 120; seed++ {
		r := rand.New(rand.NewSource(int64(seed)))
		outline, size, ok := drawn(r)
		if !ok {
			continue
		}
		tried++
		got, err := pair.Least(outline)
		if err != nil {
			t.Fatal(err)
		}
		least := 2 * size.Width * size.Length
		for dx := -size.Width; dx <= size.Width; dx++ {
			for dy := -size.Length; dy <= size.Length; dy++ {
				for _, turned := range []bool{true, false} {
					a := (size.Width + max(dx, -dx)) * (size.Length + max(dy, -dy))
					if a < least && overlap(outline, slid(outline, size, pair.Fit{Turned: turned, DX: dx, DY: dy})) < 1e-9 {
						least = a
					}
				}
			}
		}
		if a := got.Size.Width * got.Size.Length; a != least {
			t.Errorf("seed %d: %+v is %d, by trying every slide %d: %v", seed, got, a, least, outline)
		}
		if got.Size.Width != size.Width+max(got.DX, -got.DX) || got.Size.Length != size.Length+max(got.DY, -got.DY) {
			t.Errorf("seed %d: %+v of %+v", seed, got, size)
		}
		if o := overlap(outline, slid(outline, size, got)); o > 1e-9 {
			t.Errorf("seed %d: the two overlap by %v", seed, o)
		}
		if len(outline) > 3 && least < 2*size.Width*size.Length {
			gained++
		}
	}
	if gained < 30 {
		t.Errorf("only %d of %d gained by lying as a pair", gained, tried)
	}
}

// Sliding the whole outline or starting at another point changes nothing; mirrored, the rectangle is the same.
func TestPlaceAndSideChangeNothing(t *testing.T) {
	for seed := range 200 {
		r := rand.New(rand.NewSource(int64(seed)))
		outline, size, ok := drawn(r)
		if !ok {
			continue
		}
		want, _ := pair.Least(outline)
		var moved, mirrored []pt
		k := r.Intn(len(outline))
		for i := range outline {
			p := outline[(i+k)%len(outline)]
			moved = append(moved, pt{p.X - 1000, p.Y + 77})
			mirrored = append(mirrored, pt{size.Width - p.X, p.Y})
		}
		if got, err := pair.Least(moved); err != nil || got != want {
			t.Errorf("seed %d: %+v, elsewhere %+v, %v", seed, want, got, err)
		}
		if got, err := pair.Least(mirrored); err != nil || got.Size != want.Size {
			t.Errorf("seed %d: %+v, the other side %+v, %v", seed, want, got, err)
		}
	}
}

func TestNoOutline(t *testing.T) {
	for name, outline := range map[string][]pt{
		"none":         nil,
		"two points":   {{0, 0}, {1, 1}},
		"a line":       {{0, 0}, {5, 5}, {10, 10}},
		"a bow tie":    {{0, 0}, {10, 10}, {10, 0}, {0, 10}},
		"twice a spot": {{0, 0}, {0, 0}, {10, 0}, {0, 10}},
		"pinched":      {{0, 0}, {10, 0}, {5, 5}, {10, 10}, {0, 10}, {5, 5}},
		"a spike":      {{0, 0}, {10, 0}, {20, 0}, {10, 0}, {10, 10}},
		"far away":     {{math.MinInt64, 0}, {math.MaxInt64, 0}, {0, math.MinInt64}},
		"a mile":       {{0, 0}, {16_093_440, 0}, {0, 10}},
	} {
		var bad *pair.OutlineError
		if _, err := pair.Least(outline); !errors.As(err, &bad) || err.Error() == "" {
			t.Errorf("%s: %v", name, err)
		}
	}
	for _, v := range []float64{math.NaN(), math.Inf(1), 1e300} {
		var bad *pair.OutlineError
		if _, err := pair.Outline([][2]float64{{0, 0}, {v, 0}, {0, 1}}, 10); !errors.As(err, &bad) || bad.Points[0] != 1 {
			t.Errorf("%v: %v", v, err)
		}
	}
}
