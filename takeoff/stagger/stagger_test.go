package stagger_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"ribband/takeoff/stagger"
)

const mm = stagger.Millimetre

func laid(p stagger.Plan, b stagger.Blank, t stagger.Terms) [][]int64 {
	out := make([][]int64, b.Laminates)
	for i := range out {
		out[i] = p.In(b, t, i)
	}
	return out
}

// Worked by hand: 5 m of blank, stock of 4 m, butts 600 mm apart: one joint each, the foremost lengths 4000 and 3400 mm by
// turns.
func TestByHand(t *testing.T) {
	b := stagger.Blank{Length: 5000 * mm, Laminates: 5}
	terms := stagger.Terms{Longest: 4000 * mm, Apart: 600 * mm, Across: 1}
	for _, c := range []struct {
		name   string
		change func(*stagger.Blank, *stagger.Terms)
		want   [][]int64
	}{
		{"butts", func(*stagger.Blank, *stagger.Terms) {}, [][]int64{{3400}, {4000}}},
		{"scarfs of 96", func(_ *stagger.Blank, t *stagger.Terms) { t.Joint = 96 * mm }, [][]int64{{3256}, {3952}}},
		{"across two", func(_ *stagger.Blank, t *stagger.Terms) { t.Across = 2 }, [][]int64{{2800}, {3400}, {4000}}},
		{"one laminate", func(b *stagger.Blank, _ *stagger.Terms) { b.Laminates = 1 }, [][]int64{{4000}}},
		{"a bend from 3300 to 4100", func(b *stagger.Blank, _ *stagger.Terms) { b.Barred = []stagger.Span{{3300 * mm, 4100 * mm}} }, [][]int64{{2700}, {3300}}},
		{"stock as long", func(_ *stagger.Blank, t *stagger.Terms) { t.Longest = 5000 * mm }, [][]int64{nil}},
		{"two joints in every second", func(b *stagger.Blank, t *stagger.Terms) {
			b.Length, t.Longest, t.Apart, b.Barred = 5900*mm, 3000*mm, 500*mm, []stagger.Span{{0, 600 * mm}}
		}, [][]int64{{3000}, {2400, 3500}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, terms := b, terms
			c.change(&b, &terms)
			p, err := stagger.Arrange(b, terms)
			if err != nil {
				t.Fatal(err)
			}
			got := [][]int64{}
			for _, s := range p.Sets {
				var one []int64
				for _, x := range s {
					one = append(one, x/mm)
				}
				got = append(got, one)
			}
			if c.name == "two joints in every second" { // which ones is left to the checker
				if len(got[0]) != 1 || len(got[1]) != 2 {
					t.Errorf("%v", got)
				}
			} else if !reflect.DeepEqual(got, c.want) {
				t.Errorf("%v, want %v", got, c.want)
			}
			if wrong := stagger.Check(b, terms, laid(p, b, terms)); wrong != nil {
				t.Error(wrong)
			}
		})
	}
}

// fewest joints of a run of sets, looked for among all places on whole millimetres, in every set any number of joints.
func fewest(b stagger.Blank, t stagger.Terms, sets int) (int, bool) {
	var all [][]int64
	var one func(have []int64, from int64)
	single := b
	single.Laminates = 1
	one = func(have []int64, from int64) {
		if stagger.Check(single, t, [][]int64{have}) == nil {
			all = append(all, append([]int64(nil), have...))
		}
		for x := from; x <= b.Length; x += mm {
			one(append(have, x), x+max(mm, t.Apart+t.Joint))
		}
	}
	one(nil, 0)
	group := b
	group.Laminates = sets
	best := math.MaxInt
	var pick func(have [][]int64, n int)
	pick = func(have [][]int64, n int) {
		if n >= best {
			return
		}
		part := group
		part.Laminates = len(have)
		if stagger.Check(part, t, have) != nil {
			return
		}
		if len(have) == sets {
			best = n
			return
		}
		for _, s := range all {
			pick(append(have, s), n+len(s))
		}
	}
	pick(nil, 0)
	return best, best < math.MaxInt
}

// Of small blanks every arrangement on whole millimetres was tried: none has fewer joints, and where none is found none is.
func TestAmongAll(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	found, none := 0, 0
	for range 300 {
		b := stagger.Blank{Length: (4 + r.Int64N(4)) * mm, Laminates: 1 + r.IntN(3)}
		terms := stagger.Terms{Longest: (2 + r.Int64N(5)) * mm, Joint: 2 * mm * r.Int64N(2), Apart: mm * r.Int64N(3), Across: 1 + r.IntN(2)}
		for range r.IntN(3) {
			from := r.Int64N(b.Length / mm)
			b.Barred = append(b.Barred, stagger.Span{From: from * mm, To: (from + r.Int64N(4)) * mm})
		}
		sets := min(b.Laminates, terms.Across+1)
		want, ok := fewest(b, terms, sets)
		p, err := stagger.Arrange(b, terms)
		var not *stagger.ImpossibleError
		if ok != (err == nil) || err != nil && !errors.As(err, &not) {
			t.Fatalf("%+v, %+v: %v, though among all is %v %v", b, terms, err, want, ok)
		}
		if err != nil {
			none++
			would := terms
			if would.Longest = not.Longest; would.Longest <= terms.Longest {
				t.Fatalf("%+v: %+v", terms, not)
			}
			if _, err := stagger.Arrange(b, would); err != nil {
				t.Fatalf("%+v, %+v: stock of %d would not do", b, terms, not.Longest)
			}
			if would.Longest -= mm; would.Longest > 0 {
				if _, err := stagger.Arrange(b, would); err == nil {
					t.Fatalf("%+v, %+v: less stock than %d does", b, terms, not.Longest)
				}
			}
			if not.Apart >= 0 {
				would = terms
				would.Apart = not.Apart
				if _, err := stagger.Arrange(b, would); err != nil || not.Apart >= terms.Apart {
					t.Fatalf("%+v, %+v: %d apart would not do", b, terms, not.Apart)
				}
			}
			continue
		}
		found++
		short := b
		for range r.IntN(b.Laminates + 1) {
			short.Short = append(short.Short, (1+r.Int64N(b.Length/mm))*mm)
		}
		if wrong := stagger.Check(short, terms, laid(p, short, terms)); wrong != nil {
			t.Fatalf("%+v, %+v: %v", short, terms, wrong)
		}
		if got := p.Joints(); got != want {
			t.Fatalf("%+v, %+v: %d joints in %v, %d are enough", b, terms, got, p.Sets, want)
		}
		if wrong := stagger.Check(b, terms, laid(p, b, terms)); wrong != nil {
			t.Fatalf("%+v, %+v: %v", b, terms, wrong)
		}
	}
	if found < 100 || none < 50 {
		t.Errorf("%d found and %d not: too few to tell", found, none)
	}
}

// The checker finds what was put wrong.
func TestCheckFinds(t *testing.T) {
	b := stagger.Blank{Length: 5000 * mm, Laminates: 2, Barred: []stagger.Span{{From: 2000 * mm, To: 2500 * mm}}}
	terms := stagger.Terms{Longest: 4000 * mm, Joint: 100 * mm, Apart: 600 * mm, Across: 1}
	good := [][]int64{{2900 * mm}, {3700 * mm}}
	if wrong := stagger.Check(b, terms, good); wrong != nil {
		t.Fatal(wrong)
	}
	for _, bad := range [][][]int64{
		{{2900 * mm}}, {{2900 * mm}, {3599 * mm}}, {{2900 * mm}, {3951 * mm}}, {{2549 * mm}, {3700 * mm}}, {{2900 * mm}, nil},
		{{2900 * mm}, {1040 * mm}}, {{2900 * mm}, {3700 * mm, 4300 * mm}}, {{2900 * mm}, {3700 * mm, 4990 * mm}},
	} {
		if stagger.Check(b, terms, bad) == nil {
			t.Errorf("%v passes", bad)
		}
	}
}

func TestRefuses(t *testing.T) {
	b, terms := stagger.Blank{Length: 5000 * mm, Laminates: 2}, stagger.Terms{Longest: 4000 * mm, Across: 1}
	for _, change := range []func(*stagger.Blank, *stagger.Terms){
		func(b *stagger.Blank, _ *stagger.Terms) { b.Length = 0 },
		func(b *stagger.Blank, _ *stagger.Terms) { b.Length = math.MaxInt64 },
		func(b *stagger.Blank, _ *stagger.Terms) { b.Laminates = 0 },
		func(b *stagger.Blank, _ *stagger.Terms) { b.Short = []int64{5001 * mm} },
		func(b *stagger.Blank, _ *stagger.Terms) { b.Short = []int64{1, 1, 1} },
		func(b *stagger.Blank, _ *stagger.Terms) { b.Barred = []stagger.Span{{From: 2, To: 1}} },
		func(_ *stagger.Blank, t *stagger.Terms) { t.Longest = -1 },
		func(_ *stagger.Blank, t *stagger.Terms) { t.Joint = math.MaxInt64 },
		func(_ *stagger.Blank, t *stagger.Terms) { t.Apart = -1 },
		func(_ *stagger.Blank, t *stagger.Terms) { t.Across = 0 },
		func(_ *stagger.Blank, t *stagger.Terms) { t.Across = 9 },
	} {
		b, terms := b, terms
		change(&b, &terms)
		var wrong *stagger.InputError
		if _, err := stagger.Arrange(b, terms); !errors.As(err, &wrong) || wrong.Right == "" {
			t.Errorf("%+v, %+v: %v", b, terms, err)
		}
	}
}
