// Package takeoff turns what was measured on a boat, and what is to be done to her, into a bill of materials: what is
// needed net, what is lost and why, what must be had gross, and the hours of every step. It is pure: the same basis
// always gives the same result, on any machine.
//
// Axes: x runs aft from station 0, y outboard from the centreline (never negative, one curve a side), z up from the
// baseline. Lengths are millimetres. Geometry stays in float64 until package quantity turns it, once, into exact
// decimals; counting, losses and hours are decimal.
//
// The packages below are cut by trade. hull knows the shape, notation how lengths are written, timber, rules and step
// what the yard knows; frame says what is to be done and taken; bill and derivation are what comes out. They meet
// only here.
package takeoff
