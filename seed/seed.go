// Package seed is the demo: an invented yard with an invented boat, owner, prices, rates and hours. Nothing in it
// describes a real yard, boat, person or price, and whatever a person reads of it says so. It returns domain values
// and knows no database.
package seed

import (
	"bytes"
	"embed"
	"encoding/json"
	"fmt"

	"ribband/pricing/money"
	"ribband/pricing/quote"
	"ribband/pricing/rack"
	"ribband/pricing/sheet"
	"ribband/takeoff/finding"
	"ribband/takeoff/frame"
	"ribband/takeoff/hull/offsets"
	"ribband/takeoff/hull/planking"
	"ribband/takeoff/notation"
	"ribband/takeoff/plank"
	"ribband/takeoff/rules"
	"ribband/takeoff/step"
	"ribband/takeoff/timber"
)

//go:embed data
var files embed.FS

// Knowledge is what a new yard starts with until it enters its own: species with their sources, and steps and rules
// that are marked as invented.
type Knowledge struct {
	Species timber.Catalogue
	Steps   step.Library
	Rules   rules.Document
}

// Demo is the whole invented yard.
type Demo struct {
	Knowledge
	Yard   Yard
	Job    Job
	Hull   offsets.Document
	Frames frame.Document
	// Planking is how she is planked.
	Planking planking.Boat
	// Rack is what the yard has in hand.
	Rack rack.Document
	// Findings of the frames, as invented as the rest.
	Findings finding.Document
	// Options replace frames, Planked renew planks.
	Options, Planked []Option
	// SheetName is the price sheet's; Prices are its versions, oldest first.
	SheetName string
	Prices    []sheet.Content
	// Terms of the demo's quote.
	Terms quote.Terms
}

// Yard is who makes the estimate.
type Yard struct {
	Name    string
	Address []string
	Contact string
	Note    string
}

// Job is a boat's refit.
type Job struct {
	Title       string
	Boat        string
	Description string
	Owner       string
	Notation    notation.Notation
	Currency    money.Currency
	OpenedDate  string
}

// Option is one scope of work offered to the owner.
type Option struct {
	Name     string         `json:"name"`
	Scope    []string       `json:"scope"`
	Undone   []string       `json:"undone"`
	Remedies frame.Remedies `json:"remedies"`
	// Planks that it renews, where it renews some and replaces no frames.
	Planks *plank.Document `json:"planks"`
}

// OffsetsCSV is the demo boat's table of offsets as it would be sent to the service.
func OffsetsCSV() []byte { return file("offsets.csv") }

// PricesCSV is version n (1 or 2) of the demo's price table.
func PricesCSV(n int) []byte { return file(fmt.Sprintf("prices-%d.csv", n)) }

// LoadKnowledge is what a new yard starts with.
func LoadKnowledge() (Knowledge, error) {
	var k Knowledge
	for name, into := range map[string]any{"species.json": &k.Species, "steps.json": &k.Steps, "rules.json": &k.Rules} {
		if err := decode(name, into); err != nil {
			return Knowledge{}, err
		}
	}
	return k, nil
}

// Load is the whole demo.
func Load() (Demo, error) {
	d := Demo{
		Yard: Yard{
			Name:    "Sallowtide Boatyard",
			Address: []string{"The Old Ropewalk (an invented address)", "Sallowtide"},
			Contact: "estimates@sallowtide.example",
			Note:    "An invented yard: its boats, people, prices, rates and hours exist nowhere.",
		},
		Job: Job{
			Title: "Reframing of Wendeline", Boat: "Wendeline",
			Description: "Invented carvel cutter, 36 ft (11 m), 34 pairs of bent frames, drawn for this demonstration",
			Owner:       "E. Quillfeather (invented)", Notation: notation.FeetInchesEighths, Currency: "USD", OpenedDate: "2026-10-05",
		},
		SheetName: "Sallowtide prices (invented)",
	}
	var err error
	if d.Knowledge, err = LoadKnowledge(); err != nil {
		return Demo{}, err
	}
	doc, _, faults := offsets.ReadCSV(OffsetsCSV(), offsets.Written{Notation: notation.FeetInchesEighths, Grain: "0-0-1", Surface: offsets.Inside})
	if len(faults) > 0 {
		return Demo{}, fmt.Errorf("offsets.csv: %v", faults[0])
	}
	d.Hull = *doc
	if err := decode("frames.json", &d.Frames); err != nil {
		return Demo{}, err
	}
	if err := decode("planking.json", &d.Planking); err != nil {
		return Demo{}, err
	}
	if err := decode("rack.json", &d.Rack); err != nil {
		return Demo{}, err
	}
	if err := decode("findings.json", &d.Findings); err != nil {
		return Demo{}, err
	}
	if err := decode("terms.json", &d.Terms); err != nil {
		return Demo{}, err
	}
	if err := decode("options.json", &d.Options); err != nil {
		return Demo{}, err
	}
	if err := decode("planked.json", &d.Planked); err != nil {
		return Demo{}, err
	}
	for n := 1; n <= 2; n++ {
		c, err := sheet.ReadCSV(PricesCSV(n), d.Job.Currency, notation.FeetInchesEighths)
		if err != nil {
			return Demo{}, fmt.Errorf("prices-%d.csv: %w", n, err)
		}
		d.Prices = append(d.Prices, c)
	}
	return d, nil
}

// file is an embedded file. That it is there is settled when the program is built; its tests read every one.
func file(name string) []byte {
	b, err := files.ReadFile("data/" + name)
	if err != nil {
		panic(err)
	}
	return b
}

func decode(name string, into any) error {
	dec := json.NewDecoder(bytes.NewReader(file(name)))
	dec.DisallowUnknownFields()
	if err := dec.Decode(into); err != nil {
		return fmt.Errorf("%s: %w", name, err)
	}
	return nil
}
