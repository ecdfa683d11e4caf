package stagger

import "fmt"

// Check says everywhere that joints do not keep to the rule: middles of joints of each laminate from the faying face, in
// order from the heel. It shares nothing with Arrange but the rule's own words.
func Check(b Blank, t Terms, laminates [][]int64) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	if len(laminates) != b.Laminates {
		say("joints of %d laminates, and there are %d", len(laminates), b.Laminates)
	}
	half := (t.Joint + 1) / 2
	for i, joints := range laminates {
		from, length := int64(0), b.Length
		if k := i - (b.Laminates - len(b.Short)); k >= 0 && k < len(b.Short) {
			length = b.Short[k]
		}
		for k, x := range joints {
			if x-half < 0 || x+half > length {
				say("laminate %d: the joint at %d runs out of the blank", i+1, x)
			}
			if x+half-from > t.Longest {
				say("laminate %d: a length of %d up to the joint at %d", i+1, x+half-from, x)
			}
			for _, s := range b.Barred {
				if x-half < s.To && s.From < x+half || half == 0 && s.From < x && x < s.To {
					say("laminate %d: the joint at %d lies in the stretch from %d to %d", i+1, x, s.From, s.To)
				}
			}
			for j := i; j <= min(i+t.Across, len(laminates)-1); j++ {
				for l, y := range laminates[j] {
					if (j > i || l > k) && max(x-y, y-x)-2*half < t.Apart {
						say("laminates %d and %d: joints at %d and %d", i+1, j+1, x, y)
					}
				}
			}
			from = x - half
		}
		if length-from > t.Longest {
			say("laminate %d: a last length of %d", i+1, length-from)
		}
	}
	return out
}
