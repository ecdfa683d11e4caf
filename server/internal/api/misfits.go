package api

import (
	"encoding/json"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/document"
)

// misfits is what does not fit the form of a body. in is the body.
type misfits struct {
	document.Faults
	in *node
}

// Unwrap is them as those of any document.
func (m *misfits) Unwrap() error { return m.Faults }

// with is the misfits and what else is wrong, in the order of the body. A fault of the content that lies where
// something does not fit, above it or below it, is left out: it may only follow from that.
func (m *misfits) with(content document.Faults) document.Faults {
	out := slices.Clone(m.Faults)
	for _, c := range content {
		if !slices.ContainsFunc(m.Faults, func(f document.Fault) bool { return within(c.Pointer, f.Pointer) || within(f.Pointer, c.Pointer) }) {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(a, b document.Fault) int { return slices.Compare(m.in.place(a.Pointer), m.in.place(b.Pointer)) })
	return out
}

// within reports whether a pointer is another one or lies below it.
func within(pointer, other string) bool {
	return pointer == other || strings.HasPrefix(pointer, other+"/")
}

// steps are a pointer's reference tokens.
func steps(pointer string) []string {
	if pointer == "" {
		return nil
	}
	return strings.Split(pointer[1:], "/")
}

// place is where a pointer leads in the body, level by level. What is missing comes after what is there.
func (n *node) place(pointer string) []int {
	var out []int
	for _, step := range steps(pointer) {
		at := -1
		var next *node
		if n != nil {
			at, next = n.child(step)
			if next == nil {
				at = len(n.fields) + len(n.items)
			}
		}
		out, n = append(out, at), next
	}
	return out
}

// child is the value that a step of a pointer leads to, and which one it is; nil where there is none.
func (n *node) child(step string) (int, *node) {
	if n.kind == array {
		if i, err := strconv.Atoi(step); err == nil && i >= 0 && i < len(n.items) {
			return i, n.items[i]
		}
		return 0, nil
	}
	for i, x := range n.fields {
		if escape(x.name) == step {
			return i, x.value
		}
	}
	return 0, nil
}

// clear takes the text away that a pointer leads to.
func (n *node) clear(pointer string) {
	for _, step := range steps(pointer) {
		if _, n = n.child(step); n == nil {
			return
		}
	}
	if n.kind == text {
		n.text = ""
	}
}

// empty makes the node what an empty t is written as.
func (n *node) empty(t reflect.Type) {
	*n = node{kind: kindOf(t)}
	switch {
	case t == decimalType:
		n.text = "0"
	case t == timeType:
		n.text = "0001-01-01T00:00:00Z"
	case n.kind == number:
		n.text = "0"
	case n.kind == boolean:
		n.text = "false"
	}
}

// appendJSON writes the node as JSON again, without the fields that are not taken over.
func (n *node) appendJSON(b []byte) []byte {
	switch n.kind {
	case null:
		return append(b, "null"...)
	case text:
		return appendText(b, n.text)
	case array:
		b = append(b, '[')
		for i, x := range n.items {
			if i > 0 {
				b = append(b, ',')
			}
			b = x.appendJSON(b)
		}
		return append(b, ']')
	case object:
		b = append(b, '{')
		first := true
		for _, x := range n.fields {
			if x.out {
				continue
			}
			if !first {
				b = append(b, ',')
			}
			first = false
			b = append(appendText(b, x.name), ':')
			b = x.value.appendJSON(b)
		}
		return append(b, '}')
	}
	return append(b, n.text...)
}

func appendText(b []byte, s string) []byte {
	quoted, err := json.Marshal(s)
	if err != nil {
		return append(b, `""`...) // a text is always written
	}
	return append(b, quoted...)
}
