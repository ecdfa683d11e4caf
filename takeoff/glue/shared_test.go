package glue_test

import (
	"strings"
	"testing"

	"ribband/takeoff/glue"

	"github.com/shopspring/decimal"
)

// Joints that need not be closed in one go are shared out where they have no room together, evenly and to the last digit; what
// waits for them waits for the last of them.
func TestJointsOnTheBenchAreSharedOut(t *testing.T) {
	d := decimal.RequireFromString
	scarfs := glue.Blank{Path: "frame/3/port/laminate_scarfs", Where: glue.Bench, Lines: 91, Apart: 91, AreaM2: d("1.001"), Clamps: 91, Litres: d("0.777")}
	after := blank("frame/3/port", "1", "2000")
	after.After = scarfs.Path
	p, err := glue.Make(pots(), yard(), []glue.Blank{after, scarfs}) // 60 clamps
	if err != nil || len(p.TooLong)+len(p.Waiting) > 0 {
		t.Fatalf("%+v %v", p, err)
	}
	area, litres, clamps, last := decimal.Zero, decimal.Zero, int64(0), int64(0)
	for _, b := range p.Batches {
		if b.Where == glue.Bench {
			area, litres, clamps, last = area.Add(b.AreaM2), litres.Add(b.Litres), clamps+b.Clamps, max(last, b.LoadDay)
			if b.Clamps != 46 && b.Clamps != 45 {
				t.Errorf("%d clamps", b.Clamps)
			}
		}
	}
	if !area.Equal(scarfs.AreaM2) || !litres.Equal(scarfs.Litres) || clamps != 91 {
		t.Errorf("%s m2, %s L, %d clamps", area, litres, clamps)
	}
	if b := p.Batches[len(p.Batches)-1]; b.Where != glue.Form || b.Day < last {
		t.Errorf("%+v before %d", b, last)
	}
	// One joint alone that has no room is told, and its blank waits.
	scarfs.Apart, scarfs.Lines, scarfs.Clamps = 1, 1, 61
	p, err = glue.Make(pots(), yard(), []glue.Blank{after, scarfs})
	if err != nil || len(p.TooLong) != 1 || !strings.Contains(p.TooLong[0].Detail, "61 clamps") || len(p.Waiting) != 1 || p.Waiting[0] != after.Path {
		t.Errorf("%+v %v", p, err)
	}
}
