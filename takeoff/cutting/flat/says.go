package flat

import "fmt"

// Says tells every cut of a layout in words, with lengths and pieces as they are called.
func (y Laid) Says(roll bool, length func(int64) string, piece func(id string) string) []string {
	out := make([]string, len(y.Cuts))
	for i, c := range y.Cuts {
		out[i] = c.Says(roll, length, piece)
	}
	return out
}

// Says tells one cut.
func (c SawCut) Says(roll bool, length func(int64) string, piece func(string) string) string {
	times, what := "", length(c.Measure)
	if c.Times > 1 {
		times = fmt.Sprintf(", %d times", c.Times)
	}
	saw := "Crosscut"
	if c.Runs == Along {
		saw = "Rip"
	}
	name := piece(c.PieceID)
	if c.Paired {
		name = "two of " + name + ", to be parted last"
	}
	switch c.Frees {
	case Edge:
		if roll {
			return "Trim " + what + " off both edges."
		}
		return "Trim " + what + " off all four edges."
	case AStrip:
		if roll {
			return fmt.Sprintf("Cut off %s%s.", what, times)
		}
		return fmt.Sprintf("%s at %s%s, for strips.", saw, what, times)
	case AStack:
		return fmt.Sprintf("%s: %s at %s%s, to be cut on.", c.Of, lower(saw), what, times)
	case Surplus:
		return fmt.Sprintf("%s: %s %s down to %s.", c.Of, lower(saw), name, what)
	}
	return fmt.Sprintf("%s: %s at %s%s, for %s.", c.Of, lower(saw), what, times, name)
}

func lower(saw string) string {
	if saw == "Rip" {
		return "rip"
	}
	return "crosscut"
}

// String names what is cut: "Strips 2 to 4, pieces 1 to 3 of each".
func (p Place) String() string {
	if p.FirstStrip == 0 {
		return "The sheet"
	}
	out, each := fmt.Sprintf("Strip %d", p.FirstStrip), "of it"
	if p.LastStrip > p.FirstStrip {
		out, each = fmt.Sprintf("Strips %d to %d", p.FirstStrip, p.LastStrip), "of each"
	}
	switch {
	case p.FirstStack == 0:
	case p.LastStack > p.FirstStack:
		out += fmt.Sprintf(", lengths %d to %d %s", p.FirstStack, p.LastStack, each)
	default:
		out += fmt.Sprintf(", length %d %s", p.FirstStack, each)
	}
	return out
}
