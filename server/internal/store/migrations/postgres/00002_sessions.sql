-- +goose Up

-- A session of somebody at the pages. The key is the SHA-256 of what the browser brings, over all yards, because a
-- browser names no yard: what is in the body does. Sessions are no record of the yard's and are in no audit; one that
-- has expired is taken out when another begins.
CREATE TABLE sessions (
    hash       TEXT COLLATE "C" NOT NULL PRIMARY KEY CHECK (length(hash) = 64),
    body       BYTEA  NOT NULL,
    expires_at BIGINT NOT NULL
);
CREATE INDEX sessions_by_expiry ON sessions (expires_at);
