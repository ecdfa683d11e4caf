package frame_test

import (
	"errors"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
	"ribband/takeoff/timber"
)

// jobs of frames moulded 2 7/8 in, one for each radius, mm; 0 is a straight frame.
func jobs(wood timber.Species, radii ...float64) []frame.Job {
	var out []frame.Job
	for i, r := range radii {
		s := bilge(r, 2000)
		if r == 0 {
			s.Bilge = frame.Bend{}
		}
		out = append(out, frame.Job{Frame: frame.Frame{No: i + 1, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.875")}, Shape: s,
			Choice: frame.Choice{Remedy: boat.ReplaceLaminated, Species: wood.Code, Grade: "FAS"}, Wood: wood})
	}
	return out
}

func ripped(t *testing.T, jobs []frame.Job, r rules.Rules) (frame.Ripping, rules.Rules) {
	t.Helper()
	out, shop, err := frame.Rip(jobs, r)
	if err != nil {
		t.Fatal(err)
	}
	return out, shop
}

// One tight frame of four: 18 in less 2 7/8 in leave 15.125 in, 0.151 in by R/t 100, so 1/8 in for all four, 24 each;
// with two thicknesses 24 and three times 12.
func TestOneThicknessOverTheBoatUnlessTheRulesAllowTwo(t *testing.T) {
	r := shopRules(t, "1/8", "3/16", "1/4")
	boat := jobs(oak, 1500, 18*inch, 2000, 0)
	got, shop := ripped(t, boat, r)
	if len(got.Thicknesses) != 1 || !got.Thicknesses[0].Equal(mm("0.125")) || got.Laminates != 96 || len(shop.Rips) != 1 {
		t.Fatalf("%v, %d laminates; rips %v", got.Thicknesses, got.Laminates, shop.Rips)
	}
	if got.OneMore == nil || got.OneMore.Laminates != 60 {
		t.Errorf("one more thickness: %+v, 60 laminates wanted", got.OneMore)
	}
	if !strings.Contains(got.Why, "frame 2 port") || !strings.Contains(got.Why, "3/16 in") {
		t.Errorf("why: %q", got.Why)
	}
	for i, f := range got.Frames {
		if !f.Bends || f.Laminates != 24 || f.Thinner != nil || f.Thicker == nil || f.Thicker.Laminates != 16 || f.Thicker.Bends == (i == 1) {
			t.Errorf("%+v %+v", f, f.Thicker)
		}
	}
	// 3/16 in at R/t 100 needs 18 3/4 in, 476.25 mm, at the tightest laminate
	if !strings.Contains(got.Frames[1].Change, "476.25 mm") || !strings.Contains(got.Frames[0].Change, "frame 2 port") {
		t.Errorf("change: %q, %q", got.Frames[1].Change, got.Frames[0].Change)
	}
	// each frame then takes what was chosen
	for _, j := range boat {
		table := derivation.NewTable()
		if _, err := frame.ReplaceLaminated(j.Frame, j.Shape, j.Choice, j.Wood, shop, table); err != nil {
			t.Fatal(err)
		}
		if n := value(t, table, j.Frame.Member().Path()+"/laminates"); n != "24" {
			t.Errorf("%s: %s laminates", j.Frame.Member(), n)
		}
	}
	r.DifferentLaminates = 2
	if got, shop = ripped(t, boat, r); got.Laminates != 60 || len(shop.Rips) != 2 || got.Frames[0].Laminates != 12 || got.Frames[1].Laminates != 24 {
		t.Errorf("two thicknesses: %d laminates, rips %v", got.Laminates, shop.Rips)
	}
}

// A bend of 300 mm takes no laminate that is ripped: the others keep the thickness that they would have without it, and it
// alone is at fault, with what would do. Where nothing is thin enough for any, the thinnest stands.
func TestAFrameThatNothingIsThinEnoughForDecidesNothing(t *testing.T) {
	r := shopRules(t, "3/16", "1/4")
	all := jobs(oak, 1500, 300)
	got, shop := ripped(t, all, r)
	if f := got.Frames[1]; f.Bends || !f.Thickness.Equal(mm("0.25")) || !strings.Contains(f.Why, "2.26 mm") || !strings.Contains(f.Change, "needs a radius") && f.Change != "" {
		t.Errorf("%+v", f)
	}
	if f := got.Frames[0]; !f.Bends || !f.Thickness.Equal(mm("0.25")) || len(shop.Rips) != 1 || !strings.Contains(got.Why, "but frame 2 port") {
		t.Errorf("%+v, %q", f, got.Why)
	}
	for i, want := range []int{0, 1} {
		j := all[i]
		made, err := frame.ReplaceLaminated(j.Frame, j.Shape, j.Choice, j.Wood, shop, derivation.NewTable())
		if err != nil || len(made.Faults) != want {
			t.Fatalf("%+v, %v", made.Faults, err)
		}
		if want == 1 && (made.Faults[0].Code != "laminate_too_thick" || !strings.Contains(made.Faults[0].Detail, "1/16 in")) {
			t.Errorf("%+v", made.Faults[0])
		}
	}
	none, _ := ripped(t, jobs(oak, 300, 310), r)
	if len(none.Thicknesses) != 1 || !none.Thicknesses[0].Equal(mm("0.1875")) || !strings.Contains(none.Why, "too thick for every one") {
		t.Errorf("%+v", none)
	}
}

func TestNothingIsChosenForNoFrames(t *testing.T) {
	r := shopRules(t, "3/16", "1/4")
	if got, shop := ripped(t, nil, r); len(got.Frames) != 0 || len(shop.Rips) != 2 {
		t.Errorf("%+v", got)
	}
}

// Douglas-fir at 12 %: MOR 12,400 psi, MOE 1.95e6 psi (Oregon Wood Innovation Center, Oregon State University, table of
// relative working and physical properties). At half the strain at rupture R/t is 157.26 (computed): 1073.025 mm of bilge
// less 73.025 moulded take 6.3589 mm, a quarter of an inch; 10 mm tighter takes no more than 3/16 in.
func TestWithoutAnRtTheWoodsWorkingStrainDecides(t *testing.T) {
	fir := timber.Species{Code: "fir", RuptureAt12: timber.Value{Number: "12400", Source: "made up", Mark: timber.Seen},
		ElasticityAt12: timber.Value{Number: "1.95", Source: "made up", Mark: timber.Seen}, WorkingStrain: timber.Value{Number: "0.5", Source: "made up", Mark: timber.FromMemory},
		GravityAt12: oak.GravityAt12}
	r := shopRules(t, "1/8", "3/16", "1/4")
	r.BendRatio, r.BendRatioSource = dec("0"), ""
	for radius, want := range map[float64]string{1073.025: "6.35", 1063.025: "4.7625"} {
		all := jobs(fir, radius)
		if got, _ := ripped(t, all, r); got.Thicknesses[0].String() != want {
			t.Errorf("radius %v: %v, %s wanted", radius, got.Thicknesses, want)
		}
		table := derivation.NewTable()
		if _, err := frame.ReplaceLaminated(all[0].Frame, all[0].Shape, all[0].Choice, fir, r, table); err != nil {
			t.Fatal(err)
		}
		if radius == 1073.025 && value(t, table, "frame/1/port/thickest_laminate") != "6.358974" {
			t.Errorf("thickest %s", value(t, table, "frame/1/port/thickest_laminate"))
		}
		for _, f := range table.Figures() {
			if err := derivation.Verify(f, table); err != nil {
				t.Error(err)
			}
		}
	}
	var missing *timber.MissingValueError
	if _, _, err := frame.Rip(jobs(oak, 1500), r); !errors.As(err, &missing) {
		t.Errorf("a wood without strength, and rules without R/t: %v", err)
	}
}
