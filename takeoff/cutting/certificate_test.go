package cutting_test

import (
	"testing"

	"ribband/takeoff/cutting"
)

// The certificate of a true answer holds whatever else stands on the list: a piece that may be scarfed and is not wanted, whose joint
// has a price that boards' prices share no unit with; a board a kilometre long that is not for sale; a rate that no left-over earns,
// because all are shorter than it is for.
func TestCertificatesHoldBesideWhatDoesNotCount(t *testing.T) {
	scarf := &cutting.Scarf{Price: 7, Length: 400, Least: 1000, Step: 500}
	solve(t, []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}, []cutting.Piece{{"a", 1400, 3, false}, {"b", 2000, 0, true}}, cutting.Rules{Kerf: 4, Scarf: scarf})
	solve(t, []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}, {"far", cutting.MaxLength, 4000, 1, 0, 0}}, []cutting.Piece{{"a", 1401, 3, false}}, cutting.Rules{Kerf: 4})
	solve(t, []cutting.Stock{{"3000", 3000, 4000, 1, -1, 0}}, []cutting.Piece{{"a", 1400, 3, false}}, cutting.Rules{Kerf: 4, Keep: &cutting.Keep{Least: 1, Per: 3001, Rate: 1 << 40}})
}
