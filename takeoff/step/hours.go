package step

import (
	"fmt"

	"ribband/takeoff/bill"
	"ribband/takeoff/derivation"
	"ribband/takeoff/quantity"
)

// Work is a step with the hours it takes on this boat.
type Work struct {
	Step
	// Counted is the sum of the driver's measures that the step counts.
	Counted quantity.Quantity `json:"counted"`
	Hours   quantity.Quantity `json:"hours"`
	// Figure is the id of the hours' figure.
	Figure string `json:"figure"`
}

// Hours works out every step of the library against the measures. A step that counts nothing takes no hours and is
// left out; nor is it set up for.
func (l Library) Hours(measures []bill.Measure, t *derivation.Table) ([]Work, error) {
	var out []Work
	for _, s := range l.Steps {
		counted := quantity.Zero(s.Driver.Unit())
		var inputs []derivation.Input
		for _, m := range measures {
			if m.Driver != string(s.Driver) || !s.Where.Holds(m.Member.Kind, m.Zone, m.Remedy) {
				continue
			}
			sum, err := counted.Add(m.Quantity)
			if err != nil {
				return nil, fmt.Errorf("%s of %s: %w", m.Driver, m.Member, err)
			}
			counted = sum
			inputs = append(inputs, t.Ref("Q", m.Figure))
		}
		if counted.IsZero() {
			continue
		}
		where := "step-libraries/" + s.Code
		id := "step/" + s.Code + "/hours"
		inputs = append(inputs,
			derivation.Given("h", where+"/per_unit_h", s.PerUnitH, quantity.HourPerUnit),
			derivation.Given("f", where+"/factor", s.Factor, quantity.Ratio),
			derivation.Given("s", where+"/setup_h", s.SetupH, quantity.Hour))
		hours := t.Derive(id, "step/hours", inputs)
		out = append(out, Work{Step: s, Counted: counted, Hours: hours, Figure: id})
	}
	return out, t.Err()
}
