package frame_test

import (
	"math"
	"strings"
	"testing"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"
	"ribband/takeoff/rules"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

const inch = 25.4

// shopRules: a yard that rips these thicknesses, in inches, bends to R/t 100 and cleans up 1/8 in.
func shopRules(t *testing.T, rips ...string) rules.Rules {
	t.Helper()
	r, faults := rules.Read(rules.Document{
		Note: "made up for this test", Notation: notation.Inches, Rips: rips,
		BendRatio: rules.Sourced{Value: "100", Source: "from memory"},
		Planing:   "1/16", Kerf: "1/8", EndTrim: "2", CleaningUp: "1/8", Heel: "3", Head: "2", BlankTrim: "4",
		Glue:        rules.GlueRule{Item: "epoxy", SpreadLPerM2: "0.3", Source: "made up"},
		PatternItem: "pattern_stock",
		Losses: []rules.LossRule{
			{Name: "sapwood and checks", Material: "timber", Fraction: "0.1", Source: "made up"},
			{Name: "breakage", Material: "timber", Fraction: "0.2", Source: "made up"},
			{Name: "squeeze-out", Material: "glue", Fraction: "0.25", Source: "made up"},
		},
	})
	if len(faults) > 0 {
		t.Fatalf("the rules of this test are at fault: %v", faults)
	}
	return r
}

var oak = timber.Species{Code: "white_oak", Name: "white oak", GravityAt12: timber.Value{Number: "0.68", Source: "made up", Mark: timber.FromMemory}}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func mm(inches string) decimal.Decimal { return dec(inches).Mul(dec("25.4")) }

// exact shapes have no range, so that the scenario's own numbers decide.
func bilge(radius, girth float64) frame.Shape {
	return frame.Shape{Girth: girth, GirthLow: 1, GirthHigh: 1,
		Bilge: frame.Bend{Radius: radius, At: girth / 2, Low: 1, High: 1}, Enclosing: 1e6, RestsOn: boat.OnStations, Points: 13}
}

func replace(t *testing.T, f frame.Frame, s frame.Shape, r rules.Rules) (frame.Replacement, *derivation.Table) {
	t.Helper()
	table := derivation.NewTable()
	got, err := frame.ReplaceLaminated(f, s, frame.Choice{Remedy: boat.ReplaceLaminated, Species: "white_oak", Grade: "FAS"}, oak, r, table)
	if err != nil {
		t.Fatal(err)
	}
	return got, table
}

func value(t *testing.T, table *derivation.Table, id string) string {
	t.Helper()
	f, ok := table.Find(id)
	if !ok {
		t.Fatalf("no figure %s", id)
	}
	return f.Value
}

func TestTheTightestLaminateDecidesTheThickness(t *testing.T) {
	f := frame.Frame{No: 12, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.5")}
	cases := []struct {
		name               string
		shape              frame.Shape
		tightest, t, count string
	}{
		// 20 in at the faying face less 2 1/2 in moulded leaves 17 1/2 in at the inner face: 0.175 in at R/t 100, so
		// 1/8 in, and 2 5/8 in of blank is 21 of them. (3/16 in would have been taken from the faying face's radius.)
		{"bilge of 20 in: the inboard laminate", bilge(20*inch, 80*inch), "444.500000", "3.175000", "21"},
		{"hollow of 20 in: the outboard laminate", frame.Shape{Girth: 80 * inch, GirthLow: 1, GirthHigh: 1,
			Hollow: frame.Bend{Radius: 20 * inch, At: 300, Low: 1, High: 1}, Enclosing: 1e6}, "508.000000", "4.762500", "14"},
		{"exactly at the limit: 25 in less 2 1/2 is 22 1/2, 0.225 in", bilge(25*inch, 80*inch), "571.500000", "4.762500", "14"},
		{"21 1/4 in less 2 1/2 is 18 3/4: exactly 3/16 in", bilge(21.25*inch, 80*inch), "476.250000", "4.762500", "14"},
		{"27 1/2 in less 2 1/2 is 25 in: exactly 1/4 in", bilge(27.5*inch, 80*inch), "635.000000", "6.350000", "11"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, table := replace(t, f, c.shape, shopRules(t, "1/8", "3/16", "1/4"))
			if len(got.Faults) > 0 {
				t.Errorf("faults: %v", got.Faults)
			}
			for id, want := range map[string]string{"/tightest_radius_low": c.tightest, "/laminate_thickness": c.t, "/laminates": c.count} {
				if v := value(t, table, "frame/12/port"+id); v != want {
					t.Errorf("%s = %s, want %s", id, v, want)
				}
			}
		})
	}
}

// 2 7/8 in moulded and 1/8 in of cleaning up are exactly twelve laminates of 1/4 in (a frame of twelve laminates:
// common practice, no source). Twelve it must be in any unit, never thirteen.
func TestTwelveLaminatesAreTwelveInAnyUnit(t *testing.T) {
	f := frame.Frame{No: 1, Side: boat.Starboard, Siding: mm("1.75"), Moulded: mm("2.875")}
	_, table := replace(t, f, bilge(1200, 2000), shopRules(t, "1/4"))
	if v := value(t, table, "frame/1/starboard/laminates"); v != "12" {
		t.Errorf("%s laminates, want 12", v)
	}
	// every whole number of laminates of every thickness a yard might rip stays what it is
	for _, rip := range []string{"1/16", "3/32", "1/8", "5/32", "3/16", "1/4", "5/16", "3/8"} {
		r := shopRules(t, rip)
		for n := int64(2); n <= 40; n++ {
			moulded := r.Rips[0].Thickness.Mul(decimal.NewFromInt(n)).Sub(r.CleaningUp)
			if moulded.Sign() <= 0 {
				continue
			}
			_, table := replace(t, frame.Frame{No: 1, Side: boat.Port, Siding: mm("2"), Moulded: moulded}, bilge(1e5, 2000), r)
			if v := value(t, table, "frame/1/port/laminates"); v != decimal.NewFromInt(n).String() {
				t.Errorf("%d laminates of %s in come out as %s", n, rip, v)
			}
		}
	}
}

func TestALaminateTooThickIsAFaultThatSaysWhatWouldDo(t *testing.T) {
	f := frame.Frame{No: 7, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.5")}
	got, _ := replace(t, f, bilge(20*inch, 80*inch), shopRules(t, "3/16", "1/4"))
	if len(got.Faults) != 1 {
		t.Fatalf("%d faults, want 1", len(got.Faults))
	}
	fault := got.Faults[0]
	if fault.Code != "laminate_too_thick" || fault.Member.No != 7 || fault.Limit.Value != "4.445" {
		t.Errorf("fault %+v", fault)
	}
	if want := "Frame 7 port: 3/16 in (4.76 mm) laminates will not take this bend; 5/32 in (3.97 mm) will."; fault.Detail != want {
		t.Errorf("detail %q, want %q", fault.Detail, want)
	}
	if !strings.Contains(fault.Fix, "5/32 in") {
		t.Errorf("the fix does not say what would do: %q", fault.Fix)
	}
	// what would do does: ripping it takes the fault away
	if again, _ := replace(t, f, bilge(20*inch, 80*inch), shopRules(t, "5/32")); len(again.Faults) > 0 {
		t.Errorf("5/32 in was said to do, and does not: %v", again.Faults)
	}
}

func TestAFrameDeeperThanItsBendIsAFault(t *testing.T) {
	f := frame.Frame{No: 7, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.5")}
	got, _ := replace(t, f, bilge(2.4*inch, 80*inch), shopRules(t, "1/8"))
	if len(got.Faults) != 1 || got.Faults[0].Code != "bend_impossible" {
		t.Fatalf("faults %v, want bend_impossible", got.Faults)
	}
	// a bend that leaves less than a saw can rip is not impossible, but nothing rippable will do
	got, _ = replace(t, f, bilge(4*inch, 80*inch), shopRules(t, "1/8"))
	if len(got.Faults) != 1 || got.Faults[0].Code != "laminate_too_thick" || !strings.Contains(got.Faults[0].Detail, "nothing that a saw can rip will") {
		t.Errorf("faults %v, want that nothing rippable will do", got.Faults)
	}
}

func TestWhatAFrameNeeds(t *testing.T) {
	f := frame.Frame{No: 3, Side: boat.Starboard, X: dec("1500"), Siding: mm("1.75"), Moulded: mm("2.875")}
	s := bilge(1200, 2000)
	s.GirthHigh = 1.005
	got, table := replace(t, f, s, shopRules(t, "1/4"))
	p := "frame/3/starboard"
	// blank: 3 in heel + 2010 mm + 2 in head + 4 in trim = 2238.6 mm, up to the next millimetre
	for id, want := range map[string]string{
		"/girth": "2000.000", "/girth_high": "2010.000", "/blank_length": "2.239", "/laminates": "12",
		"/springback":             "1.006993", // 144/143
		"/glue_line_area":         "1.095",    // 11 x 0.04445 m x 2.239 m
		"/net_volume":             "0.007584", // 12 x 6.35 x 44.45 mm x 2.239 m
		"/glue_net":               "0.33",     // 1.095 x 0.3
		"/glue_gross":             "0.44",     // 0.33 / 0.75
		"/laminates_timber_gross": "17",       // 12 / (0.9 x 0.8) = 16.67
		"/weight":                 "5.78",     // 0.007584 x 761.6
		"/board_feet":             "3.21",     // 0.007584 / 0.002359737216
		"/pattern_gross":          "1.000",
	} {
		if v := value(t, table, p+id); v != want {
			t.Errorf("%s = %s, want %s", id, v, want)
		}
	}
	materials := map[bill.Material]int{}
	for _, l := range got.Lines {
		materials[l.Material]++
		if l.Gross.Value().LessThan(l.Net.Value()) {
			t.Errorf("%s: gross %s below net %s", l.ID, l.Gross, l.Net)
		}
	}
	if materials[bill.Timber] != 1 || materials[bill.Glue] != 1 || materials[bill.Pattern] != 1 {
		t.Errorf("lines by material: %v", materials)
	}
	drivers := map[string]string{}
	for _, m := range got.Measures {
		drivers[m.Driver] = m.Quantity.String()
	}
	want := map[string]string{"patterns": "1", "frames": "1", "laminates": "17", "glue_line_m2": "1.095", "girth_m": "2.000"}
	for d, q := range want {
		if drivers[d] != q {
			t.Errorf("driver %s counts %s, want %s", d, drivers[d], q)
		}
	}
}

// The faying face of a frame sided 2 in and bevelled by 10 degrees moves 50.8 tan 10 = 8.957 mm across it: that much deeper
// is the blank, so 14 laminates of 1/4 in for 73.025 + 8.957 + 3.175 mm, where square 12 do. Under bevels ask for as much.
// A slope of a millionth asks for none.
func TestABevelDeepensTheBlank(t *testing.T) {
	f := frame.Frame{No: 4, Side: boat.Port, Siding: mm("2"), Moulded: mm("2.875")}
	for _, c := range []struct {
		degrees float64
		known   bool
		want    string
	}{{10, true, "14"}, {-10, true, "14"}, {0, true, "12"}, {1e-6, true, "12"}, {0.01, true, "13"}, {10, false, "12"}} {
		s := bilge(1500, 2000)
		s.Bevel, s.BevelKnown = c.degrees*math.Pi/180, c.known
		_, table := replace(t, f, s, shopRules(t, "1/4"))
		if n := value(t, table, "frame/4/port/laminates"); n != c.want {
			t.Errorf("%v degrees: %s laminates, %s wanted", c.degrees, n, c.want)
		}
		if math.Abs(c.degrees) == 10 && c.known && value(t, table, "frame/4/port/extra_moulding") != "8.957" {
			t.Errorf("extra moulding %s", value(t, table, "frame/4/port/extra_moulding"))
		}
		for _, f := range table.Figures() {
			if err := derivation.Verify(f, table); err != nil {
				t.Error(err)
			}
		}
	}
	// What lies flat on the planking has none to dress.
	run := dec("0")
	f.Run = &run
	s := bilge(1500, 2000)
	s.Bevel, s.BevelKnown, s.Lie = 0.2, true, &frame.Lie{}
	if _, table := replace(t, f, s, shopRules(t, "1/4")); value(t, table, "frame/4/port/laminates") != "12" {
		t.Errorf("flat on the planking: %s laminates", value(t, table, "frame/4/port/laminates"))
	}
}
