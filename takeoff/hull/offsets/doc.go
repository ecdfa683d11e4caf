// Package offsets reads tables of offsets as yards have them and writes them back.
//
// # From paper to points
//
// A Document is the table as it was written, cell for cell in the text on paper. Read checks one, ReadCSV a table in
// the long layout; both report every fault at once, each with the station, side and cell it stands in. What they give
// is a Table: lengths, and the points of each side in order from the rabbet to the sheer. Package hull fits the shape
// to it.
//
//	table, faults := offsets.Read(doc)
//	if len(faults) > 0 { … }
//	h, err := hull.Fit(table)
//
// Axes and datum are those of package hull. A cell that is empty or absent was not measured; it is never nothing.
//
// # What is not taken
//
// The wide layout of a CSV is recognised and refused by name. Offsets to the outside of plank are read as they are;
// package hull lays them to the inside.
package offsets
