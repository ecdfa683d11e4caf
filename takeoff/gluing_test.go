package takeoff_test

import (
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"

	"github.com/shopspring/decimal"
)

// The demo's new frames are each in one batch and one record; what is mixed is what the bill asks for.
func TestTheDemosFramesAreGluedUpInBatches(t *testing.T) {
	for no := range 2 {
		r, err := takeoff.Run(demoBasis(t, no))
		if err != nil {
			t.Fatal(err)
		}
		g := r.Gluing
		if g.Plan == nil || len(g.Records) == 0 || len(g.Plan.TooLong) > 0 {
			t.Fatalf("option %d: %+v", no, g.Plan)
		}
		var batched []string
		for _, b := range g.Plan.Batches {
			batched = append(batched, b.Members...)
			var clamps int64
			for _, rec := range g.Records {
				if rec.Batch == b.No {
					clamps += rec.Clamps
					if rec.Day != b.Day || !slices.Contains(b.Members, rec.Path) {
						t.Errorf("%+v in %+v", rec, b)
					}
				}
			}
			if clamps != b.Clamps || clamps > 72 {
				t.Errorf("%d clamps by the records, %d by batch %d", clamps, b.Clamps, b.No)
			}
		}
		sum, bill := decimal.Zero, decimal.Zero
		for _, rec := range g.Records {
			sum = sum.Add(rec.PartA.Value()).Add(rec.PartB.Value())
			if !slices.Contains(batched, rec.Path) || rec.Trial != (rec.Note != "") || rec.Trial != (rec.Fill[0].Code == "trial_block") {
				t.Errorf("%+v", rec)
			}
		}
		for _, l := range r.Bill.Lines {
			if l.Material == "glue" {
				bill = bill.Add(l.Gross.Value())
			}
		}
		if len(batched) != len(g.Records) || !sum.Equal(bill) {
			t.Errorf("option %d: %d blanks in batches, %d records; %s L mixed, %s on the bill", no, len(batched), len(g.Records), sum, bill)
		}
	}
}

// A glue too quick for its blanks is a fault of each that says what would do; rules without a lay-up plan nothing.
func TestBlanksBeyondALayupAreFaults(t *testing.T) {
	b := demoBasis(t, 0)
	times := *b.Rules.Glue.Times
	times.WorkingH = decimal.RequireFromString("0.1")
	b.Rules.Glue.Times = &times
	r, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	faults := 0
	for _, f := range r.Bill.Faults {
		if f.Code == "blank_beyond_layup" {
			faults++
			if f.Member == nil || !strings.Contains(f.Detail, "to spread and close") || !strings.Contains(f.Fix, "hands") || !strings.Contains(f.Fix, "slower hardener") {
				t.Errorf("%+v", f)
			}
		}
	}
	if faults == 0 || faults != len(r.Gluing.Plan.TooLong) {
		t.Errorf("%d faults of %d blanks", faults, len(r.Gluing.Plan.TooLong))
	}
	b.Rules.Glue.Layup = nil
	if r, err = takeoff.Run(b); err != nil || r.Gluing.Plan != nil || len(r.Gluing.Records) == 0 || r.Gluing.Records[0].Clamps != 0 || len(r.Bill.Faults) > 0 {
		t.Errorf("%+v %v", r.Gluing, err)
	}
}
