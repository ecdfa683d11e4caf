package finding_test

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

func mm(v int64) decimal.Decimal { return decimal.NewFromInt(v) }

func frameOf(no int, side boat.Side) boat.Member {
	return boat.Member{Kind: boat.Frame, No: no, Side: side}
}

func read(t *testing.T, rows ...finding.Row) finding.Set {
	t.Helper()
	set, faults := finding.Read(finding.Document{Notation: notation.Millimetres, Findings: rows})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	return set
}

func text(along []finding.Stretch) string {
	var out []string
	for _, s := range along {
		out = append(out, string(s.State)+" "+s.From.String()+"-"+s.To.String())
	}
	return strings.Join(out, ", ")
}

func TestAMemberFromHeelToHead(t *testing.T) {
	set := read(t,
		finding.Row{Member: frameOf(3, boat.Both), ThroughNo: 4, State: finding.Sound},
		finding.Row{Member: frameOf(3, boat.Port), State: finding.Decayed, From: "900", To: "1000"},
		finding.Row{Member: frameOf(3, boat.Port), State: finding.Broken, From: "700", To: "900"},
		finding.Row{Member: frameOf(3, boat.Port), State: finding.Broken, From: "1500"},
		finding.Row{Member: frameOf(5, boat.Starboard), State: finding.Sound, To: "600"},
	)
	for _, c := range []struct {
		no     int
		side   boat.Side
		want   string
		bad    string
		looked bool
	}{
		{3, boat.Port, "sound 0-700, broken 700-900, decayed 900-1000, sound 1000-1500, broken 1500-2000", "decayed 700-1000, broken 1500-2000", true},
		{3, boat.Starboard, "sound 0-2000", "", true},
		{4, boat.Port, "sound 0-2000", "", true},
		{5, boat.Starboard, "sound 0-600, unknown 600-2000", "", true},
		{5, boat.Port, "unknown 0-2000", "", false},
	} {
		m := frameOf(c.no, c.side)
		along, err := set.Along(m, mm(2000))
		if err != nil || text(along) != c.want || text(finding.Bad(along)) != c.bad || set.Looked(m) != c.looked {
			t.Errorf("%s: %s; bad %s; %v", m, text(along), text(finding.Bad(along)), err)
		}
	}
	for _, girth := range []int64{1500, 990} {
		var beyond *finding.BeyondError
		if _, err := set.Along(frameOf(3, boat.Port), mm(girth)); !errors.As(err, &beyond) || !beyond.Girth.Equal(mm(girth)) {
			t.Errorf("girth %d: %v", girth, err)
		}
	}
}

func TestWhatIsWrongIsToldWithItsRow(t *testing.T) {
	port := frameOf(7, boat.Port)
	for _, c := range []struct {
		name, pointer, word string
		rows                []finding.Row
	}{
		{"state", "/findings/0/state", "rotten", []finding.Row{{Member: port, State: "rotten"}}},
		{"kind", "/findings/0/member/kind", "plank", []finding.Row{{Member: boat.Member{Kind: "plank", No: 1, Side: boat.Port}, State: finding.Sound}}},
		{"side", "/findings/0/member/side", "left", []finding.Row{{Member: frameOf(1, "left"), State: finding.Sound}}},
		{"run", "/findings/0/through_no", "from 7 through 3", []finding.Row{{Member: port, ThroughNo: 3, State: finding.Sound}}},
		{"turned", "/findings/0", "from 900 to 700", []finding.Row{{Member: port, State: finding.Broken, From: "900", To: "700"}}},
		{"length", "/findings/0/from", "2 ft", []finding.Row{{Member: port, State: finding.Broken, From: "2 ft"}}},
		{"below", "/findings/0/from", "off the girth", []finding.Row{{Member: port, State: finding.Broken, From: "-5"}}},
		{"overlap", "/findings/1", "/findings/0", []finding.Row{{Member: port, State: finding.Broken, From: "100", To: "300"}, {Member: frameOf(6, boat.Both), ThroughNo: 8, State: finding.Decayed, From: "299", To: "400"}}},
		{"rest twice", "/findings/1", "/findings/0", []finding.Row{{Member: port, State: finding.Sound}, {Member: port, State: finding.Unknown}}},
		{"note", "/findings/0/note", "longer", []finding.Row{{Member: port, State: finding.Sound, Note: strings.Repeat("x", 401)}}},
	} {
		_, faults := finding.Read(finding.Document{Notation: notation.Millimetres, Findings: c.rows})
		if len(faults) != 1 || faults[0].Pointer != c.pointer || !strings.Contains(faults[0].Detail, c.word) || faults[0].Fix == "" {
			t.Errorf("%s: %+v", c.name, faults)
		}
	}
	if _, faults := finding.Read(finding.Document{Notation: "ells"}); len(faults) != 1 || faults[0].Pointer != "/notation" {
		t.Errorf("%+v", faults)
	}
	if _, faults := finding.Read(finding.Document{Notation: notation.Millimetres, Findings: make([]finding.Row, finding.MaxRows+1)}); len(faults) != 1 {
		t.Errorf("%+v", faults)
	}
}

// Whatever is found, a member is covered from heel to head once and without gaps, and the order of rows changes nothing.
func TestEveryPlaceHasOneState(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		girth := int64(rapid.IntRange(600, 5000).Draw(t, "girth"))
		var rows []finding.Row
		at := int64(0)
		for range rapid.IntRange(0, 5).Draw(t, "rows") {
			at += int64(rapid.IntRange(0, 80).Draw(t, "gap"))
			to := at + int64(rapid.IntRange(1, 40).Draw(t, "long"))
			state := rapid.SampledFrom([]finding.State{finding.Sound, finding.Broken, finding.Decayed, finding.Unknown}).Draw(t, "state")
			rows = append(rows, finding.Row{Member: frameOf(1, boat.Port), State: state, From: mm(at).String(), To: mm(to).String()})
			at = to
		}
		set, faults := finding.Read(finding.Document{Notation: notation.Millimetres, Findings: rapid.Permutation(rows).Draw(t, "order")})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		along, err := set.Along(frameOf(1, boat.Port), mm(girth))
		if err != nil {
			t.Fatal(err)
		}
		end, bad := decimal.Zero, decimal.Zero
		for _, s := range along {
			if !s.From.Equal(end) || !s.Length().IsPositive() {
				t.Fatalf("%s", text(along))
			}
			end = s.To
			if s.State == finding.Broken || s.State == finding.Decayed {
				bad = bad.Add(s.Length())
			}
		}
		for _, s := range finding.Bad(along) {
			bad = bad.Sub(s.Length())
		}
		if !end.Equal(mm(girth)) || !bad.IsZero() {
			t.Fatalf("%s; bad %s", text(along), text(finding.Bad(along)))
		}
	})
}

func FuzzRead(f *testing.F) {
	f.Add(`{"notation":"feet_inches_eighths","findings":[{"member":{"kind":"frame","no":1,"side":"both"},"through_no":9,"state":"broken","from":"1-2-3","to":"2-0-0"}]}`)
	f.Add(`{"notation":"mm","findings":[{"member":{"kind":"frame","no":800,"side":"port"},"state":"sound"},{"member":{"no":-1},"from":"1e9"}]}`)
	f.Fuzz(func(t *testing.T, body string) {
		var d finding.Document
		if json.Unmarshal([]byte(body), &d) != nil {
			t.Skip("no document of the kind")
		}
		set, faults := finding.Read(d)
		for _, x := range faults {
			if x.Detail == "" || x.Fix == "" {
				t.Fatalf("%+v", x)
			}
		}
		for no := range 3 {
			if _, err := set.Along(frameOf(no, boat.Port), mm(1000)); err != nil && len(faults) > 0 {
				t.Fatal("findings were kept though faults were told")
			}
		}
	})
}
