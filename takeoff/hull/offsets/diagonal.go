package offsets

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"ribband/takeoff/hull/fair"
	"ribband/takeoff/notation"
)

var degreesForm = regexp.MustCompile(`^[0-9]{1,2}(?:[.,][0-9]{1,4})?$`)

const diagonalFix = "declare each diagonal once, by its name, the height where it leaves the middle line and its angle to that line in degrees"

// diagonals reads the planes that are declared. One that is at fault is known by its name still, so that its cells are
// not told of too.
func (r *reader) diagonals(o *Table) {
	r.named = map[string]int{}
	if n := len(r.doc.Diagonals); n > MaxDiagonals {
		r.add(Fault{Pointer: "/diagonals", Detail: fmt.Sprintf("%d diagonals are more than the %d that are taken", n, MaxDiagonals), Fix: "leave some out"})
		return
	}
	for i, in := range r.doc.Diagonals {
		pointer := fmt.Sprintf("/diagonals/%d", i)
		cell := notation.Shorten("diagonal:" + in.Name)
		if strings.TrimSpace(in.Name) == "" {
			r.add(Fault{Pointer: pointer + "/name", Cell: "diagonal", Detail: "it has no name", Fix: diagonalFix})
			continue
		}
		if _, twice := r.named[in.Name]; twice {
			r.add(Fault{Pointer: pointer + "/name", Cell: cell, Detail: "it is declared twice", Fix: diagonalFix})
			continue
		}
		r.named[in.Name] = -1
		d, ok := r.plane(in, pointer, cell)
		if ok {
			r.named[in.Name] = len(o.Diagonals)
			o.Diagonals = append(o.Diagonals, d)
		}
	}
}

func (r *reader) plane(in DiagonalPlane, pointer, cell string) (Diagonal, bool) {
	d, ok := Diagonal{Name: in.Name}, true
	if in.Height == "" {
		r.add(Fault{Pointer: pointer, Cell: cell, Detail: "the height where it leaves the middle line is missing", Fix: diagonalFix, absence: true})
		ok = false
	} else if z, err := r.length(in.Height); err != nil {
		r.add(cellFault(err, pointer+"/height", "", "", notation.Shorten("diagonal_height:"+in.Name)))
		ok = false
	} else {
		d.Z = z
	}
	if in.AngleDeg == "" {
		r.add(Fault{Pointer: pointer, Cell: cell, Detail: "its angle to the middle line is missing", Fix: diagonalFix, absence: true})
		return d, false
	}
	deg := 0.0
	if t := strings.TrimSpace(in.AngleDeg); degreesForm.MatchString(t) {
		deg, _ = strconv.ParseFloat(strings.Replace(t, ",", ".", 1), 64)
	}
	if !(deg > 0 && deg <= 90) {
		r.add(Fault{Pointer: pointer + "/angle_deg", Cell: notation.Shorten("diagonal_angle:" + in.Name),
			Detail: notation.Quote(in.AngleDeg) + " is not an angle in degrees above 0 and up to 90", Fix: "give the angle between the diagonal and the middle line below it, as 45 or 52.5"})
		return d, false
	}
	d.Angle = deg * math.Pi / 180
	return d, ok
}

// diagonal reads a cell of a diagonal.
func (b *cellReader) diagonal(d DiagonalOffsets, pointer string) {
	if d.Distance == "" {
		return // not measured
	}
	c := cell{line: diagonal, name: notation.Shorten("diagonal:" + d.Name), pointer: pointer + "/distance", sound: true}
	plane, declared := b.r.named[d.Name]
	switch {
	case !declared:
		b.r.add(Fault{Pointer: pointer + "/name", Station: b.station, Side: b.side, Cell: c.name, Detail: "this diagonal is not declared", Fix: diagonalFix})
		c.sound = false
	case plane < 0:
		c.sound = false // its plane is told of
	default:
		c.plane = plane
	}
	b.take(c, d.Distance)
}

// mark is the point at a distance along the diagonal. Where that is over a kilometre down it is put at the kilometre,
// where no line from rabbet to sheer passes, and so told of.
func (d Diagonal) mark(c cell) Mark {
	dy, dz := d.along()
	y, _ := notation.FromMM(c.value.MM() * dy) // no longer than the distance
	z, err := notation.FromMM(d.Z.MM() + c.value.MM()*dz)
	if err != nil {
		z, _ = notation.FromMM(-1e6)
	}
	return Mark{Cell: c.name, Y: y, Z: z, Kind: fair.Along, DY: dy, DZ: dz, Pointer: c.pointer}
}
