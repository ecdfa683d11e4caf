package frame_test

import (
	"encoding/json"
	"math"
	"testing"

	"ribband/takeoff/frame"
	"ribband/takeoff/hull"
)

// Whatever a document of frames holds, it is taken or refused with faults that say what to do; and what a tape says of a
// frame that is taken is a shape: finite, with its range about it and stock that holds its girth.
func FuzzRead(f *testing.F) {
	f.Add([]byte(`{"notation":"inches","moulding_face":"aft","grain":"1/16","frames":[{"no":1,"side":"both","x":"10","siding":"2","moulded":"3","tape":{"girth":"72","chord":"24","rise":"3/4","heel_to_head":"60","depth":"15"},"target":"better_side_mirrored","better_side":"port"}]}`))
	f.Add([]byte(`{"notation":"mm","moulding_face":"aft","spacing":{"first_no":1,"count":3,"first_x":"0","spacing":"300","siding":"45","moulded":"60"},"frames":[{"no":2,"side":"port","tape":{"girth":"1","chord":"1","rise":"0.5","grain":"50"}}]}`))
	f.Add([]byte(`{"notation":"feet_inches_eighths","moulding_face":"forward","frames":[{"no":1,"side":"both","x":"1-0-0","siding":"0-1-6","moulded":"0-2-7","cant_deg":"-12.5","lean":"-0-3-0","target":"better_side_mirrored","better_side":"port"},{"no":2,"side":"port","x":"2-0-0","siding":"0-1-6","moulded":"0-2-7","cant_deg":"61"}]}`))
	f.Add([]byte(`{"notation":"mm","moulding_face":"aft","frames":[{"no":1,"side":"both","x":"100","siding":"20","moulded":"30","run":"-250.5"},{"no":2,"side":"port","x":"200","siding":"20","moulded":"30","run":"0","lean":"5","target":"faired"}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		var d frame.Document
		if json.Unmarshal(text, &d) != nil {
			return
		}
		frames, faults := frame.Read(d)
		for _, x := range faults {
			if x.Detail == "" || x.Fix == "" {
				t.Fatalf("%+v", x)
			}
		}
		if len(faults) > 0 {
			return
		}
		for _, fr := range frames {
			if !fr.Wanted().Known() {
				t.Fatalf("target %q", fr.Wanted())
			}
			if p := fr.Plane(); math.Abs(p.Cant) > hull.MaxCant+1e-12 || math.IsNaN(p.Lean) || math.IsInf(p.Lean, 0) || p.Square() != (fr.Square() || fr.Flat()) {
				t.Fatalf("plane %+v", p)
			}
			if fr.Flat() && (fr.Tape != nil || !fr.Cant.IsZero() || !fr.Lean.IsZero() || fr.Wanted() == frame.Faired || fr.Wanted() == frame.BetterSideMirrored) {
				t.Fatalf("lies flat and %+v", fr)
			}
			if fr.Tape == nil {
				continue
			}
			s := fr.Tape.Shape(fr.Moulded.InexactFloat64())
			finite := func(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
			if !finite(s.Girth) || !finite(s.Bilge.Radius) || !finite(s.Enclosing) || s.Girth <= 0 || s.Bilge.Radius <= 0 ||
				s.GirthLow > 1 || s.GirthHigh < 1 || s.Bilge.Low <= 0 || s.Bilge.Low > 1 || !(s.Bilge.High >= 1) || !(s.Enclosing > 0) {
				t.Fatalf("%+v gives %+v", *fr.Tape, s)
			}
		}
	})
}
