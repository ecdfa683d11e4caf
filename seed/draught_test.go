package seed_test

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the demo boat's offsets anew from her draught")

// The demo boat was drawn for this program and exists nowhere: sections of a stated curvature profile between an
// invented rabbet and an invented sheer, lifted to eighths of an inch as a yard would. Her two sides differ, as an
// old hull's do. This file is her draught; seed/data/offsets.csv is what was lifted from it.
const (
	stations      = 13
	spacingFt     = 2 + 10.0/12
	lengthFt      = (stations - 1) * spacingFt
	waterlineStep = 4.0 / 12
	eighthFt      = 1.0 / 96
)

// section lifts points off one side at a share u of the length: 0 at station 0, 1 at the last.
type section struct {
	y, z []float64 // feet, dense, rabbet to sheer
}

func smooth(u float64, at ...float64) float64 { // Catmull-Rom through equally spaced values
	x := u * float64(len(at)-1)
	i := min(int(x), len(at)-2)
	t := x - float64(i)
	p := func(j int) float64 {
		switch {
		case j < 0:
			return 2*at[0] - at[1]
		case j >= len(at):
			return 2*at[len(at)-1] - at[len(at)-2]
		}
		return at[j]
	}
	a, b, c, d := p(i-1), p(i), p(i+1), p(i+2)
	return b + t*(c-a)/2 + t*t*(a-2.5*b+2*c-d/2) + t*t*t*(1.5*(b-c)+(d-a)/2)
}

// profile is the curvature along the girth, v from 0 at the rabbet to 1 at the sheer, before it is scaled to the
// turn of the section: a gentle bilge, and a hollow above the rabbet that grows towards the stern.
func profile(v, hollow float64) float64 {
	bilge := math.Exp(-math.Pow((v-0.56)/0.34, 2))
	garboard := math.Exp(-math.Pow((v-0.10)/0.16, 2))
	return 0.25 + bilge - hollow*garboard
}

func draw(u, starboard float64) section {
	rabbetZ := smooth(u, 2.6, 1.45, 0.85, 0.6, 0.6, 0.85, 1.45)
	rabbetY := smooth(u, 0.12, 0.18, 0.22, 0.24, 0.24, 0.22, 0.20)
	sheerZ := smooth(u, 6.2, 5.75, 5.42, 5.22, 5.12, 5.14, 5.28)
	sheerY := smooth(u, 1.2, 2.85, 3.95, 4.5, 4.55, 4.15, 3.3)
	end := smooth(u, 75, 78, 81, 83, 84, 83, 80) * math.Pi / 180
	hollow := smooth(u, 0.2, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7)
	// the starboard side has sagged and gone in at the bilge, most abaft amidships
	sag := starboard * math.Sin(math.Pi*u) * (0.5 + 0.5*u)
	sheerY -= 0.045 * sag
	sheerZ -= 0.05 * sag
	end += 1.2 * sag * math.Pi / 180
	rise := math.Atan2(sheerZ-rabbetZ, sheerY-rabbetY)
	chord := math.Hypot(sheerZ-rabbetZ, sheerY-rabbetY)
	lo, hi := 0.0, 2.5
	for range 80 {
		mid := (lo + hi) / 2
		y, z := unit(end, mid, hollow)
		n := len(y) - 1
		if math.Atan2(z[n], y[n]) > rise {
			lo = mid
		} else {
			hi = mid
		}
	}
	y, z := unit(end, (lo+hi)/2, hollow)
	n := len(y) - 1
	scale := chord / math.Hypot(y[n], z[n])
	for i := range y {
		y[i], z[i] = rabbetY+scale*y[i], rabbetZ+scale*z[i]
	}
	return section{y, z}
}

// unit is a section of girth 1 from the origin that turns by turn and ends at the angle end.
func unit(end, turn, hollow float64) (y, z []float64) {
	const n = 4000
	total := 0.0
	for i := range n {
		total += profile((float64(i)+0.5)/n, hollow) / n
	}
	th := end - turn
	y, z = make([]float64, n+1), make([]float64, n+1)
	for i := range n {
		k := turn * profile((float64(i)+0.5)/n, hollow) / total
		mid := th + k/2/n
		y[i+1], z[i+1] = y[i]+math.Cos(mid)/n, z[i]+math.Sin(mid)/n
		th += k / n
	}
	return y, z
}

// cross is where b reaches level, a there; ok is false where it does not.
func cross(a, b []float64, level float64) (float64, bool) {
	for i := 1; i < len(b); i++ {
		if b[i-1] < level && level <= b[i] {
			t := (level - b[i-1]) / (b[i] - b[i-1])
			return a[i-1] + t*(a[i]-a[i-1]), true
		}
	}
	return 0, false
}

// eighths writes feet as feet-inches-eighths, rounded as read off a rule.
func eighths(feet float64) string {
	n := int(math.Round(feet / eighthFt))
	return fmt.Sprintf("%d-%d-%d", n/96, n/8%12, n%8)
}

func lift() string {
	var b strings.Builder
	b.WriteString("station_no,x,side,line,value\n")
	for no := range stations {
		u := float64(no) / (stations - 1)
		x := eighths(float64(no) * spacingFt)
		for _, side := range []struct {
			name string
			sag  float64
		}{{"port", 0}, {"starboard", 1}} {
			s := draw(u, side.sag)
			row := func(line, value string) { fmt.Fprintf(&b, "%d,%s,%s,%s,%s\n", no, x, side.name, line, value) }
			n := len(s.y) - 1
			row("rabbet_height", eighths(s.z[0]))
			row("rabbet_half_breadth", eighths(s.y[0]))
			for wl := waterlineStep; wl < s.z[n]-0.08; wl += waterlineStep {
				if y, ok := cross(s.y, s.z, wl); ok && wl > s.z[0]+0.08 {
					row("wl:"+eighths(wl), eighths(y))
				}
			}
			for _, half := range []float64{1, 2, 3, 4} {
				if z, ok := cross(s.z, s.y, half); ok && half < s.y[n]-0.25 && z < s.z[n]-0.6 {
					row("buttock:"+eighths(half), eighths(z))
				}
			}
			row("sheer_height", eighths(s.z[n]))
			row("sheer_half_breadth", eighths(s.y[n]))
		}
	}
	return b.String()
}

func TestOffsetsAreLiftedFromTheDraught(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing the boat takes a minute under the race detector, and nothing in it runs at once")
	}
	got := lift()
	if *update {
		if err := os.WriteFile("data/offsets.csv", []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile("data/offsets.csv")
	if err != nil {
		t.Fatal(err)
	}
	if string(want) != got {
		t.Error("data/offsets.csv is not what the draught gives: run with -update and look at the difference")
	}
}

// The sides of the draught differ, and by no more than 20 mm, square to the section.
func TestSidesDifferByUpTo20mm(t *testing.T) {
	if testing.Short() {
		t.Skip("drawing the boat takes a minute under the race detector, and nothing in it runs at once")
	}
	greatest := 0.0
	for no := range stations {
		u := float64(no) / (stations - 1)
		p, s := draw(u, 0), draw(u, 1)
		for i := 0; i < len(p.y); i += 40 {
			near := math.Inf(1)
			for j := 0; j < len(s.y); j += 4 {
				near = math.Min(near, math.Hypot(p.y[i]-s.y[j], p.z[i]-s.z[j]))
			}
			greatest = math.Max(greatest, near*304.8)
		}
	}
	if greatest < 5 || greatest > 20 {
		t.Errorf("the sides differ by up to %.1f mm, between 5 and 20 wanted", greatest)
	}
}
