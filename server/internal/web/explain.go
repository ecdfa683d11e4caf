package web

import (
	"html/template"
	"regexp"
	"sort"
	"strings"
)

// word is a word of the trade with what it means, for readers who build no boats. Forms are the ways it is written.
type word struct {
	forms []string
	means string
	// covers are words that this one explains along with itself.
	covers []string
}

// words that an owner meets. Common practice of the trade, no source.
var words = []word{
	{[]string{"pairs of frames", "pair of frames"}, "ribs of the boat, two and two, one on each side", []string{"frames", "pairs"}},
	{[]string{"frames", "frame"}, "the ribs of the boat, one on each side, which give her shape and hold the planks", nil},
	{[]string{"pairs", "pair"}, "a frame on one side and its twin on the other", nil},
	{[]string{"glued up"}, "made of thin strips of wood, bent and glued together over a form", nil},
	{[]string{"laminate", "laminated", "laminates"}, "a frame made of thin strips of wood, bent and glued together; each strip is a laminate", nil},
	{[]string{"amidships"}, "in the middle of her length", nil},
	{[]string{"pattern", "patterns"}, "a thin board cut to the shape of one frame, so that the new one fits", nil},
	{[]string{"survey"}, "the report of whoever looked the boat over", nil},
	{[]string{"hull"}, "the body of the boat", nil},
	{[]string{"planks", "plank", "planking"}, "the boards of the boat's skin", nil},
	{[]string{"floors"}, "the timbers across the bottom that join the two sides", nil},
	{[]string{"keel bolts"}, "the bolts that hold the keel to the boat", nil},
	{[]string{"keel"}, "the backbone along the bottom of the boat", nil},
	{[]string{"backbone"}, "keel, stem and stern together", nil},
	{[]string{"fasten", "fastening", "fastenings"}, "the screws, rivets or bolts that hold wood to wood", nil},
	{[]string{"bevel", "bevels"}, "the slant planed on a frame so that the planks lie flat on it", nil},
	{[]string{"rip"}, "to saw a board lengthwise", nil},
	{[]string{"shore", "shores"}, "props that hold the boat in shape while parts are out", nil},
	{[]string{"brace"}, "to tie across, so that nothing moves", nil},
	{[]string{"station"}, "a place along the boat where her shape was measured", nil},
	{[]string{"FAS"}, "firsts and seconds, the best grade of board that mills sell", nil},
	{[]string{"shipwright"}, "a carpenter who builds boats", nil},
	{[]string{"yard hand"}, "a helper in the yard", nil},
	{[]string{"epoxy"}, "a glue mixed of two parts", nil},
	{[]string{"sanding"}, "rubbing smooth with grit, which makes dust", nil},
	{[]string{"oakum"}, "tarred fibre that is driven into the gaps between planks", nil},
	{[]string{"bilge"}, "the lowest space inside the boat", nil},
	{[]string{"sagged"}, "gone down out of its shape", nil},
	{[]string{"cure", "cured"}, "the hardening of the glue", nil},
	{[]string{"found work"}, "work that shows itself only when the boat is opened", nil},
	{[]string{"board ft"}, "board feet: one is a square foot of wood an inch thick", nil},
	{[]string{"scarf"}, "a long slanting joint that makes one piece of two", nil},
	{[]string{"sister"}, "a new frame beside the old one", nil},
	{[]string{"caulk", "caulking"}, "to close the gaps between planks", nil},
	{[]string{"garboard"}, "the plank next to the keel", nil},
	{[]string{"strake", "strakes"}, "one plank's run from end to end of the boat", nil},
	{[]string{"rabbet"}, "the groove in the keel that the planks fit in", nil},
	{[]string{"sheer"}, "the upper edge of the boat's side", nil},
	{[]string{"girth"}, "the length of a frame along its curve", nil},
}

// wordForms finds any of them, the longest first; wordAt is the word that a form belongs to.
var wordForms, wordAt = func() (*regexp.Regexp, map[string]int) {
	at := map[string]int{}
	var forms []string
	for i, w := range words {
		for _, f := range w.forms {
			at[strings.ToLower(f)] = i
			forms = append(forms, regexp.QuoteMeta(f))
		}
	}
	sort.Slice(forms, func(i, j int) bool { return len(forms[i]) > len(forms[j]) })
	return regexp.MustCompile(`(?i)\b(?:` + strings.Join(forms, "|") + `)\b`), at
}()

// explainer explains each word of the trade where it first stands on a page.
type explainer struct{ said map[int]bool }

func newExplainer() *explainer { return &explainer{map[int]bool{}} }

// say notes that a word is explained, and what it explains along.
func (e *explainer) say(i int) {
	e.said[i] = true
	for _, form := range words[i].covers {
		e.said[wordAt[form]] = true
	}
}

// Explain is a text, made safe, with the words explained that did not stand before.
func (e *explainer) Explain(text string) template.HTML {
	var b strings.Builder
	end := 0
	for _, at := range wordForms.FindAllStringIndex(text, -1) {
		form := text[at[0]:at[1]]
		i := wordAt[strings.ToLower(form)]
		if e.said[i] {
			continue
		}
		e.say(i)
		b.WriteString(template.HTMLEscapeString(text[end:at[0]]))
		b.WriteString("<dfn>" + template.HTMLEscapeString(form) + "</dfn> <span class=\"means\">(" + template.HTMLEscapeString(words[i].means) + ")</span>")
		end = at[1]
	}
	b.WriteString(template.HTMLEscapeString(text[end:]))
	return template.HTML(b.String())
}

// term is a word with what it means, for a list of its own.
type term struct{ Word, Means string }

// Words are those in texts that did not stand before: for a table, which has no room to explain.
func (e *explainer) Words(texts []string) []term {
	var out []term
	for _, text := range texts {
		for _, form := range wordForms.FindAllString(text, -1) {
			i := wordAt[strings.ToLower(form)]
			if !e.said[i] {
				e.say(i)
				out = append(out, term{form, words[i].means})
			}
		}
	}
	return out
}
