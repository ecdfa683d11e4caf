// Package simpson has the rules by which the trade sums ordinates spaced along a base: Simpson's first rule
// (1-4-1), his second (1-3-3-1), the rule 5-8-minus-1 for one interval of three ordinates, the first rule with half
// intervals at the ends, and the trapezoidal rule.
//
// Every rule gives area, moment about the first ordinate and centroid, with the multipliers and levers of its
// table, so that it can be followed by hand. Ordinates and base may be of any unit: the area is of their product,
// the moment of the base once more.
//
// The first rule takes an even number of intervals, the second a multiple of three. A count that does not fit is
// refused with what would: to leave an ordinate out, or to take a rule as if it fitted, is the commonest error in
// print. Where intervals are halved the levers follow the real places of the ordinates and never their numbers.
//
// Rules and multipliers: E. C. Tupper, Introduction to Naval Architecture, pages 23 and 26, and D. R. Derrett, Ship
// Stability for Masters and Mates. The coefficients 5, 8, -1 and 3, 10, -1 are from memory, and tested to be exact
// for parabolas.
package simpson
