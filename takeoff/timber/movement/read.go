package movement

import (
	"errors"
	"fmt"
	"strings"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
	"ribband/takeoff/timber"

	"github.com/shopspring/decimal"
)

// longest size that is asked about, mm.
var longest = decimal.NewFromInt(5000)

// question is a document read.
type question struct {
	Document
	wood                     timber.Species
	width, thickness         decimal.Decimal // mm
	from, to                 decimal.Decimal
	widthGrain, throughGrain timber.Grain
	opening                  decimal.Decimal
}

func (d Document) read(woods timber.Catalogue) (question, document.Faults) {
	q := question{Document: d}
	var f document.Faults
	s, ok := woods.Find(d.Species)
	if q.wood = s; !ok {
		known := make([]string, len(woods.Species))
		for i, w := range woods.Species {
			known[i] = w.Code
		}
		f.Add("/species", "one of "+strings.Join(known, ", "), "the yard has no species %q", d.Species)
	}
	switch d.Sawn {
	case Flatsawn:
		q.widthGrain, q.throughGrain = timber.Tangential, timber.Radial
	case Quartersawn:
		q.widthGrain, q.throughGrain = timber.Radial, timber.Tangential
	default:
		f.Add("/sawn", "flatsawn or quartersawn", "boards sawn %q are not known", string(d.Sawn))
	}
	if !d.Notation.Known() {
		f.Add("/notation", "one of feet_inches_eighths, inches, mm, m", "the notation %q is not known", string(d.Notation))
	} else {
		q.width = d.size(d.Width, "/width", false, &f)
		if d.Thickness != "" {
			q.thickness = d.size(d.Thickness, "/thickness", false, &f)
		}
		if d.Seam != nil {
			q.opening = d.size(d.Seam.Opening, "/seam/opening", true, &f)
		}
	}
	if d.Seam != nil && (d.Seam.Planks < 0 || d.Seam.Planks > MostPlanks) {
		f.Add("/seam/planks", fmt.Sprintf("a whole number from 1 to %d, or nothing", MostPlanks), "%d planks", d.Seam.Planks)
	}
	q.from, q.to = moisture(d.FromPct, "/from_pct", &f), moisture(d.ToPct, "/to_pct", &f)
	return q, f
}

// size in mm, above nothing, or from nothing where none is allowed too.
func (d Document) size(text, pointer string, none bool, f *document.Faults) decimal.Decimal {
	l, err := d.Notation.ParseCell(text, false)
	var told *notation.Error
	if errors.As(err, &told) {
		f.Add(pointer, "written like "+told.Example, "%s", told.Error())
		return decimal.Zero
	}
	mm := l.Decimal()
	if mm.Sign() < 0 || mm.IsZero() && !none || mm.GreaterThan(longest) {
		least := "above 0"
		if none {
			least = "from 0"
		}
		f.Add(pointer, least+" and at most "+longest.String()+" mm", "a size of %s mm", mm)
		return decimal.Zero
	}
	return mm
}

// moisture is from 0 to 30 per cent.
func moisture(text, pointer string, f *document.Faults) decimal.Decimal {
	m, err := quantity.ParseDecimal(text)
	if err != nil {
		f.Add(pointer, "per cent of the dry weight as a plain number, for example 12", "%s is no moisture content", notation.Quote(text))
		return decimal.Zero
	}
	if m.Sign() < 0 || m.GreaterThan(decimal.NewFromInt(30)) {
		f.Add(pointer, "from 0 to 30 per cent; write 30 for anything wetter, since above it wood no longer moves", "movement is not known at a moisture content of %s %%", m)
		return decimal.Zero
	}
	return m
}
