package sheet

// Kind sorts what is paid for; markup and tax go by it.
type Kind string

// The kinds. Pattern stock (plywood or hardboard that patterns are cut from) is a Consumable: it is used up in the
// work and stays in no boat.
const (
	Timber     Kind = "timber"
	Glue       Kind = "glue"
	Metal      Kind = "metal"
	Coating    Kind = "coating"
	Consumable Kind = "consumable"
	Labour     Kind = "labour"     // an hour of a trade: item is the trade, unit HUR
	Outside    Kind = "outside"    // work done by others
	DayCharge  Kind = "day_charge" // the slip, the crane, the shed, by the day
	// Freight is what a supplier asks for bringing an order: by the order, by measure of its timber, or by weight.
	Freight Kind = "freight"
)

// Kinds in the order they are listed.
var Kinds = []Kind{Timber, Glue, Metal, Coating, Consumable, Labour, Outside, DayCharge, Freight}

// Known reports whether k is one of Kinds.
func (k Kind) Known() bool {
	for _, o := range Kinds {
		if k == o {
			return true
		}
	}
	return false
}

// Goods reports a kind that is delivered, in boards or packs.
func (k Kind) Goods() bool {
	return k.Known() && k != Labour && k != Outside && k != DayCharge && k != Freight
}
