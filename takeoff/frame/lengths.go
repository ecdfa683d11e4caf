package frame

import (
	"fmt"
	"slices"

	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/step"

	"github.com/shopspring/decimal"
)

// lengths puts the timber of laminates that are made up on the bill, a line for each different length, and their joints
// with the glue of scarfs. What rips is still counted by laminates; the joints are counted by
// themselves. Butts ask for no glue of their own: what squeezes out of the lines beside them fills them.
func (b *blank) lengths(m MadeUp, thick decimal.Decimal) {
	type like struct {
		span
		count int64
		of    []int // the laminates, from 1
	}
	var all []like
	for k, laminate := range m.ends {
	next:
		for _, s := range laminate {
			for i := range all {
				if all[i].to.Sub(all[i].from).Equal(s.to.Sub(s.from)) {
					all[i].count++
					all[i].of = append(all[i].of, k+1)
					continue next
				}
			}
			all = append(all, like{s, 1, []int{k + 1}})
		}
	}
	given := func(symbol string, d decimal.Decimal, u quantity.Unit) derivation.Input {
		return derivation.Given(symbol, "rules/laminate_joints", d, u)
	}
	slices.SortStableFunc(all, func(x, y like) int { return y.to.Sub(y.from).Cmp(x.to.Sub(x.from)) })
	t := b.t
	for i, l := range all {
		name := fmt.Sprintf("length_%d", i+1)
		long := t.Derive(b.path+"/"+name, "frame/made_up_length", []derivation.Input{given("a", l.from, quantity.Millimetre), given("b", l.to, quantity.Millimetre)})
		t.Derive(b.path+"/"+name+"_pieces", "frame/made_up_pieces", []derivation.Input{given("n", decimal.NewFromInt(l.count), quantity.Each)})
		b.laminate(name+"_timber", laminatesNamed(l.of), b.path+"/"+name+"_pieces", thick, long)
	}
	b.countRipped()
	t.Derive(b.path+"/laminate_joints", "frame/laminate_joints", []derivation.Input{given("n", decimal.NewFromInt(m.Joints), quantity.Each)})
	b.count(step.LaminateJoints, b.path+"/laminate_joints")
	if m.FaceMM == 0 {
		return
	}
	t.Measured(b.path+"/laminate_scarf_face", "frame/laminate_scarf_face", m.FaceMM, t.Ref("t", b.path+"/laminate_thickness"),
		derivation.Given("s", "rules/laminate_joints", b.rules.LaminateJoints.Slope, quantity.Ratio))
	t.Derive(b.path+"/laminate_scarf_area", "frame/laminate_scarf_area", []derivation.Input{
		t.Ref("n", b.path+"/laminate_joints"), t.Ref("F", b.path+"/laminate_scarf_face"), b.siding})
	b.spread("laminate_scarf_glue", b.path+"/laminate_scarf_area", step.LaminateJoints)
	if y := b.rules.Glue.Layup; y != nil {
		t.Derive(b.path+"/laminate_scarf_clamps", "glue/scarf_clamps", []derivation.Input{t.Ref("n", b.path+"/laminate_joints"), t.Ref("m", b.path+"/laminate_thickness"),
			derivation.Given("s", "rules/laminate_joints", b.rules.LaminateJoints.Slope, quantity.Ratio), derivation.Given("p", "rules/glue/layup/clamp_pitch", y.PitchMM, quantity.Millimetre)})
	}
}

// laminatesNamed are laminates by their numbers, counted from the faying face, runs of three or more as such: "laminates 1,
// 3 to 5".
func laminatesNamed(nos []int) string {
	nos = slices.Compact(slices.Clone(nos))
	if len(nos) == 1 {
		return fmt.Sprintf("laminate %d", nos[0])
	}
	out := ""
	for i := 0; i < len(nos); i++ {
		if i > 0 {
			out += ","
		}
		out += fmt.Sprintf(" %d", nos[i])
		end := i
		for end+1 < len(nos) && nos[end+1] == nos[end]+1 {
			end++
		}
		if end >= i+2 {
			out += fmt.Sprintf(" to %d", nos[end])
			i = end
		}
	}
	return "laminates" + out
}
