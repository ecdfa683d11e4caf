-- +goose Up

-- What was spent on a job: a line of an invoice, a credit, or of a time sheet. A correction is another row. identity
-- is the SHA-256 of supplier, document and line, in which case does not count: it names a row of the job, so that the
-- same line of the same document is never there twice. hash is that of the cells. Amounts are whole minor units,
-- quantity is text and empty where the document names none.
CREATE TABLE spend (
    yard_id      TEXT    NOT NULL,
    id           TEXT    NOT NULL,
    job_id       TEXT    NOT NULL,
    identity     TEXT    NOT NULL CHECK (length(identity) = 64),
    hash         TEXT    NOT NULL CHECK (length(hash) = 64),
    date         TEXT    NOT NULL CHECK (length(date) = 10),
    kind         TEXT    NOT NULL CHECK (kind IN ('invoice', 'credit', 'hours')),
    supplier     TEXT    NOT NULL CHECK (supplier <> ''),
    document     TEXT    NOT NULL CHECK (document <> ''),
    line         TEXT    NOT NULL CHECK (line <> ''),
    item         TEXT    NOT NULL,
    description  TEXT    NOT NULL,
    quantity     TEXT    NOT NULL,
    unit         TEXT    NOT NULL,
    amount_minor INTEGER NOT NULL,
    tax_minor    INTEGER NOT NULL,
    currency     TEXT    NOT NULL CHECK (length(currency) = 3),
    step         TEXT    NOT NULL,
    author       TEXT    NOT NULL,
    import_id    TEXT,
    token_id     TEXT    NOT NULL,
    entered_by   TEXT    NOT NULL,
    created_at   INTEGER NOT NULL,
    PRIMARY KEY (yard_id, id),
    UNIQUE (yard_id, job_id, identity),
    UNIQUE (yard_id, job_id, supplier, document, line),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id),
    CHECK ((quantity = '') = (unit = '')),
    CHECK (kind <> 'credit' OR amount_minor < 0)
) STRICT;
CREATE INDEX spend_by_time ON spend (yard_id, job_id, created_at, id);

-- +goose StatementBegin
CREATE TRIGGER spend_no_update BEFORE UPDATE ON spend
BEGIN SELECT RAISE(ABORT, 'append-only: spend'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER spend_no_delete BEFORE DELETE ON spend
BEGIN SELECT RAISE(ABORT, 'append-only: spend'); END;
-- +goose StatementEnd
-- +goose StatementBegin
CREATE TRIGGER spend_no_replace BEFORE INSERT ON spend
WHEN EXISTS (SELECT 1 FROM spend WHERE yard_id = NEW.yard_id AND id = NEW.id)
  OR EXISTS (SELECT 1 FROM spend WHERE yard_id = NEW.yard_id AND job_id = NEW.job_id AND identity = NEW.identity)
  OR EXISTS (SELECT 1 FROM spend WHERE yard_id = NEW.yard_id AND job_id = NEW.job_id AND supplier = NEW.supplier
             AND document = NEW.document AND line = NEW.line)
  OR EXISTS (SELECT 1 FROM spend WHERE rowid = NEW.rowid)
BEGIN SELECT RAISE(ABORT, 'append-only: spend'); END;
-- +goose StatementEnd

-- A quote is accepted once, whichever of its revisions it is.
CREATE UNIQUE INDEX quote_events_one_acceptance ON quote_events (yard_id, quote_id) WHERE kind = 'accepted';
-- +goose StatementBegin
CREATE TRIGGER quote_events_one_acceptance_stays BEFORE INSERT ON quote_events
WHEN NEW.kind = 'accepted'
 AND EXISTS (SELECT 1 FROM quote_events WHERE yard_id = NEW.yard_id AND quote_id = NEW.quote_id AND kind = 'accepted')
BEGIN SELECT RAISE(ABORT, 'append-only: quote_events'); END;
-- +goose StatementEnd
