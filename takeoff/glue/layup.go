package glue

import (
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Layup is how the yard lays up.
type Layup struct {
	// ShopC is how warm the shop is, and HullC the hull where joints are glued in it, degrees Celsius; nil where nobody said.
	ShopC decimal.Decimal
	HullC *decimal.Decimal
	// SpreadM2H is the glue line one pair of hands spreads in an hour, and ClampS the seconds one takes to set a clamp.
	SpreadM2H decimal.Decimal
	ClampS    decimal.Decimal
	// PitchMM is between clamps.
	PitchMM decimal.Decimal
	// Clamps the yard has, and Hands that spread and clamp side by side.
	Clamps, Hands int64
	// DayH is the hours of a working day: no batch runs over its end.
	DayH   decimal.Decimal
	Source string
}

// Place is where glue is spread.
type Place string

// Bench: lengths of laminate are scarfed to one another, in the shop. Form: a blank is glued up of laminates on its form, in the
// shop. Hull: a piece is glued to the old frame in its place.
const (
	Bench Place = "bench"
	Form  Place = "form"
	Hull  Place = "hull"
)

// word is what a yard calls the place.
func (p Place) word() string {
	if p == Hull {
		return "hull"
	}
	return "shop"
}

// Blank is one piece to be glued up on its form, or one joint to be glued in the hull: all that has to be spread and closed
// in one go.
type Blank struct {
	Path string // of the member
	// Where is Form unless given.
	Where Place
	// Asks is what the wood asks of the glue: blanks that ask different things share no batch.
	Asks string
	// After is the path of the blank that must carry load before this is spread; empty where there is none.
	After string
	// Lines of glue, each AreaM2 / Lines; LengthMM of the blank. Clamps is what a joint takes; 0 has them
	// worked out from LengthMM.
	Lines    int64
	AreaM2   decimal.Decimal
	LengthMM decimal.Decimal
	Clamps   int64
	// Litres of glue mixed for it.
	Litres decimal.Decimal
	// Apart is of how many joints it is that need not be closed in one go, all alike: where they have no room together they are
	// shared out over as few batches as hold them. 0 for one that is closed in one go.
	Apart int64
}

// place of the blank.
func (b Blank) place() Place {
	if b.Where == "" {
		return Form
	}
	return b.Where
}

// Load is what a blank takes: Spread and Close are seconds of one pair of hands, rounded up.
type Load struct{ Spread, Close, Clamps int64 }

// Hands is the seconds of one pair of hands.
func (l Load) Hands() int64 { return l.Spread + l.Close }

// Load of one blank. An *InputError for a blank or a lay-up that nothing can be worked out from.
func (y Layup) Load(b Blank) (Load, error) {
	if err := y.Check(); err != nil {
		return Load{}, err
	}
	if b.AreaM2.Sign() < 0 || b.AreaM2.GreaterThan(decimal.NewFromInt(1_000_000)) {
		return Load{}, &InputError{"area", fmt.Sprintf("%s has %s m2 of glue", b.Path, b.AreaM2), "an area of 0 or more"}
	}
	n, err := b.Clamps, error(nil)
	if n == 0 {
		n, err = Clamps(b.LengthMM, y.PitchMM)
	} else if n < 0 || n > MaxClamps {
		err = &InputError{"clamps", fmt.Sprintf("%s takes %d clamps", b.Path, n), fmt.Sprintf("from 1 to %d", MaxClamps)}
	}
	if err != nil {
		return Load{}, err
	}
	spread := quantity.SnapDecimal(b.AreaM2.Mul(decimal.NewFromInt(3600)).DivRound(y.SpreadM2H, 16)).Ceil()
	closing := y.ClampS.Mul(decimal.NewFromInt(n)).Ceil()
	return Load{spread.IntPart(), closing.IntPart(), n}, nil
}

// Room is what one batch may take: seconds of all hands together, and clamps.
type Room struct{ Hands, Clamps int64 }

// Room of a batch with a glue that works for so many seconds.
func (y Layup) Room(working int64) Room {
	day := y.DayH.Mul(decimal.NewFromInt(3600)).Floor().IntPart()
	return Room{min(working, day) * y.Hands, y.Clamps}
}

// in is the lay-up as it is at a place: its own warmth in the shop's stead. false where that is not known.
func (y Layup) in(p Place) (Layup, bool) {
	if p != Hull {
		return y, true
	}
	if y.HullC == nil {
		return y, false
	}
	y.ShopC = *y.HullC
	return y, true
}

func (r Room) holds(hands, clamps int64) bool { return hands <= r.Hands && clamps <= r.Clamps }

// Check is an *InputError of the first value that nothing can be laid up by.
func (y Layup) Check() error {
	for _, v := range []struct {
		what  string
		of    decimal.Decimal
		least string
	}{{"spread_m2_h", y.SpreadM2H, "0.001"}, {"clamp_s", y.ClampS, "0.001"}, {"clamp_pitch", y.PitchMM, "1"}, {"day_h", y.DayH, "0.001"}} {
		if v.of.LessThan(decimal.RequireFromString(v.least)) || v.of.GreaterThan(decimal.NewFromInt(1_000_000)) {
			return &InputError{v.what, fmt.Sprintf("%s is nothing to lay up by", v.of), "at least " + v.least}
		}
	}
	switch {
	case y.Clamps < 1 || y.Clamps > MaxClamps:
		return &InputError{"clamps", fmt.Sprintf("the yard has %d clamps", y.Clamps), "the number of clamps, 1 or more"}
	case y.Hands < 1 || y.Hands > 1000:
		return &InputError{"hands", fmt.Sprintf("%d lay up", y.Hands), "from 1 to 1000"}
	case y.DayH.GreaterThan(decimal.NewFromInt(24)):
		return &InputError{"day_h", fmt.Sprintf("a day of %s hours", y.DayH), "at most 24"}
	}
	return nil
}
