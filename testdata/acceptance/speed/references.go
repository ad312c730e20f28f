//go:build linux

package main

import (
	"fmt"
	"os"
	"path/filepath"
)

// writeReferences writes what the other sides are given: the words of lies, and the baseline by lie category and tenths
// of the unit that the log has there, feet on the green and yards elsewhere.
func writeReferences(folder string) error {
	pool, err := openDuckDB(folder)
	if err != nil {
		return err
	}
	defer pool.Close()
	lies, err := os.ReadFile(filepath.Join("sql", "lies.sql"))
	if err != nil {
		return err
	}
	baseline, err := os.ReadFile(filepath.Join("sql", "baseline.sql"))
	if err != nil {
		return err
	}
	return execute(pool,
		fmt.Sprintf("COPY (%s) TO '%s/lies.csv'", lies, folder),
		`CREATE TABLE baseline_rows AS
			SELECT category, distance_yd, strokes FROM (UNPIVOT (FROM read_csv('../reference/strokes-to-hole-out-2012.csv', comment = '#', header = true))
				ON tee, fairway, rough, sand, recovery INTO NAME category VALUE strokes)
			UNION ALL
			SELECT 'green', distance_ft / 3e0, putts FROM read_csv('../reference/putts-to-hole-out-2014.csv', comment = '#', header = true)`,
		fmt.Sprintf("CREATE TABLE baseline AS (%s)", baseline),
		fmt.Sprintf(`COPY (
			SELECT category, tenths, greatest(1e0, from_strokes + (distance_yd - from_yd) * strokes_per_yd) AS strokes
			FROM (
				SELECT category, CAST(tenths AS INTEGER) AS tenths, tenths / CASE category WHEN 'green' THEN 30e0 ELSE 10e0 END AS distance_yd
				FROM (SELECT DISTINCT category FROM baseline), range(0, 7000) AS distances (tenths)
			)
			JOIN baseline USING (category)
			WHERE distance_yd > above_yd AND distance_yd <= up_to_yd
		) TO '%s/expected.csv'`, folder))
}
