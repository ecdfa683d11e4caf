package bend_test

import (
	"errors"
	"math"
	"testing"

	"ribband/takeoff/bend"

	"pgregory.net/rapid"
)

// Whatever numbers come, there is a form whose every ordinate is a number, in order, or one of the errors.
func TestAnyNumbersGiveAFormOrAnError(t *testing.T) {
	wild := []float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, -1, 1e-300, 1e300}
	number := func(rt *rapid.T, low, high float64, name string) float64 {
		if rapid.IntRange(0, 9).Draw(rt, name+" wild") == 0 {
			return rapid.SampledFrom(wild).Draw(rt, name)
		}
		return rapid.Float64Range(low, high).Draw(rt, name)
	}
	forms := 0
	rapid.Check(t, func(rt *rapid.T) {
		length, kappa, wave := number(rt, 100, 4000, "length"), number(rt, -1/300.0, 1/300.0, "kappa"), number(rt, -1/500.0, 1/500.0, "wave")
		c := bend.Curve{Length: length, Kappa: func(s float64) float64 { return kappa + wave*math.Sin(s/300) }, Corners: []float64{number(rt, 0, 4000, "corner")}}
		back := bend.Springback{Share: number(rt, 0, 0.2, "share")}
		f, err := bend.NewForm(c, bend.Laid{Face: rapid.SampledFrom([]bend.Face{bend.Inner, bend.Faying}).Draw(rt, "face"), Moulded: number(rt, 10, 150, "moulded"),
			Stack: number(rt, 0, 170, "stack"), Pitch: number(rt, 5, 300, "pitch"), Marks: []float64{number(rt, 0, 4000, "mark")}}, back)
		var line *bend.CurveError
		var wrong *bend.RangeError
		if err != nil {
			if !errors.As(err, &line) && !errors.As(err, &wrong) {
				rt.Fatalf("%v", err)
			}
			return
		}
		forms++
		for i, o := range f.Ordinates {
			if sum := o.Base + o.Off + o.Along + o.Direction; math.IsNaN(sum) || math.IsInf(sum, 0) {
				rt.Fatalf("ordinate %d is %+v", i, o)
			}
			if i > 0 && o.Along <= f.Ordinates[i-1].Along {
				rt.Fatalf("ordinate %d lies at %v, after %v", i, o.Along, f.Ordinates[i-1].Along)
			}
		}
	})
	if forms == 0 {
		t.Error("no numbers gave a form")
	}
}
