package store

import "time"

// Yard is the firm that everything else belongs to.
type Yard struct {
	ID        string
	Name      string
	Invented  bool // a demonstration yard: no such firm exists
	CreatedAt time.Time
}

// Job is a boat's refit.
type Job struct {
	ID         string
	N          int64 // version, from 1, one more with each change
	Boat       string
	Owner      string
	Notation   string // how the yard writes lengths on this job
	Currency   string // ISO 4217
	OpenedDate string // calendar date, YYYY-MM-DD
	Body       []byte // what the columns do not hold, as JSON
	CreatedAt  time.Time
	ChangedAt  time.Time
}

// Option is a named set of remedies and free steps on a job.
type Option struct {
	ID        string
	JobID     string
	N         int64 // version, from 1
	Name      string
	Body      []byte // what the columns do not hold, as JSON
	CreatedAt time.Time
	ChangedAt time.Time
}

// Document is one version of something kept whole: a hull, frames, remedies,
// species, steps, rules, a price sheet. Versions are never changed or removed.
type Document struct {
	Kind      string // lower-case words joined by hyphens
	ID        string // the job's, the option's, or the document's own
	N         int64  // version, from 1 without gaps; the ETag
	Schema    int64  // which shape Body has, from 1
	Body      []byte // the bytes as they were put
	Hash      string // SHA-256 of Body in hexadecimal
	CreatedAt time.Time
}

// Quote is the record that revisions belong to.
type Quote struct {
	ID        string
	JobID     string
	Number    string // "2026-0007" from the first issue on, empty before
	CreatedAt time.Time
}

// Revision is one state of a quote: a draft that changes until it is issued and
// never again after.
type Revision struct {
	QuoteID   string
	N         int64  // from 1
	Edit      int64  // version of the draft, from 1; the ETag
	Body      []byte // what the estimator put in, as JSON
	CreatedAt time.Time
	ChangedAt time.Time

	// Of an issued revision only.
	IssuedAt time.Time // zero while it is a draft
	Number   string    // the quote's number
	Hash     string    // SHA-256 of the snapshot in hexadecimal
	PDFHash  string    // SHA-256 of the PDF in hexadecimal
	Totals   []Total   // one for each option, in the order of their identifiers
}

// Issued tells whether the revision has been sent out and so stands for ever.
func (r Revision) Issued() bool { return !r.IssuedAt.IsZero() }

// Total is what one option of an issued revision comes to, in whole minor units
// of the currency (cents). Total = net + tax.
type Total struct {
	OptionID   string
	Currency   string // ISO 4217
	NetMinor   int64
	TaxMinor   int64
	TotalMinor int64
}

// Frozen is what an issued revision consists of, byte for byte.
type Frozen struct {
	Snapshot []byte
	Hash     string // SHA-256 of Snapshot in hexadecimal
	PDF      []byte
	PDFHash  string // SHA-256 of PDF in hexadecimal
}

// Kinds of quote events. A quote's status follows from its events.
const (
	EventDrafted  = "drafted"
	EventIssued   = "issued"
	EventAccepted = "accepted"
	EventDeclined = "declined"
)

// QuoteEvent is something that happened to a revision. Events are never changed.
type QuoteEvent struct {
	ID        string
	QuoteID   string
	Revision  int64
	Kind      string
	OptionID  string // the option accepted; empty where none is named
	TokenID   string // who did it
	Name      string // the name that went with the token then
	Body      []byte // what else was said, as JSON
	CreatedAt time.Time
}

// Token is the stored half of a bearer token: only its hash is kept.
type Token struct {
	ID        string
	YardID    string
	Name      string // whose it is
	Role      string // lead, estimator, accountant or owner
	JobID     string // the one job an owner sees; empty for every other role
	Hash      string // SHA-256 of the token in hexadecimal
	CreatedAt time.Time
	ExpiresAt time.Time // zero: does not expire
	RevokedAt time.Time // zero: in force
}

// Change is one row that a write touched, as the audit keeps it.
type Change struct {
	What string `json:"what"` // "job", "document hull", "revision", ...
	ID   string `json:"id"`
	N    int64  `json:"n,omitempty"`    // the version it has now
	Hash string `json:"hash,omitempty"` // SHA-256 of its content now
}

// AuditEntry is one write: who, when, what. Entries of a yard form a chain, each
// hash covering the entry and the hash before it.
type AuditEntry struct {
	N        int64 // from 1 without gaps
	At       time.Time
	TokenID  string
	Role     string
	Name     string
	Action   string
	Key      string // the idempotency key, empty where none was given
	Changes  []Change
	Previous string // hash of the entry before; 64 zeros before the first
	Hash     string
}
