// Package offsets reads tables of offsets as yards have them and writes them back.
//
// # From paper to points
//
// A Document is the table as it was written, cell for cell in the text on paper. Read checks one, ReadCSV a CSV in the
// long or a wide layout; both report every fault at once, each with the station, side and cell it stands in. What they
// give is a Table: lengths, and the points of each side in order from the rabbet to the sheer. Package hull fits the
// shape to it. TryCSV keeps the good cells of a table that has faults, so that only the bad ones need be written anew.
//
//	table, faults := offsets.Read(doc)
//	if len(faults) > 0 { … }
//	h, err := hull.Fit(table)
//
// Axes and datum are those of package hull. A cell that is empty or absent was not measured; it is never nothing.
//
// # What is not taken
//
// A wide table of two notations, formulas of spreadsheets, and lines that are none of those named. Offsets to the
// outside of plank are read as they are; package hull lays them to the inside.
package offsets
