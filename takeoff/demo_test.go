package takeoff_test

import (
	"math"
	"testing"

	"ribband/seed"
	"ribband/takeoff"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/hulltest"
	"ribband/takeoff/rules"

	"github.com/google/go-cmp/cmp"
)

// demoBasis is the demo boat with the remedies of its option no.
func demoBasis(t testing.TB, no int) takeoff.Basis {
	t.Helper()
	d, err := seed.Load()
	if err != nil {
		t.Fatal(err)
	}
	h := hulltest.Hull(t, &d.Hull)
	frames, bad := frame.Read(d.Frames)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	shop, bad := rules.Read(d.Rules)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	remedies, bad := frame.ReadRemedies(d.Options[no].Remedies, frames, d.Species)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	found, bad := finding.Read(d.Findings)
	if len(bad) > 0 {
		t.Fatal(bad)
	}
	return takeoff.Basis{Hull: h, Findings: found, Frames: frames, Remedies: remedies, Species: d.Species, Steps: d.Steps, Rules: shop}
}

func TestTheDemoBoatIsWithoutFaultInEitherOption(t *testing.T) {
	for no, frames := range []int{20, 68} {
		r, err := takeoff.Run(demoBasis(t, no))
		if err != nil {
			t.Fatal(err)
		}
		if len(r.Bill.Faults) > 0 {
			t.Errorf("option %d: %v", no, r.Bill.Faults)
		}
		if len(r.Frames) != 68 {
			t.Errorf("option %d: %d frames measured, 68 wanted", no, len(r.Frames))
		}
		patterns := 0
		for _, m := range r.Bill.Measures {
			if m.Driver == "patterns" {
				patterns++
			}
		}
		// each frame and each side needs its own pattern (common practice, no source)
		if patterns != frames {
			t.Errorf("option %d: %d patterns for %d frames and sides", no, patterns, frames)
		}
		// 2 7/8 in moulded and 1/8 in of cleaning up are 12 laminates of 1/4 in (a frame of twelve: common practice, no
		// source); the bevel asks for as many more as its extra moulding takes, and for no more than that.
		extra := map[boat.Member]float64{}
		for _, m := range r.Frames {
			extra[m.Member] = *m.ExtraMouldingMM
		}
		for _, l := range r.Bill.Lines {
			if l.Pieces == nil {
				continue
			}
			if want := math.Ceil((12*6.35 + extra[l.Member]) / 6.35); l.Net.Value().InexactFloat64() != want {
				t.Errorf("%s: %s laminates, %v wanted for %.3f mm of bevel", l.ID, l.Net, want, extra[l.Member])
			}
		}
	}
}

func TestEveryFigureOfTheDemoRecomputes(t *testing.T) {
	r, err := takeoff.Run(demoBasis(t, 1))
	if err != nil {
		t.Fatal(err)
	}
	table := derivation.Index(r.Figures)
	exact := 0
	for _, f := range r.Figures {
		if err := derivation.Verify(f, table); err != nil {
			t.Error(err)
		}
		if formula, _ := derivation.Lookup(f.Formula); !formula.Measured() {
			exact++
		}
	}
	if exact < 68*10 {
		t.Errorf("only %d exact figures: the test has nothing to hold on to", exact)
	}
	for _, l := range r.Bill.Lines {
		for _, id := range []string{l.NetFigure, l.GrossFigure} {
			if _, ok := table.Find(id); !ok {
				t.Errorf("%s names figure %s, which is not in the table", l.ID, id)
			}
		}
	}
}

func TestTheSameBasisGivesTheSameTakeoff(t *testing.T) {
	b := demoBasis(t, 0)
	first, err := takeoff.Run(b)
	if err != nil {
		t.Fatal(err)
	}
	for range 3 {
		again, err := takeoff.Run(b)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(first.Figures, again.Figures); d != "" {
			t.Fatal(d)
		}
	}
}

// White oak's acid heartwood is a doubtful pair with some glues, Douglas-fir is not (common practice, no source): a trial
// block is asked for once a wood, not once a frame.
func TestADoubtfulGluePairIsWarnedOfOnce(t *testing.T) {
	b := demoBasis(t, 1)
	for _, c := range []struct {
		species string
		want    int
	}{{"white_oak", 1}, {"teak", 1}, {"douglas_fir", 0}} {
		for m, choice := range b.Remedies {
			choice.Species = c.species
			b.Remedies[m] = choice
		}
		r, err := takeoff.Run(b)
		if err != nil {
			t.Fatal(err)
		}
		n := 0
		for _, w := range r.Bill.Warnings {
			if w.Code == "doubtful_glue_pair" {
				n++
			}
		}
		if n != c.want {
			t.Errorf("%s: %d warnings of a doubtful pair, %d wanted", c.species, n, c.want)
		}
	}
}
