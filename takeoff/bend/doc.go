// Package bend is what bending a frame of wood asks for: how thick its laminates may be and which thickness the whole
// boat is ripped to, the form that they are glued up on, which is tighter than the frame by what springs back, what steam
// asks instead, and the laminates of a frame that tapers.
//
// It knows no frame and no yard: it takes curvature at the faying face, depths and thicknesses. Curvature is positive
// where its centre lies inboard. Lengths are millimetres; what is counted is exact decimal, and the curve of a form is
// float64 that is never rounded inside.
package bend
