package store_test

import (
	"database/sql"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"ribband/server/internal/store"
	"ribband/server/internal/storetest"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestSchema compares the schema that the migrations make with the one that was
// looked at when it was last changed.
func TestSchema(t *testing.T) {
	storetest.Engines(t, func(t *testing.T, e storetest.Place) {
		e.Open(t)
		got := describe(t, e, e.Raw(t))
		golden := filepath.Join("testdata", "schema."+string(e.Engine)+".golden")
		if *update {
			if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(golden)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(string(want), got); diff != "" {
			t.Errorf("the schema moved; look at it, then run with -update:\n%s", diff)
		}
		if found := regexp.MustCompile(`(?i)\b(real|float\w*|double|numeric|decimal|money)\b`).FindString(got); found != "" {
			t.Errorf("a column of type %s: amounts are whole minor units and quantities text", found)
		}
	})
}

// describe writes out tables, constraints, indexes, triggers and functions.
func describe(t *testing.T, e storetest.Place, raw *sql.DB) string {
	t.Helper()
	if e.Engine == store.SQLite {
		return strings.Join(column(t, raw, "SELECT type || ' ' || name || char(10) || COALESCE(sql, '(made by the engine)') || char(10) FROM sqlite_schema"+
			" WHERE name NOT LIKE 'goose%' AND name NOT LIKE 'sqlite_sequence' ORDER BY type, name"), "\n")
	}
	var lines []string
	for _, query := range []string{
		`SELECT 'column ' || table_name || '.' || column_name || ' ' || data_type || COALESCE(' collate ' || collation_name, '') ||
			CASE is_nullable WHEN 'NO' THEN ' not null' ELSE '' END || COALESCE(' default ' || column_default, '')
			FROM information_schema.columns WHERE table_schema = current_schema() AND table_name NOT LIKE 'goose%'
			ORDER BY table_name COLLATE "C", ordinal_position`,
		`SELECT 'constraint ' || conrelid::regclass || ' ' || conname || ' ' || pg_get_constraintdef(oid)
			FROM pg_constraint WHERE connamespace = current_schema()::regnamespace AND conrelid::regclass::text NOT LIKE 'goose%'
			ORDER BY conrelid::regclass::text COLLATE "C", conname`,
		`SELECT 'index ' || indexdef FROM pg_indexes WHERE schemaname = current_schema() AND tablename NOT LIKE 'goose%' ORDER BY indexname`,
		`SELECT 'trigger ' || pg_get_triggerdef(oid) FROM pg_trigger WHERE NOT tgisinternal AND tgrelid IN
			(SELECT oid FROM pg_class WHERE relnamespace = current_schema()::regnamespace) ORDER BY tgrelid::regclass::text COLLATE "C", tgname`,
		`SELECT 'function ' || pg_get_functiondef(oid) FROM pg_proc WHERE pronamespace = current_schema()::regnamespace ORDER BY proname`,
	} {
		lines = append(lines, column(t, raw, query)...)
	}
	own := column(t, raw, "SELECT current_schema() || '.'")[0]
	return strings.ReplaceAll(strings.Join(lines, "\n"), own, "") + "\n"
}
