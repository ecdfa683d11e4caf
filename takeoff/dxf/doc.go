// Package dxf writes geometry as an ASCII drawing-interchange file of release 12, by the group codes that are openly
// documented: HEADER with the release alone, TABLES with line types and layers, ENTITIES of POLYLINE with VERTEX and
// SEQEND, LINE and TEXT. It knows no boat.
//
// Lengths are millimetres, one unit to a millimetre, to a millionth of one: a release 12 file has no place for its unit, so
// a comment at its head says so. Curves come as straight pieces, as fine as whoever makes them breaks them.
package dxf
