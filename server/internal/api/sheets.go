package api

import (
	"net/http"
	"strconv"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/server/internal/app"
	"ribband/server/internal/store"
	"ribband/takeoff/drawing"
	"ribband/takeoff/notation"
)

// pricesBody is the prices of one version, every cell a text as in a table.
type pricesBody struct {
	Currency money.Currency    `json:"currency"`
	Notation notation.Notation `json:"notation"`
	Items    []priceRow        `json:"items"`
}

// priceRow is sheet.Row where what does not apply may be left out.
type priceRow struct {
	Item        string `json:"item,omitempty"`
	Description string `json:"description,omitempty"`
	Kind        string `json:"kind"`
	Supplier    string `json:"supplier,omitempty"`
	Unit        string `json:"unit"`
	Price       string `json:"price"`
	Per         string `json:"per,omitempty"`
	PackSize    string `json:"pack_size,omitempty"`
	Species     string `json:"species,omitempty"`
	Grade       string `json:"grade,omitempty"`
	Thickness   string `json:"thickness,omitempty"`
	Width       string `json:"width,omitempty"`
	StockLength string `json:"stock_length,omitempty"`
	MinQty      string `json:"min_qty,omitempty"`
	LeadDays    string `json:"lead_days,omitempty"`
	ValidUntil  string `json:"valid_until,omitempty"`
	Available   string `json:"available,omitempty"`
	FreeFrom    string `json:"free_from,omitempty"`
	Widest      string `json:"widest,omitempty"`
}

func (b pricesBody) document() sheet.Document {
	d := sheet.Document{Currency: b.Currency, Notation: b.Notation, Items: make([]sheet.Row, len(b.Items))}
	for i, row := range b.Items {
		d.Items[i] = sheet.Row(row)
	}
	return d
}

func pricesBodyOf(c sheet.Content) pricesBody {
	d := c.Document()
	b := pricesBody{Currency: d.Currency, Notation: d.Notation, Items: make([]priceRow, len(d.Items))}
	for i, row := range d.Items {
		b.Items[i] = priceRow(row)
	}
	return b
}

func listSheets(c *call) error {
	page := c.page()
	list, err := c.app.Sheets(c.Request.Context(), c.who, page)
	if err != nil {
		return err
	}
	return c.listed(list.Next, list)
}

func makeSheet(c *call) error {
	fields, body, err := jsonBody[app.SheetFields](c)
	if err != nil {
		return err
	}
	key, err := c.key(body)
	if err != nil {
		return err
	}
	answer, err := c.app.MakeSheet(c.Request.Context(), c.who, key, fields, func(s app.Sheet) (store.Answer, error) {
		return made(http.StatusCreated, etag(s.N), v1+"price-sheets/"+s.ID, s)
	})
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

func readSheet(c *call) error {
	s, err := c.app.Sheet(c.Request.Context(), c.who, c.Param("sheet"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, etag(s.N), s)
}

func readPrices(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	d, err := c.app.Prices(c.Request.Context(), c.who, c.Param("sheet"), n)
	if err != nil {
		return err
	}
	return replyTable(c, d.N, pricesBodyOf(d.Doc), d.Doc.WriteCSV)
}

func putPrices(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	seen, err := c.seen()
	if err != nil {
		return err
	}
	kind, body, err := c.body(jsonKind, csvKind)
	if err != nil {
		return err
	}
	var d app.Written[sheet.Content]
	if kind == csvKind {
		d, err = c.app.PutPriceTable(c.Request.Context(), c.who, c.Param("sheet"), n, body, seen)
	} else {
		var in pricesBody
		if in, err = decoded[pricesBody](c, body); err == nil {
			d, err = c.app.PutPrices(c.Request.Context(), c.who, c.Param("sheet"), n, in.document(), seen)
		}
	}
	if err != nil {
		return err
	}
	return written(c, func() (app.Written[pricesBody], error) {
		return app.Written[pricesBody]{Doc: pricesBodyOf(d.Doc), N: d.N, Hash: d.Hash}, nil
	})
}

func publishPrices(c *call) error {
	n, err := c.number("n")
	if err != nil {
		return err
	}
	return c.bare(func(key app.Key) (store.Answer, error) {
		return c.app.Publish(c.Request.Context(), c.who, c.Param("sheet"), n, key, changed[app.Sheet])
	})
}

// bare answers a write that takes no body.
func (c *call) bare(write func(app.Key) (store.Answer, error)) error {
	var some [1]byte
	if n, _ := c.Request.Body.Read(some[:]); n > 0 {
		return malformedRequest.say("This operation takes no body. Send none.")
	}
	key, err := c.key(nil)
	if err != nil {
		return err
	}
	answer, err := write(key)
	if err != nil {
		return err
	}
	c.answer(answer)
	return nil
}

// changed is the answer of a write to something that was there before: what it is now.
func changed[T any](now T) (store.Answer, error) { return made(http.StatusOK, "", "", now) }

func readBuyList(c *call) error {
	version := c.whole("version")
	list, err := c.app.BuyList(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), c.Query("sheet"), version, c.whole("rack"))
	if err != nil {
		return err
	}
	if needed := c.Query("needed"); needed != "" {
		if err := c.app.ByDay(&list, needed); err != nil {
			return err
		}
	}
	return c.json(http.StatusOK, "", list)
}

// readRackAfter answers the rack once the boards of the buy list are cut, as a document that can be put.
func readRackAfter(c *call) error {
	doc, err := c.app.RackAfter(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), c.Query("sheet"), c.whole("version"), c.whole("rack"))
	if err != nil {
		return err
	}
	return c.json(http.StatusOK, "", doc)
}

// readRippingList answers the drawing of one list of the buy list's, the first unless another is named.
func readRippingList(c *call) error {
	list := int64(1)
	if text := c.Query("list"); text != "" {
		list, _ = count(text) // known has looked at it
	}
	f, err := c.app.RippingDrawing(c.Request.Context(), c.who, c.Param("job"), c.Param("option"), c.Query("sheet"), c.whole("version"), c.whole("rack"), list, drawing.Wide)
	if err != nil {
		return err
	}
	c.Header("Content-Disposition", `inline; filename="ripping-list-`+strconv.FormatInt(list, 10)+`.svg"`)
	c.send(http.StatusOK, "", f.Kind, f.Body)
	return nil
}
