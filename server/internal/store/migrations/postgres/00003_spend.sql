-- +goose Up

-- What was spent on a job: a line of an invoice, a credit, or of a time sheet. A correction is another row. identity
-- is the SHA-256 of supplier, document and line, in which case does not count: it names a row of the job, so that the
-- same line of the same document is never there twice. hash is that of the cells. Amounts are whole minor units,
-- quantity is text and empty where the document names none.
CREATE TABLE spend (
    yard_id      TEXT COLLATE "C" NOT NULL,
    id           TEXT COLLATE "C" NOT NULL,
    job_id       TEXT COLLATE "C" NOT NULL,
    identity     TEXT COLLATE "C" NOT NULL CHECK (length(identity) = 64),
    hash         TEXT COLLATE "C" NOT NULL CHECK (length(hash) = 64),
    date         TEXT COLLATE "C" NOT NULL CHECK (length(date) = 10),
    kind         TEXT COLLATE "C" NOT NULL CHECK (kind IN ('invoice', 'credit', 'hours')),
    supplier     TEXT COLLATE "C" NOT NULL CHECK (supplier <> ''),
    document     TEXT COLLATE "C" NOT NULL CHECK (document <> ''),
    line         TEXT COLLATE "C" NOT NULL CHECK (line <> ''),
    item         TEXT COLLATE "C" NOT NULL,
    description  TEXT COLLATE "C" NOT NULL,
    quantity     TEXT COLLATE "C" NOT NULL,
    unit         TEXT COLLATE "C" NOT NULL,
    amount_minor BIGINT NOT NULL,
    tax_minor    BIGINT NOT NULL,
    currency     TEXT COLLATE "C" NOT NULL CHECK (length(currency) = 3),
    step         TEXT COLLATE "C" NOT NULL,
    author       TEXT COLLATE "C" NOT NULL,
    import_id    TEXT COLLATE "C",
    token_id     TEXT COLLATE "C" NOT NULL,
    entered_by   TEXT COLLATE "C" NOT NULL,
    created_at   BIGINT NOT NULL,
    PRIMARY KEY (yard_id, id),
    UNIQUE (yard_id, job_id, identity),
    UNIQUE (yard_id, job_id, supplier, document, line),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id),
    CHECK ((quantity = '') = (unit = '')),
    CHECK (kind <> 'credit' OR amount_minor < 0)
);
CREATE INDEX spend_by_time ON spend (yard_id, job_id, created_at, id);

CREATE TRIGGER spend_no_change BEFORE UPDATE OR DELETE ON spend
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER spend_no_truncate BEFORE TRUNCATE ON spend
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- A quote is accepted once, whichever of its revisions it is.
CREATE UNIQUE INDEX quote_events_one_acceptance ON quote_events (yard_id, quote_id) WHERE kind = 'accepted';
