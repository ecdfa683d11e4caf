package hull_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/hull"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/hull/offsets"
)

// A canted plane cuts panels that are planes in straight lines, whose corners lie where it meets the knuckles' own lines.
func TestKnucklesInACantedPlane(t *testing.T) {
	h := hulltest.Hull(t, chined(quarters, 1, tapering))
	for _, c := range []struct{ x, cant float64 }{{1500, .4}, {2500, -.5}, {1000, .05}} {
		s, err := h.SectionIn(hull.Plane{X: c.x, Cant: c.cant}, boat.Starboard)
		if err != nil {
			t.Fatal(err)
		}
		a := math.Tan(c.cant)
		want, xs := make(panels, len(v)), make([]float64, len(v))
		for i, p := range v {
			xs[i] = (c.x + a*p.Y) / (1 - a*p.Y/4000)
			want[i] = hull.Point{Y: p.Y * (1 + xs[i]/4000) / math.Cos(c.cant), Z: p.Z * (1 + xs[i]/4000)}
		}
		near := panelTight * want.girth()
		if math.Abs(s.Girth.MM-want.girth()) > near || !s.Straight {
			t.Errorf("%+v: girth %v, want %v; straight %v", c, s.Girth, want.girth(), s.Straight)
		}
		// bevel of panel i: its normal is square to its two edges from the point of the cone
		bevel := func(i int) float64 {
			p, q := v[i], v[i+1]
			nx, ny, nz := p.Y*q.Z-p.Z*q.Y, 4000*(p.Z-q.Z), 4000*(q.Y-p.Y)
			if ny < 0 {
				nx, ny, nz = -nx, -ny, -nz
			}
			return -math.Asin((nx - a*ny) / math.Sqrt(1+a*a) / math.Sqrt(nx*nx+ny*ny+nz*nz))
		}
		for i, k := range s.Knuckles() {
			p, q, r := want[i], want[i+1], want[i+2]
			turn := math.Atan2(r.Z-q.Z, r.Y-q.Y) - math.Atan2(q.Z-p.Z, q.Y-p.Y)
			if k.Name != vKnuckles[i] || math.Hypot(k.Y-q.Y, k.Z-q.Z) > near || math.Abs(k.Turn-turn) > 1e-6 || math.Abs(k.S-want[:i+2].girth()) > near {
				t.Errorf("%+v: %+v, want %v turning %v", c, k, q, turn)
			}
			below, above, err := s.BevelsAt(k.U, hull.Abaft)
			if err != nil || math.Abs(below.Angle-bevel(i)) > 1e-6 || math.Abs(above.Angle-bevel(i+1)) > 1e-6 || math.Abs(above.X-xs[i+1]) > near {
				t.Errorf("%+v, %s: bevels %+v and %+v, want %v and %v: %v", c, k.Name, below, above, bevel(i), bevel(i+1), err)
			}
		}
	}
}

// toAndFro, mm: what is left of marks laid to the other face of a plank and back; they are exact to a millionth, and
// panels are flat.
const toAndFro = 1e-4

// Panels laid to the other face meet where both are moved by the thickness; to and fro they come back.
func TestPlankAcrossKnuckles(t *testing.T) {
	const thickness = 30.0
	for name, at := range map[string]func(float64) panels{"prism": func(float64) panels { return v }, "cone": tapering} {
		for _, n := range []int{0, 1, 2} {
			doc := chined(quarters, n, at)
			doc.PlankThickness = mm(thickness)
			from, to := laid(t, doc, offsets.Outside)
			back, err := hull.ToFace(to, offsets.Inside)
			if err != nil {
				t.Fatal(name, n, err)
			}
			for i := range from.Stations {
				was, now, out := from.Stations[i].Port, back.Stations[i].Port, to.Stations[i].Port
				if len(was) != len(now) {
					t.Fatalf("%s, %d points: %d marks, then %d", name, n, len(was), len(now))
				}
				p, panel := at(quarters[i]), 0
				for k := range was {
					// Knuckles come back to their place, other marks to their panel: they may slip along it, at an end
					// station above all, where they are laid off in the body plan.
					dy, dz := now[k].Y.MM()-was[k].Y.MM(), now[k].Z.MM()-was[k].Z.MM()
					d := math.Hypot(dy, dz)
					if was[k].Knuckle == "" {
						a, b := p[panel], p[panel+1]
						if d > 2 {
							t.Errorf("%s, %d points: %s at station %d slips by %v mm", name, n, was[k].Cell, i, d)
						}
						d = math.Abs((b.Y-a.Y)*dz-(b.Z-a.Z)*dy) / math.Hypot(b.Y-a.Y, b.Z-a.Z)
					} else {
						panel++
					}
					if d > toAndFro {
						t.Errorf("%s, %d points: %s at station %d comes back %v mm off", name, n, was[k].Cell, i, d)
					}
				}
				// Each panel moves by the thickness times the secant of its bevel.
				line := func(k int) (y, z, c float64) {
					y, z = p[k+1].Z-p[k].Z, p[k].Y-p[k+1].Y
					l := math.Hypot(y, z)
					y, z = y/l, z/l
					c = y*p[k].Y + z*p[k].Z
					grow := 0.0
					if name == "cone" {
						grow = c / (4000 * (1 + quarters[i]/4000))
					}
					return y, z, c + thickness*math.Hypot(1, grow)
				}
				corner := 0
				for _, m := range out {
					if m.Knuckle == "" {
						continue
					}
					ay, az, ac := line(corner)
					by, bz, bc := line(corner + 1)
					det := ay*bz - az*by
					y, z := (ac*bz-az*bc)/det, (ay*bc-ac*by)/det
					if math.Hypot(m.Y.MM()-y, m.Z.MM()-z) > toAndFro {
						t.Errorf("%s, %d points: %s at station %d is laid to %v %v, want %v %v", name, n, m.Knuckle, i, m.Y.MM(), m.Z.MM(), y, z)
					}
					corner++
				}
				if corner != 2 {
					t.Errorf("%d corners", corner)
				}
			}
		}
	}
}

// A mark so near a knuckle that the other face has no such place is left out, and a plank thicker than a panel is wide is
// a fault.
func TestPlankBesideAKnuckle(t *testing.T) {
	doc := chined(quarters, 1, func(float64) panels { return v })
	doc.Surface, doc.PlankThickness = offsets.Outside, mm(30)
	for i := range doc.Stations {
		e := &doc.Stations[i].Sides[0]
		e.Waterlines = append(e.Waterlines, offsets.WaterlineOffsets{Height: mm(239), HalfBreadth: mm(796.2)})
	}
	from, to := laid(t, doc, offsets.Inside)
	if was, now := len(from.Stations[1].Port), len(to.Stations[1].Port); now != was-1 {
		t.Errorf("%d marks of %d are left", now, was)
	}
	if _, err := hull.Fit(from); err != nil {
		t.Error(err)
	}
	thick := chined(quarters, 1, func(float64) panels { return v.times(.3, .3) })
	thick.Surface, thick.PlankThickness = offsets.Outside, mm(300)
	o := hulltest.Read(t, thick)
	if _, err := hull.ToFace(o, offsets.Inside); err == nil || !strings.Contains(err.Error(), "thicker than the bend here leaves room for") {
		t.Errorf("a plank of 300 mm is laid round a panel of 152: %v", err)
	}
}
