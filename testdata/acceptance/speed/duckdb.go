//go:build linux

package main

import (
	"database/sql"
	"fmt"
	"os"
	"path/filepath"

	_ "github.com/duckdb/duckdb-go/v2"
)

// openDuckDB is a database in memory that puts what does not fit there into a folder of its own within the given one.
// Rows may come in any order, so that none waits for another.
func openDuckDB(folder string) (*sql.DB, error) {
	pool, err := sql.Open("duckdb", "")
	if err != nil {
		return nil, err
	}
	pool.SetMaxOpenConns(1)
	return pool, execute(pool,
		fmt.Sprintf("SET threads = %d", threads),
		"SET preserve_insertion_order = false",
		fmt.Sprintf("SET temp_directory = '%s/spilt'", folder))
}

func execute(pool *sql.DB, statements ...string) error {
	for _, statement := range statements {
		if _, err := pool.Exec(statement); err != nil {
			return fmt.Errorf("%w\nin\n%s", err, statement)
		}
	}
	return nil
}

// readCSV is the reader of a log, packed or not, or of the files that a pattern names. It is told names and types, so that
// nothing is guessed.
func readCSV(log string) string {
	return fmt.Sprintf(`read_csv('%s', auto_detect = false, header = true, delim = ',', quote = '"', columns = %s)`, log, columnsForDuckDB())
}

// duckDBCopy copies JSON lines to zstd Parquet with typed columns, and nothing derived.
func duckDBCopy(log, out string) error {
	if err := os.Mkdir(out, 0o755); err != nil {
		return err
	}
	pool, err := openDuckDB(filepath.Dir(out))
	if err != nil {
		return err
	}
	defer pool.Close()
	return execute(pool, fmt.Sprintf(`COPY (FROM read_json('%s', format = 'newline_delimited', columns = %s))
		TO '%s/shots.parquet' (FORMAT parquet, COMPRESSION zstd)`, log, columnsForDuckDB(), out))
}

// duckDB does the job, the fastest way found: shots streamed out through a window by hole, and read back for the
// quantiles.
func duckDB(log, out string) error {
	if err := os.Mkdir(out, 0o755); err != nil {
		return err
	}
	given := filepath.Dir(out)
	pool, err := openDuckDB(given)
	if err != nil {
		return err
	}
	defer pool.Close()
	return execute(pool,
		fmt.Sprintf("CREATE TABLE lies AS FROM read_csv('%s/lies.csv')", given),
		fmt.Sprintf("CREATE TABLE expected AS SELECT category, CAST(tenths AS INTEGER) AS tenths, strokes FROM read_csv('%s/expected.csv')", given),
		fmt.Sprintf(`COPY (
			WITH placed AS (
				SELECT log.*, lies.category AS lie_category, left_in.category AS left_category, CAST(round(10 * to_hole) AS INTEGER) AS tenths
				FROM %s AS log
				LEFT JOIN lies ON lies.word = log.lie
				LEFT JOIN lies AS left_in ON left_in.word = log.finish_lie
			), followed AS (
				SELECT placed.* EXCLUDE left_category,
					coalesce(lead(lie_category) OVER play, CASE holed WHEN 'no' THEN left_category ELSE 'holed' END) AS finish_category,
					coalesce(lead(tenths) OVER play, CASE holed WHEN 'no' THEN CAST(round(10 * "left") AS INTEGER) ELSE 0 END) AS finish_tenths
				FROM placed
				WINDOW play AS (PARTITION BY player, date, course, round, hole ORDER BY shot)
			)
			SELECT followed.* EXCLUDE (tenths, finish_tenths),
				before.strokes AS expected_before,
				coalesce(after.strokes, 0) AS expected_after,
				before.strokes - coalesce(after.strokes, 0) - 1 - coalesce(penalty, 0) AS strokes_gained,
				CASE WHEN coalesce(penalty, 0) = 0 AND coalesce(holed, '') <> 'no' THEN finish_tenths / CASE finish_category WHEN 'green' THEN 10e0 ELSE 10e0 / 3 END END AS proximity_ft,
				lie_category NOT IN ('green', 'recovery') AND NOT (lie_category = 'tee' AND par >= 4)
					AND to_hole > 50 AND to_hole < 250 AND coalesce(intent, '') NOT IN ('lay up', 'get out') AS at_green,
				25 * floor(to_hole / 25) AS band_from_yd
			FROM followed
			LEFT JOIN expected AS before ON before.category = lie_category AND before.tenths = followed.tenths
			LEFT JOIN expected AS after ON after.category = finish_category AND after.tenths = finish_tenths
		) TO '%s/shots.parquet' (FORMAT parquet, COMPRESSION zstd)`, readCSV(log), out),
		fmt.Sprintf(`COPY (
			SELECT player, CASE lie_category WHEN 'tee' THEN 'fairway' ELSE lie_category END AS lie_group, band_from_yd, count(*) AS n,
				quantile_cont(proximity_ft, 0.1) AS p10, quantile_cont(proximity_ft, 0.25) AS p25, quantile_cont(proximity_ft, 0.5) AS median,
				quantile_cont(proximity_ft, 0.75) AS p75, quantile_cont(proximity_ft, 0.9) AS p90, avg(strokes_gained) AS strokes_gained
			FROM read_parquet('%s/shots.parquet') WHERE at_green GROUP BY ALL
		) TO '%s/quantiles.csv'`, out, out))
}
