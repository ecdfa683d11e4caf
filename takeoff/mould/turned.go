package mould

import (
	"fmt"
	"math"

	"ribband/takeoff/hull"
	"ribband/takeoff/notation"
)

// turned says how the frame stands where that is not square across the boat: the mould then lies in the frame's own plane,
// in its true shape, and is set up by a line at 0 and a baseline of that plane.
//
// A frame that only cants holds the plumb line of the centreline, so that is its line at 0, and heights are the boat's. One
// that only leans holds the centreline too, but the baseline meets its plane farther from the heel than it is deep. One
// that does both holds neither upright: its line at 0 rises square to the level line at the heel, and leaves the
// centreline on the way up.
func (m *Mould) turned(s *hull.Section) {
	m.Axis, m.Base = Line{Name: "centreline"}, Line{Name: "baseline"}
	p := m.Frame.Plane()
	if p.Square() {
		return
	}
	at, errAt := notation.FromMM(p.X)
	lean, errLean := notation.FromMM(math.Abs(p.Lean))
	if errAt != nil || errLean != nil {
		return // no frame read stands or leans so far
	}
	where := m.standing(at)
	if p.Cant != 0 {
		way := "aft"
		if p.Cant < 0 {
			way = "forward"
		}
		m.Cautions = append(m.Cautions, fmt.Sprintf("The frame cants by %.1f degrees, running %s as it goes outboard: the mould lies in its own plane, drawn in its true shape, and distances out are along that plane, not half-breadths.",
			math.Abs(p.Cant)*180/math.Pi, way))
	}
	if p.Lean == 0 {
		m.Axis.Name = "plumb line, " + where
		m.Cautions = append(m.Cautions, fmt.Sprintf("The plumb line at 0 stands on the centreline, %s; heights are the boat's own above the baseline.", where))
		return
	}
	way := "abaft"
	if p.Lean < 0 {
		way = "forward of"
	}
	m.Cautions = append(m.Cautions, fmt.Sprintf("The frame leans, its head standing %s %s its heel: the mould lies in its own plane, drawn in its true shape, and levels are marked where the boat's heights meet it.", m.Notation.Format(lean), way))
	m.leant(s, where)
}

// leant puts line and baseline of a frame that leans.
func (m *Mould) leant(s *hull.Section, where string) {
	heel, head := s.At(0), s.At(1)
	_, _, low := s.OnBoat(0)
	_, y, high := s.OnBoat(1)
	if !(high > low) {
		return // a section that does not rise has no lean
	}
	m.Base.MM = heel.Z + (head.Z-heel.Z)*(0-low)/(high-low)
	m.Axis.Name = "line at the heel, " + where
	below, beyond := heel.Z-m.Base.MM, "below"
	if below < 0 {
		below, beyond = -below, "above"
	}
	told := fmt.Sprintf("The line at 0 meets the centreline at the height of the heel, %s.", where)
	if l, err := m.shown(below); err == nil {
		told += fmt.Sprintf(" The baseline meets the plane %s %s the heel, measured along the plane.", l, beyond)
	}
	// Out is across y + aslant times the rise, see hull.Section; what is not the half-breadth's is the centreline's.
	tan := math.Tan(m.Frame.Plane().Cant)
	if off := head.Y - math.Sqrt(1+tan*tan)*y; tan != 0 {
		side := "outboard"
		if off < 0 {
			side = "inboard"
		}
		if l, err := m.shown(math.Abs(off)); err == nil {
			told += fmt.Sprintf(" The line rises square to the level line there, so that the centreline lies %s of it by %s at the height of the head.", side, l)
		}
	}
	m.Cautions = append(m.Cautions, told)
}

// standing is a place along the boat in words.
func (m *Mould) standing(x notation.Length) string {
	way := "aft"
	if x.MM() < 0 {
		way = "forward"
		x, _ = notation.FromMM(-x.MM())
	}
	return fmt.Sprintf("%s %s of station 0", m.Notation.Format(x), way)
}

// shown is a computed length in words, to an eighth of an inch or a millimetre.
func (m *Mould) shown(mm float64) (string, error) {
	grain := 1.0
	if m.Notation == notation.FeetInchesEighths || m.Notation == notation.Inches {
		grain = 25.4 / 8
	}
	l, err := notation.FromMM(math.Round(mm/grain) * grain)
	return m.Notation.Format(l), err
}
