// Package area measures the planked surface of one side of a hull and what it encloses: plank area, volume, centres and
// the water plane, of the whole side or of any part of it, and beside each figure what the trade's own reckoning from
// girths and sectional areas makes of it, with the reason where the two differ.
//
// Lengths are millimetres, areas square millimetres, volumes cubic millimetres, all of one side to the centreline. x runs
// aft from station 0, z up from the baseline, u is the fraction of the girth from the rabbet (0) to the sheer (1).
//
// # What is measured
//
// The surface is that of the inside of plank. Area is the integral of |r_u x r_x|; that is the same as the integral along
// the boat of the integral along the girth of the secant of the bevel, whatever parameter divides the girth. Sectional
// area runs to the centreline by Green's theorem, from the height of the rabbet up: what lies below the rabbet, the
// backbone, is not in it. Volume is the integral of sectional area.
//
// # How
//
// Gauss points in u and, from station to station, in x, where the surface is one cubic, split at knuckles: its own error is below a
// millionth, so what is left is what the curves through the points leave. Where only heights from one level to another
// are asked for, the girth is clipped at each x, and x is split where a level meets rabbet or sheer, so that every piece
// is smooth.
package area
