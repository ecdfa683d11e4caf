package takeoff

import (
	"fmt"
	"strings"

	"ribband/takeoff/bill"
	"ribband/takeoff/boat"
	"ribband/takeoff/finding"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/plank"
)

// damaged is a frame that stays as it is, and what was found broken or decayed in it.
type damaged struct {
	frame boat.Member
	bad   []finding.Stretch
}

// damageTold is how many stretches of damage are told one by one. An option of something else, planks or floors, leaves every bad
// frame of the boat: what then runs into pages is not read. An assumption, no source.
const damageTold = 12

// damageLeft are the warnings of frames that nothing is done to although they are bad: each by itself, or one of them all where
// they are many.
func (b Basis) damageLeft(frames []damaged) []bill.Warning {
	const fix = "Choose a remedy for the frame, or have the surveyor say in writing that it may stay."
	var out []bill.Warning
	var names []string
	for _, f := range frames {
		if len(f.bad) > 0 {
			names = append(names, fmt.Sprintf("%d %s", f.frame.No, f.frame.Side))
		}
		for _, bad := range f.bad {
			out = append(out, bill.Warning{
				Code: "damage_left", Member: &f.frame,
				Detail: fmt.Sprintf("Frame %d %s is left as it is, and was found %s %s.", f.frame.No, f.frame.Side, bad.State, b.where(bad)),
				Fix:    fix,
			})
		}
	}
	if len(out) <= damageTold {
		return out
	}
	return []bill.Warning{{Code: "damage_left",
		Detail: fmt.Sprintf("%d frames are left as they are, and were found broken or decayed: %s. Where along them stands with the job's findings.", len(names), strings.Join(names, ", ")),
		Fix:    "Choose remedies for them, or have the surveyor say in writing that they may stay.",
	}}
}

// hungOnDamage warns of frames that a new plank is to be fastened to where they are broken or decayed and are left so. The share
// of the girth is taken for that of the frame's own, as where fastenings are counted.
func (b Basis) hungOnDamage(j plank.Job, crossings []planking.Crossing, at map[boat.Member]stand, left []damaged) []bill.Warning {
	var names []string
	for _, c := range crossings {
		m := boat.Member{Kind: boat.Frame, No: c.No, Side: j.Member.Side}
		girth := at[m].shape.Girth
		for _, f := range left {
			if f.frame != m {
				continue
			}
			for _, bad := range f.bad {
				if bad.From.InexactFloat64() < c.Upper*girth && (bad.ToHead || bad.To.InexactFloat64() > c.Lower*girth) {
					names = append(names, fmt.Sprint(c.No))
					break
				}
			}
		}
	}
	if names == nil {
		return nil
	}
	m := j.Member
	of := "frames "
	if len(names) == 1 {
		of = "frame "
	}
	return []bill.Warning{{Code: "plank_hung_on_damage", Member: &m,
		Detail: fmt.Sprintf("%s: it is fastened to %s%s where broken or decayed wood is left.", j.Name(), of, strings.Join(names, ", ")),
		Fix:    "Mend or renew the frames while the old plank is off: fastenings hold no better than the wood they are in, and the plank comes off again for it later.",
	}}
}
