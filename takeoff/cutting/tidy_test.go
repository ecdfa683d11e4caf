package cutting_test

import (
	"math/rand"
	"testing"

	"ribband/takeoff/cutting"

	"pgregory.net/rapid"
)

// Two boards of 3000 for 1600, 1500, 500 and 400 leave 2000 in all. The longest single left-over is 1500, of the board with the
// piece of 1500 alone: with 1600 alone it is 1400.
func TestLongestLeftOverAmongEqualPlans(t *testing.T) {
	stock := []cutting.Stock{{"b", 3000, 1000, 1, -1, 0}}
	p := solve(t, stock, []cutting.Piece{{"a", 1600, 1, false}, {"b", 1500, 1, false}, {"c", 500, 1, false}, {"d", 400, 1, false}}, cutting.Rules{})
	if longest(p) != 1500 || p.Cost != 2000 {
		t.Errorf("%+v", p.Cuts)
	}
}

// Four boards of 2100 for four pieces of 1200 and four of 800 are cut all alike.
func TestFewestLayoutsAmongEqualPlans(t *testing.T) {
	stock := []cutting.Stock{{"b", 2100, 1000, 1, -1, 0}}
	p := solve(t, stock, []cutting.Piece{{"a", 1200, 4, false}, {"b", 800, 4, false}, {"c", 100, 4, false}}, cutting.Rules{})
	if len(p.Cuts) != 1 || p.Cost != 4000 {
		t.Errorf("%+v", p.Cuts)
	}
}

func longest(p cutting.Plan) (most int64) {
	for _, c := range p.Cuts {
		most = max(most, c.Offcut)
	}
	return most
}

// No two layouts of a board could be one, and no piece moved between two strips that are one of their kind, alone or for a
// shorter one, makes the longest left-over longer.
func TestNothingIsLeftToTidy(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := small(rand.New(rand.NewSource(rapid.Int64().Draw(t, "seed"))), 8, 3, 6, rapid.Bool().Draw(t, "all"))
		p, err := cutting.Solve(l.stock, l.pieces, l.rules)
		if err != nil {
			t.Skip("no plan")
		}
		solve(t, l.stock, l.pieces, l.rules)
		length, room := map[string]int64{}, make([]int64, len(p.Cuts))
		for _, q := range l.pieces {
			length[q.ID] = q.Length
		}
		for i, c := range p.Cuts {
			for _, s := range l.stock {
				if s.ID == c.StockID {
					room[i] = s.Length - 2*l.rules.TrimEach + l.rules.Kerf
				}
			}
			for _, k := range c.Pieces {
				room[i] -= k.K * (length[k.PieceID] + l.rules.Kerf)
			}
		}
		for i, a := range p.Cuts {
			for j, b := range p.Cuts {
				if i == j {
					continue
				}
				if n := a.N + b.N; a.StockID == b.StockID && i < j {
					all, even := map[string]int64{}, true
					for _, c := range []cutting.Cut{a, b} {
						for _, k := range c.Pieces {
							all[k.PieceID] += k.K * c.N
						}
					}
					along := int64(0)
					for id, m := range all {
						even = even && m%n == 0
						along += m / n * (length[id] + l.rules.Kerf)
					}
					for _, s := range l.stock {
						if even && s.ID == a.StockID && along <= s.Length-2*l.rules.TrimEach+l.rules.Kerf {
							t.Fatalf("%+v and %+v could be one", a, b)
						}
					}
				}
				if a.N != 1 || b.N != 1 {
					continue
				}
				for _, x := range a.Pieces {
					for _, y := range append([]cutting.Count{{}}, b.Pieces...) {
						back := int64(0)
						if y.K > 0 {
							back = length[y.PieceID] + l.rules.Kerf
						}
						more := length[x.PieceID] + l.rules.Kerf - back
						if more > 0 && more <= room[j] && room[i]-l.rules.Kerf+more > longest(p) {
							t.Fatalf("%s of %+v for %s of %+v", x.PieceID, a, y.PieceID, b)
						}
					}
				}
			}
		}
	})
}
