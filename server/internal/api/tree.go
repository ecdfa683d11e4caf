package api

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"ribband/takeoff/document"
)

// Limits on the form of a JSON body, checked while it is read.
const (
	maxDepth  = 24
	maxValues = 250_000 // the largest hull that fits in a body has some hundred thousand
	maxFaults = 1_000
)

// node is one value of a JSON body, as written.
type node struct {
	kind   kind
	text   string // of a string, decoded; of a number, as written
	fields []field
	items  []*node
}

type field struct {
	name  string
	value *node
	out   bool // not taken over: its name is not known, or stands a second time
}

type kind int

const (
	null kind = iota
	boolean
	number
	text
	array
	object
)

var kindNames = [...]string{"null", "true or false", "a number", "a text", "a list", "an object"}

func (k kind) String() string { return kindNames[k] }

// malformed: a request that cannot be read at all.
type malformed struct{ detail string }

func (e *malformed) Error() string { return e.detail }

// parse reads a body into a tree, noting names that stand twice and texts with NUL. What is no JSON at all, and what
// follows the end, is malformed.
func parse(body []byte) (*node, document.Faults, error) {
	if len(bytes.TrimSpace(body)) == 0 {
		return nil, nil, &malformed{"There is no body. Send one in JSON."}
	}
	if err := wellFormed(body); err != nil {
		return nil, nil, err
	}
	p := &parser{in: json.NewDecoder(bytes.NewReader(body))}
	p.in.UseNumber()
	root, err := p.value("", 0)
	if err != nil {
		return nil, nil, p.broken(err)
	}
	if _, err := p.in.Token(); !errors.Is(err, io.EOF) {
		return nil, nil, &malformed{"Something follows the end of the JSON body. Send one value and nothing after it."}
	}
	return root, p.faults, nil
}

type parser struct {
	in     *json.Decoder
	values int
	faults document.Faults
}

func (p *parser) broken(err error) error {
	var known *malformed
	if errors.As(err, &known) {
		return err
	}
	return &malformed{fmt.Sprintf("The body is not JSON: reading stopped at byte %d. Look at what stands there.", p.in.InputOffset())}
}

func (p *parser) value(pointer string, depth int) (*node, error) {
	if depth > maxDepth {
		return nil, &malformed{fmt.Sprintf("The body nests deeper than %d levels. No document here does.", maxDepth)}
	}
	if p.values++; p.values > maxValues {
		return nil, &malformed{fmt.Sprintf("The body holds more than %d values. No document here does.", maxValues)}
	}
	token, err := p.in.Token()
	if err != nil {
		return nil, err
	}
	switch t := token.(type) {
	case json.Delim:
		if t == '{' {
			return p.object(pointer, depth)
		}
		return p.array(pointer, depth)
	case string:
		if strings.ContainsRune(t, 0) {
			p.faults.Add(pointer, "the text without it", "the text holds a NUL character")
		} else if r := turning(t); r != 0 {
			p.faults.Add(pointer, "the text without it", "the text holds U+%04X, which turns the direction of writing", r)
		}
		return &node{kind: text, text: t}, nil
	case json.Number:
		return &node{kind: number, text: t.String()}, nil
	case bool:
		return &node{kind: boolean, text: strconv.FormatBool(t)}, nil
	}
	return &node{kind: null}, nil
}

// turning is the first character of a text that turns the direction of writing, 0 where there is none: such a text
// shows other than it is stored, and so do the lines around it.
func turning(text string) rune {
	for _, r := range text {
		if unicode.Is(unicode.Bidi_Control, r) {
			return r
		}
	}
	return 0
}

func (p *parser) object(pointer string, depth int) (*node, error) {
	n := &node{kind: object}
	seen := map[string]bool{}
	for p.in.More() {
		token, err := p.in.Token()
		if err != nil {
			return nil, err
		}
		name, _ := token.(string)
		at := pointer + "/" + escape(name)
		if seen[name] {
			p.faults.Add(at, "the name once, with the value that is meant", "the name stands twice")
		}
		seen[name] = true
		value, err := p.value(at, depth+1)
		if err != nil {
			return nil, err
		}
		n.fields = append(n.fields, field{name: name, value: value})
	}
	_, err := p.in.Token()
	return n, err
}

func (p *parser) array(pointer string, depth int) (*node, error) {
	n := &node{kind: array}
	for i := 0; p.in.More(); i++ {
		value, err := p.value(pointer+"/"+strconv.Itoa(i), depth+1)
		if err != nil {
			return nil, err
		}
		n.items = append(n.items, value)
	}
	_, err := p.in.Token()
	return n, err
}

// escape is a name as a reference token of a JSON pointer (RFC 6901, section 3), shortened when it is long.
func escape(name string) string {
	const shown = 80
	if len(name) > shown {
		cut := shown
		for !utf8.RuneStart(name[cut]) {
			cut--
		}
		name = name[:cut] + "…"
	}
	return strings.NewReplacer("~", "~0", "/", "~1").Replace(name)
}

// wellFormed refuses bytes that are not UTF-8 and halves of surrogate pairs, which the JSON reader would silently
// replace.
func wellFormed(body []byte) error {
	if !utf8.Valid(body) {
		return &malformed{"The body is not UTF-8. Send it in UTF-8."}
	}
	half := &malformed{"The body holds half a surrogate pair (\\ud800 to \\udfff). Write the whole character."}
	for i := 0; i < len(body); i++ {
		if body[i] != '\\' || i+1 == len(body) {
			continue
		}
		unit, ok := unicodeEscape(body[i:])
		if !ok {
			i++ // the escaped character, which may be another backslash
			continue
		}
		i += 5
		switch {
		case unit >= 0xdc00 && unit <= 0xdfff:
			return half
		case unit >= 0xd800 && unit <= 0xdbff:
			low, ok := unicodeEscape(body[i+1:])
			if !ok || low < 0xdc00 || low > 0xdfff {
				return half
			}
			i += 6
		}
	}
	return nil
}

func unicodeEscape(b []byte) (uint64, bool) {
	if len(b) < 6 || b[0] != '\\' || b[1] != 'u' {
		return 0, false
	}
	unit, err := strconv.ParseUint(string(b[2:6]), 16, 16)
	return unit, err == nil
}
