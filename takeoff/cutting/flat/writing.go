package flat

import "slices"

// written is a case for the certificate: parted only as far as the floor asks for.
func (v *prover) written(n *node, floor int64) *Case {
	if n.part == nil || n.floor >= floor {
		c := &Case{Worths: slices.Clone(n.worths)}
		for i, class := range v.classes {
			for range class.ids {
				c.Values = append(c.Values, n.values[i])
			}
		}
		return c
	}
	p := n.part
	out := &Parting{Most: p.most, Fewer: v.written(p.fewer, floor), More: v.written(p.more, floor)}
	first := func(lay int) First {
		if v.lays[lay].along {
			return Along
		}
		return Across
	}
	switch p.kind {
	case ofStock:
		out.StockID = v.stock[p.at].ID
	case ofForm:
		f := v.forms[p.at]
		out.StockID, out.First = v.stock[f.stock].ID, first(v.groups[f.group].lay)
	case ofStrips:
		g := v.groups[p.at]
		out.First, out.Length, out.Depth, out.Thickness = first(g.lay), g.room, v.lays[g.lay].levels[p.level], v.lays[g.lay].thick
	}
	return &Case{Part: out}
}
