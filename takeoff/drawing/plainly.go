package drawing

import (
	"fmt"
	"strconv"
)

// plainWord is what a treatment does to a frame, for readers who build no boats.
func (t treatment) plainWord() string {
	return [...]string{"stays as it is", "is replaced", "gets a new part", "gets a new rib beside it", "is not decided yet"}[t]
}

// plainly is the key's line of a treatment, for the same readers.
func (t treatment) plainly() string {
	return [...]string{
		"stays as it is: thin line",
		"is replaced: thick line",
		"gets a new part: thick, joints pointed",
		"gets a new rib beside it: doubled line",
		"is not decided yet: dashed line",
	}[t]
}

// sidesPlainly explains the words that stand on the plan itself.
const sidesPlainly = "The bow is her front end; port is her left side and starboard her right, for somebody looking forward."

// describePlainly says in plain words what is to be seen.
func describePlainly(ribs []rib) string {
	var parts []string
	for t, n := range counted(ribs) {
		if n > 0 {
			parts = append(parts, strconv.Itoa(n)+" "+treatment(t).plainMany(n))
		}
	}
	return "The ribs of the boat seen from above, her front end to the right, her left side above and her right side below, each drawn in its place: " +
		listed(parts) + ". The same stands in the table of the same name."
}

// plainMany is plainWord for so many frames.
func (t treatment) plainMany(n int) string {
	if n == 1 {
		return t.plainWord()
	}
	return [...]string{"stay as they are", "are replaced", "get a new part", "get a new rib beside them", "are not decided yet"}[t]
}

// remarksPlainly are what an owner should know beside what the plan shows.
func (p FramePlan) remarksPlainly(ribs []rib) []string {
	out := []string{sidesPlainly}
	if p.Hull == nil {
		out = append(out, "The boat was not measured: only the places of the ribs along her are true, their reach from side to side is not.")
	}
	missed, parts := 0, 0
	for _, r := range ribs {
		if !r.drawn {
			missed++
		}
		if r.unknownLength(scarf) {
			parts++
		}
	}
	if missed > 0 {
		out = append(out, fmt.Sprintf("%s where the boat was not measured and %s not drawn; the table has them all.",
			plural(missed, "rib stands", "ribs stand"), isAre(missed)))
	}
	if parts > 0 {
		out = append(out, fmt.Sprintf("On %s the length of the new part is not known yet and not drawn.", plural(parts, "rib", "ribs")))
	}
	return out
}

// tablePlainly lists the frames from forward, with what becomes of each.
func (p FramePlan) tablePlainly(ribs []rib) Table {
	t := Table{
		Caption: "Every frame, from her front end on, and what becomes of it; port is her left side and starboard her right",
		Head:    []string{"Frame", "Side", "Letter on the plan", "What becomes of it"},
	}
	if p.Option != "" {
		t.Caption = "Option: " + p.Option + ". " + t.Caption
	}
	for _, r := range ribs {
		word := r.treatment.plainWord()
		if !r.drawn {
			word += " (not drawn)"
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(r.No), string(r.Side), r.treatment.letter(), word})
	}
	return t
}
