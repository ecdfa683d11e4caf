package flat_test

import (
	"errors"
	"math/rand"
	"slices"
	"testing"

	"ribband/takeoff/cutting/flat"
)

// thicknesses gives stock and pieces thicknesses of 1 to 4, and keeps some pieces to first cuts along; some stock is too thin for every piece and
// some pieces too thick for all.
func thicknesses(r *rand.Rand, l flat.List) {
	for i := range l.Stock {
		l.Stock[i].Thickness = 1 + r.Int63n(4)
	}
	for i := range l.Pieces {
		l.Pieces[i].Thickness = 1 + r.Int63n(4)
		l.Pieces[i].AlongOnly = l.Rules.First != flat.Across && r.Intn(3) == 0
	}
}

// Of two and of three stages, with sheets, rolls and limits: no floor is above what trying everything finds, and no plan below. When
// this was written 124 of 126 plans were the cheapest; in the other lists a piece was too thick or too little for sale.
func TestThicknessAgainstTryingEverything(t *testing.T) {
	cheapest, plans, proven := 0, 0, 0
	for seed := range 200 {
		r := rand.New(rand.NewSource(int64(11000 + seed)))
		l := drawn(r, 3+r.Intn(4))
		thicknesses(r, l)
		if seed%4 == 0 {
			limit(r, l)
		}
		want := least(l)
		p, err := flat.SolveWithin(l, little)
		if err != nil {
			var large *flat.LargeError
			var short *flat.ShortError
			if !errors.As(err, &large) && !errors.As(err, &short) || large != nil && want >= 0 || want >= 0 && seed%4 != 0 {
				t.Errorf("seed %d: %v, by trying everything %d: %+v", seed, err, want, l)
			}
			continue
		}
		plans++
		against(t, seed, p, l, want)
		if p.Cost == want {
			cheapest++
		}
		if p.Proven {
			proven++
		}
	}
	t.Logf("%d plans, %d cheapest, %d proven", plans, cheapest, proven)
	if plans < 60 || 100*cheapest < 95*plans || 2*proven < plans {
		t.Errorf("%d plans, %d cheapest, %d proven", plans, cheapest, proven)
	}
}

// Cases that count strips tell those of thick sheets from those of thin ones.
func TestCasesOfTwoThicknesses(t *testing.T) {
	cased, proven, lists := 0, 0, 300
	if testing.Short() {
		lists = 60
	}
	for seed := range lists {
		r := rand.New(rand.NewSource(int64(12000 + seed)))
		l := sheeted(r, 4+r.Intn(4))
		thicknesses(r, l)
		l.Stock = slices.Clone(l.Stock)
		l.Stock = append(l.Stock, flat.Stock{ID: "thick", Width: 45, Length: 60, Price: 30, Avail: -1, Thickness: 4})
		want := least(l)
		p, err := flat.SolveWithin(l, little)
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		against(t, seed, p, l, want)
		if p.Certificate.Cases != nil {
			cased++
		}
		if p.Proven {
			proven++
		}
	}
	t.Logf("%d proven of %d, %d by cases", proven, lists, cased)
	if 10*proven < 9*lists || cased < 1 {
		t.Errorf("%d proven of %d, %d by cases", proven, lists, cased)
	}
}

// Hand-worked. The thin sheet is cheap and holds two thin pieces; the thick piece needs the thick sheet, which has room for one of them.
// One of either is 7; without a look at thickness it would be one thin sheet and a half.
func TestThinPiecesLieInThickSheets(t *testing.T) {
	l := flat.List{Rules: flat.Rules{First: flat.Along, Stages: 2}, Stock: []flat.Stock{
		{ID: "thick", Width: 20, Length: 10, Price: 4, Avail: -1, Thickness: 50}, {ID: "thin", Width: 20, Length: 10, Price: 3, Avail: -1, Thickness: 40},
	}, Pieces: []flat.Piece{{ID: "a", Width: 10, Length: 10, Qty: 1, Thickness: 45}, {ID: "b", Width: 10, Length: 10, Qty: 3, Thickness: 32}}}
	p, err := flat.Solve(l)
	if err != nil {
		t.Fatal(err)
	}
	sound(t, p, l)
	if p.Cost != 7 || !p.Proven {
		t.Errorf("%+v", p)
	}
	one := l
	one.Stock, one.Pieces = slices.Clone(l.Stock), slices.Clone(l.Pieces)
	for i := range one.Pieces {
		one.Pieces[i].Thickness = 0
	}
	if flat.CheckCertificate(p.Certificate, one) == nil {
		t.Error("7 is no floor where all may come from the thin sheet: two of it are 6")
	}
	p.Layout[0].StockID, p.Layout[1].StockID = p.Layout[1].StockID, p.Layout[0].StockID
	if flat.Check(p, l) == nil {
		t.Error("a thick piece out of a thin sheet")
	}
	l.Pieces[0].Thickness = 52
	var large *flat.LargeError
	if _, err := flat.Solve(l); !errors.As(err, &large) || large.StockID != "thick" || large.Thickness != 52 {
		t.Errorf("%v", err)
	}
}
