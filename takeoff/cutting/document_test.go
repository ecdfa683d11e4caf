package cutting_test

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/takeoff/cutting"
	"ribband/takeoff/document"
)

func whole(n int64) *int64 { return &n }

// A list as a yard would write it: lengths in millimetres, prices in cents.
func written() cutting.Document {
	return cutting.Document{
		Stock:  []cutting.Row{{ID: "oak 2.4 m", Length: 2400, Price: 3000}, {ID: "oak 3.6 m", Length: 3600, Price: 4700, Avail: whole(3)}},
		Pieces: []cutting.Piece{{ID: "long", Length: 1750, Qty: 3}, {ID: "short", Length: 1100, Qty: 4}},
		Rules:  cutting.Rules{Kerf: 3, TrimEach: 25},
	}
}

// What is left out means one strip, no limit and no least order.
func TestDocumentSolvesWhatItsBoardsSay(t *testing.T) {
	d := written()
	got, err := d.Solve()
	if err != nil {
		t.Fatal(err)
	}
	stock := []cutting.Stock{{ID: "oak 2.4 m", Length: 2400, Price: 3000, Strips: 1, Avail: -1}, {ID: "oak 3.6 m", Length: 3600, Price: 4700, Strips: 1, Avail: 3}}
	want, err := cutting.Solve(stock, d.Pieces, d.Rules)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if err := cutting.Check(got, stock, d.Pieces, d.Rules); err != nil {
		t.Error(err)
	}
	// Two long ones in a 3.6 m board, one in a 2.4 m, the short ones two to a 2.4 m: 4700 + 3 x 3000. Each long one takes
	// 3000 or shares 4700, and no board gives a short one for less than 1500.
	if got.Cost != 13_700 || !got.Proven() {
		t.Errorf("cost %d, %s", got.Cost, got.Proof)
	}
}

// Every fault is told at once, where it stands.
func TestDocumentTellsAllItsFaults(t *testing.T) {
	d := written()
	d.Rules.Kerf = -1
	d.Stock[0].Price = 0
	d.Stock[1].ID = d.Stock[0].ID
	d.Stock[1].Avail = whole(-2)
	d.Pieces[0].Length = 0
	d.Pieces[1].ID = ""
	_, err := d.Solve()
	var faults document.Faults
	if !errors.As(err, &faults) {
		t.Fatalf("%v", err)
	}
	var at []string
	for _, f := range faults {
		at = append(at, f.Pointer)
		if f.Fix == "" || f.Detail == "" {
			t.Errorf("%+v", f)
		}
	}
	want := []string{"/rules/kerf", "/stock/0/price", "/stock/1/id", "/stock/1/avail", "/pieces/0/length", "/pieces/1/id"}
	if diff := cmp.Diff(want, at); diff != "" {
		t.Error(diff)
	}
}

// A list that cannot be cut says at which piece and what would do, and what it says does.
func TestDocumentSaysWhatWouldDo(t *testing.T) {
	long := written()
	long.Pieces[0].Length = 4000
	if f := fault(t, long); f.Pointer != "/pieces/0/length" || !strings.HasPrefix(f.Fix, "a board at least 4050 long, or pieces no longer than 3550, or may_scarf of the piece true") {
		t.Errorf("%+v", f)
	}
	trimmed := written()
	trimmed.Rules.TrimEach = 5000
	if f := fault(t, trimmed); !strings.HasPrefix(f.Detail, "5000 trimmed off each end leaves nothing of any board for sale") || !strings.HasPrefix(f.Fix, "less trim_each among the rules, or a board at least 1") {
		t.Errorf("%+v", f)
	}
	long.Stock = append(long.Stock, cutting.Row{ID: "oak longer", Length: 4050, Price: 6000})
	if _, err := long.Solve(); err != nil {
		t.Error(err)
	}

	few := written()
	few.Stock = few.Stock[1:]
	few.Pieces = few.Pieces[:1]
	few.Stock[0].Avail = whole(1)
	if f := fault(t, few); f.Pointer != "/pieces/0/qty" || f.Fix != "1 more of oak 3.6 m for sale, or fewer pieces" {
		t.Errorf("%+v", f)
	}
	few.Stock[0].Avail = whole(2)
	if _, err := few.Solve(); err != nil {
		t.Error(err)
	}
}

func fault(t *testing.T, d cutting.Document) document.Fault {
	t.Helper()
	_, err := d.Solve()
	var faults document.Faults
	if !errors.As(err, &faults) || len(faults) != 1 {
		t.Fatalf("%v", err)
	}
	return faults[0]
}

// A piece too long for any board: the fault says what a scarf would do, and saying that it may be scarfed does it.
func TestDocumentScarfsWhatIsTooLong(t *testing.T) {
	d := written()
	d.Pieces[0].Length = 4200
	d.Rules.Scarf = &cutting.Scarf{Price: 2400, Length: 240, Least: 900}
	f := fault(t, d)
	if f.Pointer != "/pieces/0/length" || !strings.Contains(f.Fix, "may_scarf of the piece true: 1 joint 240 long (2400 to make) in parts of 2220") {
		t.Errorf("%+v", f)
	}
	d.Pieces[0].MayScarf = true
	p, err := d.Solve()
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Joints) == 0 || p.Joints[0].N != 3 || !p.Proven() {
		t.Errorf("%+v", p)
	}
	d.Rules.Scarf = nil
	if f := fault(t, d); f.Pointer != "/pieces/0/may_scarf" {
		t.Errorf("%+v", f)
	}
	d.Rules.Scarf = &cutting.Scarf{Price: -1, Length: 240, Least: 240}
	_, err = d.Solve()
	var faults document.Faults
	if !errors.As(err, &faults) || len(faults) != 2 || faults[0].Pointer != "/rules/scarf/price" || faults[1].Pointer != "/rules/scarf/least" {
		t.Errorf("%v", err)
	}
}
