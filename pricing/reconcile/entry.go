// Package reconcile sets what was spent against what was quoted, step by step and line by line, and says why they
// differ: price against quantity, rate against efficiency.
//
// Spend comes in as entries: an invoice's line, a credit, hours worked. They are read from a table, where good rows
// wait and bad rows are listed, and one that was read before counts once. Everything is exact; the parts of a
// difference add to it to the cent. Out of scope: change orders, progress, forecasts, periods.
package reconcile

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
	"golang.org/x/text/unicode/norm"
)

// Kind of a spend entry.
type Kind string

// The kinds. Amounts of a credit are below nothing; an invoice's may be, for a line that takes off or a reversal.
const (
	Invoice Kind = "invoice"
	Credit  Kind = "credit"
	Hours   Kind = "hours" // time of the yard's own people; item is the trade
)

// Kinds in the order they are listed.
var Kinds = []Kind{Invoice, Credit, Hours}

// Known reports whether k is one of Kinds.
func (k Kind) Known() bool { return k == Invoice || k == Credit || k == Hours }

// Entry is one thing spent: a line of a supplier's invoice or credit, or of a time sheet. It is never changed; a
// correction is an entry that takes it back and a new one.
type Entry struct {
	// Date of the document, a calendar day: 2026-03-31.
	Date string `json:"date"`
	Kind Kind   `json:"kind"`
	// Supplier, Document and Line name the entry: the time sheet stands for the document of hours, whoever worked
	// them for the supplier.
	Supplier    string `json:"supplier"`
	Document    string `json:"document"`
	Line        string `json:"line"`
	Item        string `json:"item,omitempty"`
	Description string `json:"description,omitempty"`
	// Quantity in Unit, of the amount's sign; zero, with no unit, where the document names none.
	Quantity decimal.Decimal `json:"quantity,omitzero"`
	Unit     sheet.Unit      `json:"unit,omitempty"`
	// Amount without tax, and the Tax on it.
	Amount money.Money `json:"amount"`
	Tax    money.Money `json:"tax"`
	// Step is the code of the step it was spent on; empty where nobody has said yet.
	Step   string `json:"step,omitempty"`
	Author string `json:"author,omitempty"`
}

// ID is the entry's name in one text: supplier, document and line, in which case, runs of blanks, blanks at the ends,
// the way a character is composed and zeros in front of a line's number do not count. No two names that differ in
// anything else read alike.
func (e Entry) ID() string {
	parts := []string{named(e.Supplier), named(e.Document), unpadded(named(e.Line))}
	for i, p := range parts {
		parts[i] = strings.NewReplacer("~", "~0", "/", "~1").Replace(p)
	}
	return strings.Join(parts, "/")
}

// named is a name as it is compared.
func named(text string) string {
	return strings.Join(strings.Fields(norm.NFC.String(strings.ToLower(norm.NFC.String(text)))), " ")
}

// unpadded takes the zeros in front of a number away, which a form that counts 01, 02 prints and a list of the same
// document does not.
func unpadded(line string) string {
	if line == "" || strings.Trim(line, "0123456789") != "" {
		return line
	}
	if n := strings.TrimLeft(line, "0"); n != "" {
		return n
	}
	return "0"
}

// Hash is the SHA-256 of the entry's cells, in hexadecimal: a JSON list of texts in the order of Columns, numbers
// without trailing zeros, amounts with the currency's places. Two entries of one ID and one hash are the same entry.
func (e Entry) Hash() string {
	row := e.Row()
	var cells []string
	for _, c := range row.cells() {
		cells = append(cells, *c)
	}
	b, err := json.Marshal(cells)
	if err != nil {
		return "" // a list of texts always marshals
	}
	sum := sha256.Sum256(b)
	return hex.EncodeToString(sum[:])
}
