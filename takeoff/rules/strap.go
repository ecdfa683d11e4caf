package rules

import (
	"strconv"

	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// StrapRule is a strap that runs inside a frame from heel to head: of metal, or of laminated glass in its place.
type StrapRule struct {
	Name  string `json:"name"`
	Width string `json:"width"`
	// Allow is what a strap is cut longer than the frame's inner face; empty for nothing.
	Allow string          `json:"allow,omitempty"`
	Metal *MetalStrapRule `json:"metal,omitempty"`
	Glass *GlassStrapRule `json:"glass,omitempty"`
}

// MetalStrapRule is a bar: what the price sheet calls it, sold by weight.
type MetalStrapRule struct {
	Item      string `json:"item"`
	Thickness string `json:"thickness"`
	KgM3      string `json:"kg_m3"`
	Source    string `json:"source"`
}

// GlassStrapRule is layers of cloth in resin: the cloth's weight, and the share of fibre in the laminate's weight.
type GlassStrapRule struct {
	Cloth      string `json:"cloth"`
	GM2        string `json:"g_m2"`
	Layers     int    `json:"layers"`
	Resin      string `json:"resin"`
	FibreShare string `json:"fibre_share"`
	ResinKgL   string `json:"resin_kg_l"`
	Source     string `json:"source"`
}

// Strap is StrapRule read: Metal or Glass, the other nil. Lengths are mm.
type Strap struct {
	Name         string
	Width, Allow decimal.Decimal
	Metal        *MetalStrap
	Glass        *GlassStrap
}

// MetalStrap is MetalStrapRule read.
type MetalStrap struct {
	Item            string
	Thickness, KgM3 decimal.Decimal
	Source          string
}

// GlassStrap is GlassStrapRule read: g/m2, the share of fibre by weight, kg in a litre.
type GlassStrap struct {
	Cloth, Resin              string
	GM2, FibreShare, ResinKgL decimal.Decimal
	Layers                    int
	Source                    string
}

// Bounds of straps.
const (
	MaxStraps = 40
	mostCloth = 100 // layers
)

// Strap by its name.
func (r Rules) Strap(name string) (Strap, bool) {
	for _, s := range r.Straps {
		if s.Name == name {
			return s, true
		}
	}
	return Strap{}, false
}

func (r *reader) straps(written []StrapRule) []Strap {
	if len(written) > MaxStraps {
		r.faults.Add("/straps", "at most "+strconv.Itoa(MaxStraps), "%d straps are given", len(written))
		return nil
	}
	var out []Strap
	seen := map[string]bool{}
	for i, w := range written {
		p := "/straps/" + strconv.Itoa(i)
		r.named(p+"/name", w.Name)
		if seen[w.Name] {
			r.faults.Add(p+"/name", "each strap once", "%s is given twice", notation.Quote(w.Name))
		}
		seen[w.Name] = true
		s := Strap{Name: w.Name, Width: r.length(p+"/width", w.Width, true)}
		if w.Allow != "" {
			s.Allow = r.length(p+"/allow", w.Allow, false)
		}
		switch {
		case w.Metal != nil && w.Glass == nil:
			s.Metal = &MetalStrap{w.Metal.Item, r.length(p+"/metal/thickness", w.Metal.Thickness, true), r.positive(p+"/metal/kg_m3", w.Metal.KgM3), w.Metal.Source}
			r.named(p+"/metal/item", w.Metal.Item)
			r.named(p+"/metal/source", w.Metal.Source)
		case w.Glass != nil && w.Metal == nil:
			s.Glass = r.glass(p+"/glass", *w.Glass)
		default:
			r.faults.Add(p, "metal or glass, one of the two", "the strap %s is of neither or of both", notation.Quote(w.Name))
		}
		out = append(out, s)
	}
	return out
}

func (r *reader) glass(p string, w GlassStrapRule) *GlassStrap {
	g := &GlassStrap{Cloth: w.Cloth, Resin: w.Resin, Layers: w.Layers, Source: w.Source,
		GM2: r.positive(p+"/g_m2", w.GM2), ResinKgL: r.positive(p+"/resin_kg_l", w.ResinKgL)}
	if g.FibreShare = r.positive(p+"/fibre_share", w.FibreShare); !g.FibreShare.LessThan(decimal.NewFromInt(1)) {
		r.faults.Add(p+"/fibre_share", "the weight of fibre over that of fibre and resin, below 1, for example 0.45", "a share of %s leaves no resin", notation.Quote(w.FibreShare))
	}
	if w.Layers < 1 || w.Layers > mostCloth {
		r.faults.Add(p+"/layers", "from 1 to "+strconv.Itoa(mostCloth), "%d layers", w.Layers)
	}
	r.named(p+"/cloth", w.Cloth)
	r.named(p+"/resin", w.Resin)
	r.named(p+"/source", w.Source)
	return g
}
