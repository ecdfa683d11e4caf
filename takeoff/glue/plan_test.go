package glue_test

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"testing"

	"ribband/takeoff/glue"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"
)

// Five blanks of 1 m2 and 2 m: 600 s to spread and 11 clamps of 30 s, 930 s of one pair of hands. An hour of two pairs
// is 7200 s: seven by the time, five by 60 clamps. Worked by hand.
func TestAPlanWorkedByHand(t *testing.T) {
	var blanks []glue.Blank
	for i := range 7 {
		blanks = append(blanks, blank(strconv.Itoa(i), "1", "2000"))
	}
	p, err := glue.Make(pots(), yard(), blanks)
	if err != nil {
		t.Fatal(err)
	}
	// Of the second batch of two, 22 clamps: 55 + 22 are more than the yard has, so it waits for the next day.
	if p.WorkingMin != 60 || p.ClampMin != 360 || p.LoadMin != 2880 || p.DaysToLoad != 2 || len(p.Batches) != 2 || !p.Proven || p.AtOnce != 5 || p.TooLong != nil {
		t.Fatalf("%+v", p)
	}
	var sizes []int
	var days, off []int64
	for _, b := range p.Batches {
		sizes, days, off = append(sizes, len(b.Members)), append(days, b.Day), append(off, b.OffDay)
		if b.LoadDay != b.Day+2 || b.Clamps != 11*int64(len(b.Members)) || b.Minutes != (930*int64(len(b.Members))+119)/120 {
			t.Errorf("%+v", b)
		}
	}
	// Seven blanks are 77 clamps and 6510 s of 7200: by 77 clamps they are one batch, and neither hands nor a cooler shop help.
	for _, b := range p.Batches {
		with := 930 * int64(len(b.Members)+1)
		if m := b.OneMore; m == nil || slices.Contains(b.Members, m.Path) || m.Minutes != (with+119)/120 || m.Clamps != 11*int64(len(b.Members)+1) || m.Fits != (len(b.Members) < 5) ||
			b.Change != "One batch fewer of these would take 77 clamps." || !strings.Contains(b.Why, fmt.Sprintf("%d of 60 clamps", b.Clamps)) {
			t.Errorf("%q %+v %q", b.Why, b.OneMore, b.Change)
		}
	}
	if slices.Max(sizes) > 5 || sizes[0]+sizes[1] != 7 || !slices.Equal(days, []int64{1, 2}) || !slices.Equal(off, []int64{2, 3}) {
		t.Errorf("%v on %v, off on %v", sizes, days, off)
	}
	// 300 s/m of glue and 30 s a clamp at every 200 mm are 450 s/m and one clamp: 7200 s are spent 15.6 m along, by when
	// 79 clamps are on; the 60th stands at 11.8 m and the 61st at 12.
	if p.Largest == nil || p.Largest.LengthMM != 11999 {
		t.Errorf("%+v", p.Largest)
	}
}

// A blank of more than one lay-up is named, with what would do; each of those does.
func TestABlankTooLongForOneLayup(t *testing.T) {
	b := blank("frame/3/port", "12", "6000") // 7200 s of spreading, 31 clamps 930 s: 8130 s, of two pairs 4065 s
	p, err := glue.Make(pots(), yard(), []glue.Blank{b})
	if err != nil || len(p.Batches) != 0 || len(p.TooLong) != 1 {
		t.Fatalf("%+v %v", p, err)
	}
	if got := p.TooLong[0]; got.Path != b.Path || got.Detail != "takes 68 min to spread and close, and there are 60" ||
		got.Fix != "3 hands; or a shop at 18 C; or a slower hardener, one that works 1.13 h at 20 C; or gluing it up in 2 lifts" {
		t.Errorf("%+v", got)
	}
	does := func(what string, pots glue.Times, y glue.Layup, b glue.Blank) {
		if p, err := glue.Make(pots, y, []glue.Blank{b}); err != nil || len(p.Batches) != 1 {
			t.Errorf("%s does not do: %+v %v", what, p, err)
		}
	}
	y := yard()
	y.Hands = 3
	does("hands", pots(), y, b)
	y = yard()
	y.ShopC = dec("18")
	does("a cooler shop", pots(), y, b)
	slow := pots()
	slow.WorkingH = dec("1.13")
	does("a slower hardener", slow, yard(), b)
	half := b
	half.AreaM2 = b.AreaM2.Mul(dec("6")).DivRound(dec("11"), 9)
	does("six lines", pots(), yard(), half)

	y = yard()
	y.Clamps = 30
	p, err = glue.Make(pots(), y, []glue.Blank{blank("frame/3/port", "1", "6000")})
	if err != nil || len(p.TooLong) != 1 || !strings.Contains(p.TooLong[0].Fix, "1 clamps more") {
		t.Errorf("%+v %v", p, err)
	}
	quick := pots()
	quick.WorkingH = dec("0.0001")
	if p, err = glue.Make(quick, yard(), []glue.Blank{b}); err != nil || len(p.TooLong) != 1 || p.LeastBatches != 0 {
		t.Errorf("%+v %v", p, err)
	}
}

// many draws blanks that all fit alone, at 30 C too.
func many(rt *rapid.T, most int) []glue.Blank {
	var out []glue.Blank
	for i := range rapid.IntRange(0, most).Draw(rt, "blanks") {
		area := decimal.New(rapid.Int64Range(0, 400).Draw(rt, "area"), -2)
		out = append(out, glue.Blank{Path: strconv.Itoa(i), Lines: 4, AreaM2: area, LengthMM: decimal.NewFromInt(rapid.Int64Range(500, 6000).Draw(rt, "length"))})
	}
	return out
}

// partitions goes over every way to group n blanks, independent of the search.
func partitions(n int, try func([]int) bool) int {
	best := n + 1
	of := make([]int, n)
	var place func(k, used int)
	place = func(k, used int) {
		if used >= best {
			return
		}
		if k == n {
			if try(of) {
				best = used
			}
			return
		}
		for g := range used + 1 {
			of[k] = g
			place(k+1, max(used, g+1))
		}
	}
	place(0, 0)
	return best
}

func TestFewestBatchesAgainstEveryGrouping(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		y, blanks := yard(), many(rt, 7)
		y.Clamps = rapid.Int64Range(31, 90).Draw(rt, "clamps")
		p, err := glue.Make(pots(), y, blanks)
		if err != nil || len(p.TooLong) > 0 || !p.Proven || p.LeastBatches != len(p.Batches) {
			rt.Fatal(p, err)
		}
		best := partitions(len(blanks), func(of []int) bool {
			hands, clamps := make([]int64, len(of)), make([]int64, len(of))
			for i, g := range of {
				l, _ := y.Load(blanks[i])
				hands[g] += l.Spread + l.Close
				clamps[g] += l.Clamps
			}
			return slices.Max(append(hands, 0)) <= 7200 && slices.Max(append(clamps, 0)) <= y.Clamps
		})
		if best != len(p.Batches) {
			rt.Fatalf("%d batches, %d do", len(p.Batches), best)
		}
	})
}

// Every blank once, every batch within hands and clamps, no day beyond its hours or the yard's clamps; at most four
// times the least; never fewer batches in a hotter shop; the same plan each time.
func TestPlansHold(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		y, blanks := yard(), many(rt, 40)
		y.DayH = decimal.NewFromInt(rapid.Int64Range(2, 9).Draw(rt, "day"))
		p, err := glue.Make(pots(), y, blanks)
		if err != nil || len(p.TooLong) > 0 {
			rt.Fatal(p, err)
		}
		if again, _ := glue.Make(pots(), y, blanks); cmp.Diff(p, again) != "" {
			rt.Fatal("the plan changes")
		}
		seen := map[string]bool{}
		spent := map[int64]int64{}
		var last int64
		for _, b := range p.Batches {
			for _, m := range b.Members {
				if seen[m] {
					rt.Fatalf("%s twice", m)
				}
				seen[m] = true
			}
			held, minutes := int64(0), spent[b.Day]+b.Minutes
			spent[b.Day] = minutes
			for _, o := range p.Batches {
				if o.Day <= b.Day && b.Day < o.OffDay {
					held += o.Clamps
				}
			}
			if b.Minutes > 60 || held > y.Clamps || minutes > y.DayH.IntPart()*60 || b.Day < last || b.Day < 1 {
				rt.Fatalf("%+v of %+v", b, p)
			}
			last = b.Day
		}
		whatWouldDoDoes(rt, p, y, blanks)
		if len(seen) != len(blanks) || len(p.Batches) > 4*p.LeastBatches || p.Proven != (len(p.Batches) == p.LeastBatches) {
			rt.Fatalf("%+v", p)
		}
		warm := y
		warm.ShopC = decimal.New(rapid.Int64Range(200, 300).Draw(rt, "warm"), -1)
		if hot, err := glue.Make(pots(), warm, blanks); err != nil || len(hot.TooLong) == 0 && len(hot.Batches) < len(p.Batches) {
			rt.Fatalf("%d batches at %s C, %d at 20 (%v)", len(hot.Batches), warm.ShopC, len(p.Batches), err)
		}
	})
}

// whatWouldDoDoes holds that whatever a plan says would take a batch away does so.
func whatWouldDoDoes(rt *rapid.T, p glue.Plan, y glue.Layup, blanks []glue.Blank) {
	if len(p.Batches) == 0 || p.Batches[0].Change == "" {
		return
	}
	say := strings.TrimSuffix(strings.TrimPrefix(p.Batches[0].Change, "One batch fewer of these would take "), ".")
	for _, one := range strings.Split(say, "; or ") {
		with := y
		var n int64
		var c string
		if _, err := fmt.Sscanf(one, "%d clamps", &n); err == nil {
			with.Clamps = n
		} else if _, err := fmt.Sscanf(one, "%d hands", &n); err == nil {
			with.Hands = n
		} else if _, err := fmt.Sscanf(one, "a shop at %s C", &c); err == nil {
			with.ShopC = dec(c)
		} else {
			rt.Fatalf("%q is not understood", one)
		}
		if q, err := glue.Make(pots(), with, blanks); err != nil || len(q.Batches) >= len(p.Batches) {
			rt.Fatalf("with %s there are %d batches, %d without (%v)", one, len(q.Batches), len(p.Batches), err)
		}
	}
}

// The largest blank told is the largest: a millimetre more is too long.
func TestTheLargestBlankIsTheLargest(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		blanks := many(rt, 1)
		p, err := glue.Make(pots(), yard(), blanks)
		if err != nil || len(blanks) == 0 {
			return
		}
		b := blanks[0]
		for mm, fits := range map[int64]bool{p.Largest.LengthMM: true, p.Largest.LengthMM + 1: false} {
			b.LengthMM = decimal.NewFromInt(mm)
			b.AreaM2 = blanks[0].AreaM2.Mul(b.LengthMM).DivRound(blanks[0].LengthMM, 16)
			if q, err := glue.Make(pots(), yard(), []glue.Blank{b}); err != nil || (len(q.Batches) == 1) != fits {
				rt.Fatalf("%d mm: %+v %v", mm, q, err)
			}
		}
	})
}

// Two blanks on forms, one of a wood that asks for a trial block, and the joint of the other in a hull at 10 C, where the
// glue works twice as long as in the shop at 20 and takes four days to carry load, and not two. Worked by hand.
func TestJointsInTheHullHaveBatchesOfTheirOwn(t *testing.T) {
	y := yard()
	cold := dec("10")
	y.HullC = &cold
	plain, asks := blank("a", "1", "2000"), blank("b", "1", "2000")
	plain.Litres, asks.Litres, asks.Asks = dec("0.601"), dec("0.602"), "a trial block"
	joint := glue.Blank{Path: "a/scarfs", Where: glue.Hull, After: "a", Lines: 1, AreaM2: dec("0.06"), Clamps: 8, Litres: dec("0.033")}
	p, err := glue.Make(pots(), y, []glue.Blank{plain, joint, asks})
	if err != nil {
		t.Fatal(err)
	}
	want := []glue.Batch{
		{No: 1, Where: glue.Form, Day: 1, OffDay: 2, LoadDay: 3, Members: []string{"a"}, Clamps: 11, Minutes: 8, AreaM2: dec("1"), Litres: dec("0.601")},
		{No: 2, Where: glue.Form, Asks: "a trial block", Day: 1, OffDay: 2, LoadDay: 3, Members: []string{"b"}, Clamps: 11, Minutes: 8, AreaM2: dec("1"), Litres: dec("0.602")},
		{No: 3, Where: glue.Hull, Day: 3, OffDay: 4, LoadDay: 7, Members: []string{"a/scarfs"}, Clamps: 8, Minutes: 3, AreaM2: dec("0.06"), Litres: dec("0.033")},
	}
	for i, taken := range []string{"8 of 60 min and 11 of 60 clamps", "8 of 60 min and 11 of 60 clamps", "3 of 120 min and 8 of 60 clamps"} {
		want[i].Why = "All that may share it are in it: it takes " + taken + "."
	}
	if diff := cmp.Diff(want, p.Batches); diff != "" {
		t.Error(diff)
	}
	if p.WorkingMin != 60 || p.Hull == nil || p.Hull.WorkingMin != 120 || p.Hull.ClampMin != 720 || p.Hull.DaysToLoad != 4 || !p.Proven || p.LeastBatches != 3 || p.Waiting != nil {
		t.Errorf("%+v, in the hull %+v", p, p.Hull)
	}
	// Where nobody says how warm the hull is, or its blank is in no batch, the joint waits; a joint of a blank that is not
	// glued up waits for nothing.
	if p, err = glue.Make(pots(), yard(), []glue.Blank{plain, joint}); err != nil || !slices.Equal(p.Waiting, []string{"a/scarfs"}) || len(p.Batches) != 1 {
		t.Errorf("%+v %v", p, err)
	}
	long := plain
	long.AreaM2 = dec("1000")
	if p, err = glue.Make(pots(), y, []glue.Blank{long, joint}); err != nil || !slices.Equal(p.Waiting, []string{"a/scarfs"}) || len(p.TooLong) != 1 || len(p.Batches) != 0 {
		t.Errorf("%+v %v", p, err)
	}
	if p, err = glue.Make(pots(), y, []glue.Blank{joint}); err != nil || len(p.Batches) != 1 || p.Batches[0].Day != 1 {
		t.Errorf("%+v %v", p, err)
	}
	// A joint too long for the hull says so of the hull.
	joint.AreaM2 = dec("30") // 18000 s of spreading and 8 clamps 240 s, of two pairs 9120 s; there are 7200
	if p, err = glue.Make(pots(), y, []glue.Blank{joint}); err != nil || len(p.TooLong) != 1 || strings.Contains(p.TooLong[0].Fix, "shop") {
		t.Errorf("%+v %v", p, err)
	}
}

// Of blanks and joints of three woods: each once or waiting, none beside one at another place or that asks otherwise, no
// joint before its blank may carry load, the litres of all batches the litres of all that is in them, and no day beyond
// its hours and the yard's clamps.
func TestPlansOfBlanksAndJointsHold(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		y := yard()
		warm := decimal.NewFromInt(rapid.Int64Range(10, 30).Draw(rt, "hull"))
		y.HullC = &warm
		var blanks []glue.Blank
		for _, b := range many(rt, 30) {
			b.Asks = rapid.SampledFrom([]string{"", "split a block", "wipe and split"}).Draw(rt, "asks")
			b.Litres = decimal.New(rapid.Int64Range(1, 5000).Draw(rt, "litres"), -3)
			blanks = append(blanks, b)
			if rapid.Bool().Draw(rt, "joint") {
				j := b
				j.Path, j.Where, j.After, j.Clamps = b.Path+"/side", glue.Hull, b.Path, rapid.Int64Range(1, 30).Draw(rt, "clamps")
				j.AreaM2 = j.AreaM2.DivRound(dec("10"), 9)
				blanks = append(blanks, j)
			}
		}
		p, err := glue.Make(pots(), y, blanks)
		if err != nil || len(p.TooLong)+len(p.Waiting) > 0 {
			rt.Fatal(p, err)
		}
		of := map[string]glue.Blank{}
		for _, b := range blanks {
			if b.Where == "" {
				b.Where = glue.Form
			}
			of[b.Path] = b
		}
		load, in := map[string]int64{}, map[string]glue.Batch{}
		sum, want := decimal.Zero, decimal.Zero
		for i, b := range p.Batches {
			litres, held, minutes := decimal.Zero, int64(0), int64(0)
			for _, m := range b.Members {
				if _, twice := in[m]; twice || of[m].Where != b.Where || of[m].Asks != b.Asks {
					rt.Fatalf("%+v in %+v", of[m], b)
				}
				in[m], load[m] = b, b.LoadDay
				litres = litres.Add(of[m].Litres)
			}
			for _, o := range p.Batches {
				if o.Day <= b.Day && b.Day < o.OffDay {
					held += o.Clamps
				}
				if o.Day == b.Day {
					minutes += o.Minutes
				}
			}
			if b.No != i+1 || i > 0 && b.Day < p.Batches[i-1].Day || held > y.Clamps || minutes > y.DayH.IntPart()*60 || !litres.Equal(b.Litres) {
				rt.Fatalf("%+v: %d clamps, %d min, %s L", b, held, minutes, litres)
			}
			sum = sum.Add(b.Litres)
		}
		for m, b := range of {
			want = want.Add(b.Litres)
			if in[m].No == 0 || b.After != "" && in[m].Day < load[b.After] {
				rt.Fatalf("%s on day %d, its blank may carry load on %d", m, in[m].Day, load[b.After])
			}
		}
		if !sum.Equal(want) || len(p.Batches) < p.LeastBatches {
			rt.Fatalf("%s L of %s", sum, want)
		}
	})
}
