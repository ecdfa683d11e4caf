package offsets

import "strings"

// places says where in a CSV the cells of the document made from it stood, by JSON pointer.
type places struct{ at map[string]place }

type place struct{ row, column int }

func (p *places) put(pointer string, row, column int) {
	if _, ok := p.at[pointer]; !ok {
		p.at[pointer] = place{row, column}
	}
}

// locate gives each fault its row and column: those of its pointer, or of the nearest part of the document that
// holds it. Faults of a document that came as JSON are left as they are.
func (p *places) locate(list []Fault) []Fault {
	if p == nil {
		return list
	}
	for i := range list {
		f := &list[i]
		for at := f.Pointer; at != "" && f.Row == 0; at = at[:strings.LastIndexByte(at, '/')] {
			if c, ok := p.at[at]; ok {
				f.Row, f.Column = c.row, c.column
			}
		}
	}
	return list
}
