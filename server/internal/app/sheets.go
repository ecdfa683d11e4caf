package app

import (
	"context"
	"errors"
	"time"

	"ribband/pricing/money"
	"ribband/pricing/sheet"
	"ribband/server/internal/auth"
	"ribband/server/internal/store"
	"ribband/takeoff/document"
	"ribband/takeoff/notation"
)

// SheetFields is what a price sheet is begun with.
type SheetFields struct {
	Name     string            `json:"name"`
	Currency money.Currency    `json:"currency"`
	Notation notation.Notation `json:"notation"`
}

// Sheet is a price sheet with its published versions. The next one is the draft.
type Sheet struct {
	ID string `json:"id"`
	N  int64  `json:"-"`
	SheetFields
	Published []PublishedVersion `json:"published"`
	// DraftN is the number of the version that may still be put.
	DraftN    int64     `json:"draft_n"`
	CreatedAt time.Time `json:"created_at"`
}

// PublishedVersion is a version that stands for ever. Hash is of what it says, whichever way it came in.
type PublishedVersion struct {
	N           int64     `json:"n"`
	Hash        string    `json:"hash"`
	Items       int       `json:"items"`
	PublishedAt time.Time `json:"published_at"`
}

// sheetBody is a sheet as it is kept.
type sheetBody struct {
	SheetFields
	Published []PublishedVersion `json:"published"`
	CreatedAt time.Time          `json:"created_at"`
}

func sheetOf(d store.Document) (Sheet, error) {
	b, err := stored[sheetBody](kindSheet, d.Body)
	if b.Published == nil {
		b.Published = []PublishedVersion{}
	}
	return Sheet{d.ID, d.N, b.SheetFields, b.Published, int64(len(b.Published)) + 1, b.CreatedAt}, err
}

// pricesID is the id of the document that holds version n of a sheet.
func pricesID(id string, n int64) string { return id + "." + itoa(int(n)) }

func (f SheetFields) check() document.Faults {
	var faults document.Faults
	named(&faults, "/name", f.Name)
	if !f.Currency.Known() {
		faults.Add("/currency", "an ISO 4217 code in capitals, for example USD", "%s is not a currency", notation.Quote(string(f.Currency)))
	}
	if !f.Notation.Known() {
		faults.Add("/notation", "feet_inches_eighths, inches, mm or m", "the notation %s is not known", notation.Quote(string(f.Notation)))
	}
	return faults
}

// MakeSheet begins a price sheet; its first version is a draft without prices.
func (a *App) MakeSheet(ctx context.Context, who auth.Principal, key Key, fields SheetFields, reply Reply[Sheet]) (store.Answer, error) {
	if err := fields.check().Err(); err != nil {
		return store.Answer{}, err
	}
	answer, _, err := a.write(ctx, who, "make price sheet", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		id, err := tx.NewID()
		if err != nil {
			return store.Answer{}, err
		}
		body, err := encode(kindSheet, sheetBody{SheetFields: fields, CreatedAt: tx.Now()})
		if err != nil {
			return store.Answer{}, err
		}
		d, err := tx.PutDocument(ctx, store.Document{Kind: kindSheet, ID: id, Schema: schema, Body: body}, store.Absent)
		if err != nil {
			return store.Answer{}, err
		}
		s, err := sheetOf(d)
		if err != nil {
			return store.Answer{}, err
		}
		return reply(s)
	})
	return answer, err
}

// Sheets lists the yard's price sheets.
func (a *App) Sheets(ctx context.Context, who auth.Principal, page store.Page) (List[Sheet], error) {
	ds, err := a.store.In(who.Yard).Documents(ctx, kindSheet, page)
	if err != nil {
		return List[Sheet]{}, err
	}
	return listed(ds, sheetOf)
}

// Sheet reads a price sheet.
func (a *App) Sheet(ctx context.Context, who auth.Principal, id string) (Sheet, error) {
	d, err := a.store.In(who.Yard).Document(ctx, kindSheet, id)
	if err != nil {
		return Sheet{}, err
	}
	return sheetOf(d)
}

// Prices reads version n of a sheet, a draft too. A draft that nobody has put prices into is version 0 of nothing.
func (a *App) Prices(ctx context.Context, who auth.Principal, id string, n int64) (Written[sheet.Content], error) {
	s, err := a.Sheet(ctx, who, id)
	if err != nil {
		return Written[sheet.Content]{}, err
	}
	d, err := a.store.In(who.Yard).Document(ctx, kindPrices, pricesID(id, n))
	if gone(err) && n == s.DraftN {
		return Written[sheet.Content]{Doc: sheet.Content{Currency: s.Currency, Notation: s.Notation}}, nil
	}
	if err != nil {
		return Written[sheet.Content]{}, err
	}
	return writtenOf[sheet.Content](d)
}

// published reads version n of a sheet, which has to be published.
func (a *App) published(ctx context.Context, who auth.Principal, id string, n int64) (store.Document, sheet.Content, error) {
	s, err := a.Sheet(ctx, who, id)
	if err != nil {
		return store.Document{}, sheet.Content{}, err
	}
	if n == s.DraftN {
		return store.Document{}, sheet.Content{}, &NotPublishedError{n}
	}
	d, err := a.store.In(who.Yard).Document(ctx, kindPrices, pricesID(id, n))
	if err != nil {
		return store.Document{}, sheet.Content{}, err
	}
	c, err := stored[sheet.Content](kindPrices, d.Body)
	return d, c, err
}

// PutPrices keeps the prices of the draft, all of them or nothing.
func (a *App) PutPrices(ctx context.Context, who auth.Principal, id string, n int64, doc sheet.Document, seen store.Seen) (Written[sheet.Content], error) {
	s, err := a.Sheet(ctx, who, id)
	if err != nil {
		return Written[sheet.Content]{}, err
	}
	var f document.Faults
	if doc.Currency != s.Currency {
		f.Add("/currency", "the currency of the sheet, "+string(s.Currency), "%s is not the currency of the sheet", notation.Quote(string(doc.Currency)))
	}
	content, err := sheet.FromRows(s.Currency, doc.Notation, doc.Items)
	var inRows document.Faults
	if errors.As(err, &inRows) {
		f = append(f, inRows...)
	} else if err != nil {
		return Written[sheet.Content]{}, err
	}
	if err := f.Err(); err != nil {
		return Written[sheet.Content]{}, err
	}
	return a.putPrices(ctx, who, id, n, content, seen)
}

// PutPriceTable is PutPrices for a table, in the currency and the notation of the sheet.
func (a *App) PutPriceTable(ctx context.Context, who auth.Principal, id string, n int64, table []byte, seen store.Seen) (Written[sheet.Content], error) {
	s, err := a.Sheet(ctx, who, id)
	if err != nil {
		return Written[sheet.Content]{}, err
	}
	content, err := sheet.ReadCSV(table, s.Currency, s.Notation)
	if err != nil {
		return Written[sheet.Content]{}, err
	}
	return a.putPrices(ctx, who, id, n, content, seen)
}

func (a *App) putPrices(ctx context.Context, who auth.Principal, id string, n int64, content sheet.Content, seen store.Seen) (Written[sheet.Content], error) {
	return put(ctx, a, who, kindPrices, pricesID(id, n), content, seen, func(ctx context.Context, tx *store.Tx) error {
		d, err := tx.Document(ctx, kindSheet, id)
		if err != nil {
			return err
		}
		s, err := sheetOf(d)
		switch {
		case err != nil:
			return err
		case n < s.DraftN:
			return &PublishedError{n}
		case n > s.DraftN:
			return &VersionOrderError{n, s.DraftN}
		}
		return nil
	})
}

// Publish makes the draft version n stand for ever.
func (a *App) Publish(ctx context.Context, who auth.Principal, id string, n int64, key Key, reply Reply[Sheet]) (store.Answer, error) {
	answer, _, err := a.write(ctx, who, "publish price sheet", key, func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
		head, err := tx.Document(ctx, kindSheet, id)
		if err != nil {
			return store.Answer{}, err
		}
		b, err := stored[sheetBody](kindSheet, head.Body)
		if err != nil {
			return store.Answer{}, err
		}
		if n <= int64(len(b.Published)) {
			return store.Answer{}, &PublishedError{n}
		}
		version, err := publishable(ctx, tx, id, n)
		if n == int64(len(b.Published))+1 {
			err = absent(err, "version "+itoa(int(n))+" has no prices yet", "put them first")
		}
		if err != nil {
			return store.Answer{}, err
		}
		b.Published = append(b.Published, version)
		body, err := encode(kindSheet, b)
		if err != nil {
			return store.Answer{}, err
		}
		d, err := tx.PutDocument(ctx, store.Document{Kind: kindSheet, ID: id, Schema: schema, Body: body}, store.Seen(head.N))
		if err != nil {
			return store.Answer{}, err
		}
		s, err := sheetOf(d)
		if err != nil {
			return store.Answer{}, err
		}
		return reply(s)
	})
	return answer, err
}

func publishable(ctx context.Context, tx *store.Tx, id string, n int64) (PublishedVersion, error) {
	d, err := tx.Document(ctx, kindPrices, pricesID(id, n))
	if err != nil {
		return PublishedVersion{}, err
	}
	content, err := stored[sheet.Content](kindPrices, d.Body)
	if err != nil {
		return PublishedVersion{}, err
	}
	hash, err := content.Hash()
	return PublishedVersion{n, hash, len(content.Items), tx.Now()}, err
}
