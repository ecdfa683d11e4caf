package takeoff

import (
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/timber"
)

// oldWood is the wood of the frame as it stands, to which a piece or a sister is glued; false where it is not written down, or is none of
// the yard's.
func (b Basis) oldWood(m boat.Member) (timber.Species, bool) {
	for _, f := range b.Frames {
		if f.Member() == m && f.Species != "" {
			return b.Species.Find(f.Species)
		}
	}
	return timber.Species{}, false
}

// unknownWood is what a joint asks for whose old wood nobody wrote down.
const unknownWood = "The old frame's wood is not written down: glue a trial block on a piece of it first."

// joined is what both woods of a joint ask of the glue; empty where they ask nothing.
func joined(wood, old timber.Species, known bool) string {
	var out []string
	if wood.Gluing.Doubtful {
		out = append(out, wood.Gluing.Text)
	}
	switch {
	case !known:
		out = append(out, unknownWood)
	case old.Gluing.Doubtful && old.Code != wood.Code:
		out = append(out, "The old frame is of "+lowered(old.Name)+": "+old.Gluing.Text)
	}
	return strings.Join(out, " ")
}

// lowered is a wood's name within a sentence.
func lowered(name string) string {
	if name == "" {
		return name
	}
	return strings.ToLower(name[:1]) + name[1:]
}

// oldWoods are the warnings of joints in the hull by the wood that they are glued to: one for each wood that is doubtful, and one for
// all of which it is not known. paired are woods that were warned of already.
func (b Basis) oldWoods(joints []boat.Member, paired map[string]bool) []bill.Warning {
	var out []bill.Warning
	var unknown []string
	seen := map[boat.Member]bool{}
	for _, m := range joints {
		if seen[m] {
			continue
		}
		seen[m] = true
		old, known := b.oldWood(m)
		if !known {
			unknown = append(unknown, strings.TrimPrefix(m.String(), "frame "))
			continue
		}
		if w, doubtful := gluePair(old, b.Rules.Glue.Item); doubtful && !paired[old.Code] {
			paired[old.Code] = true
			out = append(out, w)
		}
	}
	if unknown == nil {
		return out
	}
	return append(out, bill.Warning{Code: "old_wood_unknown",
		Detail: fmt.Sprintf("New wood is glued to old frames whose wood is not written down, or is none of the yard's species: %s. Whether the glue holds on it cannot be told.", strings.Join(unknown, ", ")),
		Fix:    "Write the species of the old frames with the frames; until then glue a trial block on a piece of one that comes out, and split it."})
}
