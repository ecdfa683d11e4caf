package drawing

import (
	"fmt"
	"strconv"
	"strings"
)

// Steps are what is done with the i-th kind of board, in order.
func (r RippingList) Steps(i int) []string {
	b := r.Boards[i]
	out := r.rip(b)
	if b.RandomWidth {
		out = append([]string{"These boards come in random widths: rip out of each as many strips as it gives, the next board after it, until all that are listed are there. What stays over of the last is kept."}, out...)
	}
	for k, s := range b.Strips {
		if s.OfLength > 0 && (k == 0 || b.Strips[k-1].OfLength != s.OfLength) {
			out = append(out, r.ripLength(b, s.OfLength))
		}
		if len(s.Pieces) == 0 {
			if len(b.Rest) == 0 {
				out = append(out, fmt.Sprintf("Lay %d aside whole, %s.", s.Count, r.length(s.Over)))
			}
			continue
		}
		of := strconv.FormatInt(s.Count, 10)
		if s.Width > 0 {
			of += " of " + r.length(s.Width) + " wide"
		}
		text := "Of " + of + " cut"
		if b.EndTrim > 0 && s.OfLength == 0 {
			text = fmt.Sprintf("Take %s off each end of %s, then cut", r.length(b.EndTrim), of)
		}
		for k, p := range s.Pieces {
			if k > 0 {
				text += ","
			}
			text += fmt.Sprintf(" %d of %s for %s", p.Count, r.length(p.Length), p.Label)
			if p.Width > 0 {
				text += ", ripped to " + r.length(p.Width) + " wide"
			}
			if p.Scarf != nil {
				text += fmt.Sprintf(" (a half, the last %s of it tapered to nothing, %s)", r.length(p.Scarf.Taper), p.Scarf.where())
			}
		}
		text += "."
		if left, becomes := r.left(s); left != "" {
			text += map[string]string{"kept": " Keep the " + left + " left of each.", "not said": " " + left + " is left of each.", "too short to keep": " The " + left + " left of each is too short to keep."}[becomes]
		}
		out = append(out, text)
	}
	for _, rest := range b.Rest {
		text := fmt.Sprintf("%s stays uncut, %s thick, %s wide, %s long", plural(int(rest.Count), "part", "parts"), r.length(rest.Thickness), r.length(rest.Width), r.length(rest.Length))
		if rest.Count == 1 {
			text = strings.Replace(text, "1 part stays", "The rest stays", 1)
		} else {
			text = strings.Replace(text, "stays", "stay", 1)
		}
		switch {
		case rest.Keep == nil:
		case *rest.Keep:
			text += ": keep it"
		case 2*rest.Width < rest.Thickness:
			text += ", too narrow to keep"
		default:
			text += ", too short to keep"
		}
		out = append(out, text+".")
	}
	return out
}

// rip is how the strips are got out of a board, the first of its steps.
func (r RippingList) rip(b SawnBoard) []string {
	strips := int64(0)
	for _, s := range b.Strips {
		if len(s.Pieces) > 0 || len(b.Rest) == 0 {
			strips += s.Count
		}
	}
	if strips == 0 {
		return []string{"Leave it whole: nothing is cut from it."}
	}
	if len(b.Lengths) > 0 {
		return []string{r.crosscut(b)}
	}
	if b.Strips[0].Width > 0 {
		return []string{r.sideBySide("Rip along the length", b.Strips)}
	}
	n, size := plural(int(strips), "strip", "strips"), r.Strip()
	if b.Flat {
		size = r.length(b.Across) + " wide, lying flat"
	}
	switch w := b.Resaw; {
	case w == nil && b.Flat:
		return []string{fmt.Sprintf("Rip %s, %s, and plane them down from the board's thickness.", n, size)}
	case w == nil:
		return []string{fmt.Sprintf("Rip %s, %s.", n, size)}
	case w.RipFirst:
		return []string{
			fmt.Sprintf("Rip %s, %s: the board is too wide for the guide.", plural(int((strips+w.Off-1)/w.Off), "strip", "strips"), r.wide(b)),
			fmt.Sprintf("Resaw each into %s, %s thick, %s goes at each cut: %s.", plural(int(w.Off), "layer", "layers"), r.length(w.Thick), r.length(w.Kerf), n),
		}
	case w.All:
		return []string{
			fmt.Sprintf("Resaw into %s first, %s thick, %s goes at each cut.", plural(int(w.Off), "layer", "layers"), r.length(w.Thick), r.length(w.Kerf)),
			fmt.Sprintf("Rip %s out of them, %s.", n, r.wide(b)),
		}
	default:
		return []string{
			fmt.Sprintf("Resaw %s off first, %s thick, %s goes at each cut.", plural(int(w.Off), "layer", "layers"), r.length(w.Thick), r.length(w.Kerf)),
			fmt.Sprintf("Rip %s out of what comes off, %s.", n, r.wide(b)),
		}
	}
}

// sideBySide tells the strips of several widths in the order they are ripped.
func (r RippingList) sideBySide(how string, strips []SawnStrip) string {
	for i, s := range strips {
		if i > 0 {
			how += ","
		}
		how += fmt.Sprintf(" %s %s wide", plural(int(s.Count), "strip", "strips"), r.length(s.Width))
	}
	return how + "."
}

// wide is how wide strips are ripped.
func (r RippingList) wide(b SawnBoard) string { return r.length(b.Across) + " wide" }
