package butt_test

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"ribband/takeoff/hull/butt"
)

// straight is the board of a strake that is as long as it is along x.
func straight(_ int, a, b float64) float64 { return b - a }

// side of 30 frames 250 mm apart from 500, with hood ends at 0 and 8000.
func side(t testing.TB, strakes int, change func(*butt.Terms)) *butt.Side {
	t.Helper()
	terms := butt.Usual()
	if change != nil {
		change(&terms)
	}
	s, err := butt.New(terms, frames(30, 500, 250), butt.Alike(strakes, 0, 8000), straight)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func frames(n int, first, apart float64) (out []butt.Frame) {
	for i := range n {
		out = append(out, butt.Frame{No: i + 1, X: first + apart*float64(i)})
	}
	return out
}

// bay is the middle of the bay after frame no.
func bay(no int) float64 { return 500 + 250*(float64(no)-.5) }

func names(bs []butt.Breach) (out []string) {
	for _, b := range bs {
		out = append(out, fmt.Sprintf("%s strake %d", b.Rule.Name, b.Strake+1))
	}
	return out
}

// The rules of TB 55-1900-201-45/1 par. 2-12 and 2-13, each at its limit.
func TestCheck(t *testing.T) {
	for _, c := range []struct {
		name   string
		butts  [][]float64
		change func(*butt.Terms)
		want   []string
	}{
		{"three spaces apart", [][]float64{{bay(12)}, {bay(15)}}, nil, nil},
		{"two spaces apart", [][]float64{{bay(12)}, {bay(14)}}, nil, []string{"adjacent_strakes strake 2"}},
		{"both asked for", [][]float64{{bay(12)}, {bay(15)}}, func(x *butt.Terms) { x.Both = true }, []string{"adjacent_strakes strake 2"}},
		{"both kept", [][]float64{{bay(12)}, {bay(19)}}, func(x *butt.Terms) { x.Both = true }, nil},
		{"one bay, three solid between", [][]float64{{bay(12)}, {}, {}, {}, {bay(12)}}, nil, nil},
		{"one bay, two solid between", [][]float64{{bay(12)}, {}, {}, {bay(12)}}, nil, []string{"same_bay strake 4"}},
		{"next bay, one between", [][]float64{{bay(12)}, {}, {bay(13)}}, nil, nil},
		{"on a frame", [][]float64{{bay(12) + 125}}, nil, []string{"place strake 1"}},
		{"on a frame, as the yard has it", [][]float64{{bay(12) + 125}}, func(x *butt.Terms) { x.OnFrames = true }, nil},
		{"a frame is in both its bays", [][]float64{{bay(12)}, {}, {bay(12) + 125}}, func(x *butt.Terms) { x.OnFrames = true }, []string{"same_bay strake 3"}},
		{"a quarter into the bay", [][]float64{{bay(12) - 62.5}}, nil, []string{"place strake 1"}},
		{"six spaces", [][]float64{{bay(8), bay(14)}}, nil, []string{"shortest_plank strake 1"}}, // 1500 mm are no 5 ft
		{"seven spaces", [][]float64{{bay(8), bay(15)}}, nil, nil},
		{"five spaces at the end", [][]float64{{bay(4)}}, nil, []string{"shortest_plank strake 1"}},
		{"longer than the stock", [][]float64{{bay(20)}}, func(x *butt.Terms) { x.Longest = 5000 }, []string{"stock strake 1"}},
		{"no butts", [][]float64{{}, {}}, nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := side(t, len(c.butts), c.change)
			got := s.Check(c.butts)
			if !reflect.DeepEqual(names(got), c.want) {
				t.Fatalf("%+v, want %v", got, c.want)
			}
			for _, b := range got {
				if b.Detail == "" || b.Fix == "" || b.Rule.Source == "" {
					t.Errorf("%+v", b)
				}
				// What would be right is right.
				for _, x := range b.Right {
					mended := append([][]float64(nil), c.butts...)
					mended[b.Strake] = []float64{x}
					if len(c.butts[b.Strake]) == 1 {
						if again := s.Check(mended); len(again) > 0 {
							t.Errorf("at %v, which would be right: %v", x, again)
						}
					}
				}
			}
		})
	}
}

func TestBreachSaysWhere(t *testing.T) {
	got := side(t, 2, nil).Check([][]float64{{bay(12)}, {bay(14)}})
	if len(got) != 1 {
		t.Fatal(got)
	}
	for _, part := range []string{"between frames 14 and 15", "2.0 frame spaces", "500 mm", "strake 1", "between frames 12 and 13"} {
		if !strings.Contains(got[0].Detail, part) {
			t.Errorf("%q does not say %q", got[0].Detail, part)
		}
	}
	if want := "right would be between frames 9 and 10 or between frames 15 and 16"; got[0].Fix != want {
		t.Errorf("%q, want %q", got[0].Fix, want)
	}
}

// What is proposed keeps to all rules, for many boats and stocks, and always is the same.
func TestArrange(t *testing.T) {
	for _, strakes := range []int{1, 4, 12, 30} {
		for _, longest := range []float64{3000, 3600, 4200, 5400, 8000} {
			for _, onFrames := range []bool{false, true} {
				s := side(t, strakes, func(x *butt.Terms) { x.Longest, x.OnFrames = longest, onFrames })
				given := map[int][]float64{}
				if strakes > 4 {
					given[3] = []float64{bay(15)}
				}
				butts, stuck := s.Arrange(given)
				again, _ := s.Arrange(given)
				if !reflect.DeepEqual(butts, again) {
					t.Fatal("the same side gets other butts")
				}
				if strakes > 4 && !reflect.DeepEqual(butts[3], given[3]) {
					t.Errorf("given butts became %v", butts[3])
				}
				left := map[int]bool{3: strakes > 4 && longest < 4500} // the given strake may ask for more than there is
				for _, x := range stuck {
					left[x.Strake] = true
					if x.Stock != 0 && x.Stock <= longest {
						t.Errorf("strake %d is stuck with boards of %v though %v do", x.Strake, longest, x.Stock)
					}
				}
				for _, b := range s.Check(butts) {
					if b.Rule != butt.Stock || !left[b.Strake] {
						t.Errorf("%d strakes, stock of %v: %+v", strakes, longest, b)
					}
				}
				if longest >= 4200 && len(stuck) > 0 {
					t.Errorf("%d strakes, stock of %v: %v are stuck", strakes, longest, stuck)
				}
				if longest == 8000 && len(butts[0]) > 0 {
					t.Error("a strake that fits one board has a butt")
				}
			}
		}
	}
}

// A strake without a place says what would do.
func TestStuck(t *testing.T) {
	s := side(t, 3, func(x *butt.Terms) { x.Longest = 1000 })
	_, stuck := s.Arrange(nil)
	if len(stuck) != 3 || stuck[0].Board != 8000 || math.Abs(stuck[0].Stock-2125) > 1000 || stuck[0].Stock <= 1000 {
		t.Errorf("%+v", stuck)
	}
	// Two butts given above and below bar the middle of the strake between them: boards of 4100 ask for two butts.
	s = side(t, 3, func(x *butt.Terms) { x.Longest = 4100 })
	_, stuck = s.Arrange(map[int][]float64{0: {bay(15)}, 2: {bay(16)}})
	if len(stuck) != 0 {
		t.Errorf("with one plank more there is room, yet %+v", stuck)
	}
}

// Whole planks, or pieces let in so that nothing is too short.
func TestReplace(t *testing.T) {
	s := side(t, 3, nil)
	butts := [][]float64{{bay(15)}, {}, {bay(18)}}
	got, err := s.Replace(0, 3000, 3200, butts)
	if err != nil {
		t.Fatal(err)
	}
	if got.Spaces != 7 || got.From > 3000 || got.To < 3200 {
		t.Errorf("seven spaces are the least above 5 ft: %+v", got)
	}
	if got.Forward < 5*304.8 || got.After != 0 && got.After < 5*304.8 {
		t.Errorf("what is left is too short: %+v", got)
	}
	// Near a butt the plank ends at it.
	if got, err = s.Replace(0, bay(15)-400, bay(15)-300, butts); err != nil || got.To != bay(15) || got.After != 0 {
		t.Errorf("%+v, %v", got, err)
	}
	// New butts keep clear of the strake beside.
	if got, err = s.Replace(1, 4000, 4100, butts); err != nil {
		t.Fatal(err)
	}
	for _, x := range []float64{got.From, got.To} {
		if x > 0 && x < 8000 && (math.Abs(x-bay(15)) < 750 || math.Abs(x-bay(18)) < 750) {
			t.Errorf("a butt at %v stands close to one at %v or %v", x, bay(15), bay(18))
		}
	}
	var damage *butt.DamageError
	for _, c := range [][3]float64{{9, 1000, 1200}, {0, -10, 100}, {0, 100, 9000}, {0, 300, 200}, {0, math.NaN(), 200}} {
		if _, err := s.Replace(int(c[0]), c[1], c[2], butts); !errors.As(err, &damage) {
			t.Errorf("%v: %v", c, err)
		}
	}
	short, err := butt.New(butt.Usual(), frames(4, 0, 250), butt.Alike(1, 0, 750), straight)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := short.Replace(0, 100, 200, [][]float64{{}}); !errors.As(err, &damage) {
		t.Error(err)
	}
}

func TestNewRefuses(t *testing.T) {
	var refused *butt.FramesError
	for _, f := range [][]butt.Frame{nil, frames(1, 0, 1), frames(butt.MaxFrames+1, 0, 1), {{1, 0}, {2, 0}}, {{1, 0}, {2, math.NaN()}}, {{1, 0}, {2, math.Inf(1)}}} {
		if _, err := butt.New(butt.Usual(), f, butt.Alike(2, 0, 1000), straight); !errors.As(err, &refused) {
			t.Errorf("%v: %v", f, err)
		}
	}
	if _, err := butt.New(butt.Usual(), frames(5, 0, 250), butt.Alike(2, 1000, 0), straight); !errors.As(err, &refused) {
		t.Error(err)
	}
}

// Sixty strakes that cannot be arranged end, too.
func BenchmarkArrangeHard(b *testing.B) {
	s := side(b, 60, func(x *butt.Terms) { x.Longest = 2400 })
	for b.Loop() {
		s.Arrange(nil)
	}
}

func BenchmarkArrange(b *testing.B) {
	s := side(b, 12, func(x *butt.Terms) { x.Longest = 4200 })
	for b.Loop() {
		s.Arrange(nil)
	}
}

// Strakes that reach different ways: a plank ends at its own strake's hood end, and no butt is proposed beyond any.
func TestOwnHoodEnds(t *testing.T) {
	reach := []butt.Reach{{Forward: 0, Aft: 8000}, {Forward: -600, Aft: 7000}, {Forward: -900, Aft: 6500}}
	s, err := butt.New(butt.Terms{LeastSpaces: 6, LeastMM: 1524, ApartSpaces: 3, ApartMM: 1524, Solid: 3, Longest: 5000}, frames(40, -900, 250), reach, straight)
	if err != nil {
		t.Fatal(err)
	}
	butts := make([][]float64, 3)
	for k, r := range reach {
		got, err := s.Replace(k, r.Forward, r.Forward+100, butts)
		if err != nil {
			t.Fatal(err)
		}
		if got.From != r.Forward {
			t.Errorf("strake %d: a new plank from %v, her hood end is at %v", k+1, got.From, r.Forward)
		}
		if _, err := s.Replace(k, r.Forward-1, r.Forward+100, butts); err == nil {
			t.Errorf("strake %d: a piece beyond her hood end is replaced", k+1)
		}
	}
	if _, err := butt.New(butt.Usual(), frames(5, 0, 250), nil, straight); err == nil {
		t.Error("no strakes are taken")
	}
}
