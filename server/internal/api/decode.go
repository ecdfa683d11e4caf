package api

import (
	"cmp"
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"strconv"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"ribband/takeoff/document"
	"ribband/takeoff/notation"
	"ribband/takeoff/quantity"
)

// decode reads a JSON body into a T. A name that T does not have, a name that stands twice, a wrong kind of value, a
// missing name that T does not leave out when empty: all of them are told at once as *misfits, beside a T in which
// what does not fit is empty. What cannot be read at all is malformed.
func decode[T any](body []byte) (T, error) {
	var out T
	root, faults, err := parse(body)
	if err != nil {
		return out, err
	}
	f := form{faults: faults}
	for _, x := range faults { // texts that are not taken
		root.clear(x.Pointer)
	}
	f.check(root, reflect.TypeFor[T](), "")
	var wrong error
	if len(f.faults) > 0 {
		wrong = &misfits{f.faults, root}
		body = root.appendJSON(nil)
	}
	if err := json.Unmarshal(body, &out); err != nil {
		return out, cmp.Or(wrong, error(&malformed{"The body cannot be taken over: a value does not fit its place."}))
	}
	return out, wrong
}

// form holds a body against the Go type it is read into.
type form struct{ faults document.Faults }

// fault notes one, and empties what it is about.
func (f *form) fault(n *node, t reflect.Type, pointer, fix, detail string, args ...any) {
	f.faults.Add(pointer, fix, detail, args...)
	n.empty(t)
}

var (
	decimalType = reflect.TypeFor[decimal.Decimal]()
	timeType    = reflect.TypeFor[time.Time]()
	rawType     = reflect.TypeFor[json.RawMessage]()

	wholeNumber = regexp.MustCompile(`^-?[0-9]{1,12}$`)
)

func (f *form) check(n *node, t reflect.Type, pointer string) {
	if len(f.faults) >= maxFaults {
		return
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case t == rawType:
	case n.kind == null:
		f.fault(n, t, pointer, "a value, or the name left out", "null is not a value here")
	case t == decimalType:
		if f.is(n, t, text, pointer) {
			if _, err := quantity.ParseDecimal(n.text); err != nil {
				f.fault(n, t, pointer, `an exact number as a text, for example "12.50"`, "%v", err)
			}
		}
	case t == timeType:
		if f.is(n, t, text, pointer) {
			if _, err := time.Parse(time.RFC3339, n.text); err != nil {
				f.fault(n, t, pointer, "an instant such as 2026-01-05T08:00:00Z", "%s is not an instant", notation.Quote(n.text))
			}
		}
	default:
		f.byKind(n, t, pointer)
	}
}

func (f *form) byKind(n *node, t reflect.Type, pointer string) {
	switch t.Kind() {
	case reflect.Struct:
		if f.is(n, t, object, pointer) {
			f.object(n, t, pointer)
		}
	case reflect.Map:
		if f.is(n, t, object, pointer) {
			for _, x := range n.fields {
				f.check(x.value, t.Elem(), pointer+"/"+escape(x.name))
			}
		}
	case reflect.Slice:
		if f.is(n, t, array, pointer) {
			for i, x := range n.items {
				f.check(x, t.Elem(), pointer+"/"+strconv.Itoa(i))
			}
		}
	case reflect.String:
		f.is(n, t, text, pointer)
	case reflect.Bool:
		f.is(n, t, boolean, pointer)
	case reflect.Int, reflect.Int32, reflect.Int64:
		if f.is(n, t, number, pointer) && !wholeNumber.MatchString(n.text) {
			f.fault(n, t, pointer, "a whole number of at most 12 digits", "%s is not a whole number", notation.Quote(n.text))
		}
	case reflect.Float64:
		if f.is(n, t, number, pointer) {
			if _, err := quantity.ParseDecimal(n.text); err != nil {
				f.fault(n, t, pointer, "a number in plain notation, at most 12 digits before the point and 6 after it",
					"%s is not a number that can be taken", notation.Quote(n.text))
			}
		}
	default:
		panic(fmt.Sprintf("a body is read into %s, which is no kind that a body holds", t))
	}
}

func (f *form) is(n *node, t reflect.Type, want kind, pointer string) bool {
	if n.kind == want {
		return true
	}
	f.fault(n, t, pointer, want.String(), "this is %s", n.kind)
	return false
}

func (f *form) object(n *node, t reflect.Type, pointer string) {
	known := map[string]reflect.Type{}
	names, required := namesOf(t, known)
	given := map[string]bool{}
	for i, x := range n.fields {
		at := pointer + "/" + escape(x.name)
		of, ok := known[x.name]
		if n.fields[i].out = !ok || given[x.name]; !ok {
			f.faults.Add(at, "one of "+strings.Join(names, ", "), "the name %s is not known here", notation.Quote(x.name))
		} else if !given[x.name] {
			f.check(x.value, of, at)
		}
		given[x.name] = true
	}
	for _, name := range required {
		if !given[name] {
			f.faults.Add(pointer+"/"+escape(name), kindOf(known[name]).String(), "it is missing")
		}
	}
}

// namesOf are the names that an object of t may have and those that it must have, the type of each put into known. The
// names of a struct embedded without one of its own are those of the whole, as encoding/json has it.
func namesOf(t reflect.Type, known map[string]reflect.Type) (names, required []string) {
	for i := range t.NumField() {
		of := t.Field(i)
		name, options, _ := strings.Cut(of.Tag.Get("json"), ",")
		if name == "" && of.Anonymous {
			inner, needed := namesOf(of.Type, known)
			names, required = append(names, inner...), append(required, needed...)
		}
		if name == "" || name == "-" {
			continue
		}
		known[name] = of.Type
		names = append(names, name)
		if options != "omitempty" && options != "omitzero" {
			required = append(required, name)
		}
	}
	return names, required
}

// kindOf is the kind of JSON value that a type is read from.
func kindOf(t reflect.Type) kind {
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if t == decimalType || t == timeType {
		return text
	}
	switch t.Kind() {
	case reflect.String:
		return text
	case reflect.Bool:
		return boolean
	case reflect.Slice:
		return array
	case reflect.Int, reflect.Int32, reflect.Int64, reflect.Float64:
		return number
	}
	return object
}
