// Package planking lays out the planks of one side: its strakes, flat, where they butt, and what each plank between two
// butts asks of a board. It joins packages strake and butt to a fitted hull.
//
// Lengths are millimetres, areas square millimetres, on the surface that the offsets are written to, the inside of
// plank. People count strakes from 1, the garboard; butts and shapes inside count from 0. Strakes are laid out from
// the first to the last station, and on to the lines of stem and transom where those were measured. Where they were not,
// what a plank reaches beyond comes on top.
package planking
