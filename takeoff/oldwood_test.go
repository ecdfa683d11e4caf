package takeoff_test

import (
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/glue"
)

// A piece is glued to the old frame: where its wood is not written down that is asked for, where it is a doubtful partner of the glue
// that is warned of, and the record of the joint asks for a trial block for either; its blank asks for none of them.
func TestTheOldFramesWoodIsAskedFor(t *testing.T) {
	of := func(old string) (takeoff.Result, takeoff.GlueRecord, takeoff.GlueRecord) {
		t.Helper()
		b := piecesOf(t, boat.ScarfIn, []int{12}, finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "2-9-0", To: "3-3-0"})
		for m, c := range b.Remedies {
			c.Species, c.Grade = "douglas_fir", "C&BTR"
			b.Remedies[m] = c
		}
		for i := range b.Frames {
			b.Frames[i].Species = old
		}
		r := runs(t, b)
		var joint, blank takeoff.GlueRecord
		for _, g := range r.Gluing.Records {
			if g.Where == glue.Hull {
				joint = g
			} else {
				blank = g
			}
		}
		return r, joint, blank
	}
	r, joint, blank := of("")
	if w := warned(r, "old_wood_unknown"); len(w) != 1 || !strings.Contains(w[0].Detail, "12 port") || !joint.Trial || joint.OldSpecies != "" || blank.Trial {
		t.Errorf("unknown: %+v, %+v", w, joint)
	}
	r, joint, blank = of("white_oak")
	if w := warned(r, "doubtful_glue_pair"); len(w) != 1 || !strings.Contains(w[0].Detail, "White oak") || !joint.Trial || joint.OldSpecies != "white_oak" || !strings.Contains(joint.Note, "The old frame is of white oak") || blank.Trial {
		t.Errorf("oak: %+v, %+v", w, joint)
	}
	r, joint, _ = of("douglas_fir")
	if n := len(warned(r, "old_wood_unknown")) + len(warned(r, "doubtful_glue_pair")); n != 0 || joint.Trial || joint.Note != "" {
		t.Errorf("fir: %+v", joint)
	}
	if r, joint, _ = of("no_such_wood"); len(warned(r, "old_wood_unknown")) != 1 || !joint.Trial {
		t.Errorf("no wood of the yard's: %+v", joint)
	}
}
