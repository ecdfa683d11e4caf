package draw

import (
	"fmt"
	"math"
	"strconv"
)

// NumberError: a number that no drawing can hold.
type NumberError struct {
	Where string // the layer
	Value float64
}

func (e *NumberError) Error() string {
	return fmt.Sprintf("drawing, layer %s: %v is not a place on it; numbers are finite and at most %d units", e.Where, e.Value, int(farthest))
}

// farthest is the greatest number that is written. Far above every sheet, far below where hundredths are lost.
const farthest = 1e7

// number is v to the hundredth in its shortest form.
func number(v float64) string {
	v = math.Round(v*100) / 100
	if v == 0 { // also minus zero
		return "0"
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}
