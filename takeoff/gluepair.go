package takeoff

import (
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/timber"
)

// gluePair warns where a wood is a doubtful partner of the yard's glue, and asks for a trial block.
func gluePair(wood timber.Species, glue string) (bill.Warning, bool) {
	if !wood.Gluing.Doubtful {
		return bill.Warning{}, false
	}
	return bill.Warning{
		Code:   "doubtful_glue_pair",
		Detail: fmt.Sprintf("%s glued with %s may not hold: %s", wood.Name, strings.ReplaceAll(glue, "_", " "), wood.Gluing.Text),
		Fix:    "Glue a trial block of this stock with this glue, let it cure, soak and dry it, and split it: the wood must fail before the glue line.",
	}, true
}
