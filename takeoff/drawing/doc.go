// Package drawing draws a boat as a draughtsman does: her body plan, her profile, her half-breadths, the plan of her
// frames with what is to be done to each, and her strakes laid out flat. A drawing comes as a display list and, for those who do not see it or want the
// figures, the same data as a table. Nothing here reads a clock: date and revision are given.
//
// # Conventions
//
// In the body plan the fore body stands right of the centreline and the after body left of it, stations numbered from
// forward; where port and starboard differ there are two plans, one a side. In profile, in half-breadths and in plan the
// bow is to the right, port above and starboard below; half-breadths stand on the same stations as the profile of the same
// width. In the plank expansion the bow is to the right too and the garboard lowest. Sections, sheer, stem, transom and
// knuckles are full lines, knuckles with a lozenge at each station; waterlines, buttocks and diagonals fine, diagonals broken
// seldom; the centreline is chain-dotted. Diagonals are straight in the body plan, and laid flat beyond the half-breadths. Lengths are true
// to scale and nothing is drawn where nothing was measured, but for the frames of a boat without lines: they stand between
// dashed straight edges, and the drawing says so.
package drawing
