package sheet

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"slices"

	"ribband/pricing/money"
	"ribband/takeoff/notation"
)

// Document is a sheet as JSON writes it: every cell a text, as in a table.
type Document struct {
	Currency money.Currency    `json:"currency"`
	Notation notation.Notation `json:"notation"`
	Items    []Row             `json:"items"`
}

// Document is the content as JSON writes it.
func (c Content) Document() Document {
	d := Document{Currency: c.Currency, Notation: c.Notation, Items: make([]Row, 0, len(c.Items))}
	for _, it := range c.Items {
		d.Items = append(d.Items, it.Row())
	}
	return d
}

// MarshalJSON writes the content as a Document.
func (c Content) MarshalJSON() ([]byte, error) { return json.Marshal(c.Document()) }

// UnmarshalJSON reads a Document; unknown members are refused, and what is faulty is told in a *FaultsError.
func (c *Content) UnmarshalJSON(b []byte) error {
	dec := json.NewDecoder(bytes.NewReader(b))
	dec.DisallowUnknownFields()
	var d Document
	if err := dec.Decode(&d); err != nil {
		return err
	}
	got, err := FromRows(d.Currency, d.Notation, d.Items)
	if err != nil {
		return err
	}
	*c = got
	return nil
}

// Hash is the SHA-256 of the content's canonical form, in hexadecimal: what the sheet says, whichever way it came
// in. The form is a JSON list of lists of texts: first currency and notation, then one list for each item in the
// sheet's order, its cells in the order of Columns, numbers without trailing zeros, sizes in exact millimetres.
func (c Content) Hash() (string, error) {
	form := [][]string{{string(c.Currency), string(c.Notation)}}
	for _, it := range c.Items {
		row := it.Row()
		mm := func(s Size) string {
			if s.Empty() {
				return ""
			}
			return s.MM().String()
		}
		row.Thickness, row.Width, row.StockLength, row.Widest = mm(it.Thickness), mm(it.Width), mm(it.StockLength), mm(it.Widest)
		var cells []string
		for _, cell := range row.cells() {
			cells = append(cells, *cell)
		}
		for late := slices.Index(Columns, "free_from"); len(cells) > late && cells[len(cells)-1] == ""; { // columns that came later: sheets without them keep their hash
			cells = cells[:len(cells)-1]
		}
		form = append(form, cells)
	}
	b, err := json.Marshal(form)
	if err != nil {
		return "", err
	}
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:]), nil
}
