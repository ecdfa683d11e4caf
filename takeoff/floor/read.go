package floor

import (
	"sort"
	"strconv"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"

	"github.com/shopspring/decimal"
)

// Read takes the floors over, sorted by number, or says everything that is wrong.
func Read(d Document) ([]Floor, document.Faults) {
	r := &reader{n: d.Notation}
	if !d.Notation.Known() {
		r.faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(d.Notation)))
		return nil, r.faults
	}
	if len(d.Floors) > MaxFloors {
		r.faults.Add("/floors", "at most "+strconv.Itoa(MaxFloors)+" floors", "%d floors are given", len(d.Floors))
		return nil, r.faults
	}
	seen := map[int]int{}
	var out []Floor
	for i, row := range d.Floors {
		p := "/floors/" + strconv.Itoa(i)
		if j, twice := seen[row.No]; twice {
			r.faults.Add(p+"/no", "each floor once", "floor %d is already given in /floors/%d", row.No, j)
		}
		seen[row.No] = i
		out = append(out, r.row(p, row))
	}
	sort.Slice(out, func(i, j int) bool { return out[i].No < out[j].No })
	return out, r.faults
}

type reader struct {
	n      notation.Notation
	faults document.Faults
}

func (r *reader) row(p string, row Row) Floor {
	if row.No < 0 || row.No > MaxNo {
		r.faults.Add(p+"/no", "from 0 to "+strconv.Itoa(MaxNo), "%d is not a floor's number", row.No)
	}
	f := Floor{No: row.No, Stands: row.Stands, Siding: r.within(p+"/siding", row.Siding, MaxScantling), Depth: r.within(p+"/depth", row.Depth, MaxScantling)}
	switch {
	case row.X != "" && row.Stands != "":
		r.faults.Add(p+"/stands", "x, or stands at the frames of its number, one of the two", "floor %d stands at a place of its own and beside frames too", row.No)
	case row.X != "":
		x := r.length(p+"/x", row.X)
		f.X = &x
	case row.Stands != Forward && row.Stands != Aft && row.Stands != Over:
		r.faults.Add(p+"/stands", "forward or aft of the frames of its number, or over them; or x", "floor %d: %s says nowhere to stand", row.No, notation.Quote(string(row.Stands)))
	}
	if row.Seat != "" {
		f.Seat = r.length(p+"/seat", row.Seat)
		if f.Seat.Abs().GreaterThan(decimal.NewFromInt(MaxScantling)) {
			r.faults.Add(p+"/seat", "at most "+strconv.Itoa(MaxScantling)+" mm above or below the rabbet", "%s is %s mm", notation.Quote(row.Seat), f.Seat)
		}
	}
	if row.ArmEnd != "" {
		f.ArmEnd = r.within(p+"/arm_end", row.ArmEnd, MaxScantling)
	}
	if row.ThroatRadius != "" {
		f.ThroatRadius = r.within(p+"/throat_radius", row.ThroatRadius, MaxReach)
	}
	if h := row.ByHand; h != nil {
		f.ByHand = &ByHand{Across: r.within(p+"/by_hand/across", h.Across, 2*MaxReach), Height: r.within(p+"/by_hand/height", h.Height, MaxReach)}
		if h.Along != "" {
			f.ByHand.Along = r.within(p+"/by_hand/along", h.Along, 3*MaxReach)
			if f.ByHand.Along.LessThan(f.ByHand.Across) {
				r.faults.Add(p+"/by_hand/along", "a length along the lower face no shorter than the floor is wide", "floor %d is %s mm along and %s mm across", row.No, f.ByHand.Along, f.ByHand.Across)
			}
		}
	}
	f.Port, f.Starboard = r.arm(p, "port", row, row.Port), r.arm(p, "starboard", row, row.Starboard)
	return f
}

// arm reads one arm; both is what stands for it where it has no row of its own.
func (r *reader) arm(p, side string, row Row, own *ArmRow) Reach {
	w, at := own, p+"/"+side
	if w == nil {
		w, at = row.Arm, p+"/arm"
		if side == "starboard" && w != nil && row.Port == nil {
			at = "" // told of port
		}
	} else if row.Arm != nil && row.Port != nil && row.Starboard != nil && side == "port" {
		r.faults.Add(p+"/arm", "arm for both, or port and starboard", "floor %d has its arms said three times", row.No)
	}
	if w == nil {
		if row.ByHand == nil && side == "port" || row.ByHand == nil && row.Port != nil {
			r.faults.Add(p+"/arm", "how far the arms reach, by girth or height, or the floor's size by hand", "floor %d: nothing says how far its %s arm reaches", row.No, side)
		}
		return Reach{}
	}
	quiet := at == ""
	before := len(r.faults)
	var out Reach
	switch {
	case (w.Girth == "") == (w.Height == ""):
		r.faults.Add(at, "girth along the planking from the rabbet, or height above it, one of the two", "floor %d: the reach of its %s arm is said twice or not at all", row.No, side)
	case w.Girth != "":
		out.Girth = r.within(at+"/girth", w.Girth, MaxReach)
	default:
		out.Height = r.within(at+"/height", w.Height, MaxReach)
	}
	if quiet {
		r.faults = r.faults[:before]
	}
	return out
}

func (r *reader) length(pointer, text string) decimal.Decimal {
	return r.faults.Length(r.n, pointer, text)
}

// within is a length above 0 and not above most, mm.
func (r *reader) within(pointer, text string, most int64) decimal.Decimal {
	return r.faults.LengthWithin(r.n, pointer, text, decimal.NewFromInt(most))
}
