package web

import (
	"cmp"
	"crypto/rand"
	"encoding/hex"
	"errors"
	"strings"

	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
)

// form is what a form shows: what was typed, and what is wrong with it.
type form struct {
	// Key makes pressing a button twice the same as pressing it once.
	Key    string
	Values map[string]string
	Faults []fieldFault
	// General are faults of no single field.
	General []string
}

type fieldFault struct{ Field, Text string }

func newForm(names ...string) form {
	f := form{Key: newKey(), Values: map[string]string{}}
	for _, n := range names {
		f.Values[n] = ""
	}
	return f
}

func newKey() string {
	var b [16]byte
	_, _ = rand.Read(b[:]) // never fails
	return hex.EncodeToString(b[:])
}

// filled is the form as it was sent, spaces at the ends of what was typed left out.
func (v *visit) filled(names ...string) (form, error) {
	if err := v.ParseForm(); err != nil {
		return form{}, formFault(err)
	}
	f := newForm(names...)
	if k := v.PostForm.Get("key"); k != "" {
		f.Key = k
	}
	for _, n := range names {
		f.Values[n] = strings.TrimSpace(v.PostForm.Get(n))
	}
	return f, nil
}

// key is the idempotency key of a form that is sent to make something, with what makes it the same form.
func (f form) key(v *visit, content string) (app.Key, error) {
	if len(f.Key) != 32 || strings.Trim(f.Key, "0123456789abcdef") != "" {
		return app.Key{}, errForm
	}
	return app.Key{Text: "page " + f.Key, Hash: store.RequestHash(post, v.URL.Path, []byte(content))}, nil
}

// content is everything that was typed.
func (f form) content(names ...string) string {
	var parts []string
	for _, n := range names {
		parts = append(parts, f.Values[n])
	}
	return strings.Join(parts, "\x00")
}

// wrong takes the faults of a document as those of the form; false where err is something else. A form that has
// faults gets a new key, for what is sent next is another thing.
func (f *form) wrong(err error, labels map[string]string) bool {
	var faults document.Faults
	if !errors.As(err, &faults) {
		return false
	}
	f.Key = newKey()
	for _, x := range faults {
		field := strings.TrimPrefix(x.Pointer, "/")
		text := capital(x.Detail)
		if x.Fix != "" {
			text += ". What would do: " + x.Fix
		}
		text += "."
		if _, ok := f.Values[field]; !ok {
			f.General = append(f.General, text)
			continue
		}
		if l := labels[field]; l != "" {
			text = l + ": " + text
		}
		f.Faults = append(f.Faults, fieldFault{field, text})
	}
	return true
}

// Wrong is what is wrong with a field; empty where nothing is.
func (f form) Wrong(field string) string {
	var out []string
	for _, x := range f.Faults {
		if x.Field == field {
			out = append(out, x.Text)
		}
	}
	return strings.Join(out, " ")
}

// Bad reports whether anything is wrong.
func (f form) Bad() bool { return len(f.Faults)+len(f.General) > 0 }

// title is a page's title, which says first that something is wrong.
func (f form) title(text string) string {
	if f.Bad() {
		return "To be put right: " + text
	}
	return text
}

// field is one field of a form as it is shown.
type field struct {
	Name, Label, Hint, Value, Wrong string
	// Mode is the keyboard that a phone shows.
	Mode string
	// Max is how many characters the field takes.
	Max int
	// At is its id on a page that has the field in several forms; the name where it is empty.
	At string
}

// ID that labels and faults point to.
func (f field) ID() string { return cmp.Or(f.At, f.Name) }

// longestField is how many characters a field takes where nothing else is said.
const longestField = 500

// Field is one field of the form.
func (f form) Field(name, label, hint, mode string) field {
	return field{Name: name, Label: label, Hint: hint, Value: f.Values[name], Wrong: f.Wrong(name), Mode: mode, Max: longestField}
}

// Bound is a field that takes so many characters.
func (f form) Bound(most int, name, label, hint, mode string) field {
	out := f.Field(name, label, hint, mode)
	out.Max = most
	return out
}
