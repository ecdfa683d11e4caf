package glue

import (
	"math"

	"ribband/takeoff/quantity"
)

// LineArea is the glue of a blank of n laminates, m2: n - 1 lines as wide and long as the blank, mm.
func LineArea(laminates int64, width, length float64) (float64, error) {
	if laminates < 1 {
		return 0, &InputError{"laminates", "a blank has at least one", "1 or more"}
	}
	return area(float64(laminates-1), width, length)
}

// ScarfFace is one face of a scarf of slope:1 across a piece thickness by width, m2.
func ScarfFace(thickness, slope, width float64) (float64, error) {
	if !(slope > 0) {
		return 0, &InputError{"slope", "a scarf lies along the piece", "a slope above 0, as 8 for 8:1"}
	}
	return area(thickness, math.Hypot(1, slope), width)
}

func area(times, a, b float64) (float64, error) {
	mm2 := times * a * b
	if !(times >= 0 && a > 0 && b > 0) {
		return 0, &InputError{"size", "a glued face has a length and a width", "millimetres above 0"}
	}
	if _, err := quantity.FromMeasured(mm2/1e6, quantity.SquareMetre); err != nil {
		return 0, err
	}
	return mm2 / 1e6, nil
}
