package frame_test

import (
	"testing"

	"ribband/takeoff/boat"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Sources stand in testdata/published/timber-figures.
func TestLaminateArithmeticPublished(t *testing.T) {
	// 68 plies of 1/4 in are 17 in deep (a glued-laminated maker's pages, 2021).
	f := frame.Frame{No: 1, Side: boat.Port, Siding: mm("2"), Moulded: mm("17").Sub(mm("0.125"))}
	_, table := replace(t, f, bilge(1e5, 2000), shopRules(t, "1/4"))
	if n := value(t, table, "frame/1/port/laminates"); n != "68" {
		t.Errorf("17 in takes %s laminates of 1/4 in, 68 published", n)
	}
	// Springback y = x / n2 (second-hand): a form for 3 in of camber in 4 plies is 3 n2/(n2 - 1) = 3.2 in, and springs
	// back by 3.2/16 = 0.2 in to 3 in; a 3 in form springs 3/16 in.
	table = derivation.NewTable()
	n4 := derivation.Given("n", "published", decimal.NewFromInt(4), quantity.Each)
	ratio := table.Derive("springback", "frame/springback", []derivation.Input{n4}).Value()
	form := ratio.Mul(decimal.NewFromInt(3))
	if form.StringFixed(3) != "3.200" {
		t.Errorf("the form for 3 in is %s in, 3.2 wanted", form)
	}
	spring := form.DivRound(decimal.NewFromInt(16), 3)
	if back := form.Sub(spring).StringFixed(2); back != "3.00" {
		t.Errorf("a form of %s in springs back to %s in, 3 in wanted", form, back)
	}
}

// A board foot is 1/12 ft3, exactly 0.002359737216 m3 (UN/ECE Recommendation 20, rev. 12e, 2016; metric derived).
func TestBoardFeetOfAVolume(t *testing.T) {
	table := derivation.NewTable()
	// 2 x 6 in x 8 ft is 8 board feet: 0.018877897728 m3
	v := derivation.Given("V", "published", decimal.RequireFromString("0.018877897728"), quantity.CubicMetre)
	if b := table.Derive("board_feet", "timber/board_feet", []derivation.Input{v}); b.String() != "8.00" {
		t.Errorf("2 x 6 in x 8 ft is %s board feet, 8 wanted", b)
	}
}
