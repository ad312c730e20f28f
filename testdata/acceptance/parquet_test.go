package acceptance

import (
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/metadata"
)

// promised are the columns that other tools may rely on, by type: a word, a day, yes or no, a count, a number.
var promised = map[string]map[string][]string{
	"shots/*/*": {
		"text": words(`player course tees round lie lie_category club finish_lie finish_category shot_class penalty_kind
			intent fault putt_slope putt_break pin_side pin_depth note source_file`),
		"day": words("date"), "flag": words("at_green short_sided holed hole_complete"),
		"count": words("season hole par stroke_index shot penalty source_line"),
		"number": words(`hole_length_yd to_hole_yd finish_yd proximity_ft band_from_yd expected_before expected_after
			strokes_gained long_yd right_yd plays_like_yd headwind_mph crosswind_mph elevation_yd`),
	},
	"holes": {
		"text": words("player course round"), "day": words("date"),
		"flag":   words("fairway_hit green_in_regulation up_and_down sand_save three_putt hole_complete"),
		"count":  words("season hole par strokes penalties score putts"),
		"number": words("hole_length_yd strokes_gained"),
	},
	"rounds": {
		"text": words("player course tees round"), "day": words("date"), "flag": words("complete"),
		"count": words("season holes par score to_par putts fairways_hit fairways greens_in_regulation penalties"),
		"number": words(`strokes_gained strokes_gained_tee_shot strokes_gained_approach strokes_gained_short_game
			strokes_gained_putt`),
	},
	"approach_proximity": {
		"text": words("player lie_group baseline"), "count": words("n n_penalty"),
		"number": words(`band_from_yd band_to_yd green_share mean_ft p10_ft p25_ft median_ft median_lo_ft median_hi_ft p75_ft
			p90_ft inside_15ft_share inside_30ft_share strokes_gained_per_shot strokes_gained_lo strokes_gained_hi
			long_mean_yd long_sd_yd right_mean_yd right_sd_yd`),
	},
	"strokes_gained": {
		"text": words("player group_kind group baseline"), "count": words("rounds n"),
		"number": words("per_round per_round_lo per_round_hi per_100_shots"),
	},
}

var sqlTypes = map[string][]string{
	"text": {"VARCHAR"}, "day": {"DATE"}, "flag": {"BOOLEAN"}, "count": {"INTEGER", "BIGINT"}, "number": {"DOUBLE"},
}

func words(text string) []string { return strings.Fields(text) }

func TestEveryTableHasTheColumnsPromisedInTheirTypes(t *testing.T) {
	db, out := openDatabase(t), demo.run(t)
	for table, columns := range promised {
		found := db.columns(fmt.Sprintf("'%s/tables/%s.parquet'", out, table))
		for kind, names := range columns {
			for _, name := range names {
				if !slices.Contains(sqlTypes[kind], found[name]) {
					t.Errorf("%s.%s: expected %v, found %q", table, name, sqlTypes[kind], found[name])
				}
			}
		}
	}
}

func TestNothingAbsentIsEmptyOrNotANumber(t *testing.T) {
	for _, s := range []season{demo, {log: "logs/bare.csv", args: []string{"--no-charts"}}} {
		db := openDatabase(t)
		for _, path := range parquetFiles(t, s.run(t)) {
			for name, kind := range db.columns("'" + path + "'") {
				switch kind {
				case "VARCHAR":
					db.findsNothing(path+": "+name, `SELECT 'empty' FROM '%s' WHERE trim("%s") = ''`, path, name)
				case "DOUBLE":
					db.findsNothing(path+": "+name, `SELECT "%s" FROM '%s' WHERE NOT isfinite("%[1]s")`, name, path)
				}
			}
		}
	}
}

// A season of some 200,000 shots fills more than one row group; its second year is a second partition.
func TestTheShotsFilesAreMadeToBeQueried(t *testing.T) {
	s := generated(t, 60, 60, 5)
	db, out := openDatabase(t), s.run(t)
	files := parquetFiles(t, out)
	everything := fmt.Sprintf("read_parquet('%s/tables/shots/*/*.parquet', hive_partitioning = true)", out)

	t.Run("a season is a partition, and the others are not opened", func(t *testing.T) {
		db := db.within(t)
		db.findsNothing("season and folder differ",
			"SELECT filename, season FROM read_parquet('%s/tables/shots/*/*.parquet', hive_partitioning = false, filename = true) WHERE NOT contains(filename, 'season=' || season || '/') OR season <> year(date)", out)
		if seasons := db.value("SELECT count(DISTINCT season) FROM %s", everything); seasons != "2" {
			t.Fatalf("expected 2 seasons, found %s", seasons)
		}
		plan := fmt.Sprint(db.rows("EXPLAIN SELECT sum(to_hole_yd) FROM %s WHERE season = 2027", everything))
		if !strings.Contains(plan, "Scanning Files: 1/2") {
			t.Errorf("the plan reads more than one of two files:\n%s", plan)
		}
	})
	t.Run("row groups are full and no larger than 122,880 rows", func(t *testing.T) {
		db := db.within(t)
		several := false
		for _, path := range files {
			groups := db.rows("SELECT DISTINCT row_group_id, row_group_num_rows FROM parquet_metadata('%s') ORDER BY ALL", path)
			several = several || len(groups) > 1
			for i, group := range groups {
				if rows, _ := strconv.Atoi(group[1]); rows > 122880 || i < len(groups)-1 && rows != 122880 {
					t.Errorf("%s: row group %s of %d has %d rows", path, group[0], len(groups), rows)
				}
			}
		}
		if !several {
			t.Error("no file has two row groups: the season is too small to show anything")
		}
	})
	t.Run("columns are compressed with zstd, and strings are in dictionaries", func(t *testing.T) {
		for _, path := range files {
			db.within(t).findsNothing(path, `SELECT path_in_schema, compression, encodings FROM parquet_metadata('%s')
				WHERE compression <> 'ZSTD' OR type = 'BYTE_ARRAY' AND NOT contains(encodings, 'DICTIONARY')`, path)
		}
	})
	t.Run("statistics are there and true", func(t *testing.T) {
		for _, path := range files {
			db.within(t).statisticsAreTrue(path)
		}
	})
	t.Run("a day is found without reading every row group", func(t *testing.T) {
		path := filepath.Join(out, "tables", "shots", "season=2026", "part-0000.parquet")
		if needless := db.within(t).value(`SELECT count(*) FROM parquet_metadata('%s')
			WHERE path_in_schema = 'date' AND CAST(stats_max_value AS DATE) < (SELECT max(date) FROM '%[1]s')`, path); needless == "0" {
			t.Error("every row group may hold the last day")
		}
	})
	t.Run("rows are in the order that the file declares", func(t *testing.T) { db.within(t).declaredOrderHolds(files, true) })
	t.Run("a page index is there", func(t *testing.T) {
		for _, path := range files {
			eachColumnChunk(t, path, func(chunk *metadata.ColumnChunkMetaData) {
				if chunk.GetColumnIndexLocation() == nil || chunk.GetOffsetIndexLocation() == nil {
					t.Errorf("%s: %s has no page index", path, chunk.PathInSchema())
				}
			})
		}
	})
	t.Run("a file names its writer and its baseline", func(t *testing.T) {
		db := db.within(t)
		for _, path := range files {
			db.findsNothing(path, `SELECT created_by FROM parquet_file_metadata('%s')
				WHERE NOT regexp_full_match(created_by, 'roundmill version \S+ \(build \S+\)')`, path)
			if named := db.value(`SELECT string_agg(decode(key), ' ' ORDER BY decode(key)) FROM parquet_kv_metadata('%s')
				WHERE starts_with(decode(key), 'roundmill.') AND octet_length(value) > 0`, path); named != "roundmill.baseline roundmill.version" {
				t.Errorf("%s: key-value metadata holds %q", path, named)
			}
		}
	})
}

func TestShotsHolesAndRoundsStandInTheOrderOfDatePlayerRound(t *testing.T) {
	for _, s := range []season{{log: "logs/order.csv", args: []string{"--no-charts"}}, {log: "logs/bare.csv", args: []string{"--no-charts"}}, generated(t, 3, 60, 7)} {
		db, out := openDatabase(t), s.run(t)
		for _, path := range parquetFiles(t, out) {
			order := "date, player, round, course"
			switch name := strings.TrimPrefix(filepath.ToSlash(path), filepath.ToSlash(out)+"/tables/"); {
			case strings.HasPrefix(name, "shots/"):
				order += ", hole, shot"
			case name == "holes.parquet":
				order += ", hole"
			case name != "rounds.parquet":
				continue
			}
			db.inOrder(path, order)
		}
		db.declaredOrderHolds(parquetFiles(t, out), false)
	}
}

// inOrder complains unless the rows of a file stand in an order, nulls first.
func (db *database) inOrder(path, order string) {
	db.t.Helper()
	db.findsNothing(path+" is not in the order of "+order, `SELECT place, stands FROM (
			SELECT file_row_number AS stands, row_number() OVER (ORDER BY %s, file_row_number) - 1 AS place
			FROM (SELECT * FROM read_parquet('%s', file_row_number = true, hive_partitioning = false))
		) WHERE place <> stands ORDER BY ALL`, strings.ReplaceAll(order, ",", " NULLS FIRST,")+" NULLS FIRST", path)
}

// declaredOrderHolds holds the rows of each file to the sorting columns in its footer; shots must declare some.
func (db *database) declaredOrderHolds(paths []string, shots bool) {
	db.t.Helper()
	for _, path := range paths {
		reader, err := file.OpenParquetFile(path, false)
		if err != nil {
			db.t.Fatal(err)
		}
		for i := range reader.NumRowGroups() {
			var order []string
			for _, sorted := range reader.RowGroup(i).MetaData().SortingColumns() {
				column := reader.MetaData().Schema.Column(int(sorted.ColumnIdx)).Name()
				if sorted.Descending || !sorted.NullsFirst {
					db.t.Errorf("%s declares %s descending or nulls last", path, column)
				}
				order = append(order, column)
			}
			if shots && strings.Contains(path, "season=") && !strings.HasPrefix(strings.Join(order, " "), "date player round") {
				db.t.Errorf("%s: row group %d declares the order %v", path, i, order)
			}
			if len(order) > 0 {
				db.inOrder(path, strings.Join(order, ", "))
			}
		}
		reader.Close()
	}
}

// statisticsAreTrue holds minimum, maximum and null count of every column chunk against its rows.
func (db *database) statisticsAreTrue(path string) {
	db.t.Helper()
	from := 0
	for _, group := range db.rows("SELECT DISTINCT row_group_id, row_group_num_rows FROM parquet_metadata('%s') ORDER BY ALL", path) {
		rows, _ := strconv.Atoi(group[1])
		for name, kind := range db.columns(fmt.Sprintf("read_parquet('%s', hive_partitioning = false)", path)) {
			db.findsNothing(fmt.Sprintf("%s: statistics of %s in row group %s", path, name, group[0]), `
				WITH stored AS (
					SELECT stats_null_count AS nulls, CAST(stats_min_value AS %[3]s) AS low, CAST(stats_max_value AS %[3]s) AS high
					FROM parquet_metadata('%[1]s') WHERE path_in_schema = '%[2]s' AND row_group_id = %[4]s
				), counted AS (
					SELECT count(*) - count("%[2]s") AS nulls, min("%[2]s") AS low, max("%[2]s") AS high
					FROM read_parquet('%[1]s', file_row_number = true, hive_partitioning = false)
					WHERE file_row_number BETWEEN %[5]d AND %[6]d
				)
				(SELECT 'stored', * FROM stored EXCEPT SELECT 'stored', * FROM counted)
				UNION ALL (SELECT 'counted', * FROM counted EXCEPT SELECT 'counted', * FROM stored)`,
				path, name, kind, group[0], from, from+rows-1)
		}
		from += rows
	}
}

// eachColumnChunk shows the footer's account of every column chunk of a file.
func eachColumnChunk(t *testing.T, path string, show func(*metadata.ColumnChunkMetaData)) {
	t.Helper()
	reader, err := file.OpenParquetFile(path, false)
	if err != nil {
		t.Fatal(err)
	}
	defer reader.Close()
	for i := range reader.NumRowGroups() {
		for column := range reader.MetaData().Schema.NumColumns() {
			chunk, err := reader.RowGroup(i).MetaData().ColumnChunk(column)
			if err != nil {
				t.Fatal(err)
			}
			show(chunk)
		}
	}
}

// parquetFiles are the Parquet files in a folder of results.
func parquetFiles(t *testing.T, out string) (paths []string) {
	t.Helper()
	for _, pattern := range []string{"tables/*.parquet", "tables/*/*/*.parquet"} {
		found, err := filepath.Glob(filepath.Join(out, filepath.FromSlash(pattern)))
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, found...)
	}
	if len(paths) < 6 {
		t.Fatalf("expected shots and five tables, found %v", paths)
	}
	return paths
}
