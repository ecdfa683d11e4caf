package app

import (
	"ribband/pdf"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// UnprintableError: texts of the estimate that its paper cannot show as they are written.
type UnprintableError struct{ Faults document.Faults }

func (e *UnprintableError) Error() string { return "cannot be printed: " + e.Faults.Error() }

// unprintable is the texts of the estimate with characters that its font does not have, by what they are. What people
// wrote comes first, then what the yard knows.
func (e *estimated) unprintable() document.Faults {
	var out document.Faults
	seen := map[string]bool{}
	look := func(what string, texts ...string) {
		for _, text := range texts {
			if odd := pdf.Unprintable(text); odd != "" && !seen[what+odd] {
				seen[what+odd] = true
				out.Add("", "write "+what+" in Latin, Greek or Cyrillic letters", "%s holds %s, which the font of the estimate does not have", what, notation.Quote(odd))
			}
		}
	}
	look("the name of the yard", e.yard.Name)
	look("the address of the yard", e.yard.Address...)
	look("the contact of the yard", e.yard.Contact)
	look("the name of the owner", e.job.Owner.Name)
	look("the address of the owner", e.job.Owner.Address...)
	look("the name of the boat", e.job.Boat.Name)
	look("the description of the boat", e.job.Boat.Description)
	for _, o := range e.options {
		look("the name of the option "+notation.Quote(o.Name), o.Name)
		look("the scope of the option "+notation.Quote(o.Name), o.Scope...)
		look("what stays undone of the option "+notation.Quote(o.Name), o.Undone...)
	}
	look("the text of the terms", e.draft.Terms.Text)
	for _, t := range e.draft.Terms.Taxes {
		look("the name of a tax", t.Category)
	}
	for _, it := range e.rows() {
		look("the price sheet", it.Item, it.Description)
	}
	for i, w := range e.works {
		for _, s := range e.work(i, w) {
			look("the step "+s.Code, append([]string{s.Name, s.Trade}, s.Cautions...)...)
		}
		for _, s := range w.papers.Species.Species {
			look("the species "+s.Code, s.Name)
		}
	}
	return out
}

func capital(s string) string {
	if s == "" || s[0] < 'a' || s[0] > 'z' {
		return s
	}
	return string(s[0]-'a'+'A') + s[1:]
}
