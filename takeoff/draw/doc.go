// Package draw is a drawing as a list of what is on it: strokes, paths and texts in drawing units, in layers. It
// knows no boat. A writer puts the list into a file format; the one here writes SVG.
//
// # Units
//
// X runs to the right and Y down from the upper left corner. One unit is one CSS pixel at the width that the drawing
// was laid out for; type sizes are in the same unit. List.ScaleMM is what a unit stands for on the thing drawn.
//
// # Room for other writers
//
// Everything a writer needs stands in the list: a layer has a name, a stroke its pen (width, dash, colour), a text
// its anchor and size, and an item may say what it shows. There are only straight pieces: whoever draws a curve
// breaks it into as many as it needs, so that a writer needs to know no kind of curve.
package draw
