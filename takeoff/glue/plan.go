package glue

import (
	"github.com/shopspring/decimal"
)

// Plan is which blanks are glued up together, and in which order of gluing days. Every number is whole.
type Plan struct {
	// WorkingMin is rounded down, ClampMin and LoadMin up: minutes in the shop as warm as it is.
	WorkingMin int64 `json:"working_min"`
	ClampMin   int64 `json:"clamp_min"`
	LoadMin    int64 `json:"load_min"`
	// DaysToLoad is from the gluing day to the first on which the piece may carry load, whole days.
	DaysToLoad int64 `json:"days_to_load"`
	// Batches in the order they are laid up. LeastBatches no grouping goes below; Proven is whether these are the fewest.
	Batches      []Batch `json:"batches"`
	LeastBatches int     `json:"least_batches"`
	Proven       bool    `json:"proven"`
	// AtOnce is the most blanks that are in clamps together on any day.
	AtOnce int `json:"in_clamps_at_once"`
	// Largest is the largest blank that one lay-up takes, of the lines and width of the one that comes nearest to it.
	Largest *Largest `json:"largest_blank,omitempty"`
	// TooLong are blanks that one lay-up cannot take; they are in no batch.
	TooLong []TooLong `json:"too_long,omitempty"`
}

// Batch is spread and closed in one go. Day counts gluing days from 1; OffDay is when its clamps are free again, and
// LoadDay when its pieces may carry load.
type Batch struct {
	No      int      `json:"no"`
	Day     int64    `json:"day"`
	OffDay  int64    `json:"clamps_off_day"`
	LoadDay int64    `json:"load_day"`
	Members []string `json:"members"`
	Clamps  int64    `json:"clamps"`
	// Minutes that spreading and closing take all hands, rounded up.
	Minutes int64           `json:"minutes"`
	AreaM2  decimal.Decimal `json:"area_m2"`
}

// Largest is the longest blank that still fits, mm rounded down, like the one of Like.
type Largest struct {
	Like     string `json:"like"`
	LengthMM int64  `json:"length_mm"`
}

// Make plans blanks in the order given. An *InputError or *OutsideError where nothing can be planned; a blank that is
// too long for one lay-up is among TooLong and stops nothing.
func Make(t Times, y Layup, blanks []Blank) (Plan, error) {
	shop, err := t.At(y.ShopC)
	if err != nil {
		return Plan{}, err
	}
	if err := y.Check(); err != nil {
		return Plan{}, err
	}
	out := Plan{WorkingMin: shop.Working / 60, ClampMin: up(shop.Clamp, 60), LoadMin: up(shop.Load, 60), DaysToLoad: up(shop.Load, day), Batches: []Batch{}, Proven: true}
	room := y.Room(shop.Working)
	var loads []Load
	var fit []Blank
	var tightest int
	for _, b := range blanks {
		l, err := y.Load(b)
		if err != nil {
			return Plan{}, err
		}
		if !room.holds(l.Hands(), l.Clamps) {
			out.TooLong = append(out.TooLong, tooLong(t, y, room, b, l))
			continue
		}
		loads, fit = append(loads, l), append(fit, b)
		if k := len(loads) - 1; l.Hands() > loads[tightest].Hands() {
			tightest = k
		}
	}
	if len(fit) > 0 {
		out.Largest = &Largest{fit[tightest].Path, y.longest(fit[tightest], room)}
	}
	groups, least, proven := fewest(loads, room)
	out.LeastBatches, out.Proven = least, proven
	for k, g := range groups {
		b := Batch{No: k + 1, Members: []string{}}
		var hands int64
		for _, i := range g {
			b.Members = append(b.Members, fit[i].Path)
			b.Clamps += loads[i].Clamps
			b.AreaM2 = b.AreaM2.Add(fit[i].AreaM2)
			hands += loads[i].Hands()
		}
		b.Minutes = up(hands, 60*y.Hands)
		out.Batches = append(out.Batches, b)
		out.days(y, shop, hands)
	}
	return out, nil
}

// longest blank like b, whole mm, that has room. Its glue grows with its length.
func (y Layup) longest(b Blank, r Room) int64 {
	low, high := b.LengthMM.Floor().IntPart(), int64(1_000_000)
	for low < high {
		mid := (low + high + 1) / 2
		longer := b
		longer.LengthMM = decimal.NewFromInt(mid)
		longer.AreaM2 = b.AreaM2.Mul(longer.LengthMM).DivRound(b.LengthMM, 16)
		l, err := y.Load(longer)
		if err == nil && r.holds(l.Hands(), l.Clamps) {
			low = mid
		} else {
			high = mid - 1
		}
	}
	return low
}

func up(a, b int64) int64 { return (a + b - 1) / b }
