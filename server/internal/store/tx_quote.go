package store

import (
	"context"
	"fmt"
	"strconv"

	"gorm.io/gorm"
)

// AddQuote adds a quote to a job with its first revision, a draft of body. Errors:
// [NotFoundError] for the job, [TextError].
func (t *Tx) AddQuote(ctx context.Context, jobID string, body []byte) (Quote, Revision, error) {
	if err := checkText("job", jobID); err != nil {
		return Quote{}, Revision{}, err
	}
	at, id, err := t.identify()
	if err != nil {
		return Quote{}, Revision{}, err
	}
	row := quoteRow{YardID: t.yard, ID: id, JobID: jobID, CreatedAt: at}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return Quote{}, Revision{}, parentMissing(err, "job", jobID)
	}
	t.changed("quote", id, 0, "")
	revision, err := t.addRevision(ctx, id, 1, body)
	if err != nil {
		return Quote{}, Revision{}, err
	}
	quote, err := row.record()
	return quote, revision, err
}

// AddRevision adds the next revision of a quote, a draft of body, after seen, the
// number of the newest revision. While that one is a draft it is the one to change:
// [ExistsError]. Other errors: [NotFoundError], [StaleError], [UnseenError].
func (t *Tx) AddRevision(ctx context.Context, quoteID string, body []byte, seen Seen) (Revision, error) {
	revisions, err := t.Revisions(ctx, quoteID)
	if err != nil {
		return Revision{}, err
	}
	newest := revisions[len(revisions)-1]
	if err := match("quote", quoteID, seen, newest.N); err != nil {
		return Revision{}, err
	}
	if !newest.Issued() {
		return Revision{}, &ExistsError{Kind: "draft", ID: revisionID(quoteID, newest.N), Current: newest.Edit}
	}
	return t.addRevision(ctx, quoteID, newest.N+1, body)
}

func (t *Tx) addRevision(ctx context.Context, quoteID string, n int64, body []byte) (Revision, error) {
	if err := checkBody("quote", body); err != nil {
		return Revision{}, err
	}
	at := t.tick()
	row := revisionRow{YardID: t.yard, QuoteID: quoteID, N: n, Edit: 1, Body: bytesOf(body), CreatedAt: at, ChangedAt: at}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return Revision{}, parentMissing(err, "quote", quoteID)
	}
	t.changed("revision", revisionID(quoteID, n), 1, HashOf(row.Body))
	if _, err := t.AddQuoteEvent(ctx, QuoteEvent{QuoteID: quoteID, Revision: n, Kind: EventDrafted}); err != nil {
		return Revision{}, err
	}
	return row.record()
}

// ChangeRevision replaces the body of a draft under the edit the caller saw.
// Errors: [NotFoundError], [ImmutableError] once it is issued, [StaleError],
// [UnseenError], [TextError].
func (t *Tx) ChangeRevision(ctx context.Context, quoteID string, n int64, body []byte, seen Seen) (Revision, error) {
	if err := checkBody("quote", body); err != nil {
		return Revision{}, err
	}
	row, err := t.draft(ctx, quoteID, n, seen)
	if err != nil {
		return Revision{}, err
	}
	row.Edit, row.Body, row.ChangedAt = row.Edit+1, bytesOf(body), t.tick()
	err = t.do(ctx, func(db *gorm.DB) error {
		return db.Select("edit", "body", "changed_at").Updates(&row).Error
	})
	if err != nil {
		return Revision{}, err
	}
	t.changed("revision", revisionID(quoteID, n), row.Edit, HashOf(row.Body))
	return row.record()
}

// QuoteNumber is the quote's number, "<year>-<nnnn>". A quote without one takes
// the next of the yard and year; later revisions keep it.
func (t *Tx) QuoteNumber(ctx context.Context, quoteID string, year int) (string, error) {
	quote, err := t.Quote(ctx, quoteID)
	if err != nil || quote.Number != "" {
		return quote.Number, err
	}
	last, err := t.Next(ctx, "quote", year)
	if err != nil {
		return "", err
	}
	number := fmt.Sprintf("%d-%04d", year, last)
	err = t.do(ctx, func(db *gorm.DB) error {
		return db.Exec("UPDATE quotes SET number = ? WHERE yard_id = ? AND id = ?", number, t.yard, quoteID).Error
	})
	if err != nil {
		return "", err
	}
	t.changed("quote", quoteID, 0, "")
	return number, nil
}

// Issue is what an estimate consists of when it is sent out.
type Issue struct {
	Snapshot []byte  // JSON; its SHA-256 is the hash in the PDF's footer, see [HashOf]
	PDF      []byte  // the estimate as sent
	Totals   []Total // one for each option
}

// IssueRevision freezes a draft under the edit the caller saw, with the number
// that [Tx.QuoteNumber] gave the quote before, and adds the event. Errors:
// [NotFoundError], [ImmutableError] when it is issued already, [StaleError],
// [UnseenError], [TextError].
func (t *Tx) IssueRevision(ctx context.Context, quoteID string, n int64, issue Issue, seen Seen) (Revision, error) {
	if err := issue.check(); err != nil {
		return Revision{}, err
	}
	row, err := t.draft(ctx, quoteID, n, seen)
	if err != nil {
		return Revision{}, err
	}
	quote, err := t.Quote(ctx, quoteID)
	if err != nil {
		return Revision{}, err
	}
	if quote.Number == "" {
		return Revision{}, &UsageError{"a quote is issued with a number; take it first, the snapshot holds it"}
	}
	// Totals go first: once the revision is issued the database takes none.
	for _, total := range issue.Totals {
		if err := t.addTotal(ctx, quoteID, n, total); err != nil {
			return Revision{}, err
		}
	}
	hash, pdfHash, at := HashOf(issue.Snapshot), HashOf(issue.PDF), t.tick()
	row.Number, row.Snapshot, row.Hash = &quote.Number, issue.Snapshot, &hash
	row.PDF, row.PDFHash, row.IssuedAt = issue.PDF, &pdfHash, &at
	err = t.do(ctx, func(db *gorm.DB) error {
		return db.Select("number", "snapshot", "hash", "pdf", "pdf_hash", "issued_at").Updates(&row).Error
	})
	if err != nil {
		return Revision{}, err
	}
	t.changed("revision", revisionID(quoteID, n), row.Edit, hash)
	if _, err := t.AddQuoteEvent(ctx, QuoteEvent{QuoteID: quoteID, Revision: n, Kind: EventIssued}); err != nil {
		return Revision{}, err
	}
	return t.Revision(ctx, quoteID, n)
}

func (i Issue) check() error {
	if len(i.Snapshot) == 0 || len(i.PDF) == 0 || len(i.Totals) == 0 {
		return &UsageError{"an estimate is issued with its snapshot, its PDF and a total for each option"}
	}
	for _, total := range i.Totals {
		if total.NetMinor+total.TaxMinor != total.TotalMinor {
			return &UsageError{"the total of option " + total.OptionID + " is not net plus tax"}
		}
		if err := checkText("option", total.OptionID, "currency", total.Currency); err != nil {
			return err
		}
	}
	return checkBody("snapshot", i.Snapshot)
}

func (t *Tx) addTotal(ctx context.Context, quoteID string, n int64, total Total) error {
	row := totalRow{YardID: t.yard, QuoteID: quoteID, Revision: n, OptionID: total.OptionID, Currency: total.Currency,
		NetMinor: total.NetMinor, TaxMinor: total.TaxMinor, TotalMinor: total.TotalMinor}
	err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error })
	return parentMissing(err, "option", total.OptionID)
}

// AddQuoteEvent appends an event to an existing revision, with who is asking. ID,
// TokenID and CreatedAt are filled in, and Name where it is empty. Events
// [EventDrafted] and [EventIssued] come by themselves. Errors: [NotFoundError],
// [ExistsError] for a second acceptance of the quote, [TextError].
func (t *Tx) AddQuoteEvent(ctx context.Context, event QuoteEvent) (QuoteEvent, error) {
	if !isKind(event.Kind) {
		return QuoteEvent{}, &UsageError{"an event's kind is written in lower case"}
	}
	if err := checkText("quote", event.QuoteID, "option", event.OptionID, "name", event.Name); err != nil {
		return QuoteEvent{}, err
	}
	if err := checkBody("event", event.Body); err != nil {
		return QuoteEvent{}, err
	}
	if event.OptionID != "" {
		if _, err := t.Option(ctx, event.OptionID); err != nil {
			return QuoteEvent{}, err
		}
	}
	if event.Name == "" {
		event.Name = t.actor.Name
	}
	at, id, err := t.identify()
	if err != nil {
		return QuoteEvent{}, err
	}
	row := eventRow{YardID: t.yard, ID: id, QuoteID: event.QuoteID, Revision: event.Revision, Kind: event.Kind,
		OptionID: columnOf(event.OptionID), TokenID: t.actor.TokenID, Name: event.Name, Body: bytesOf(event.Body), CreatedAt: at}
	if err := t.do(ctx, func(db *gorm.DB) error { return db.Create(&row).Error }); err != nil {
		return QuoteEvent{}, parentMissing(duplicated(err, "acceptance", event.QuoteID), "revision", revisionID(event.QuoteID, event.Revision))
	}
	hash, err := rowHash(row)
	if err != nil {
		return QuoteEvent{}, err
	}
	t.changed("quote event "+event.Kind, id, 0, hash)
	return row.record()
}

// draft reads a revision that may still be changed under the edit seen.
func (t *Tx) draft(ctx context.Context, quoteID string, n int64, seen Seen) (revisionRow, error) {
	row, err := t.revisionRow(ctx, quoteID, n, light)
	if err != nil {
		return row, err
	}
	if row.IssuedAt != nil {
		return row, &ImmutableError{Kind: "revision", ID: revisionID(quoteID, n)}
	}
	return row, match("revision", revisionID(quoteID, n), seen, row.Edit)
}

// revisionID names a revision in messages and in the audit.
func revisionID(quoteID string, n int64) string { return quoteID + "/" + strconv.FormatInt(n, 10) }
