package frame

import (
	"math"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull"
	"ribband/takeoff/quantity"

	"github.com/shopspring/decimal"
)

// Square says that the frame stands square across the boat.
func (f Frame) Square() bool { return f.Cant.IsZero() && f.Lean.IsZero() && !f.Flat() }

// Plane that the frame's moulding face lies in; of one that lies flat on the planking that which is square at its heel.
func (f Frame) Plane() hull.Plane {
	return hull.Plane{X: f.X.InexactFloat64(), Cant: f.Cant.InexactFloat64() * math.Pi / 180, Lean: f.Lean.InexactFloat64()}
}

// Body is where the frame's timber lies from its moulding face.
func (f Frame) Body() hull.Body {
	if f.MouldingFace == Aft {
		return hull.Before
	}
	return hull.Abaft
}

// mostCant, degrees, is what hull.MaxCant is.
var mostCant = decimal.NewFromInt(60)

// stance reads how a row's frame stands.
func (r *reader) stance(p string, row Row) (cant, lean decimal.Decimal) {
	if row.CantDeg != "" {
		d, err := quantity.ParseDecimal(row.CantDeg)
		switch {
		case err != nil:
			r.faults.Add(p+"/cant_deg", "degrees from square across the boat, for example 12.5", "%v", err)
		case d.Abs().GreaterThan(mostCant):
			r.faults.Add(p+"/cant_deg", "from -60 to 60 degrees from square across the boat, measured on the level", "frame %d %s: a cant of %s degrees", row.No, row.Side, d)
		default:
			cant = d
		}
	}
	if row.Lean != "" {
		before := len(r.faults)
		d, most := r.length(p+"/lean", row.Lean), decimal.NewFromInt(MaxGirth)
		if r.n.Known() && len(r.faults) == before && d.Abs().GreaterThan(most) {
			r.faults.Add(p+"/lean", "at most "+most.String()+" mm either way", "frame %d %s: a lean of %s mm", row.No, row.Side, d)
		}
		lean = d
	}
	if row.Tape != nil && row.Target != FromLines && row.Target != Faired {
		const detail = "frame %d %s was taken by a tape, which is laid along it however it stands: nothing follows from its %s"
		fix := "leave it out; or choose the target from_lines or faired, which give it a shape in its own plane"
		if row.CantDeg != "" {
			r.faults.Add(p+"/cant_deg", fix, detail, row.No, row.Side, "cant")
		}
		if row.Lean != "" {
			r.faults.Add(p+"/lean", fix, detail, row.No, row.Side, "lean")
		}
	}
	return cant, lean
}

// alike: a frame can be given the mirrored shape of the other side only where the two stand alike.
func alike(frames []Frame, faults *document.Faults) {
	at := map[boat.Member]Frame{}
	for _, f := range frames {
		at[f.Member()] = f
	}
	for _, f := range frames {
		better, ok := at[boat.Member{Kind: boat.Frame, No: f.No, Side: f.BetterSide}]
		if f.Wanted() != BetterSideMirrored || !ok || f.Cant.Equal(better.Cant) && f.Lean.Equal(better.Lean) && !better.Flat() {
			continue
		}
		if better.Flat() {
			faults.Add("/frames", "another target, or no run", "frame %d: %s is to be as %s is, mirrored, and that lies flat on the planking", f.No, f.Side, better.Side)
			continue
		}
		faults.Add("/frames", "the same cant_deg and lean on both sides, or another target",
			"frame %d: %s is to be as %s is, mirrored, and the two do not stand alike: cant %s and %s degrees, lean %s and %s mm",
			f.No, f.Side, better.Side, f.Cant, better.Cant, f.Lean, better.Lean)
	}
}
