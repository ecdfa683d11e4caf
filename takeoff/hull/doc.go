// Package hull fits the shape of a boat to her table of offsets and gives it at any place along her: one fair curve per
// station and side, and between the stations the curve that runs fairly through them. Tables are read by hull/offsets.
//
// # Axes and datum
//
// Lengths are millimetres, angles radians. x runs aft from station 0, y outboard from the centreline and is never
// negative (the two sides are two hulls that share their stations), z up from the baseline. Sections are to the
// inside of plank: that is the faying face, where a frame meets its planks. Girth runs from the rabbet, where the
// planking begins at the backbone, to the sheer. Curvature is positive where its centre lies inboard (a bilge) and
// negative in a hollow (the reverse turn of a wineglass section).
//
// # From table to frame
//
// offsets.Read checks a table, Fit draws the fair curves through it, and Hull.Section answers for one side at one
// place.
//
//	table, faults := offsets.Read(doc)
//	if len(faults) > 0 { … }
//	h, err := hull.Fit(table)
//	section, err := h.Section(3048, boat.Port)
//	radius, err := section.Tightest(73) // of a frame moulded 73 mm
//
// Hull.SectionIn answers for a frame that does not stand square across the boat: in its own plane, with the same measures.
// Hull.Laid answers for one that lies flat on the planking, and bends and twists with it.
//
// # Knuckles
//
// At a declared knuckle the section has a corner: its line is a chain of fair curves, one between each two knuckles, and
// no line along the boat runs across one (Section.Knuckles, BevelsAt, Either). Laid to the other face of the plank the
// corner is where the faces of both panels meet in the station's plane.
//
// # What is not done
//
// Nothing is extrapolated beyond the end stations.
package hull
