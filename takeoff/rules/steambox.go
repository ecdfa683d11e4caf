package rules

import "github.com/shopspring/decimal"

// SteamBoxRule is the steam box inside: how long, wide and high it is, and how far pieces lie apart in it so that steam gets all
// round them; empty takes DefaultBoxApart.
type SteamBoxRule struct {
	Length string `json:"length"`
	Width  string `json:"width"`
	Height string `json:"height"`
	Apart  string `json:"apart,omitempty"`
	Source string `json:"source"`
}

// SteamBox is SteamBoxRule read, mm.
type SteamBox struct {
	Length, Width, Height, Apart decimal.Decimal
	Source                       string
}

// DefaultBoxApart is half an inch in millimetres, a sticker's thickness (common practice, no source).
var DefaultBoxApart = decimal.RequireFromString("12.7")

func (r *reader) steamBox(d *SteamBoxRule) *SteamBox {
	if d == nil {
		return nil
	}
	const p = "/steam/box"
	b := &SteamBox{Length: r.stock(p+"/length", d.Length), Width: r.length(p+"/width", d.Width, true), Height: r.length(p+"/height", d.Height, true), Apart: DefaultBoxApart, Source: d.Source}
	if d.Apart != "" {
		b.Apart = r.length(p+"/apart", d.Apart, false)
	}
	r.named(p+"/source", d.Source)
	return b
}
