package takeoff_test

import (
	"slices"
	"strings"
	"testing"

	"ribband/takeoff"
	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/glue"

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

// pieces is a boat with frames of three woods replaced, one with a part let in and one with a sister glued beside it, and
// a strap of laminated glass.
func pieces(t *testing.T) takeoff.Basis {
	t.Helper()
	b := piecesOf(t, boat.ScarfIn, []int{12},
		finding.Row{Member: frameNo(12, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"},
		finding.Row{Member: frameNo(16, boat.Port), State: finding.Broken, From: "3-0-0", To: "3-6-0"})
	b.Remedies[frameNo(16, boat.Port)] = frame.Choice{Remedy: boat.Sister, Species: "white_oak", Grade: "FAS"}
	for no, wood := range map[int]string{18: "white_oak", 19: "douglas_fir", 20: "teak", 21: "sitka_spruce", 22: "white_oak"} {
		b.Remedies[frameNo(no, boat.Starboard)] = frame.Choice{Remedy: boat.ReplaceLaminated, Species: wood, Grade: "FAS"}
	}
	b.Remedies[frameNo(22, boat.Starboard)] = frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS", Strap: "glass"}
	glued := *b.Rules.Sister
	glued.Glued = true
	b.Rules.Sister = &glued
	return b
}

// Scarfs and sisters are glued in the hull in batches of their own, after their blanks may carry load; woods that the glue
// asks different things of share none; and the glue of all batches and of what no batch holds is the bill's, exactly.
func TestJointsOfPiecesAreGluedInTheHull(t *testing.T) {
	b := pieces(t)
	r := runs(t, b)
	g := r.Gluing
	if codes := faultCodes(r); len(codes) > 0 || g.Plan == nil || g.Plan.Hull == nil || g.Plan.Hull.C.String() != "14" {
		t.Fatalf("%v %+v", codes, g.Plan)
	}
	inHull := map[string]string{"frame/12/port/part_1/scarfs": "frame/12/port/part_1", "frame/16/port/sister_1/side": "frame/16/port/sister_1"}
	load, day, woods := map[string]int64{}, map[string]int64{}, map[int]map[string]bool{}
	batched := decimal.Zero
	for _, batch := range g.Plan.Batches {
		sum, a, rest := decimal.Zero, decimal.Zero, decimal.Zero
		woods[batch.No] = map[string]bool{}
		for _, rec := range g.Records {
			if rec.Batch != batch.No {
				continue
			}
			if !slices.Contains(batch.Members, rec.Path) || rec.Where != batch.Where || rec.Day != batch.Day || rec.Clamps == 0 {
				t.Errorf("%+v in %+v", rec, batch)
			}
			sum, a, rest = sum.Add(rec.Mixed.Value()), a.Add(rec.PartA.Value()), rest.Add(rec.PartB.Value())
			load[rec.Path], day[rec.Path] = batch.LoadDay, batch.Day
			woods[batch.No][rec.Species] = true
		}
		if !sum.Equal(batch.Litres) || !a.Add(rest).Equal(batch.Litres) {
			t.Errorf("batch %d: %s L by its records, %s + %s by their parts, %s by the plan", batch.No, sum, a, rest, batch.Litres)
		}
		batched = batched.Add(batch.Litres)
	}
	for joint, blank := range inHull {
		i := slices.IndexFunc(g.Records, func(rec takeoff.GlueRecord) bool { return rec.Path == joint })
		if i < 0 || g.Records[i].Where != glue.Hull || day[joint] < load[blank] || load[blank] == 0 {
			t.Errorf("%s on day %d, its blank may carry load on %d", joint, day[joint], load[blank])
			continue
		}
		if fill := g.Records[i].Fill; !slices.ContainsFunc(fill, func(a glue.Ask) bool { return a.Code == "hull_temperature" }) {
			t.Errorf("%s: %+v", joint, fill)
		}
	}
	if len(g.Records) != 9 { // five whole frames, a part and its scarfs, a sister and its side
		t.Errorf("%d records", len(g.Records))
	}
	// Fir and spruce ask nothing and share a batch; oak and teak each ask for a trial block of its own.
	for no, in := range woods {
		if len(in) > 1 && (in["white_oak"] || in["teak"]) {
			t.Errorf("batch %d is of %v", no, in)
		}
	}
	shared := slices.ContainsFunc(g.Plan.Batches, func(batch glue.Batch) bool { return woods[batch.No]["douglas_fir"] && woods[batch.No]["sitka_spruce"] })
	if !shared || len(g.Apart) == 0 || g.Apart[0].Text == "" || g.Apart[0].Source == "" {
		t.Errorf("%v, why %+v", woods, g.Apart)
	}
	// To the bill, glue by glue.
	bills := map[string]decimal.Decimal{}
	for _, l := range r.Bill.Lines {
		if l.Material == bill.Glue {
			bills[l.Item] = bills[l.Item].Add(l.Gross.Value())
		}
	}
	elsewhere := map[string]decimal.Decimal{g.Glue: batched}
	for _, e := range g.Elsewhere {
		elsewhere[e.Item] = elsewhere[e.Item].Add(e.Mixed.Value())
	}
	for item, want := range bills {
		if !elsewhere[item].Equal(want) {
			t.Errorf("%s: %s L in batches and elsewhere, %s on the bill", item, elsewhere[item], want)
		}
	}
	if len(bills) != 2 || !g.Mixed.Equal(bills[g.Glue]) {
		t.Errorf("%v, %s in all", bills, g.Mixed)
	}

	// Without a word on how warm the hull is, its joints are in no batch and that is told.
	layup := *b.Rules.Glue.Layup
	layup.HullC = nil
	b.Rules.Glue.Layup = &layup
	r = runs(t, b)
	if w := warned(r, "hull_temperature_unknown"); len(w) != 1 || len(r.Gluing.Plan.Waiting) != 2 || r.Gluing.Plan.Hull != nil {
		t.Errorf("%+v %+v", w, r.Gluing.Plan)
	}
	// Seven clamps along a sister of 54 in at 8 in are more than six: a fault of its side. The two scarfs take eight.
	warm := decimal.NewFromInt(20)
	layup.HullC, layup.Clamps = &warm, 6
	r = runs(t, b)
	i := slices.IndexFunc(r.Bill.Faults, func(f bill.Fault) bool { return f.Figure == "frame/16/port/sister_1/side_area" })
	if i < 0 || r.Bill.Faults[i].Code != "blank_beyond_layup" || !strings.Contains(r.Bill.Faults[i].Detail, "its sister takes 7 clamps, and the yard has 6") {
		t.Errorf("%+v", r.Bill.Faults)
	}
}
