//go:build linux

package main

import (
	"database/sql"
	"fmt"
	"path/filepath"
)

// oursAgrees prints how many cells the program's quantiles, counts and strokes gained share with the reference, or fails.
func oursAgrees(reference, out string) error {
	return agree(reference, fmt.Sprintf(`SELECT player, lie_group, band_from_yd, n, p10_ft AS p10, p25_ft AS p25, median_ft AS median,
		p75_ft AS p75, p90_ft AS p90, strokes_gained_per_shot AS strokes_gained
		FROM read_parquet('%s/tables/approach_proximity.parquet') WHERE lie_group <> 'all'`, out))
}

// theirsAgrees is the same for a side that wrote a file of quantiles.
func theirsAgrees(reference, out string) error { return agree(reference, readQuantiles(out)) }

// readQuantiles is the reader of what DuckDB and Polars found.
func readQuantiles(out string) string {
	return fmt.Sprintf(`FROM read_csv('%s/quantiles.csv', auto_detect = false, header = true, nullstr = '', columns = {
		'player': 'VARCHAR', 'lie_group': 'VARCHAR', 'band_from_yd': 'DOUBLE', 'n': 'BIGINT', 'p10': 'DOUBLE', 'p25': 'DOUBLE',
		'median': 'DOUBLE', 'p75': 'DOUBLE', 'p90': 'DOUBLE', 'strokes_gained': 'DOUBLE'})`, out)
}

func agree(reference, found string) error {
	pool, err := sql.Open("duckdb", "")
	if err != nil {
		return err
	}
	defer pool.Close()
	var cells, different, expectedRows, foundRows int
	var example sql.NullString
	same := "expected.n IS NOT DISTINCT FROM found.n"
	for _, figure := range []string{"p10", "p25", "median", "p75", "p90", "strokes_gained"} {
		same += fmt.Sprintf(" AND coalesce(abs(expected.%[1]s - found.%[1]s) < 1e-6, expected.%[1]s IS NULL AND found.%[1]s IS NULL)", figure)
	}
	if err := pool.QueryRow(fmt.Sprintf(`
		WITH expected AS (%s), found AS (%s)
		SELECT count(*), count(*) FILTER (NOT same), any_value(row(expected, found)::VARCHAR) FILTER (NOT same),
			(SELECT count(*) FROM expected), (SELECT count(*) FROM found)
		FROM (SELECT expected, found, %s AS same FROM expected FULL JOIN found USING (player, lie_group, band_from_yd))`,
		readQuantiles(reference), found, same)).Scan(&cells, &different, &example, &expectedRows, &foundRows); err != nil {
		return err
	}
	if cells == 0 || different > 0 {
		return fmt.Errorf("quantiles differ in %d of %d cells, for example %s", different, cells, example.String)
	}
	if expectedRows != cells || foundRows != cells {
		return fmt.Errorf("quantiles differ in their rows: %d and %d for %d cells", expectedRows, foundRows, cells)
	}
	fmt.Printf("the same counts, quantiles and strokes gained in all %d cells", cells)
	return nil
}

// copyAgrees prints how many rows a copy shares with the log that it comes from, or fails.
func copyAgrees(log, out string) error {
	pool, err := openDuckDB(filepath.Dir(out))
	if err != nil {
		return err
	}
	defer pool.Close()
	contents := func(reader string) (rows int, sum string, err error) {
		err = pool.QueryRow("SELECT count(*), sum(hash(shots)::HUGEINT)::VARCHAR FROM (FROM "+reader+") AS shots").Scan(&rows, &sum)
		return rows, sum, err
	}
	expectedRows, expected, err := contents(readCSV(log))
	if err != nil {
		return err
	}
	rows, found, err := contents(fmt.Sprintf("read_parquet('%s/shots.parquet')", out))
	if err != nil {
		return err
	}
	if rows != expectedRows || found != expected {
		return fmt.Errorf("the copy has %d rows, the log %d, or they differ", rows, expectedRows)
	}
	fmt.Printf("the same %d rows", rows)
	return nil
}
