package web

import (
	"html/template"
	"regexp"
	"sort"
	"strings"
)

// wordForms finds any form of any word, the longest first; wordsAt are the words that a form may belong to, those
// first that it means in some places only.
var wordForms, wordsAt = func() (*regexp.Regexp, map[string][]int) {
	at := map[string][]int{}
	var forms []string
	for _, bound := range []bool{true, false} {
		for i, w := range words {
			if w.bound() != bound {
				continue
			}
			for _, f := range w.forms {
				f = strings.ToLower(f)
				if at[f] == nil {
					forms = append(forms, regexp.QuoteMeta(f))
				}
				at[f] = append(at[f], i)
			}
		}
	}
	sort.Slice(forms, func(i, j int) bool { return len(forms[i]) > len(forms[j]) })
	return regexp.MustCompile(`(?i)\b(?:` + strings.Join(forms, "|") + `)\b`), at
}()

// fits reports whether a word has its meaning where a form of it stands in a text.
func (w word) fits(text string, from, to int) bool {
	if w.whole && strings.TrimSpace(text) == text[from:to] || !w.bound() {
		return true
	}
	form := strings.ToLower(text[from:to])
	for _, phrase := range w.in {
		before, after, _ := strings.Cut(phrase, form)
		if strings.HasSuffix(strings.ToLower(text[:from]), before) && strings.HasPrefix(strings.ToLower(text[to:]), after) {
			return true
		}
	}
	return false
}

// wordAt is the word that stands at a place in a text; false where its form has none of its meanings there.
func wordAt(text string, from, to int) (int, bool) {
	for _, i := range wordsAt[strings.ToLower(text[from:to])] {
		if words[i].fits(text, from, to) {
			return i, true
		}
	}
	return 0, false
}

// explainer explains each word of the trade where it first stands on a page.
type explainer struct{ said map[int]bool }

func newExplainer() *explainer { return &explainer{map[int]bool{}} }

// say notes that a word is explained, and what it explains along.
func (e *explainer) say(i int) {
	e.said[i] = true
	for _, form := range words[i].covers {
		for _, k := range wordsAt[form] {
			e.said[k] = true
		}
	}
}

// found are the places in a text of words that were not explained before; they are noted as explained.
func (e *explainer) found(text string, each func(from, to int, w word)) {
	for _, at := range wordForms.FindAllStringIndex(text, -1) {
		i, ok := wordAt(text, at[0], at[1])
		if !ok || e.said[i] {
			continue
		}
		e.say(i)
		each(at[0], at[1], words[i])
	}
}

// Explain is a text, made safe, with the words explained that did not stand before.
func (e *explainer) Explain(text string) template.HTML {
	var b strings.Builder
	end := 0
	e.found(text, func(from, to int, w word) {
		b.WriteString(template.HTMLEscapeString(text[end:from]))
		b.WriteString("<dfn>" + template.HTMLEscapeString(text[from:to]) + "</dfn> <span class=\"means\">(" + template.HTMLEscapeString(w.means) + ")</span>")
		end = to
	})
	b.WriteString(template.HTMLEscapeString(text[end:]))
	return template.HTML(b.String())
}

// term is a word with what it means, for a list of its own.
type term struct{ Word, Means string }

// Words are those in texts that did not stand before: for a table, which has no room to explain.
func (e *explainer) Words(texts []string) []term {
	var out []term
	for _, text := range texts {
		e.found(text, func(from, to int, w word) { out = append(out, term{text[from:to], w.means}) })
	}
	return out
}
