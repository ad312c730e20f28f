//go:build linux

package main

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	_ "github.com/duckdb/duckdb-go/v2"
)

// columns are those of a generated log, with the types that DuckDB is told.
const columns = `{date: DATE, player: VARCHAR, course: VARCHAR, tees: VARCHAR, course_rating: DOUBLE, slope_rating: DOUBLE,
	round: VARCHAR, hole: INTEGER, par: INTEGER, hole_length_yd: DOUBLE, stroke_index: INTEGER, shot: INTEGER, lie: VARCHAR,
	to_hole: DOUBLE, club: VARCHAR, "left": DOUBLE, finish_lie: VARCHAR, long_short_yd: DOUBLE, left_right_yd: DOUBLE,
	aim_long_short_yd: DOUBLE, aim_left_right_yd: DOUBLE, pin_side: VARCHAR, pin_depth: VARCHAR, headwind_mph: DOUBLE,
	crosswind_mph: DOUBLE, green_depth_yd: DOUBLE, green_width_yd: DOUBLE, elevation_yd: DOUBLE, putt_slope: VARCHAR,
	putt_break: VARCHAR, penalty: INTEGER, penalty_kind: VARCHAR, intent: VARCHAR, fault: VARCHAR, holed: VARCHAR, note: VARCHAR}`

// writeReferences writes what the other sides are given: the words of lies, and the baseline by lie category and tenths
// of the unit that the log has there, feet on the green and yards elsewhere.
func writeReferences(folder string) error {
	pool, err := sql.Open("duckdb", "")
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
		fmt.Sprintf("COPY (%s) TO '%s/lies.csv'", strings.TrimSuffix(strings.TrimSpace(string(lies)), ";"), folder),
		`CREATE TABLE baseline_rows AS
			SELECT category, distance_yd, strokes FROM (UNPIVOT (FROM read_csv('reference/strokes-to-hole-out-2012.csv', comment = '#', header = true))
				ON tee, fairway, rough, sand, recovery INTO NAME category VALUE strokes)
			UNION ALL
			SELECT 'green', distance_ft / 3e0, putts FROM read_csv('reference/putts-to-hole-out-2014.csv', comment = '#', header = true)`,
		"CREATE TABLE baseline AS "+string(baseline),
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

func execute(pool *sql.DB, statements ...string) error {
	for _, statement := range statements {
		if _, err := pool.Exec(statement); err != nil {
			return fmt.Errorf("%w\nin\n%s", err, statement)
		}
	}
	return nil
}

// duckDB does the job, the fastest way found: shots streamed out through a window by hole, and read back for the
// quantiles.
func duckDB(log, out string) error {
	pool, err := sql.Open("duckdb", "")
	if err != nil {
		return err
	}
	defer pool.Close()
	pool.SetMaxOpenConns(1)
	given := filepath.Dir(log)
	return execute(pool,
		fmt.Sprintf("SET threads = %d", threads),
		"SET preserve_insertion_order = false",
		fmt.Sprintf("CREATE TABLE lies AS FROM read_csv('%s/lies.csv')", given),
		fmt.Sprintf("CREATE TABLE expected AS SELECT category, CAST(tenths AS INTEGER) AS tenths, strokes FROM read_csv('%s/expected.csv')", given),
		fmt.Sprintf(`COPY (
			WITH placed AS (
				SELECT log.*, lies.category AS lie_category, left_in.category AS left_category, CAST(round(10 * to_hole) AS INTEGER) AS tenths
				FROM read_csv('%s', header = true, delim = ',', quote = '"', columns = %s) AS log
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
		) TO '%s/shots.parquet' (FORMAT parquet, COMPRESSION zstd)`, log, columns, out),
		fmt.Sprintf(`COPY (
			SELECT player, CASE lie_category WHEN 'tee' THEN 'fairway' ELSE lie_category END AS lie_group, band_from_yd, count(*) AS n,
				quantile_cont(proximity_ft, 0.1) AS p10, quantile_cont(proximity_ft, 0.25) AS p25, quantile_cont(proximity_ft, 0.5) AS median,
				quantile_cont(proximity_ft, 0.75) AS p75, quantile_cont(proximity_ft, 0.9) AS p90, avg(strokes_gained) AS strokes_gained
			FROM read_parquet('%s/shots.parquet') WHERE at_green GROUP BY ALL
		) TO '%s/quantiles.csv'`, out, out))
}

// agree says where a side's quantiles, counts or strokes gained differ from ours.
func agree(sides []*side, ours string) error {
	pool, err := sql.Open("duckdb", "")
	if err != nil {
		return err
	}
	defer pool.Close()
	pool.SetMaxOpenConns(1)
	if err := execute(pool, fmt.Sprintf(`CREATE TABLE ours AS
		SELECT player, lie_group, band_from_yd, n, p10_ft, p25_ft, median_ft, p75_ft, p90_ft, strokes_gained_per_shot
		FROM read_parquet('%s/tables/approach_proximity.parquet') WHERE lie_group <> 'all'`, ours)); err != nil {
		return err
	}
	for _, s := range sides[1:] {
		var cells, different int
		var example sql.NullString
		err := pool.QueryRow(fmt.Sprintf(`
			SELECT count(*), count(*) FILTER (differs), any_value(row(ours, theirs)::VARCHAR) FILTER (differs) FROM (
				SELECT ours, theirs, NOT coalesce(ours.n = theirs.n AND greatest(abs(p10_ft - p10), abs(p25_ft - p25), abs(median_ft - median),
					abs(p75_ft - p75), abs(p90_ft - p90), abs(strokes_gained_per_shot - strokes_gained)) < 1e-6, false)
					AND NOT (ours.n = theirs.n AND median_ft IS NULL AND median IS NULL) AS differs
				FROM ours FULL JOIN read_csv('%s/quantiles.csv', nullstr = '') AS theirs USING (player, lie_group, band_from_yd)
			)`, s.out)).Scan(&cells, &different, &example)
		if err != nil {
			return err
		}
		if cells == 0 || different > 0 {
			return errors.New(s.name + " finds other quantiles: " + fmt.Sprintf("%d of %d cells, for example %s", different, cells, example.String))
		}
		fmt.Printf("%s finds the same counts, quantiles and strokes gained in all %d cells.\n", s.name, cells)
	}
	return nil
}
