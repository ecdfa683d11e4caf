package takeoff_test

import (
	"errors"
	"math"
	"strings"
	"testing"

	"ribband/takeoff"
	bending "ribband/takeoff/bend"
	"ribband/takeoff/boat"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// returned, mm: a form bent by its ordinates and let go lies within this of the frame all along it.
const returned = 0.5

// letGo is the faying line of a stack glued against the ordinates of a form and let go. It reads nothing but base line
// and ordinates: through each five runs a quartic by length along.
func letGo(f takeoff.Form) (y, z []float64) {
	rows := f.Ordinates
	slope := func(s float64) (dx, dy float64) {
		i := 0
		for i+1 < len(rows) && rows[i+1].Along < s {
			i++
		}
		first := max(0, min(len(rows)-5, i-2))
		for j := first; j < first+5; j++ {
			l, d := 1.0, 0.0
			for k := first; k < first+5; k++ {
				if k != j {
					w := rows[j].Along - rows[k].Along
					d, l = d*(s-rows[k].Along)/w+l/w, l*(s-rows[k].Along)/w
				}
			}
			dx, dy = dx+d*rows[j].Base, dy-d*rows[j].Off
		}
		return dx, dy
	}
	const n = 2000
	h := f.Length / n
	dx, dy := slope(0)
	last, turn, dir, py, pz := math.Atan2(dy, dx), 0.0, 0.0, 0.0, 0.0
	share := 1 - f.Springback.Share
	for i := range n + 1 {
		y, z = append(y, py), append(z, pz)
		dx, dy = slope(h * float64(i+1))
		now := math.Atan2(dy, dx)
		d := now - last
		last, turn = now, turn+d
		mid := (dir + turn*share) / 2
		dir = turn * share
		py, pz = py+(h+f.Depth*d)*math.Cos(mid), pz+(h+f.Depth*d)*math.Sin(mid)
	}
	return y, z
}

// onEnds lays a line with its first place at the origin and its last on the first axis.
func onEnds(y, z []float64) {
	n := len(y) - 1
	s, c := math.Sincos(math.Atan2(z[n]-z[0], y[n]-y[0]))
	y0, z0 := y[0], z[0]
	for i := range y {
		a, b := y[i]-y0, z[i]-z0
		y[i], z[i] = a*c+b*s, b*c-a*s
	}
}

// Every eighth frame of the demo boat, either side, either face: what is glued up on the form and let go is the frame.
func TestTheDemosFormsReturnToTheirFrames(t *testing.T) {
	b := demoBasis(t, 1)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	worst := 0.0
	for no := 1; no <= 34; no += 8 {
		for _, side := range boat.Sides {
			for _, face := range []bending.Face{bending.Inner, bending.Faying} {
				m := boat.Member{Kind: boat.Frame, No: no, Side: side}
				f, err := b.Form(r, m, face, 25)
				if err != nil {
					t.Fatal(err)
				}
				if f.Laminates < 2 || f.Thickness.Sign() <= 0 {
					t.Fatalf("%s: %+v", m, f.Stack)
				}
				_, section, err := b.Shaped(m)
				if err != nil {
					t.Fatal(err)
				}
				y, z := letGo(f)
				onEnds(y, z)
				var wy, wz []float64
				for _, p := range section.Line(1500) {
					wy, wz = append(wy, p.Y), append(wz, p.Z)
				}
				onEnds(wy, wz)
				for i := range wy {
					near := math.Inf(1)
					for j := range y {
						near = min(near, math.Hypot(wy[i]-y[j], wz[i]-z[j]))
					}
					// places of the one lie about 1 mm apart, so half of that is not counted
					worst = max(worst, math.Sqrt(max(0, near*near-0.25*f.Length*f.Length/2000/2000)))
				}
			}
		}
	}
	t.Logf("at most %.3f mm off", worst)
	if worst > returned {
		t.Errorf("%.3f mm off the frame, %.1f let pass", worst, returned)
	}
}

// What the yard has measured of the wood at this thickness goes before the number of laminates.
func TestTheYardsOwnSpringbackOverrides(t *testing.T) {
	b := demoBasis(t, 1)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	m := boat.Member{Kind: boat.Frame, No: 12, Side: boat.Port}
	plain, err := b.Form(r, m, bending.Faying, 100)
	if err != nil {
		t.Fatal(err)
	}
	n := float64(plain.Laminates)
	if math.Abs(plain.Springback.Share-1/(n*n)) > 1e-12 {
		t.Errorf("%v of %v laminates", plain.Springback, n)
	}
	own := rules.Springback{Species: plain.Species, Thickness: plain.Thickness, Share: decimal.RequireFromString("0.03"), Source: "three trial pieces"}
	b.Rules.Springback = []rules.Springback{own}
	f, err := b.Form(r, m, bending.Faying, 100)
	if err != nil || f.Springback.Share != 0.03 || !strings.Contains(f.Springback.Source, "measured by the yard: three trial pieces") || !(f.Greatest.Off > plain.Greatest.Off) {
		t.Errorf("%+v, %v", f.Springback, err)
	}
	// an arc of 1500 mm round 600 mm: a share of 0.03 turns the head by 0.075 radians about a third of the arc from it
	own.Share, own.Radius, own.Length, own.Moved = decimal.Zero, decimal.NewFromInt(600), decimal.NewFromInt(1500), decimal.NewFromInt(50)
	b.Rules.Springback[0] = own
	if f, err = b.Form(r, m, bending.Faying, 100); err != nil || f.Springback.Share < 0.02 || f.Springback.Share > 0.06 {
		t.Errorf("%+v, %v", f.Springback, err)
	}
	own.Species = "teak"
	b.Rules.Springback[0] = own
	if f, err = b.Form(r, m, bending.Faying, 100); err != nil || f.Springback != plain.Springback {
		t.Errorf("that of another wood: %+v, %v", f.Springback, err)
	}
}

func TestFramesWithoutAFormSayWhy(t *testing.T) {
	b := demoBasis(t, 0)
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	var no *takeoff.UnshapedError
	for _, c := range []struct {
		member int
		pitch  float64
	}{{1, 100}, {99, 100}, {12, 1}} {
		if _, err := b.Form(r, boat.Member{Kind: boat.Frame, No: c.member, Side: boat.Port}, bending.Inner, c.pitch); !errors.As(err, &no) || no.Fix == "" {
			t.Errorf("frame %d at %v mm: %v", c.member, c.pitch, err)
		}
	}
}
