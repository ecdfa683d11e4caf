-- +goose Up

-- Every key begins with the yard. Times are whole microseconds since 1970 in
-- UTC, money whole minor units, quantities text. Identifiers are UUIDv7 text.

-- last_at, audit_n and audit_hash move with every write: the newest stamp this
-- yard has given out, and the head of its audit chain.
CREATE TABLE yards (
    id         TEXT    NOT NULL PRIMARY KEY,
    name       TEXT    NOT NULL,
    invented   INTEGER NOT NULL CHECK (invented IN (0, 1)),
    created_at INTEGER NOT NULL,
    last_at    INTEGER NOT NULL,
    audit_n    INTEGER NOT NULL,
    audit_hash TEXT    NOT NULL
) STRICT;

CREATE TABLE jobs (
    yard_id     TEXT    NOT NULL REFERENCES yards (id),
    id          TEXT    NOT NULL,
    n           INTEGER NOT NULL CHECK (n >= 1),
    boat        TEXT    NOT NULL,
    owner       TEXT    NOT NULL,
    notation    TEXT    NOT NULL,
    currency    TEXT    NOT NULL,
    opened_date TEXT    NOT NULL,
    body        BLOB    NOT NULL,
    created_at  INTEGER NOT NULL,
    changed_at  INTEGER NOT NULL,
    PRIMARY KEY (yard_id, id)
) STRICT;
CREATE INDEX jobs_by_time ON jobs (yard_id, created_at, id);

CREATE TABLE options (
    yard_id    TEXT    NOT NULL,
    id         TEXT    NOT NULL,
    job_id     TEXT    NOT NULL,
    n          INTEGER NOT NULL CHECK (n >= 1),
    name       TEXT    NOT NULL,
    body       BLOB    NOT NULL,
    created_at INTEGER NOT NULL,
    changed_at INTEGER NOT NULL,
    PRIMARY KEY (yard_id, id),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id)
) STRICT;
CREATE INDEX options_by_time ON options (yard_id, job_id, created_at, id);

-- The hash is unique over all yards because a bearer token names no yard: the
-- token is what tells which yard is asking.
CREATE TABLE tokens (
    yard_id    TEXT    NOT NULL REFERENCES yards (id),
    id         TEXT    NOT NULL,
    name       TEXT    NOT NULL,
    role       TEXT    NOT NULL CHECK (role IN ('lead', 'estimator', 'accountant', 'owner')),
    job_id     TEXT,
    hash       TEXT    NOT NULL CHECK (length(hash) = 64),
    created_at INTEGER NOT NULL,
    expires_at INTEGER,
    revoked_at INTEGER,
    PRIMARY KEY (yard_id, id),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id),
    CHECK ((role = 'owner') = (job_id IS NOT NULL))
) STRICT;
CREATE UNIQUE INDEX tokens_by_hash ON tokens (hash);
CREATE INDEX tokens_by_time ON tokens (yard_id, created_at, id);

CREATE TABLE documents (
    yard_id    TEXT    NOT NULL REFERENCES yards (id),
    kind       TEXT    NOT NULL,
    id         TEXT    NOT NULL,
    n          INTEGER NOT NULL CHECK (n >= 1),
    schema     INTEGER NOT NULL CHECK (schema >= 1),
    body       BLOB    NOT NULL,
    hash       TEXT    NOT NULL CHECK (length(hash) = 64),
    created_at INTEGER NOT NULL,
    PRIMARY KEY (yard_id, kind, id, n)
) STRICT;
CREATE INDEX documents_by_time ON documents (yard_id, kind, created_at, id) WHERE n = 1;

CREATE TABLE quotes (
    yard_id    TEXT    NOT NULL,
    id         TEXT    NOT NULL,
    job_id     TEXT    NOT NULL,
    number     TEXT,
    created_at INTEGER NOT NULL,
    PRIMARY KEY (yard_id, id),
    UNIQUE (yard_id, number),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id)
) STRICT;
CREATE INDEX quotes_by_time ON quotes (yard_id, job_id, created_at, id);

-- edit counts the changes of a draft; everything from number on is written once,
-- when the revision is issued.
CREATE TABLE quote_revisions (
    yard_id    TEXT    NOT NULL,
    quote_id   TEXT    NOT NULL,
    n          INTEGER NOT NULL CHECK (n >= 1),
    edit       INTEGER NOT NULL CHECK (edit >= 1),
    body       BLOB    NOT NULL,
    created_at INTEGER NOT NULL,
    changed_at INTEGER NOT NULL,
    number     TEXT,
    snapshot   BLOB,
    hash       TEXT CHECK (length(hash) = 64),
    pdf        BLOB,
    pdf_hash   TEXT CHECK (length(pdf_hash) = 64),
    issued_at  INTEGER,
    PRIMARY KEY (yard_id, quote_id, n),
    FOREIGN KEY (yard_id, quote_id) REFERENCES quotes (yard_id, id),
    CHECK ((issued_at IS NULL) = (number IS NULL)),
    CHECK ((issued_at IS NULL) = (snapshot IS NULL)),
    CHECK ((issued_at IS NULL) = (hash IS NULL)),
    CHECK ((issued_at IS NULL) = (pdf IS NULL)),
    CHECK ((issued_at IS NULL) = (pdf_hash IS NULL))
) STRICT;

-- Whole minor units of the currency, so that SQL may add them without a float.
CREATE TABLE quote_totals (
    yard_id     TEXT    NOT NULL,
    quote_id    TEXT    NOT NULL,
    revision    INTEGER NOT NULL,
    option_id   TEXT    NOT NULL,
    currency    TEXT    NOT NULL,
    net_minor   INTEGER NOT NULL,
    tax_minor   INTEGER NOT NULL,
    total_minor INTEGER NOT NULL,
    PRIMARY KEY (yard_id, quote_id, revision, option_id),
    FOREIGN KEY (yard_id, quote_id, revision) REFERENCES quote_revisions (yard_id, quote_id, n),
    FOREIGN KEY (yard_id, option_id) REFERENCES options (yard_id, id),
    CHECK (net_minor + tax_minor = total_minor)
) STRICT;

CREATE TABLE quote_events (
    yard_id    TEXT    NOT NULL,
    id         TEXT    NOT NULL,
    quote_id   TEXT    NOT NULL,
    revision   INTEGER NOT NULL,
    kind       TEXT    NOT NULL,
    option_id  TEXT,
    token_id   TEXT    NOT NULL,
    name       TEXT    NOT NULL,
    body       BLOB    NOT NULL,
    created_at INTEGER NOT NULL,
    PRIMARY KEY (yard_id, id),
    FOREIGN KEY (yard_id, quote_id, revision) REFERENCES quote_revisions (yard_id, quote_id, n),
    FOREIGN KEY (yard_id, option_id) REFERENCES options (yard_id, id)
) STRICT;
CREATE INDEX quote_events_by_time ON quote_events (yard_id, quote_id, created_at, id);

CREATE TABLE counters (
    yard_id TEXT    NOT NULL REFERENCES yards (id),
    series  TEXT    NOT NULL,
    year    INTEGER NOT NULL,
    last    INTEGER NOT NULL CHECK (last >= 1),
    PRIMARY KEY (yard_id, series, year)
) STRICT;

CREATE TABLE idempotency_keys (
    yard_id      TEXT    NOT NULL REFERENCES yards (id),
    token_id     TEXT    NOT NULL,
    key          TEXT    NOT NULL,
    request_hash TEXT    NOT NULL CHECK (length(request_hash) = 64),
    status       INTEGER NOT NULL CHECK (status BETWEEN 200 AND 299),
    etag         TEXT    NOT NULL,
    location     TEXT    NOT NULL,
    content_type TEXT    NOT NULL,
    body         BLOB    NOT NULL,
    created_at   INTEGER NOT NULL,
    PRIMARY KEY (yard_id, token_id, key)
) STRICT;
CREATE INDEX idempotency_keys_by_time ON idempotency_keys (yard_id, created_at);

CREATE TABLE audit (
    yard_id  TEXT    NOT NULL REFERENCES yards (id),
    n        INTEGER NOT NULL CHECK (n >= 1),
    at       INTEGER NOT NULL,
    token_id TEXT    NOT NULL,
    role     TEXT    NOT NULL,
    name     TEXT    NOT NULL,
    action   TEXT    NOT NULL,
    key      TEXT    NOT NULL,
    changes  BLOB    NOT NULL,
    previous TEXT    NOT NULL CHECK (length(previous) = 64),
    hash     TEXT    NOT NULL CHECK (length(hash) = 64),
    PRIMARY KEY (yard_id, n)
) STRICT;

-- Append-only rows. The insert triggers are there because INSERT OR REPLACE
-- deletes the row in its way without firing a delete trigger.

-- +goose StatementBegin
CREATE TRIGGER documents_no_update BEFORE UPDATE ON documents
BEGIN SELECT RAISE(ABORT, 'append-only: documents'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER documents_no_delete BEFORE DELETE ON documents
BEGIN SELECT RAISE(ABORT, 'append-only: documents'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER documents_no_replace BEFORE INSERT ON documents
WHEN EXISTS (SELECT 1 FROM documents WHERE yard_id = NEW.yard_id AND kind = NEW.kind AND id = NEW.id AND n = NEW.n)
  OR EXISTS (SELECT 1 FROM documents WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: documents'); END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER quote_events_no_update BEFORE UPDATE ON quote_events
BEGIN SELECT RAISE(ABORT, 'append-only: quote_events'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quote_events_no_delete BEFORE DELETE ON quote_events
BEGIN SELECT RAISE(ABORT, 'append-only: quote_events'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quote_events_no_replace BEFORE INSERT ON quote_events
WHEN EXISTS (SELECT 1 FROM quote_events WHERE yard_id = NEW.yard_id AND id = NEW.id)
  OR EXISTS (SELECT 1 FROM quote_events WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: quote_events'); END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER audit_no_update BEFORE UPDATE ON audit
BEGIN SELECT RAISE(ABORT, 'append-only: audit'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER audit_no_delete BEFORE DELETE ON audit
BEGIN SELECT RAISE(ABORT, 'append-only: audit'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER audit_no_replace BEFORE INSERT ON audit
WHEN EXISTS (SELECT 1 FROM audit WHERE yard_id = NEW.yard_id AND n = NEW.n)
  OR EXISTS (SELECT 1 FROM audit WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: audit'); END;
-- +goose StatementEnd

-- +goose StatementBegin
CREATE TRIGGER quote_totals_no_update BEFORE UPDATE ON quote_totals
BEGIN SELECT RAISE(ABORT, 'append-only: quote_totals'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quote_totals_no_delete BEFORE DELETE ON quote_totals
BEGIN SELECT RAISE(ABORT, 'append-only: quote_totals'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quote_totals_no_late_insert BEFORE INSERT ON quote_totals
WHEN EXISTS (SELECT 1 FROM quote_revisions WHERE yard_id = NEW.yard_id AND quote_id = NEW.quote_id
             AND n = NEW.revision AND issued_at IS NOT NULL)
  OR EXISTS (SELECT 1 FROM quote_totals WHERE yard_id = NEW.yard_id AND quote_id = NEW.quote_id
             AND revision = NEW.revision AND option_id = NEW.option_id)
  OR EXISTS (SELECT 1 FROM quote_totals WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: quote_totals'); END;
-- +goose StatementEnd

-- An issued revision stands for ever; a draft may change, but never its key.
-- +goose StatementBegin
CREATE TRIGGER quote_revisions_frozen BEFORE UPDATE ON quote_revisions
WHEN OLD.issued_at IS NOT NULL
  OR NEW.yard_id <> OLD.yard_id OR NEW.quote_id <> OLD.quote_id OR NEW.n <> OLD.n OR NEW.rowid <> OLD.rowid
BEGIN SELECT RAISE(ABORT, 'append-only: quote_revisions'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quote_revisions_no_delete BEFORE DELETE ON quote_revisions
BEGIN SELECT RAISE(ABORT, 'append-only: quote_revisions'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quote_revisions_no_replace BEFORE INSERT ON quote_revisions
WHEN EXISTS (SELECT 1 FROM quote_revisions WHERE yard_id = NEW.yard_id AND quote_id = NEW.quote_id AND n = NEW.n)
  OR EXISTS (SELECT 1 FROM quote_revisions WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: quote_revisions'); END;
-- +goose StatementEnd

-- A number once given to a quote is never taken away or changed.
-- +goose StatementBegin
CREATE TRIGGER quotes_number_stays BEFORE UPDATE ON quotes
WHEN (OLD.number IS NOT NULL AND NEW.number IS NOT OLD.number)
  OR NEW.yard_id <> OLD.yard_id OR NEW.id <> OLD.id OR NEW.job_id <> OLD.job_id OR NEW.rowid <> OLD.rowid
BEGIN SELECT RAISE(ABORT, 'append-only: quotes'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quotes_no_delete BEFORE DELETE ON quotes
BEGIN SELECT RAISE(ABORT, 'append-only: quotes'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER quotes_no_replace BEFORE INSERT ON quotes
WHEN EXISTS (SELECT 1 FROM quotes WHERE yard_id = NEW.yard_id AND id = NEW.id)
  OR EXISTS (SELECT 1 FROM quotes WHERE yard_id = NEW.yard_id AND number = NEW.number)
  OR EXISTS (SELECT 1 FROM quotes WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: quotes'); END;
-- +goose StatementEnd

-- Counters go up by one and never back: that is what leaves no gaps.
-- +goose StatementBegin
CREATE TRIGGER counters_by_one BEFORE UPDATE ON counters
WHEN NEW.last <> OLD.last + 1
  OR NEW.yard_id <> OLD.yard_id OR NEW.series <> OLD.series OR NEW.year <> OLD.year
BEGIN SELECT RAISE(ABORT, 'append-only: counters'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER counters_no_delete BEFORE DELETE ON counters
BEGIN SELECT RAISE(ABORT, 'append-only: counters'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER counters_no_replace BEFORE INSERT ON counters
WHEN NEW.last <> 1
  OR EXISTS (SELECT 1 FROM counters WHERE yard_id = NEW.yard_id AND series = NEW.series AND year = NEW.year)
  OR EXISTS (SELECT 1 FROM counters WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: counters'); END;
-- +goose StatementEnd
