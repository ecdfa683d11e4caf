package frame_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/notation"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// found is a frame of a girth in mm, with stretches as "state from to".
func found(t interface{ Fatal(...any) }, girth int64, stretches ...string) []finding.Stretch {
	m := boat.Member{Kind: boat.Frame, No: 1, Side: boat.Port}
	d := finding.Document{Notation: notation.Millimetres}
	for _, s := range stretches {
		f := strings.Fields(s)
		row := finding.Row{Member: m, State: finding.State(f[0])}
		if len(f) > 1 {
			row.From, row.To = f[1], f[2]
		}
		d.Findings = append(d.Findings, row)
	}
	set, faults := finding.Read(d)
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	along, err := set.Along(m, decimal.NewFromInt(girth))
	if err != nil {
		t.Fatal(err)
	}
	return along
}

func plainly(d decimal.Decimal) string { return d.String() }

func TestPartsThatAreLetIn(t *testing.T) {
	for _, c := range []struct {
		name      string
		taper     int64
		stretches []string
		want      string
	}{
		{"at the bilge", 300, []string{"sound", "broken 700 900"}, "400 700-900 1200, 2 scarfs"},
		{"decayed heel", 300, []string{"sound", "decayed 0 250"}, "0 0-250 550, 1 scarfs"},
		{"a taper that would pass the heel", 300, []string{"sound", "decayed 200 250"}, "0 0-250 550, 1 scarfs"},
		{"a taper that would just reach it", 300, []string{"sound", "decayed 300 400"}, "0 0-400 700, 1 scarfs"},
		{"head", 300, []string{"sound", "decayed 1800 1950"}, "1500 1800-2000 2000, 1 scarfs"},
		{"two apart", 200, []string{"sound", "broken 400 500", "broken 1000 1100"}, "200 400-500 700, 2 scarfs; 800 1000-1100 1300, 2 scarfs"},
		{"two whose tapers meet", 250, []string{"sound", "broken 400 500", "decayed 1000 1100"}, "150 400-1100 1350, 2 scarfs"},
		{"one beside the other", 200, []string{"sound", "broken 400 500", "decayed 500 600"}, "200 400-600 800, 2 scarfs"},
	} {
		parts, err := frame.Parts(found(t, 2000, c.stretches...), decimal.NewFromInt(c.taper), plainly)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		var got []string
		for _, p := range parts {
			got = append(got, fmt.Sprintf("%s %s-%s %s, %d scarfs", p.LowTip, p.From, p.To, p.High, p.Scarfs()))
		}
		if diff := cmp.Diff(c.want, strings.Join(got, "; ")); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
	}
}

func TestDamageThatCannotBeScarfedOut(t *testing.T) {
	for _, c := range []struct {
		code      string
		taper     int64
		stretches []string
	}{
		{"frame_not_sounded", 300, nil},
		{"frame_not_sounded", 300, []string{"sound 0 700"}},
		{"nothing_to_take_out", 300, []string{"sound"}},
		{"nothing_old_left", 900, []string{"sound", "broken 800 1200"}},
		{"scarf_into_unknown", 300, []string{"broken 800 1200", "sound 0 800", "sound 1300 2000"}},
		{"scarf_into_unknown", 300, []string{"broken 800 1200", "sound 1200 2000"}},
	} {
		_, err := frame.Parts(found(t, 2000, c.stretches...), decimal.NewFromInt(c.taper), plainly)
		var refused *frame.PartsError
		if !errors.As(err, &refused) || refused.Code != c.code || refused.Detail == "" || refused.Fix == "" {
			t.Errorf("%s: %v", c.code, err)
		}
	}
}

// Whatever was found, all of the damage comes out, no two pieces meet, and every taper lies in wood found sound.
func TestPartsTakeAllDamageOut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		girth := int64(rapid.IntRange(900, 3000).Draw(t, "girth"))
		taper := decimal.NewFromInt(int64(rapid.IntRange(20, 500).Draw(t, "taper")))
		rows := []string{"sound"}
		at := 0
		for range rapid.IntRange(1, 4).Draw(t, "stretches") {
			from := at + rapid.IntRange(0, 400).Draw(t, "gap")
			to := from + rapid.IntRange(1, 150).Draw(t, "long")
			if int64(to) > girth {
				break
			}
			rows = append(rows, fmt.Sprintf("%s %d %d", rapid.SampledFrom([]string{"broken", "decayed", "unknown"}).Draw(t, "state"), from, to))
			at = to
		}
		along := found(t, girth, rows...)
		parts, err := frame.Parts(along, taper, plainly)
		if err != nil {
			return
		}
		for _, b := range finding.Bad(along) {
			out := false
			for _, p := range parts {
				out = out || !p.From.GreaterThan(b.From) && !b.To.GreaterThan(p.To)
			}
			if !out {
				t.Fatalf("%+v stays in: %+v", b, parts)
			}
		}
		end := decimal.NewFromInt(-1)
		for _, p := range parts {
			if !end.LessThan(p.LowTip) || !p.From.LessThan(p.To) {
				t.Fatalf("%+v", parts)
			}
			end = p.High
			for _, s := range along {
				inTaper := s.From.LessThan(p.From) && p.LowTip.LessThan(s.To) || s.From.LessThan(p.High) && p.To.LessThan(s.To)
				if inTaper && s.State == finding.Unknown {
					t.Fatalf("%+v lies in a taper of %+v", s, p)
				}
			}
		}
	})
}
