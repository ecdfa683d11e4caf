// Package fairness holds every written offset against the boat that all the others make, and tells which stand out of
// line. It warns; it never alters: what was written is what the takeoff reckons with.
//
// # Two battens
//
// An offset is judged across the boat, by the fair curve of its station through the other marks, and along her, by the
// fair line through the same cell at the other stations: each waterline and buttock, and the rabbet and the sheer in
// plan and in profile. (Not by the surface at equal fractions of the girth: one sheer written wrong would move every
// such line at its station.) Both battens are package fair's, so the stiffness of each follows from its own points, and
// how sure the others are of a place is known. The two verdicts are put together by how sure each is; where they
// contradict each other, one of them rests on another mistake, and the milder holds.
//
// A mistake bends the curves that its neighbours are judged by. So the worst offset is set aside, curves through it are
// fitted without it, and the rest are judged again, until none is beyond the Threshold.
//
// # A station as a whole
//
// Where a station stands at another place than is written, all its marks are off along the boat the same way, each by as
// much as its line slopes there. That is judged too, as the cell "x".
//
// # Corners and ends
//
// A section with knuckles is judged from one to the next, and a line along the boat is another line beyond a knuckle that
// it passes. Near its ends a batten is less sure than it says; by how much was measured.
//
// # How far off is out of line
//
// Off is counted in standard deviations: of the grain (even over its width), of the table's own error where it was read
// worse than it was written, and of the place where the others want the offset. From Threshold on it is told. Over hulls
// made of the families of sections that package fair is studied on, written to eighths at nine stations, false alarms and
// detections are measured in the tests.
package fairness
