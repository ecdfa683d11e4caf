package takeoff_test

import (
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/rules"

	"github.com/shopspring/decimal"
)

// What was chosen over the boat is what the bill asks for: one thickness for frames made whole and pieces let in alike, and
// as many laminates, piece by piece.
func TestTheBillAsksForWhatWasChosenOverTheBoat(t *testing.T) {
	broken := func(no int) finding.Row {
		return finding.Row{Member: frameNo(no, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"}
	}
	for _, different := range []int{1, 2} {
		all := demoBasis(t, 1).Remedies
		b := piecesOf(t, boat.ScarfIn, []int{11, 12}, broken(11), broken(12))
		for m, c := range all {
			if _, scarfed := b.Remedies[m]; !scarfed {
				b.Remedies[m] = c
			}
		}
		b.Rules.DifferentLaminates, b.Rules.Rips = different, nil
		for _, inch := range []string{"0.125", "0.1875", "0.25"} {
			b.Rules.Rips = append(b.Rules.Rips, rules.Rip{Written: inch, Thickness: decimal.RequireFromString(inch).Mul(decimal.RequireFromString("25.4"))})
		}
		// so tight a rule that some frames take a quarter of an inch and some do not
		b.Rules.BendRatio = decimal.NewFromInt(200)
		r, err := takeoff.Run(b)
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Ripping.Thicknesses) != different {
			t.Fatalf("%v are chosen where %d may be: %s", r.Ripping.Thicknesses, different, r.Ripping.Why)
		}
		asked, wanted := map[string]int64{}, map[string]int64{}
		var total int64
		for _, l := range r.Bill.Lines {
			if l.Material == bill.Timber {
				asked[l.Member.Path()+" "+l.Pieces.Thickness.String()] += l.Net.Value().IntPart()
				total += l.Net.Value().IntPart()
			}
		}
		pieces := 0
		for _, f := range r.Ripping.Frames {
			wanted[f.Member.Path()+" "+f.Thickness.String()] += f.Laminates
			if f.Piece != "" {
				pieces++
			}
		}
		if total != r.Ripping.Laminates || len(asked) != len(wanted) {
			t.Errorf("%d laminates of %d kinds are asked for, %d of %d were chosen", total, len(asked), r.Ripping.Laminates, len(wanted))
		}
		for what, n := range wanted {
			if asked[what] != n {
				t.Errorf("%s: %d asked for, %d chosen", what, asked[what], n)
			}
		}
		if pieces != 2 {
			t.Errorf("%d pieces let in are among what was chosen, 2 wanted", pieces)
		}
		if more := r.Ripping.OneMore; different == 1 && (more == nil || more.Laminates >= total) {
			t.Errorf("one more thickness would bring %+v", more)
		}
	}
}
