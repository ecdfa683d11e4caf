package app

import (
	"fmt"
	"slices"

	"ribband/pricing/buy"
	"ribband/takeoff/bill"
	"ribband/takeoff/step"
)

// plankScarfs warns where a list makes planks of two parts: it places each scarf by what its boards give and does not look at the
// strakes above and below. That scarfs and butts of neighbouring strakes are kept apart is common practice, no source.
func plankScarfs(l buy.List) []bill.Warning {
	planks := func(line string) bool {
		return slices.ContainsFunc(l.Shares, func(s buy.Share) bool { return s.Line == line && s.Driver == string(step.Planks) })
	}
	count := int64(0)
	for _, t := range l.Timber {
		if t.Scarfed == nil {
			continue
		}
		for _, j := range t.Scarfed.Joints {
			if planks(j.Line) {
				count += j.Count
			}
		}
	}
	if count == 0 {
		return nil
	}
	return []bill.Warning{{Code: "planks_scarfed",
		Detail: fmt.Sprintf("Planks are made of two parts, %d in all; each scarf lies where its boards let it, whatever the strakes beside it have there.", count),
		Fix:    "Before cutting, turn planks end for end where scarfs or butts of neighbouring strakes would come near one another; how far apart they must be, the surveyor says."}}
}
