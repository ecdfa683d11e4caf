// Package pattern is points picked up off single frames: a pattern taken with a batten, a bevel board or a plumb line,
// read off on a board with the centreline and the baseline drawn on it.
//
// The points of one frame and side run in order from the heel, at the rabbet, to the head, at the sheer, and lie at the
// faying face, where the frame meets the inside of its planks: y from the centreline outboard, never negative, z from
// the baseline up. Read takes a Document and ReadCSV a table; both report every fault at once. Set.Fit draws the fair
// curve of each pattern, judged exactly as that of a station is, and Fitted.Section gives it to the frame.
package pattern
