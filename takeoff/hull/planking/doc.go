// Package planking lays out the planks of one side: its strakes, flat, where they butt, and what each plank between two
// butts asks of a board. It joins packages strake and butt to a fitted hull.
//
// Lengths are millimetres, areas square millimetres, on the surface that the offsets are written to, the inside of
// plank. People count strakes from 1, the garboard; butts and shapes inside count from 0. Strakes are laid out between
// the first and the last station: what a plank reaches beyond, into the rabbet of stem or post, was not measured and
// comes on top.
package planking
