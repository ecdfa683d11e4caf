-- +goose Up

-- Every key begins with the yard. Times are whole microseconds since 1970 in
-- UTC, money whole minor units, quantities text. Identifiers are UUIDv7 text.
-- Text is compared by its bytes, as on the other engine.

-- last_at, audit_n and audit_hash move with every write: the newest stamp this
-- yard has given out, and the head of its audit chain.
CREATE TABLE yards (
    id         TEXT COLLATE "C" NOT NULL PRIMARY KEY,
    name       TEXT COLLATE "C" NOT NULL,
    invented   BOOLEAN NOT NULL,
    created_at BIGINT NOT NULL,
    last_at    BIGINT NOT NULL,
    audit_n    BIGINT NOT NULL,
    audit_hash TEXT COLLATE "C" NOT NULL
);

CREATE TABLE jobs (
    yard_id     TEXT COLLATE "C" NOT NULL REFERENCES yards (id),
    id          TEXT COLLATE "C" NOT NULL,
    n           BIGINT NOT NULL CHECK (n >= 1),
    boat        TEXT COLLATE "C" NOT NULL,
    owner       TEXT COLLATE "C" NOT NULL,
    notation    TEXT COLLATE "C" NOT NULL,
    currency    TEXT COLLATE "C" NOT NULL,
    opened_date TEXT COLLATE "C" NOT NULL,
    body        BYTEA NOT NULL,
    created_at  BIGINT NOT NULL,
    changed_at  BIGINT NOT NULL,
    PRIMARY KEY (yard_id, id)
);
CREATE INDEX jobs_by_time ON jobs (yard_id, created_at, id);

CREATE TABLE options (
    yard_id    TEXT COLLATE "C" NOT NULL,
    id         TEXT COLLATE "C" NOT NULL,
    job_id     TEXT COLLATE "C" NOT NULL,
    n          BIGINT NOT NULL CHECK (n >= 1),
    name       TEXT COLLATE "C" NOT NULL,
    body       BYTEA NOT NULL,
    created_at BIGINT NOT NULL,
    changed_at BIGINT NOT NULL,
    PRIMARY KEY (yard_id, id),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id)
);
CREATE INDEX options_by_time ON options (yard_id, job_id, created_at, id);

-- The hash is unique over all yards because a bearer token names no yard: the
-- token is what tells which yard is asking.
CREATE TABLE tokens (
    yard_id    TEXT COLLATE "C" NOT NULL REFERENCES yards (id),
    id         TEXT COLLATE "C" NOT NULL,
    name       TEXT COLLATE "C" NOT NULL,
    role       TEXT COLLATE "C" NOT NULL CHECK (role IN ('lead', 'estimator', 'accountant', 'owner')),
    job_id     TEXT COLLATE "C",
    hash       TEXT COLLATE "C" NOT NULL CHECK (length(hash) = 64),
    created_at BIGINT NOT NULL,
    expires_at BIGINT,
    revoked_at BIGINT,
    PRIMARY KEY (yard_id, id),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id),
    CHECK ((role = 'owner') = (job_id IS NOT NULL))
);
CREATE UNIQUE INDEX tokens_by_hash ON tokens (hash);
CREATE INDEX tokens_by_time ON tokens (yard_id, created_at, id);

CREATE TABLE documents (
    yard_id    TEXT COLLATE "C" NOT NULL REFERENCES yards (id),
    kind       TEXT COLLATE "C" NOT NULL,
    id         TEXT COLLATE "C" NOT NULL,
    n          BIGINT NOT NULL CHECK (n >= 1),
    schema     BIGINT NOT NULL CHECK (schema >= 1),
    body       BYTEA NOT NULL,
    hash       TEXT COLLATE "C" NOT NULL CHECK (length(hash) = 64),
    created_at BIGINT NOT NULL,
    PRIMARY KEY (yard_id, kind, id, n)
);
CREATE INDEX documents_by_time ON documents (yard_id, kind, created_at, id) WHERE n = 1;

CREATE TABLE quotes (
    yard_id    TEXT COLLATE "C" NOT NULL,
    id         TEXT COLLATE "C" NOT NULL,
    job_id     TEXT COLLATE "C" NOT NULL,
    number     TEXT COLLATE "C",
    created_at BIGINT NOT NULL,
    PRIMARY KEY (yard_id, id),
    UNIQUE (yard_id, number),
    FOREIGN KEY (yard_id, job_id) REFERENCES jobs (yard_id, id)
);
CREATE INDEX quotes_by_time ON quotes (yard_id, job_id, created_at, id);

-- edit counts the changes of a draft; everything from number on is written once,
-- when the revision is issued.
CREATE TABLE quote_revisions (
    yard_id    TEXT COLLATE "C" NOT NULL,
    quote_id   TEXT COLLATE "C" NOT NULL,
    n          BIGINT NOT NULL CHECK (n >= 1),
    edit       BIGINT NOT NULL CHECK (edit >= 1),
    body       BYTEA NOT NULL,
    created_at BIGINT NOT NULL,
    changed_at BIGINT NOT NULL,
    number     TEXT COLLATE "C",
    snapshot   BYTEA,
    hash       TEXT COLLATE "C" CHECK (length(hash) = 64),
    pdf        BYTEA,
    pdf_hash   TEXT COLLATE "C" CHECK (length(pdf_hash) = 64),
    issued_at  BIGINT,
    PRIMARY KEY (yard_id, quote_id, n),
    FOREIGN KEY (yard_id, quote_id) REFERENCES quotes (yard_id, id),
    CHECK ((issued_at IS NULL) = (number IS NULL)),
    CHECK ((issued_at IS NULL) = (snapshot IS NULL)),
    CHECK ((issued_at IS NULL) = (hash IS NULL)),
    CHECK ((issued_at IS NULL) = (pdf IS NULL)),
    CHECK ((issued_at IS NULL) = (pdf_hash IS NULL))
);

-- Whole minor units of the currency, so that SQL may add them without a float.
CREATE TABLE quote_totals (
    yard_id     TEXT COLLATE "C" NOT NULL,
    quote_id    TEXT COLLATE "C" NOT NULL,
    revision    BIGINT NOT NULL,
    option_id   TEXT COLLATE "C" NOT NULL,
    currency    TEXT COLLATE "C" NOT NULL,
    net_minor   BIGINT NOT NULL,
    tax_minor   BIGINT NOT NULL,
    total_minor BIGINT NOT NULL,
    PRIMARY KEY (yard_id, quote_id, revision, option_id),
    FOREIGN KEY (yard_id, quote_id, revision) REFERENCES quote_revisions (yard_id, quote_id, n),
    FOREIGN KEY (yard_id, option_id) REFERENCES options (yard_id, id),
    CHECK (net_minor + tax_minor = total_minor)
);

CREATE TABLE quote_events (
    yard_id    TEXT COLLATE "C" NOT NULL,
    id         TEXT COLLATE "C" NOT NULL,
    quote_id   TEXT COLLATE "C" NOT NULL,
    revision   BIGINT NOT NULL,
    kind       TEXT COLLATE "C" NOT NULL,
    option_id  TEXT COLLATE "C",
    token_id   TEXT COLLATE "C" NOT NULL,
    name       TEXT COLLATE "C" NOT NULL,
    body       BYTEA NOT NULL,
    created_at BIGINT NOT NULL,
    PRIMARY KEY (yard_id, id),
    FOREIGN KEY (yard_id, quote_id, revision) REFERENCES quote_revisions (yard_id, quote_id, n),
    FOREIGN KEY (yard_id, option_id) REFERENCES options (yard_id, id)
);
CREATE INDEX quote_events_by_time ON quote_events (yard_id, quote_id, created_at, id);

CREATE TABLE counters (
    yard_id TEXT COLLATE "C" NOT NULL REFERENCES yards (id),
    series  TEXT COLLATE "C" NOT NULL,
    year    BIGINT NOT NULL,
    last    BIGINT NOT NULL CHECK (last >= 1),
    PRIMARY KEY (yard_id, series, year)
);

CREATE TABLE idempotency_keys (
    yard_id      TEXT COLLATE "C" NOT NULL REFERENCES yards (id),
    token_id     TEXT COLLATE "C" NOT NULL,
    key          TEXT COLLATE "C" NOT NULL,
    request_hash TEXT COLLATE "C" NOT NULL CHECK (length(request_hash) = 64),
    status       BIGINT NOT NULL CHECK (status BETWEEN 200 AND 299),
    etag         TEXT COLLATE "C" NOT NULL,
    location     TEXT COLLATE "C" NOT NULL,
    content_type TEXT COLLATE "C" NOT NULL,
    body         BYTEA NOT NULL,
    created_at   BIGINT NOT NULL,
    PRIMARY KEY (yard_id, token_id, key)
);
CREATE INDEX idempotency_keys_by_time ON idempotency_keys (yard_id, created_at);

CREATE TABLE audit (
    yard_id  TEXT COLLATE "C" NOT NULL REFERENCES yards (id),
    n        BIGINT NOT NULL CHECK (n >= 1),
    at       BIGINT NOT NULL,
    token_id TEXT COLLATE "C" NOT NULL,
    role     TEXT COLLATE "C" NOT NULL,
    name     TEXT COLLATE "C" NOT NULL,
    action   TEXT COLLATE "C" NOT NULL,
    key      TEXT COLLATE "C" NOT NULL,
    changes  BYTEA NOT NULL,
    previous TEXT COLLATE "C" NOT NULL CHECK (length(previous) = 64),
    hash     TEXT COLLATE "C" NOT NULL CHECK (length(hash) = 64),
    PRIMARY KEY (yard_id, n)
);

-- Append-only rows. TRUNCATE is refused as well: it fires no row trigger.

-- +goose StatementBegin
CREATE FUNCTION refuse_change() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    RAISE EXCEPTION 'append-only: %', TG_TABLE_NAME USING ERRCODE = 'RB001';
END;
$$;
-- +goose StatementEnd

CREATE TRIGGER documents_no_change BEFORE UPDATE OR DELETE ON documents
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER documents_no_truncate BEFORE TRUNCATE ON documents
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER quote_events_no_change BEFORE UPDATE OR DELETE ON quote_events
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER quote_events_no_truncate BEFORE TRUNCATE ON quote_events
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER audit_no_change BEFORE UPDATE OR DELETE ON audit
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER audit_no_truncate BEFORE TRUNCATE ON audit
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

CREATE TRIGGER quote_totals_no_change BEFORE UPDATE OR DELETE ON quote_totals
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER quote_totals_no_truncate BEFORE TRUNCATE ON quote_totals
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Totals are written in the same transaction as the issue, before it.
-- +goose StatementBegin
CREATE FUNCTION refuse_late_total() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
    IF EXISTS (SELECT 1 FROM quote_revisions r WHERE r.yard_id = NEW.yard_id AND r.quote_id = NEW.quote_id
               AND r.n = NEW.revision AND r.issued_at IS NOT NULL) THEN
        RAISE EXCEPTION 'append-only: %', TG_TABLE_NAME USING ERRCODE = 'RB001';
    END IF;
    RETURN NEW;
END;
$$;
-- +goose StatementEnd
CREATE TRIGGER quote_totals_no_late_insert BEFORE INSERT ON quote_totals
    FOR EACH ROW EXECUTE FUNCTION refuse_late_total();

-- An issued revision stands for ever; a draft may change, but never its key.
CREATE TRIGGER quote_revisions_frozen BEFORE UPDATE ON quote_revisions
    FOR EACH ROW WHEN (OLD.issued_at IS NOT NULL
        OR NEW.yard_id <> OLD.yard_id OR NEW.quote_id <> OLD.quote_id OR NEW.n <> OLD.n)
    EXECUTE FUNCTION refuse_change();
CREATE TRIGGER quote_revisions_no_delete BEFORE DELETE ON quote_revisions
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER quote_revisions_no_truncate BEFORE TRUNCATE ON quote_revisions
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- A number once given to a quote is never taken away or changed.
CREATE TRIGGER quotes_number_stays BEFORE UPDATE ON quotes
    FOR EACH ROW WHEN ((OLD.number IS NOT NULL AND NEW.number IS DISTINCT FROM OLD.number)
        OR NEW.yard_id <> OLD.yard_id OR NEW.id <> OLD.id OR NEW.job_id <> OLD.job_id)
    EXECUTE FUNCTION refuse_change();
CREATE TRIGGER quotes_no_delete BEFORE DELETE ON quotes
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER quotes_no_truncate BEFORE TRUNCATE ON quotes
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();

-- Counters go up by one and never back: that is what leaves no gaps.
CREATE TRIGGER counters_by_one BEFORE UPDATE ON counters
    FOR EACH ROW WHEN (NEW.last <> OLD.last + 1
        OR NEW.yard_id <> OLD.yard_id OR NEW.series <> OLD.series OR NEW.year <> OLD.year)
    EXECUTE FUNCTION refuse_change();
CREATE TRIGGER counters_from_one BEFORE INSERT ON counters
    FOR EACH ROW WHEN (NEW.last <> 1) EXECUTE FUNCTION refuse_change();
CREATE TRIGGER counters_no_delete BEFORE DELETE ON counters
    FOR EACH ROW EXECUTE FUNCTION refuse_change();
CREATE TRIGGER counters_no_truncate BEFORE TRUNCATE ON counters
    FOR EACH STATEMENT EXECUTE FUNCTION refuse_change();
