package glue

import (
	"fmt"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Layup is how the yard lays up.
type Layup struct {
	// ShopC is how warm the shop is, degrees Celsius.
	ShopC decimal.Decimal
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

// Blank is one piece to be glued up.
type Blank struct {
	Path string // of the member
	// Lines of glue, each AreaM2 / Lines; LengthMM of the blank.
	Lines    int64
	AreaM2   decimal.Decimal
	LengthMM decimal.Decimal
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
	n, err := Clamps(b.LengthMM, y.PitchMM)
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
