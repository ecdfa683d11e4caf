// Package mould is a frame's shape as it is laid down full size: the line of its faying face, where it meets the inside of
// the planks, its inner face at the moulded depth, rabbet and sheer, and marks with their bevels at levels by which it is
// set up. It is told as whoever looks at the moulding face sees it.
//
// Lengths are millimetres, angles radians, as in package hull: half-breadths outboard from the centreline, heights up from
// the baseline.
package mould
