package quantity_test

import (
	"encoding/json"
	"errors"
	"math"
	"testing"

	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// A depth of twelve laminates divided by their thickness comes out a hair above twelve in binary on some thicknesses;
// the count must not.
func TestCountsAreDecidedOnSnappedFloats(t *testing.T) {
	raised := 0
	for i := 1; i <= 400; i++ {
		thickness := float64(i) * 0.1
		total := 0.0
		for range 12 {
			total += thickness
		}
		x := total / thickness
		if math.Ceil(x) != 12 {
			raised++
		}
		if n, err := quantity.CeilCount(x); err != nil || n != 12 {
			t.Errorf("12 laminates of %v mm counted as %d (%v)", thickness, n, err)
		}
	}
	if raised == 0 {
		t.Error("no pair came out above 12 in binary: the test proves nothing")
	}
}

func TestMeasuresRoundOnceAwayFromZero(t *testing.T) {
	for _, c := range []struct {
		x    float64
		unit quantity.Unit
		want string
	}{
		{1.0005, quantity.Metre, "1.001"}, {-1.0005, quantity.Metre, "-1.001"}, {2.675, quantity.Litre, "2.68"},
		{0.30000000000000004, quantity.CubicMetre, "0.300000"}, {12.000000000000002, quantity.Each, "12"},
	} {
		q, err := quantity.FromMeasured(c.x, c.unit)
		if err != nil || q.String() != c.want {
			t.Errorf("%v %s is %s (%v), want %s", c.x, c.unit, q, err, c.want)
		}
	}
	if q, err := quantity.CeilMeasured(1.0001, quantity.Metre); err != nil || q.String() != "1.001" {
		t.Errorf("rounded up: %s (%v)", q, err)
	}
}

func TestWhatIsNoMeasure(t *testing.T) {
	for _, x := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), 1e12, -1e300} {
		var no *quantity.NotMeasurableError
		if q, err := quantity.FromMeasured(x, quantity.Metre); !errors.As(err, &no) {
			t.Errorf("%v was taken as %s (%v)", x, q, err)
		}
	}
	var unit *quantity.UnitError
	if _, err := quantity.FromMeasured(1, "cubit"); !errors.As(err, &unit) {
		t.Errorf("cubits: %v", err)
	}
	if _, err := quantity.Count(1).Add(quantity.Zero(quantity.Metre)); !errors.As(err, &unit) {
		t.Errorf("a piece and a metre: %v", err)
	}
}

func TestQuantityInJSON(t *testing.T) {
	q, err := quantity.Of(decimal.RequireFromString("12.5"), quantity.BoardFoot)
	if err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(q)
	if err != nil || string(b) != `{"value":"12.50","unit":"board_ft"}` {
		t.Fatalf("%s %v", b, err)
	}
	var back quantity.Quantity
	if err := json.Unmarshal(b, &back); err != nil || !back.Equal(q) {
		t.Errorf("%s %v", back, err)
	}
	for _, bad := range []string{`{"value":12.5,"unit":"board_ft"}`, `{"value":"12.555","unit":"board_ft"}`, `{"value":"1","unit":"cubit"}`,
		`{"value":"1e9","unit":"m"}`, `{"value":"","unit":"m"}`, `{}`} {
		if err := json.Unmarshal([]byte(bad), &back); err == nil {
			t.Errorf("%s was read as %s", bad, back)
		}
	}
}

func TestSnapDecimalKeepsTwelveDigits(t *testing.T) {
	for in, want := range map[string]string{
		"0": "0", "12": "12", "12.00000000005": "12.0000000001", "12.000000000000002": "12", "11.9999999999999": "12",
		"-12.0000000000001": "-12", "0.00123456789012345": "0.00123456789012", "1234567890123456": "1234567890120000",
	} {
		if got := quantity.SnapDecimal(decimal.RequireFromString(in)); !got.Equal(decimal.RequireFromString(want)) {
			t.Errorf("%s is snapped to %s, %s wanted", in, got, want)
		}
	}
}
