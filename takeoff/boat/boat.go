// Package boat holds what everyone in the yard points at: a side, a member, and what is to be done to it.
package boat

import (
	"cmp"
	"fmt"
)

// Side of the boat. The two sides of an old hull differ and are always measured apart.
type Side string

// Port is left looking forward. Both is only a way of writing two alike; it is expanded on reading.
const (
	Port      Side = "port"
	Starboard Side = "starboard"
	Both      Side = "both"
)

// Sides in the order they are listed.
var Sides = [2]Side{Port, Starboard}

// One reports whether s names exactly one side.
func (s Side) One() bool { return s == Port || s == Starboard }

// Expand is the sides that s stands for; none when s is not a side.
func (s Side) Expand() []Side {
	switch s {
	case Both:
		return []Side{Port, Starboard}
	case Port, Starboard:
		return []Side{s}
	}
	return nil
}

// Other is the opposite side.
func (s Side) Other() Side {
	if s == Port {
		return Starboard
	}
	return Port
}

// Kind of member. Those computed so far are here; the others have their place in the same keys.
type Kind string

// Frame is a transverse rib of the hull, one piece a side. Floor is what crosses the keel and joins the frames of the two
// sides: it is of neither side. Strake is a run of planks along the boat, counted from the garboard.
const (
	Frame  Kind = "frame"
	Floor  Kind = "floor"
	Strake Kind = "strake"
)

// Member names one part of the boat: the kind, its number counted from forward, of a strake from the garboard, and its side; a
// floor has none.
type Member struct {
	Kind Kind `json:"kind"`
	No   int  `json:"no"`
	Side Side `json:"side,omitempty"`
}

// String is how people say it: "frame 12 port", "floor 12".
func (m Member) String() string {
	if m.Side == "" {
		return fmt.Sprintf("%s %d", m.Kind, m.No)
	}
	return fmt.Sprintf("%s %d %s", m.Kind, m.No, m.Side)
}

// Path is the member as the head of a figure's id: "frame/12/port", "floor/12".
func (m Member) Path() string {
	if m.Side == "" {
		return fmt.Sprintf("%s/%d", m.Kind, m.No)
	}
	return fmt.Sprintf("%s/%d/%s", m.Kind, m.No, m.Side)
}

// Run is the members of a kind from this one's number through another, on each side that it names; of floors on none. It
// is empty where the side is not known.
func (m Member) Run(through int) []Member {
	sides := m.Side.Expand()
	if m.Kind == Floor && m.Side == "" {
		sides = []Side{""}
	}
	var out []Member
	for no := m.No; no <= max(m.No, through); no++ {
		for _, side := range sides {
			out = append(out, Member{m.Kind, no, side})
		}
	}
	return out
}

// Compare orders members by kind, number from forward, then port before starboard.
func Compare(a, b Member) int {
	return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.No, b.No), cmp.Compare(a.Side, b.Side))
}

// Remedy is what is to be done to a member.
type Remedy string

// Leave a member as it is; replace it by a new one glued up of laminates, or by a steamed one; scarf new pieces into it
// where it is broken or decayed; or double it by a sister where it is broken.
const (
	Leave            Remedy = "leave"
	ReplaceLaminated Remedy = "replace_laminated"
	ReplaceSteamed   Remedy = "replace_steamed"
	ScarfIn          Remedy = "scarf_in"
	Sister           Remedy = "sister"
	// Of floors: one sawn from wide stock, or a strap of metal or laminated glass.
	ReplaceSawn  Remedy = "replace_sawn"
	ReplaceStrap Remedy = "replace_strap"
	// RenewPlank is what is done to a strake: one of its planks is replaced by a new one. It is said with the planks of an
	// option, never with its remedies.
	RenewPlank Remedy = "renew_plank"
)

// Remedies that can be computed, in the order they are offered.
var Remedies = []Remedy{Leave, ReplaceLaminated, ReplaceSteamed, ScarfIn, Sister, ReplaceSawn, ReplaceStrap, RenewPlank}

// Known reports whether r is one of Remedies.
func (r Remedy) Known() bool {
	for _, k := range Remedies {
		if r == k {
			return true
		}
	}
	return false
}

// RestsOn says what a measure was taken from.
type RestsOn string

// A measure rests on the hull's stations, on a pattern picked up off the frame, or on a tape.
const (
	OnStations RestsOn = "stations"
	OnPattern  RestsOn = "pattern"
	OnTape     RestsOn = "tape"
)
