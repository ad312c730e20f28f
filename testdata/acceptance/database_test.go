package acceptance

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	_ "github.com/duckdb/duckdb-go/v2"
)

// database is one DuckDB in memory. Its schemas keep the sides apart: ours is what the SQL of this folder computes from
// the raw log, theirs what the program wrote, and derived what that SQL computes from the program's shots.
type database struct {
	t    *testing.T
	conn *sql.Conn
}

func openDatabase(t *testing.T) *database {
	t.Helper()
	pool, err := sql.Open("duckdb", "")
	if err != nil {
		t.Fatal(err)
	}
	conn, err := pool.Conn(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		conn.Close()
		pool.Close()
	})
	return &database{t, conn}
}

// within is the same database, complaining to a subtest.
func (db *database) within(t *testing.T) *database { return &database{t, db.conn} }

// exec runs a statement that returns nothing.
func (db *database) exec(format string, arguments ...any) {
	db.t.Helper()
	statement := fmt.Sprintf(format, arguments...)
	if _, err := db.conn.ExecContext(context.Background(), statement); err != nil {
		db.t.Fatalf("%v\nin\n%s", err, statement)
	}
}

// enter makes a schema and works in it from here on.
func (db *database) enter(schema string) {
	db.t.Helper()
	db.exec("CREATE SCHEMA %s", schema)
	db.exec("USE %s", schema)
}

// define keeps what a query of the folder sql finds as a table of the current schema.
func (db *database) define(table string) {
	db.t.Helper()
	db.exec("%s", defining(db.t, table))
}

// defining is the statement that keeps what a query of the folder sql finds as a table, as its README says.
func defining(t *testing.T, table string) string {
	t.Helper()
	query, err := os.ReadFile(filepath.Join("sql", table+".sql"))
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("CREATE TABLE %s AS (\n%s)", table, query)
}

// rows returns what a query finds, as text; null is ∅.
func (db *database) rows(format string, arguments ...any) [][]string {
	db.t.Helper()
	query := fmt.Sprintf(format, arguments...)
	found, err := db.conn.QueryContext(context.Background(), query)
	if err != nil {
		db.t.Fatalf("%v\nin\n%s", err, query)
	}
	defer found.Close()
	names, err := found.Columns()
	if err != nil {
		db.t.Fatal(err)
	}
	var rows [][]string
	for found.Next() {
		values := make([]sql.NullString, len(names))
		places := make([]any, len(names))
		for i := range values {
			places[i] = &values[i]
		}
		if err := found.Scan(places...); err != nil {
			db.t.Fatal(err)
		}
		row := make([]string, len(names))
		for i, value := range values {
			row[i] = "∅"
			if value.Valid {
				row[i] = strings.TrimSuffix(value.String, "T00:00:00Z")
			}
		}
		rows = append(rows, row)
	}
	if err := found.Err(); err != nil {
		db.t.Fatal(err)
	}
	return rows
}

// value is the only value that a query finds.
func (db *database) value(format string, arguments ...any) string {
	db.t.Helper()
	rows := db.rows(format, arguments...)
	if len(rows) != 1 || len(rows[0]) != 1 {
		db.t.Fatalf("expected one value, found %v\nin\n%s", rows, fmt.Sprintf(format, arguments...))
	}
	return rows[0][0]
}

// findsNothing complains, with the first rows, when a query that looks for faults finds any.
func (db *database) findsNothing(complaint, format string, arguments ...any) {
	db.t.Helper()
	rows := db.rows(format, arguments...)
	if len(rows) == 0 {
		return
	}
	var lines []string
	for _, row := range rows[:min(len(rows), 8)] {
		lines = append(lines, strings.Join(row, " | "))
	}
	db.t.Errorf("%s: %d rows, such as\n\t%s", complaint, len(rows), strings.Join(lines, "\n\t"))
}
