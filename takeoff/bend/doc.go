// Package bend is what bending a frame of wood asks for: how thick its laminates may be and which thickness the whole
// boat is ripped to.
//
// It knows no frame and no yard: it takes curvature at the faying face, depths and thicknesses. Curvature is positive
// where its centre lies inboard. Lengths are millimetres; what is counted is exact decimal.
package bend
