package reconcile

import (
	"math/big"

	"ribband/pricing/money"
)

// Effect says in a word which way a difference goes, so that nobody has to rely on its sign: books differ in which
// sign is the bad one (Saylor, Managerial Accounting, 2012, prints unfavourable as positive, others favourable).
// Amounts here are always actual less quoted.
type Effect string

// The effects.
const (
	Favourable   Effect = "favourable"   // less was spent than quoted
	Unfavourable Effect = "unfavourable" // more was spent
	None         Effect = "none"
	// NothingSpent: no entry is posted, so nobody knows yet which way it goes. What is not spent yet is not saved.
	NothingSpent Effect = "nothing_spent"
)

// Word is the effect as pages and tables tell it.
func (e Effect) Word() string {
	switch e {
	case Favourable:
		return "under"
	case Unfavourable:
		return "over"
	case NothingSpent:
		return "nothing spent"
	}
	return "even"
}

// EffectOf is the word for a difference, actual less quoted.
func EffectOf(difference money.Money) Effect {
	switch {
	case difference.Sign() < 0:
		return Favourable
	case difference.Sign() > 0:
		return Unfavourable
	}
	return None
}

// PricePart is what a difference owes to the price: (AP - SP) x AQ, with the actual cost AP x AQ as it was paid, AQ
// the actual quantity and SP the quoted price of one unit. Of labour it is the rate variance. Exact.
//
// Source: Saylor Academy, Managerial Accounting (2012), chapter 10.
func PricePart(actual, aq, sp *big.Rat) *big.Rat {
	at := new(big.Rat).Mul(aq, sp)
	return at.Sub(actual, at)
}

// QuantityPart is what a difference owes to the quantity: (AQ - SQ) x SP, SQ the quoted quantity. Of labour it is the
// efficiency variance. Exact. Source as PricePart.
func QuantityPart(aq, sq, sp *big.Rat) *big.Rat {
	d := new(big.Rat).Sub(aq, sq)
	return d.Mul(d, sp)
}

// Variance is one part of a difference.
type Variance struct {
	Amount money.Money `json:"amount"`
	Effect Effect      `json:"effect"`
}

func variance(m money.Money) Variance { return Variance{m, EffectOf(m)} }

// Difference is spent less quoted cost. Price, Quantity and Unsplit add to Amount to the cent.
type Difference struct {
	Amount money.Money `json:"amount"`
	Effect Effect      `json:"effect"`
	// Price is (AP - SP) x AQ, of labour the rate; Quantity is (AQ - SQ) x SP, of labour the efficiency. Both are
	// within a cent of that: the price is rounded, and the quantity is what is left.
	Price    Variance `json:"price"`
	Quantity Variance `json:"quantity"`
	// Unsplit is what cannot be told apart, because one of the four figures is not known.
	Unsplit Variance `json:"unsplit"`
}

// difference puts the parts together; quantity takes what the others leave.
func difference(amount, price, unsplit money.Money) (Difference, error) {
	quantity, err := amount.Sub(price)
	if err == nil {
		quantity, err = quantity.Sub(unsplit)
	}
	if err != nil {
		return Difference{}, err
	}
	return Difference{amount, EffectOf(amount), variance(price), variance(quantity), variance(unsplit)}, nil
}

// unspent is the difference where no entry is posted: all of it is unsplit.
func (d Difference) unspent() Difference {
	d.Effect, d.Unsplit.Effect = NothingSpent, NothingSpent
	return d
}

// add sums two differences part by part.
func (d Difference) add(o Difference) (Difference, error) {
	var sums [4]money.Money
	for i, p := range [4][2]money.Money{{d.Amount, o.Amount}, {d.Price.Amount, o.Price.Amount},
		{d.Quantity.Amount, o.Quantity.Amount}, {d.Unsplit.Amount, o.Unsplit.Amount}} {
		var err error
		if sums[i], err = p[0].Add(p[1]); err != nil {
			return Difference{}, err
		}
	}
	return Difference{sums[0], EffectOf(sums[0]), variance(sums[1]), variance(sums[2]), variance(sums[3])}, nil
}
