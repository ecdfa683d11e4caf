package freight

import (
	"math/big"

	"ribband/pricing/money"
	"ribband/pricing/sheet"

	"github.com/shopspring/decimal"
)

// Load is what one supplier brings.
type Load struct {
	Supplier string
	// Goods is what it costs without being brought.
	Goods money.Money
	// Volume of boards by species, m3, exact, from their rough sizes.
	Volume map[string]*big.Rat
	// mass of goods sold by weight, kg; unweighed are goods whose weight the sheet does not say.
	mass      *big.Rat
	unweighed []string
}

// NewLoad is one with nothing on it.
func NewLoad(supplier string, c money.Currency) *Load {
	return &Load{Supplier: supplier, Goods: money.Zero(c), Volume: map[string]*big.Rat{}, mass: new(big.Rat)}
}

// Add puts boards or packs of a row on it; what is how a pack is called.
func (l *Load) Add(it sheet.Item, what string, count int64, cost money.Money) (err error) {
	if it.Kind == sheet.Timber {
		if l.Volume[it.Species] == nil {
			l.Volume[it.Species] = new(big.Rat)
		}
		mm3 := it.BoardVolume().Mul(decimal.NewFromInt(count))
		l.Volume[it.Species].Add(l.Volume[it.Species], mm3.Shift(-9).Rat())
	} else if kg, ok := sheet.Convert(it.PieceMeasure(), it.Unit, "KGM"); ok {
		l.mass.Add(l.mass, kg.Mul(kg, big.NewRat(count, 1)))
	} else {
		l.unweighed = append(l.unweighed, what)
	}
	l.Goods, err = l.Goods.Add(cost)
	return err
}
