package pattern_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/pattern"

	"github.com/google/go-cmp/cmp"
)

// to gives a pattern its own grain.
func to(grain string, r pattern.Rows) pattern.Rows {
	r.Grain = grain
	return r
}

// A pattern that says its own grain is fitted exactly as it would be in a document of that grain, and the others as if it
// were not there.
func TestAPatternIsFittedWithItsOwnGrain(t *testing.T) {
	for name, one := range map[string]struct{ document, own string }{"finer": {"3", "0.1"}, "coarser": {"0.1", "3"}, "exact": {"3", "0"}} {
		t.Run(name, func(t *testing.T) {
			apart := func(grain string, r pattern.Rows) *pattern.Fitted {
				d := doc(r)
				d.Grain = grain
				return fitted(t, d)
			}
			a, b := arc(3, boat.Both, 900, 12), arc(4, boat.Port, 700, 12)
			d := doc(to(one.own, a), b)
			d.Grain = one.document
			got := fitted(t, d)
			for _, c := range []struct {
				m    boat.Member
				want *pattern.Fitted
			}{
				{member(3, boat.Port), apart(one.own, a)}, {member(3, boat.Starboard), apart(one.own, a)}, {member(4, boat.Port), apart(one.document, b)},
			} {
				x, ok := got.Section(c.m, 0)
				y, also := c.want.Section(c.m, 0)
				if !ok || !also || x.Girth != y.Girth || x.Bilge.Radius() != y.Bilge.Radius() || x.Points != y.Points {
					t.Errorf("%v: %+v %+v, and alone %+v %+v", c.m, x.Girth, x.Bilge.Radius(), y.Girth, y.Bilge.Radius())
				}
			}
			if want, _ := d.Notation.Parse(max(one.document, one.own)); got.Coarsest() != want.MM() {
				t.Errorf("the coarsest grain is %v", got.Coarsest())
			}
			fine, _ := got.Section(member(3, boat.Port), 0)
			as, _ := apart(one.document, a).Section(member(3, boat.Port), 0)
			if own, of := fine.Girth.High-fine.Girth.Low, as.Girth.High-as.Girth.Low; (own < of) != (name != "coarser") {
				t.Errorf("its girth is known to %v, and to %v with the document's grain", own, of)
			}
		})
	}
}

// Patterns that scatter more than their own grain allows are told with that grain, and those of another grain keep theirs.
func TestPatternsReadWorseAreToldByTheirGrain(t *testing.T) {
	well, badly := []pattern.Rows{}, []pattern.Rows{}
	for no := 1; no <= 8; no++ {
		well = append(well, arc(no, boat.Port, 850+10*float64(no), 14))
		r := arc(20+no, boat.Port, 850+10*float64(no), 14)
		for i := 1; i+1 < len(r.Points); i++ { // off the curve by 1 mm, now in and now out, by no rule that a bend could follow
			s, c := math.Sincos(1.5 * float64(i) / float64(len(r.Points)-1))
			off := 850 + 10*float64(no) + []float64{1, -1, -1, 1, -1, 1, 1}[(i*no+i)%7]
			r.Points[i].Y, r.Points[i].Z = fmt.Sprintf("%.1f", 20+off*s), fmt.Sprintf("%.1f", 850+10*float64(no)-off*c)
		}
		badly = append(badly, to("0.3", r))
	}
	f := fitted(t, doc(append(badly, well...)...))
	if w := f.ReadWorse(); len(w) != 1 || w[0].Grain != 0.3 || w[0].Times < 2 {
		t.Fatalf("%+v", w)
	}
	if w := f.ReadWorse()[0]; f.Coarsest() != w.Grain*w.Times {
		t.Errorf("the worst are worth %v, and were read %+v", f.Coarsest(), w)
	}
	alone := fitted(t, doc(well...))
	if w := alone.ReadWorse(); len(w) != 0 {
		t.Fatalf("%+v", w)
	}
	for no := 1; no <= 8; no++ {
		x, _ := f.Section(member(no, boat.Port), 0)
		y, _ := alone.Section(member(no, boat.Port), 0)
		if x.Girth != y.Girth {
			t.Errorf("frame %d: %+v beside badly read patterns, %+v without", no, x.Girth, y.Girth)
		}
	}
}

func TestAGrainOfAPatternAtFaultIsNamed(t *testing.T) {
	for grain, says := range map[string]string{"2-0-0": "Frame 12 port: the grain: ", "-1": "Frame 12 port: the grain is -1 mm", "51": "Frame 12 port: the grain is 51 mm"} {
		set, faults := pattern.Read(doc(to(grain, arc(12, boat.Port, 900, 9))))
		if set != nil || len(faults) != 1 || faults[0].Pointer != "/patterns/0/grain" || !strings.HasPrefix(faults[0].Detail, says) || faults[0].Fix == "" {
			t.Errorf("%s: %+v", grain, faults)
		}
	}
}

// The grain of a pattern is a column of the table where one has it, with knuckles and without, and comes back by either.
func TestTheGrainOfAPatternComesBackAsWritten(t *testing.T) {
	cornered := arc(4, boat.Starboard, 910, 9)
	cornered.Points[4].Knuckle = "chine"
	for header, d := range map[string]pattern.Document{
		"frame_no,side,n,y,z,grain":         doc(arc(3, boat.Port, 900, 7), to("0.5", arc(4, boat.Both, 910, 9))),
		"frame_no,side,n,y,z,knuckle,grain": doc(to("0", arc(3, boat.Port, 900, 7)), to("2", cornered)),
	} {
		var b bytes.Buffer
		if err := pattern.WriteCSV(&b, d); err != nil || !strings.HasPrefix(b.String(), header+"\n") {
			t.Fatalf("%v: %q", err, b.String())
		}
		got, set, faults := pattern.ReadCSV(b.Bytes(), pattern.Written{Notation: d.Notation, Grain: d.Grain, Surface: d.Surface})
		if len(faults) > 0 {
			t.Fatal(faults)
		}
		if diff := cmp.Diff(d, *got); diff != "" {
			t.Error(diff)
		}
		want, _ := d.Notation.Parse(d.Patterns[1].Grain)
		if p := set.Patterns[len(set.Patterns)-1]; p.Grain.MM() != want.MM() {
			t.Errorf("%v was read to %v", p.Member, p.Grain)
		}
		text, err := json.Marshal(d)
		if err != nil {
			t.Fatal(err)
		}
		var again pattern.Document
		if err := json.Unmarshal(text, &again); err != nil || cmp.Diff(d, again) != "" {
			t.Errorf("%v: %s", err, cmp.Diff(d, again))
		}
	}
}

func TestGrainsThatDifferWithinAPatternAreToldAtTheirCells(t *testing.T) {
	const good = "grain,frame_no,side,n,y,z\n1,1,port,1,0,0\n1,1,port,2,200,20\n1,1,port,3,400,80\n1,1,port,4,600,180\n1,1,port,5,780,400\n"
	if _, _, faults := pattern.ReadCSV([]byte(good), inMM); len(faults) > 0 {
		t.Fatal(faults)
	}
	for name, c := range map[string]struct{ table, says string }{
		"another": {strings.Replace(good, "1,1,port,3", "2,1,port,3", 1), `Frame 1 port, point 3: the grain is "2", and "1" in the pattern's first row`},
		"none":    {strings.Replace(good, "1,1,port,3", ",1,port,3", 1), `Frame 1 port, point 3: the grain is "", and "1" in the pattern's first row`},
	} {
		d, _, faults := pattern.ReadCSV([]byte(c.table), inMM)
		if d != nil || len(faults) != 1 || faults[0].Detail != c.says || faults[0].Fix == "" || faults[0].Row != 4 || faults[0].Column != 1 {
			t.Errorf("%s: %+v", name, faults)
		}
	}
	_, _, faults := pattern.ReadCSV([]byte(strings.ReplaceAll(good, "1,1,port", "51,1,port")), inMM)
	if len(faults) != 1 || faults[0].Row != 2 || faults[0].Column != 1 || !strings.Contains(faults[0].Detail, "51 mm") {
		t.Errorf("%+v", faults)
	}
}
