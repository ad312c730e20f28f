package acceptance

import (
	"fmt"
	"slices"
	"strings"
)

// keys tell the rows of a table apart.
var keys = map[string][]string{
	"shots":              {"player", "date", "course", "round", "hole", "shot"},
	"holes":              {"player", "date", "course", "round", "hole"},
	"rounds":             {"player", "date", "course", "round"},
	"strokes_gained":     {"player", "group_kind", "group_name"},
	"approach_proximity": {"player", "lie_group", "band_from_yd"},
}

// quantiles need to agree to 0.05 ft only: the program may count feet in tenths.
var quantiles = []string{"p10_ft", "p25_ft", "median_ft", "p75_ft", "p90_ft"}

// attach makes views of the tables in a folder of results, in the schema theirs.
func (db *database) attach(out string) {
	db.t.Helper()
	db.exec("CREATE SCHEMA theirs")
	db.exec("CREATE VIEW theirs.shots AS FROM read_parquet('%s/tables/shots/*/*.parquet', hive_partitioning = true)", out)
	for _, table := range []string{"holes", "rounds", "approach_proximity"} {
		db.exec("CREATE VIEW theirs.%s AS FROM '%s/tables/%[1]s.parquet'", table, out)
	}
	// group is a reserved word, which the shared dialect cannot quote
	db.exec(`CREATE VIEW theirs.strokes_gained AS SELECT * RENAME ("group" AS group_name) FROM '%s/tables/strokes_gained.parquet'`, out)
}

// compare holds the program's table against one of another schema, row by row and over all columns of the latter: words
// and counts exactly, numbers to 1e-9 of their size or of one, nulls where the other has nulls.
func (db *database) compare(schema, table string) {
	db.t.Helper()
	ours, theirs := schema+"."+table, "theirs."+table
	var match, key []string
	for _, name := range keys[table] {
		condition := "a.%[1]s IS NOT DISTINCT FROM b.%[1]s"
		if name == "band_from_yd" {
			condition = "abs(a.%[1]s - b.%[1]s) < 1e-9"
		}
		match = append(match, fmt.Sprintf(condition, name))
		key = append(key, "a."+name)
	}
	same, named := strings.Join(match, " AND "), strings.Join(key, ", ")
	for _, sides := range [][2]string{{ours, theirs}, {theirs, ours}} {
		db.findsNothing("only in "+sides[0], "SELECT %s FROM %s a ANTI JOIN %s b ON %s ORDER BY ALL", named, sides[0], sides[1], same)
	}
	// a pair of rows for every row of either side: none is there twice
	if n := db.rows("SELECT (FROM %[1]s SELECT count(*)), (FROM %[2]s SELECT count(*)), (SELECT count(*) FROM %[1]s a JOIN %[2]s b ON %[3]s)",
		ours, theirs, same)[0]; n[0] != n[1] || n[0] != n[2] {
		db.t.Errorf("%s has %s rows, %s has %s, and they make %s pairs", ours, n[0], theirs, n[1], n[2])
	}
	held := db.columns(theirs)
	for name, kind := range db.columns(ours) {
		if _, there := held[name]; !there {
			db.t.Errorf("%s has no column %s", theirs, name)
			continue
		}
		differs := fmt.Sprintf("a.%[1]s IS DISTINCT FROM b.%[1]s", name)
		if kind == "DOUBLE" {
			tolerance := fmt.Sprintf("1e-9 * greatest(1, abs(a.%s))", name)
			if slices.Contains(quantiles, name) {
				tolerance = "0.05"
			}
			differs = fmt.Sprintf("((a.%[1]s IS NULL) <> (b.%[1]s IS NULL) OR abs(a.%[1]s - b.%[1]s) > %s)", name, tolerance)
		}
		db.findsNothing(fmt.Sprintf("%s and %s differ in %s", ours, theirs, name),
			"SELECT %s, a.%s, b.%[2]s FROM %s a JOIN %s b ON %s WHERE %s ORDER BY ALL", named, name, ours, theirs, same, differs)
	}
}

// columns are the names and types of a table's columns.
func (db *database) columns(table string) map[string]string {
	db.t.Helper()
	columns := map[string]string{}
	for _, row := range db.rows("DESCRIBE FROM %s", table) {
		columns[row[0]] = row[1]
	}
	return columns
}
