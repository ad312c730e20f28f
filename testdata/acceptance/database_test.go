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

// database is one DuckDB in memory. Its schemas keep the two sides apart: "ours" is what the SQL of this folder computes
// from the raw log, "theirs" what the program wrote.
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

// exec runs statements that return nothing.
func (db *database) exec(statement string, arguments ...any) {
	db.t.Helper()
	if _, err := db.conn.ExecContext(context.Background(), statement, arguments...); err != nil {
		db.t.Fatalf("%v\nin\n%s", err, statement)
	}
}

// define keeps the result of a query of the folder sql as a table of the current schema.
func (db *database) define(table string) {
	db.t.Helper()
	query, err := os.ReadFile(filepath.Join("sql", table+".sql"))
	if err != nil {
		db.t.Fatal(err)
	}
	db.exec(fmt.Sprintf("CREATE OR REPLACE TABLE %s AS\n%s", table, query))
}

// rows returns what a query finds, as text; null is ∅.
func (db *database) rows(query string, arguments ...any) [][]string {
	db.t.Helper()
	found, err := db.conn.QueryContext(context.Background(), query, arguments...)
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
				row[i] = value.String
			}
		}
		rows = append(rows, row)
	}
	if err := found.Err(); err != nil {
		db.t.Fatal(err)
	}
	return rows
}

// column returns the first column of what a query finds.
func (db *database) column(query string, arguments ...any) []string {
	db.t.Helper()
	var values []string
	for _, row := range db.rows(query, arguments...) {
		values = append(values, row[0])
	}
	return values
}

// finds reports an error with the first rows, when a query that looks for faults finds any.
func (db *database) findsNothing(complaint, query string, arguments ...any) {
	db.t.Helper()
	rows := db.rows(query, arguments...)
	if len(rows) == 0 {
		return
	}
	var lines []string
	for _, row := range rows[:min(len(rows), 8)] {
		lines = append(lines, strings.Join(row, " | "))
	}
	db.t.Errorf("%s: %d rows\n\t%s", complaint, len(rows), strings.Join(lines, "\n\t"))
}
