package takeoff

import (
	"slices"

	bending "ribband/takeoff/bend"
	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/frame"
	"ribband/takeoff/rules"
)

// Steaming is how frames are bent of solid stock in steam.
type Steaming struct {
	Frames []frame.Steamed `json:"frames"`
	// Pieces are what is bought over the boat, by wood, grade and section.
	Pieces []frame.Alike `json:"pieces"`
	// Stock is how damp the stock should be, and Cautions what to read before bending.
	Stock    bending.Note   `json:"stock"`
	Cautions []bending.Note `json:"cautions"`
}

// steamed takes up how one frame is bent; nil where it is not in steam.
func (r *Result) steamed(s *frame.Steamed) {
	if s == nil {
		return
	}
	if r.Steaming == nil {
		r.Steaming = &Steaming{Pieces: []frame.Alike{}, Stock: bending.Stock(), Cautions: bending.Cautions()}
	}
	r.Steaming.Frames = append(r.Steaming.Frames, *s)
}

// steaming shares the spare pieces over the frames that are bent in steam, and warns where nobody said how many break.
func (b Basis) steaming(out *Result, t *derivation.Table) error {
	pieces, err := frame.Spares(&out.Bill, t)
	if err != nil || out.Steaming == nil {
		return err
	}
	out.Steaming.Pieces = append(out.Steaming.Pieces, pieces...)
	if b.Rules.Steam.LayersGlued {
		out.Bill.Warnings = append(out.Bill.Warnings, dampLayers)
	}
	if !slices.ContainsFunc(b.Rules.ForSteamed(), func(l bill.Loss) bool { return rules.IsBreakage(l.Name) }) {
		out.Bill.Warnings = append(out.Bill.Warnings, bill.Warning{Code: "steam_breakage_not_said",
			Detail: "The yard's rules do not say what share of the pieces bought breaks in bending, so none is had for it. Some always do.",
			Fix:    "Enter the breakage in the rules, under steam: 0 where the yard takes none."})
	}
	return nil
}

// dampLayers is the caution of layers that are glued after they were steamed (common practice, no source).
var dampLayers = bill.Warning{Code: "steamed_layers_damp",
	Detail: "Layers that are bent in steam and then glued to one another come out of the box far wetter than glue takes.",
	Fix:    "Leave each frame's layers clamped dry on its trap until a meter shows the moisture that the glue's maker asks for; then free their faces of what the steam raised, and glue them on the same trap."}
