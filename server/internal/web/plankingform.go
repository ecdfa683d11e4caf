package web

import (
	"errors"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"ribband/takeoff/boat"
	"ribband/takeoff/document"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
)

// plankingForm is how a side is planked, or both where they are alike, as its form holds it: in equal strakes.
type plankingForm struct {
	form
	Of boat.Side
}

// ID tells the fields of one such form from another's on the page.
func (f plankingForm) ID() string { return string(f.Of) }

// Title of the form.
func (f plankingForm) Title() string {
	if f.Of == boat.Both {
		return "Both sides alike"
	}
	return "The " + string(f.Of) + " side"
}

// Open says that the form stands open on a page where sides are said alone or not.
func (f plankingForm) Open(alone bool) bool { return f.Bad() || (f.Of == boat.Both) != alone }

// Named is a field under the name that it is sent by, with an id that no other form of the page has.
func (f plankingForm) Named(most int, name, label, hint, mode string) field {
	out := f.Bound(most, name, label, hint, mode)
	out.At = f.ID() + "-" + name
	return out
}

// plankingForms are the forms of a page: one for both sides while nothing is written or they are alike, with one for each side
// by itself; where they are written side by side, one for each of them and one to put both alike.
func plankingForms(b *planking.Boat) []plankingForm {
	out := []plankingForm{}
	for _, side := range []boat.Side{boat.Both, boat.Port, boat.Starboard} {
		f := plankingForm{newForm(plankingFields...), side}
		f.Values["of"] = string(side)
		if d, ok := plankedAs(b, side); ok {
			f.Values["strakes"], f.Values["plank_thickness"], f.Values["stock_lengths"] = strconv.Itoa(d.Strakes.Count), d.PlankThickness, strings.Join(d.StockLengths, ", ")
			f.Values["butts"] = buttsText(d.Butts)
		}
		out = append(out, f)
	}
	return out
}

// plankedAs is what stands of a side, or of both where they stand as one.
func plankedAs(b *planking.Boat, side boat.Side) (planking.Document, bool) {
	if b == nil {
		return planking.Document{}, false
	}
	if side == boat.Both {
		if len(b.Sides) == 1 && b.Sides[0].Side == boat.Both {
			return b.Sides[0], true
		}
		return planking.Document{}, false
	}
	d, _, ok := b.Of(side)
	return d, ok
}

// simplePlanking says that forms can hold how she is planked: in the job's notation, each side in equal strakes.
func simplePlanking(b planking.Boat, in notation.Notation) bool {
	return b.Notation == in && !slices.ContainsFunc(b.Sides, func(d planking.Document) bool { return d.Strakes.Count == 0 || d.ButtsOnFrames || d.ApartByBoth })
}

// Alone says that only one side is said of, or both by themselves, so that these forms stand open.
func (b planksPage) Alone() bool {
	return b.Planking != nil && !(len(b.Planking.Sides) == 1 && b.Planking.Sides[0].Side == boat.Both)
}

// putPlanking keeps how a side of the boat is planked, or both alike, in equal strakes; the other side stays as it was.
func (p *Pages) putPlanking(v *visit) error {
	f, body, seen, err := p.planksForm(v, plankingFields)
	if err != nil {
		return err
	}
	of := boat.Side(f.Values["of"])
	i := slices.IndexFunc(body.Hers, func(x plankingForm) bool { return x.Of == of })
	if i < 0 {
		return errForm
	}
	hers := &body.Hers[i]
	hers.Values = f.Values
	side, faults := sideFrom(of, f.Values)
	doc, at := besides(body.Planking, side, body.Job.Notation)
	if err = faults.Err(); err == nil {
		_, err = p.app.PutPlanking(v.Context(), v.who, body.Job.ID, doc, seen)
	}
	if hers.wrong(onPlankingForm(err, at), plankLabels) {
		// What is wrong with a form on the page is told at its head too, as for the others.
		for _, x := range hers.Faults {
			body.Faults = append(body.Faults, fieldFault{hers.ID() + "-" + x.Field, x.Text})
		}
		body.General = append(body.General, hers.General...)
		return p.showPlanks(v, http.StatusUnprocessableEntity, body)
	}
	if err != nil {
		return err
	}
	return v.to(body.Path)
}

// sideFrom is a side as its form was filled in.
func sideFrom(of boat.Side, x map[string]string) (planking.Document, document.Faults) {
	var faults document.Faults
	count, err := strconv.Atoi(x["strakes"])
	if err != nil || count < 1 {
		faults.Add("/sides/0/strakes", "how many strakes the side has", "%s is no number of strakes", notation.Quote(x["strakes"]))
	}
	side := planking.Document{Side: of, Strakes: planking.Division{Count: count}, PlankThickness: x["plank_thickness"]}
	for _, l := range strings.Split(x["stock_lengths"], ",") {
		if l = strings.TrimSpace(l); l != "" {
			side.StockLengths = append(side.StockLengths, l)
		}
	}
	var butts document.Faults
	side.Butts = buttsFrom(x["butts"], &butts)
	return side, append(faults, butts.Under("/sides/0")...)
}

// besides is a boat with one side put, or both alike, and the other as it stood; at is where the side put stands.
func besides(b *planking.Boat, side planking.Document, in notation.Notation) (doc planking.Boat, at string) {
	doc = planking.Boat{Notation: in, Sides: []planking.Document{side}}
	if side.Side != boat.Both && b != nil {
		for _, other := range boat.Sides {
			if d, _, ok := b.Of(other); ok && other != side.Side {
				doc.Sides = append(doc.Sides, d)
			}
		}
	}
	return doc, "/sides/0"
}

// buttsText is butts as the form has them: "5: 12-0-0, 22-0-0; 6: none".
func buttsText(of []planking.Given) string {
	var out []string
	for _, g := range of {
		xs := "none"
		if len(g.X) > 0 {
			xs = strings.Join(g.X, ", ")
		}
		out = append(out, strconv.Itoa(g.Strake)+": "+xs)
	}
	return strings.Join(out, "; ")
}

// buttsFrom reads them again.
func buttsFrom(text string, faults *document.Faults) []planking.Given {
	var out []planking.Given
	for _, of := range strings.Split(text, ";") {
		if of = strings.TrimSpace(of); of == "" {
			continue
		}
		no, places, ok := strings.Cut(of, ":")
		strake, err := strconv.Atoi(strings.TrimSpace(no))
		if !ok || err != nil {
			faults.Add("/butts", "a strake, a colon and its butts aft of station 0, strakes apart by semicolons, such as 5: 12-0-0, 22-0-0; 6: none", "%s names no strake and its butts", notation.Quote(of))
			continue
		}
		g := planking.Given{Strake: strake, X: []string{}}
		for _, x := range strings.Split(places, ",") {
			if x = strings.TrimSpace(x); x != "" && x != "none" {
				g.X = append(g.X, x)
			}
		}
		out = append(out, g)
	}
	return out
}

// onPlankingForm are the faults of the side that stands at a place told by its form's fields; those of the other side say whose they are.
func onPlankingForm(err error, at string) error {
	var faults document.Faults
	if !errors.As(err, &faults) {
		return err
	}
	out := slices.Clone(faults)
	for i := range out {
		rest, hers := strings.CutPrefix(out[i].Pointer, at)
		if !hers {
			continue
		}
		for _, many := range []string{"/stock_lengths", "/butts"} {
			if strings.HasPrefix(rest, many+"/") {
				rest = many
			}
		}
		out[i].Pointer = strings.TrimSuffix(rest, "/count")
	}
	return out
}
