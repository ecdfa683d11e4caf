package fair_test

import (
	"math"

	"ribband/takeoff/hull/fair"
)

// through is the curve that people draw when they do not know better: the cubic
// spline by chord length, not-a-knot at the ends, through the written points.
// The fair curve is measured against it.
type through struct {
	s, y, z, my, mz []float64 // chord length, points, second derivatives
}

func splined(pts []fair.Point) *through {
	t := &through{}
	for i, p := range pts {
		if i == 0 {
			t.s, t.y, t.z = append(t.s, 0), append(t.y, p.Y), append(t.z, p.Z)
			continue
		}
		last := len(t.s) - 1
		if d := math.Hypot(p.Y-t.y[last], p.Z-t.z[last]); d > 1e-9 { // written in the same place: once
			t.s, t.y, t.z = append(t.s, t.s[last]+d), append(t.y, p.Y), append(t.z, p.Z)
		}
	}
	t.my, t.mz = bends(t.s, t.y), bends(t.s, t.z)
	return t
}

// bends finds the second derivatives of the not-a-knot spline: on the first two
// and the last two intervals it is one cubic.
func bends(s, v []float64) []float64 {
	n := len(s) - 1
	h := func(i int) float64 { return s[i+1] - s[i] }
	m := make([]float64, n+1)
	if n < 3 { // one parabola
		if n == 2 {
			c := 2 * ((v[2]-v[1])/h(1) - (v[1]-v[0])/h(0)) / (h(0) + h(1))
			m[0], m[1], m[2] = c, c, c
		}
		return m
	}
	lo, d, up, r := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i := 1; i < n; i++ {
		lo[i], d[i], up[i] = h(i-1), 2*(h(i-1)+h(i)), h(i)
		r[i] = 6 * ((v[i+1]-v[i])/h(i) - (v[i]-v[i-1])/h(i-1))
	}
	// m0 = m1 - (m2-m1) h0/h1 and its like put into the outermost equations.
	q := h(0) / h(1)
	d[1] += lo[1] * (1 + q)
	up[1] -= lo[1] * q
	p := h(n-1) / h(n-2)
	d[n-1] += up[n-1] * (1 + p)
	lo[n-1] -= up[n-1] * p
	for i := 2; i < n; i++ {
		f := lo[i] / d[i-1]
		d[i] -= f * up[i-1]
		r[i] -= f * r[i-1]
	}
	for i := n - 1; i >= 1; i-- {
		m[i] = r[i]
		if i < n-1 {
			m[i] -= up[i] * m[i+1]
		}
		m[i] /= d[i]
	}
	m[0] = m[1] - (m[2]-m[1])*q
	m[n] = m[n-1] + (m[n-1]-m[n-2])*p
	return m
}

// readings is how many places of each interval the spline is read at.
const readings = 20

// read gives the spline's girth and least radius.
func (t *through) read() (girth, least float64) {
	most := 0.0
	for i := 0; i+1 < len(t.s); i++ {
		h := t.s[i+1] - t.s[i]
		dy, dz := (t.y[i+1]-t.y[i])/h, (t.z[i+1]-t.z[i])/h
		for j := range readings + 1 {
			b := float64(j) / readings
			a := 1 - b
			ca, cb := (1-3*a*a)*h/6, (3*b*b-1)*h/6
			y1, z1 := dy+ca*t.my[i]+cb*t.my[i+1], dz+ca*t.mz[i]+cb*t.mz[i+1]
			y2, z2 := a*t.my[i]+b*t.my[i+1], a*t.mz[i]+b*t.mz[i+1]
			speed := math.Sqrt(y1*y1 + z1*z1)
			most = max(most, math.Abs(y1*z2-z1*y2)/(speed*speed*speed))
			weight := 4.0 // Simpson's rule, readings being even
			switch {
			case j == 0 || j == readings:
				weight = 1
			case j%2 == 0:
				weight = 2
			}
			girth += weight * speed * h / (3 * readings)
		}
	}
	return girth, 1 / most
}
