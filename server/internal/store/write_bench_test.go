package store_test

import (
	"context"
	"database/sql"
	"fmt"
	"strings"
	"testing"
	"time"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

// BenchmarkWrite measures a write of one document through the helper against the
// same statements by database/sql, the two in turn so that both meet the same
// disk and the same neighbours. ratio is the bare time over the helper's: 1 would
// be a helper that costs nothing.
func BenchmarkWrite(b *testing.B) {
	b.Run("sqlite", func(b *testing.B) {
		e := storetest.SQLite(b)
		benchmarkWrite(b, e)
	})
	b.Run("postgres", func(b *testing.B) {
		e := storetest.PostgreSQL(b)
		benchmarkWrite(b, e)
	})
}

func benchmarkWrite(b *testing.B, e storetest.Place) {
	s := e.Open(b)
	byHelper, byHand := founded(b, s), founded(b, s)
	// The writer's own pool, so that both go through the same settings and driver.
	pool := s.Pools()[0]
	body := []byte(`{"frames":[` + strings.Repeat(`{"no":12,"side":"port","x_mm":5310.5},`, 60) + `0]}`)
	var helper, hand time.Duration
	i := 0
	for b.Loop() {
		i++
		begun := time.Now()
		writeByHelper(b, s, byHelper, i, body)
		between := time.Now()
		writeByHand(b, e.Engine, pool, byHand, i, body)
		helper += between.Sub(begun)
		hand += time.Since(between)
	}
	b.ReportMetric(float64(hand)/float64(helper), "ratio")
	b.ReportMetric(float64(helper.Microseconds())/float64(i), "helper-µs/op")
	b.ReportMetric(float64(hand.Microseconds())/float64(i), "bare-µs/op")
}

func writeByHelper(b *testing.B, s *store.Store, yard string, i int, body []byte) {
	_, _, err := s.Write(b.Context(), store.Request{Yard: yard, Actor: estimator, Action: "bench",
		Key: fmt.Sprint(i), RequestHash: store.HashOf(nil)},
		func(ctx context.Context, tx *store.Tx) (store.Answer, error) {
			_, err := tx.PutDocument(ctx, store.Document{Kind: "frames", ID: fmt.Sprint(i), Schema: 1, Body: body}, store.Absent)
			return store.Answer{Status: 201, ETag: `"1"`, Body: body}, err
		})
	if err != nil {
		b.Fatal(err)
	}
}

// writeByHand runs what the helper runs for one new document: lock of the yard,
// look-up of the key, newest version, document, stored answer, audit, head.
func writeByHand(b *testing.B, kind store.Engine, pool *sql.DB, yard string, i int, body []byte) {
	lock := "SELECT id, name, invented, created_at, last_at, audit_n, audit_hash FROM yards WHERE id = $1"
	if kind == store.PostgreSQL {
		lock += " FOR NO KEY UPDATE"
	}
	hash := store.HashOf(body)
	must := func(err error) {
		if err != nil {
			b.Helper()
			b.Fatal(err)
		}
	}
	tx, err := pool.BeginTx(b.Context(), nil)
	must(err)
	var id, name, head string
	var invented bool
	var created, last, n, version int64
	must(tx.QueryRow(lock, yard).Scan(&id, &name, &invented, &created, &last, &n, &head))
	var status int
	if err := tx.QueryRow("SELECT status FROM idempotency_keys WHERE yard_id = $1 AND token_id = $2 AND key = $3",
		yard, "t", fmt.Sprint(i)).Scan(&status); err != sql.ErrNoRows {
		b.Fatal(err)
	}
	must(tx.QueryRow("SELECT COALESCE(MAX(n), 0) FROM documents WHERE yard_id = $1 AND kind = $2 AND id = $3",
		yard, "frames", fmt.Sprint(i)).Scan(&version))
	at := max(time.Now().UnixMicro(), last+1)
	for _, s := range []struct {
		text      string
		arguments []any
	}{
		{"INSERT INTO documents (yard_id, kind, id, n, schema, body, hash, created_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8)",
			[]any{yard, "frames", fmt.Sprint(i), version + 1, 1, body, hash, at}},
		{"INSERT INTO idempotency_keys (yard_id, token_id, key, request_hash, status, etag, location, content_type, body, created_at) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10)",
			[]any{yard, "t", fmt.Sprint(i), hash, 201, `"1"`, "", "", body, at + 1}},
		{"INSERT INTO audit (yard_id, n, at, token_id, role, name, action, key, changes, previous, hash) VALUES ($1, $2, $3, $4, $5, $6, $7, $8, $9, $10, $11)",
			[]any{yard, n + 1, at + 2, "t", "estimator", "an estimator", "bench", fmt.Sprint(i), []byte(`[{"what":"document frames"}]`), head, hash}},
		{"UPDATE yards SET last_at = $1, audit_n = $2, audit_hash = $3 WHERE id = $4", []any{at + 2, n + 1, hash, yard}},
	} {
		_, err := tx.Exec(s.text, s.arguments...)
		must(err)
	}
	must(tx.Commit())
}
