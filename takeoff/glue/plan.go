package glue

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"
)

// Plan is which blanks are glued up together, and in which order of gluing days. Every number is whole.
type Plan struct {
	// Held is how long the glue works and holds in the shop.
	Held
	// Hull is the same in the hull; nil where nothing is glued there, or nobody said how warm it is.
	Hull *Held `json:"hull,omitempty"`
	// Batches in the order they are laid up. LeastBatches no grouping goes below; Proven is whether these are the fewest.
	Batches      []Batch `json:"batches"`
	LeastBatches int     `json:"least_batches"`
	Proven       bool    `json:"proven"`
	// AtOnce is the most blanks that are in clamps together on any day.
	AtOnce int `json:"in_clamps_at_once"`
	// Largest is the largest blank that one lay-up takes on a form, of the lines and width of the one that comes nearest to it.
	Largest *Largest `json:"largest_blank,omitempty"`
	// TooLong are blanks that one lay-up cannot take, and Waiting joints whose blank is one of those, or that are glued in a
	// hull as warm as nobody knows: they are in no batch.
	TooLong []TooLong `json:"too_long,omitempty"`
	Waiting []string  `json:"waiting,omitempty"`
}

// Held is the times of a glue at a place as warm as it is: WorkingMin is rounded down, ClampMin and LoadMin up, minutes.
type Held struct {
	C          decimal.Decimal `json:"c"`
	WorkingMin int64           `json:"working_min"`
	ClampMin   int64           `json:"clamp_min"`
	LoadMin    int64           `json:"load_min"`
	// DaysToLoad is from the gluing day to the first on which the piece may carry load, whole days.
	DaysToLoad int64 `json:"days_to_load"`
}

// Batch is spread and closed in one go. Day counts gluing days from 1; OffDay is when its clamps are free again, and
// LoadDay when its pieces may carry load.
type Batch struct {
	No      int    `json:"no"`
	Where   Place  `json:"where"`
	Asks    string `json:"asks,omitempty"`
	Day     int64  `json:"day"`
	OffDay  int64  `json:"clamps_off_day"`
	LoadDay int64  `json:"load_day"`
	// Members are paths of blanks, in the order given.
	Members []string `json:"members"`
	Clamps  int64    `json:"clamps"`
	// Minutes that spreading and closing take all hands, rounded up.
	Minutes int64           `json:"minutes"`
	AreaM2  decimal.Decimal `json:"area_m2"`
	// Litres mixed: the sum of its members', exactly.
	Litres decimal.Decimal `json:"glue_l"`
	// Why it is as large as it is; OneMore what the smallest of those that may share it would have meant in it too, and
	// Change what it would take to have one batch fewer of these. Both are empty where it holds all that may share it.
	Why     string   `json:"why"`
	OneMore *OneMore `json:"one_more,omitempty"`
	Change  string   `json:"change,omitempty"`
}

// OneMore is what a batch would take with one blank more. Where that fits it would save no batch.
type OneMore struct {
	Path    string `json:"member"`
	Minutes int64  `json:"minutes"`
	Clamps  int64  `json:"clamps"`
	Fits    bool   `json:"fits"`
}

// Largest is the longest blank that still fits, mm rounded down, like the one of Like.
type Largest struct {
	Like     string `json:"like"`
	LengthMM int64  `json:"length_mm"`
}

// Make plans blanks in the order given, scarfs on the bench before blanks on forms, and those before joints in the hull. Blanks at different places, or that ask
// different things of the glue, share no batch. An *InputError or *OutsideError where nothing can be planned; a blank
// that is too long for one lay-up is among TooLong and stops nothing but what waits for it.
func Make(t Times, y Layup, blanks []Blank) (Plan, error) {
	shop, err := t.At(y.ShopC)
	if err != nil {
		return Plan{}, err
	}
	if err := y.Check(); err != nil {
		return Plan{}, err
	}
	p := planner{times: t, layup: y, ready: map[string]int64{}, Plan: Plan{Held: held(y.ShopC, shop), Batches: []Batch{}, Proven: true}}
	for _, place := range []Place{Bench, Form, Hull} {
		var here []Blank
		for _, b := range blanks {
			if b.place() == place {
				here = append(here, b)
			}
		}
		if err := p.at(place, here); err != nil {
			return Plan{}, err
		}
	}
	p.number()
	return p.Plan, nil
}

func held(c decimal.Decimal, s InShop) Held {
	return Held{C: c, WorkingMin: s.Working / 60, ClampMin: up(s.Clamp, 60), LoadMin: up(s.Load, 60), DaysToLoad: up(s.Load, day)}
}

// planner is a plan being made.
type planner struct {
	times Times
	layup Layup
	Plan
	// ready is the day from which a blank may carry load; never for one in no batch.
	ready map[string]int64
}

const never = int64(1) << 40

// group is blanks that may share a batch.
type group struct {
	asks  string
	loads []Load
	fit   []Blank
}

// grouped is a batch before it has its day.
type grouped struct {
	Batch
	hands, from int64
}

// at plans all that is glued at a place.
func (p *planner) at(place Place, blanks []Blank) error {
	if len(blanks) == 0 {
		return nil
	}
	y, known := p.layup.in(place)
	if !known {
		for _, b := range blanks {
			p.Waiting = append(p.Waiting, b.Path)
		}
		return nil
	}
	here, err := p.times.At(y.ShopC)
	if err != nil {
		return err
	}
	if place == Hull {
		h := held(y.ShopC, here)
		p.Hull = &h
	}
	room := y.Room(here.Working)
	groups, err := p.group(place, y, room, blanks)
	if err != nil {
		return err
	}
	var all []grouped
	for _, g := range groups {
		parts, least, proven := fewest(g.loads, room)
		p.LeastBatches, p.Proven = p.LeastBatches+least, p.Proven && proven
		change := p.change(place, y, room, g.loads, len(parts))
		for _, part := range parts {
			b := p.batch(place, y, g, part)
			b.tell(y, room, *g, part)
			b.Change = change
			all = append(all, b)
		}
	}
	slices.SortStableFunc(all, func(a, b grouped) int { return cmp.Compare(a.from, b.from) })
	last := int64(1)
	for _, b := range all {
		put := p.put(b.Batch, y, here, b.hands, max(last, b.from))
		last = put.Day
		for _, m := range b.Members {
			p.ready[m] = max(p.ready[m], put.LoadDay)
		}
	}
	return nil
}

// group sorts out what has no room, or waits for what has none, and parts the rest by what it asks of the glue.
func (p *planner) group(place Place, y Layup, room Room, blanks []Blank) ([]*group, error) {
	var out []*group
	var nearest *Blank
	var most int64
	for _, b := range y.shared(blanks, room) {
		l, err := y.Load(b)
		if err != nil {
			return nil, err
		}
		if !room.holds(l.Hands(), l.Clamps) {
			p.TooLong, p.ready[b.Path] = append(p.TooLong, tooLong(p.times, y, room, b, l)), never
			continue
		}
		if p.ready[b.After] == never {
			p.Waiting = append(p.Waiting, b.Path)
			continue
		}
		if nearest == nil || l.Hands() > most {
			nearest, most = &b, l.Hands()
		}
		i := slices.IndexFunc(out, func(g *group) bool { return g.asks == b.Asks })
		if i < 0 {
			i, out = len(out), append(out, &group{asks: b.Asks})
		}
		out[i].loads, out[i].fit = append(out[i].loads, l), append(out[i].fit, b)
	}
	if nearest != nil && place == Form {
		p.Largest = &Largest{nearest.Path, y.longest(*nearest, room)}
	}
	return out, nil
}

// batch of the members of a group that part names.
func (p *planner) batch(place Place, y Layup, g *group, part []int) grouped {
	out := grouped{Batch: Batch{Where: place, Asks: g.asks, Members: []string{}}, from: 1}
	for _, i := range part {
		b := g.fit[i]
		out.Members = append(out.Members, b.Path)
		out.Clamps += g.loads[i].Clamps
		out.AreaM2, out.Litres = out.AreaM2.Add(b.AreaM2), out.Litres.Add(b.Litres)
		out.hands += g.loads[i].Hands()
		out.from = max(out.from, p.ready[b.After])
	}
	out.Minutes = up(out.hands, 60*y.Hands)
	return out
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
