package sheet

import "strconv"

// Columns of a price table, in the order they are written. Those after valid_until are optional, and written up to the last that some
// row has.
var Columns = []string{
	"item", "description", "kind", "supplier", "unit", "price", "per", "pack_size", "species", "grade", "thickness",
	"width", "stock_length", "min_qty", "lead_days", "valid_until", "available",
	"free_from", "widest",
}

// Row is one item as it is written, every cell a text; what does not apply is empty. It is the shape of an item in
// a document, and of a row in a table.
type Row struct {
	Item        string `json:"item"`
	Description string `json:"description"`
	Kind        string `json:"kind"`
	Supplier    string `json:"supplier"`
	Unit        string `json:"unit"`
	Price       string `json:"price"`
	Per         string `json:"per"`
	PackSize    string `json:"pack_size"`
	Species     string `json:"species"`
	Grade       string `json:"grade"`
	Thickness   string `json:"thickness"`
	Width       string `json:"width"`
	StockLength string `json:"stock_length"`
	MinQty      string `json:"min_qty"`
	LeadDays    string `json:"lead_days"`
	ValidUntil  string `json:"valid_until"`
	Available   string `json:"available"`
	FreeFrom    string `json:"free_from,omitempty"`
	Widest      string `json:"widest,omitempty"`
}

// cells are the places of a row's texts in the order of Columns.
func (r *Row) cells() []*string {
	return []*string{
		&r.Item, &r.Description, &r.Kind, &r.Supplier, &r.Unit, &r.Price, &r.Per, &r.PackSize, &r.Species, &r.Grade,
		&r.Thickness, &r.Width, &r.StockLength, &r.MinQty, &r.LeadDays, &r.ValidUntil, &r.Available, &r.FreeFrom,
		&r.Widest,
	}
}

// Row is the item as it is written: prices in plain decimals, sizes as they were given.
func (it Item) Row() Row {
	r := Row{
		Item: it.Item, Description: it.Description, Kind: string(it.Kind), Supplier: it.Supplier, Unit: string(it.Unit),
		Price: it.Price.String(), Per: it.Per.String(), Species: it.Species, Grade: it.Grade,
		Thickness: it.Thickness.Text(), Width: it.Width.Text(), StockLength: it.StockLength.Text(), Widest: it.Widest.Text(),
		ValidUntil: it.ValidUntil,
	}
	if !it.PackSize.IsZero() {
		r.PackSize = it.PackSize.String()
	}
	if !it.MinQty.IsZero() {
		r.MinQty = it.MinQty.String()
	}
	if it.LeadDays >= 0 {
		r.LeadDays = strconv.Itoa(it.LeadDays)
	}
	if !it.FreeFrom.IsZero() {
		r.FreeFrom = it.FreeFrom.String()
	}
	if it.Available >= 0 {
		r.Available = strconv.FormatInt(it.Available, 10)
	}
	return r
}
