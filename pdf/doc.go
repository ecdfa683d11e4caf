// Package pdf turns values into paper: the estimate an owner signs, and a frame
// in its true size on several sheets.
//
// It formats and never computes. Amounts arrive as exact decimal text and leave
// as the same digits, grouped; no amount is added, rounded or parsed into a
// float here. There is no clock, file, network or randomness in it, so one
// Estimate always gives the same bytes.
//
// The drawing library underneath counts pages too late, panics on characters
// beyond the basic plane and measures invisible characters wrongly. Therefore
// this package owns the layout: text is made printable first (text.go), broken
// into lines (wrap.go), placed on sheets as a list of marks (flow.go, table.go),
// and only when the number of sheets is known are they drawn (draw.go).
//
// Lengths are integers, thousandths of a point (1/72 inch), so that no line
// breaks differently on another processor.
package pdf
