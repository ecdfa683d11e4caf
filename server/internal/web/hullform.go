package web

import (
	"errors"
	"strconv"
	"strings"

	"ribband/server/internal/app"
	"ribband/takeoff/boat"
	"ribband/takeoff/notation"
)

func trimmed(s string) string { return strings.TrimSpace(s) }

// question is the strakes that are asked for; what cannot be read is noted as wrong.
func (b *hullPage) question() app.StrakesQuestion {
	q := app.StrakesQuestion{Side: b.side()}
	if text := b.Values["side"]; text != "" && !boat.Side(text).One() {
		b.bad("side", notation.Quote(text)+" is not a side. What would do: port or starboard.")
	}
	if text := b.Values["strakes"]; text != "" {
		n, err := strconv.Atoi(text)
		if err != nil || n < 1 || n > mostStrakes {
			b.bad("strakes", notation.Quote(text)+" is no number of strakes. What would do: a whole number from 1 to "+strconv.Itoa(mostStrakes)+".")
		}
		q.Strakes = n
	}
	q.Thickness, _ = b.length("thickness", true)
	if text := b.Values["stock"]; text != "" {
		all := strings.Split(text, ";")
		if len(all) > mostStock {
			b.bad("stock", "More lengths than are taken. What would do: at most "+strconv.Itoa(mostStock)+".")
			return q
		}
		for _, one := range all {
			if mm, ok := b.read("stock", trimmed(one), true); ok {
				q.Stock = append(q.Stock, mm)
			}
		}
	}
	return q
}

// What is taken in one question; package planking takes as many.
const (
	mostStrakes = 60
	mostStock   = 50
)

// side is port where nothing sound was asked for.
func (b hullPage) side() boat.Side {
	if s := boat.Side(b.Values["side"]); s.One() {
		return s
	}
	return boat.Port
}

// length of a field that may be empty, mm; false where it is, or is none.
func (b *hullPage) length(name string, positive bool) (float64, bool) {
	text := b.Values[name]
	if text == "" {
		return 0, false
	}
	return b.read(name, text, positive)
}

func (b *hullPage) read(name, text string, positive bool) (float64, bool) {
	l, err := b.In.in.Parse(text)
	var odd *notation.Error
	switch {
	case errors.As(err, &odd) && odd.Example != "":
		b.bad(name, capital(err.Error())+". What would do: write it like "+odd.Example+".")
	case err != nil:
		b.bad(name, capital(err.Error())+". What would do: write it like "+b.In.in.Example()+".")
	case positive && l.Sign() <= 0:
		b.bad(name, notation.Quote(text)+" is no length of timber. What would do: a length above 0.")
	default:
		return l.MM(), true
	}
	return 0, false
}

func (b *hullPage) bad(field, text string) {
	b.Faults = append(b.Faults, fieldFault{field, hullLabels[field] + ": " + text})
}

// Kept are the fields of the other forms of the page, which go along when one of them is sent.
func (b hullPage) Kept(but ...string) []field {
	var out []field
	for _, name := range hullFields {
		own := name == "further" // it takes long, and is looked for only when its own button is pressed
		for _, not := range but {
			own = own || name == not
		}
		if !own && b.Values[name] != "" {
			out = append(out, field{Name: name, Value: b.Values[name]})
		}
	}
	return out
}
