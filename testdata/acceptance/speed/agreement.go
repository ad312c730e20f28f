//go:build linux

package main

import (
	"database/sql"
	"fmt"
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
	return fmt.Sprintf("FROM read_csv('%s/quantiles.csv', nullstr = '')", out)
}

func agree(reference, found string) error {
	pool, err := sql.Open("duckdb", "")
	if err != nil {
		return err
	}
	defer pool.Close()
	var cells, different int
	var example sql.NullString
	if err := pool.QueryRow(fmt.Sprintf(`
		SELECT count(*), count(*) FILTER (differs), any_value(row(expected, found)::VARCHAR) FILTER (differs) FROM (
			SELECT expected, found, NOT coalesce(expected.n = found.n AND expected.median IS NULL AND found.median IS NULL
				OR expected.n = found.n AND greatest(abs(expected.p10 - found.p10), abs(expected.p25 - found.p25),
					abs(expected.median - found.median), abs(expected.p75 - found.p75), abs(expected.p90 - found.p90),
					abs(expected.strokes_gained - found.strokes_gained)) < 1e-6, false) AS differs
			FROM (%s) AS expected FULL JOIN (%s) AS found USING (player, lie_group, band_from_yd)
		)`, readQuantiles(reference), found)).Scan(&cells, &different, &example); err != nil {
		return err
	}
	if cells == 0 || different > 0 {
		return fmt.Errorf("quantiles differ in %d of %d cells, for example %s", different, cells, example.String)
	}
	fmt.Printf("the same counts, quantiles and strokes gained in all %d cells", cells)
	return nil
}

// copyAgrees prints how many rows a copy shares with the log that it comes from, or fails.
func copyAgrees(log, out string) error {
	pool, err := openDuckDB(out)
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
