// Package butt says where the planks of a strake may butt: it checks butts that are given, proposes some for all strakes
// of a side, and finds the shortest plank that replaces a damaged piece.
//
// x is millimetres aft of station 0; strakes count from 0 at the rabbet. A distance along the boat is also counted in
// frame spaces: from the middle of one bay to the middle of the next is one. A butt stands in the middle of a frame bay,
// on a butt block, or where the yard says so on a frame.
//
// The rules are those of one army handbook for wooden craft; a yard, a class or a surveyor may ask for others.
package butt
