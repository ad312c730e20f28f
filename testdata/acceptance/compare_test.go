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

// attach makes views of the tables in a folder of results, in the schema theirs.
func (db *database) attach(out string) {
	db.t.Helper()
	db.exec("CREATE OR REPLACE SCHEMA theirs")
	for table := range keys {
		source := fmt.Sprintf("'%s/tables/%s.parquet'", out, table)
		if table == "shots" {
			source = fmt.Sprintf("read_parquet('%s/tables/shots/*/*.parquet', hive_partitioning = true)", out)
		}
		rename := ""
		if table == "strokes_gained" {
			rename = `RENAME ("group" AS group_name)`
		}
		db.exec(fmt.Sprintf("CREATE VIEW theirs.%s AS SELECT * %s FROM %s", table, rename, source))
	}
}

// compare holds the columns that two tables share against one another, row by row: words and counts exactly, numbers to
// 1e-9 of their size (or of 1), nulls where the other has nulls.
func (db *database) compare(ours, theirs string) {
	db.t.Helper()
	_, name, _ := strings.Cut(ours, ".")
	type column struct{ name, kind string }
	columns := func(table string) (columns []column) {
		for _, row := range db.rows("DESCRIBE " + table) {
			columns = append(columns, column{row[0], row[1]})
		}
		return columns
	}
	held := columns(theirs)
	var join, key []string
	for _, name := range keys[name] {
		match := fmt.Sprintf("a.%[1]s IS NOT DISTINCT FROM b.%[1]s", name)
		if name == "band_from_yd" {
			match = "abs(a.band_from_yd - b.band_from_yd) < 1e-9"
		}
		join = append(join, match)
		key = append(key, fmt.Sprintf("coalesce(a.%[1]s, b.%[1]s)", name))
	}
	on := strings.Join(join, " AND ")
	db.findsNothing(name+": rows on one side only", fmt.Sprintf(
		`SELECT 'ours', %s FROM %s a ANTI JOIN %s b ON %s`, strings.ReplaceAll(strings.Join(keys[name], ", "), "", ""), ours, theirs, on))
	db.findsNothing(name+": rows on one side only", fmt.Sprintf(
		`SELECT 'theirs', %s FROM %s a ANTI JOIN %s b ON %s`, strings.Join(keys[name], ", "), theirs, ours, on))
	for _, c := range columns(ours) {
		if !slices.ContainsFunc(held, func(h column) bool { return h.name == c.name }) {
			db.t.Errorf("%s: the program has no column %s", name, c.name)
			continue
		}
		differs := fmt.Sprintf("a.%[1]s IS DISTINCT FROM b.%[1]s", c.name)
		if c.kind == "DOUBLE" {
			differs = fmt.Sprintf(`((a.%[1]s IS NULL) <> (b.%[1]s IS NULL)
				OR abs(a.%[1]s - b.%[1]s) > 1e-9 * greatest(1, abs(a.%[1]s)))`, c.name)
		}
		db.findsNothing(fmt.Sprintf("%s.%s: ours and theirs differ", name, c.name), fmt.Sprintf(
			"SELECT %s, a.%[2]s, b.%[2]s FROM %[3]s a JOIN %[4]s b ON %[5]s WHERE %[6]s ORDER BY ALL",
			strings.Join(key, ", "), c.name, ours, theirs, on, differs))
	}
}
