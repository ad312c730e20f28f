package acceptance

import (
	"encoding/csv"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// engine is one that runs the SQL besides the DuckDB of this module, by engines/run.mjs and pinned in package.json.
type engine struct {
	name, module string
	habits       []string // run before the SQL
}

// The second does three things as other engines do and DuckDB does not, which no grammar shows: it divides integers as
// Trino does, puts nulls first as Spark does, and knows no greatest of a null as Trino does.
var engines = []engine{
	{"another DuckDB", "duckdb", nil},
	{"a DuckDB with habits of others", "duckdb", []string{
		"SET integer_division = true",
		"SET default_null_order = 'nulls_first'",
		"CREATE MACRO greatest(a, b) AS CASE WHEN a >= b THEN a WHEN a < b THEN b END",
		`SELECT CASE WHEN 1 / 2 > 0 OR greatest(1, NULL) IS NOT NULL OR first(n ORDER BY n) IS NOT NULL THEN error('it keeps its own') END
			FROM (VALUES (1), (NULL)) AS numbers (n)`,
	}},
	{"PostgreSQL", "postgres", nil},
}

// step is one of engines/run.mjs.
type step struct {
	Run   string `json:"run,omitempty"`
	Enter string `json:"enter,omitempty"`
	Load  string `json:"load,omitempty"`
	Save  string `json:"save,omitempty"`
	File  string `json:"file,omitempty"`
}

func TestOtherEnginesAgree(t *testing.T) {
	var all []handedOver
	for _, s := range smallSeasons(t) {
		all = append(all, handOver(t, s))
	}
	for _, e := range engines {
		t.Run(e.name, func(t *testing.T) {
			var steps []step
			for i, s := range all {
				steps = append(steps, s.steps(t, e, fmt.Sprintf("season_%d", i))...)
			}
			t.Logf("%s", node(t, steps, "run.mjs", e.module))
			for _, s := range all {
				t.Run(s.name, func(t *testing.T) { s.agrees(t, e) })
			}
		})
	}
}

// handedOver is a season, run, with the steps that give another engine what the SQL starts from.
type handedOver struct {
	season
	db     *database
	folder string // of CSV files, there and back
	log    []step
	shots  []step // the program's, in the columns that the README names
	files  []step // the same, read from the program's own files as the README says
}

func handOver(t *testing.T, s season) handedOver {
	t.Helper()
	db, out, folder := openDatabase(t), s.run(t), t.TempDir()
	db.attach(out)
	db.enter("ours")
	db.read(s)
	bands := db.write(folder, "bands", "FROM bands")
	needed := strings.Join(slices.Sorted(maps.Keys(columnsInREADME(t))), ", ")
	return handedOver{
		season: s, db: db, folder: folder,
		log: slices.Concat(bands, db.write(folder, "log", "FROM log"), db.write(folder, "settings", "FROM settings"),
			db.write(folder, "baseline_rows", "FROM baseline_rows")),
		shots: slices.Concat(bands, db.write(folder, "shots", "SELECT "+needed+" FROM theirs.shots")),
		files: slices.Concat(bands, []step{{Run: strings.ReplaceAll(readme(t, "DuckDB"), "roundmill-out", out)}}),
	}
}

// steps are those of an engine from what the SQL starts from to files of what it finds.
func (s handedOver) steps(t *testing.T, e engine, schema string) (steps []step) {
	t.Helper()
	shots := s.shots
	if e.module == "duckdb" {
		shots = s.files
	}
	for from, given := range map[string][]step{"log": s.log, "shots": shots} {
		steps = append(steps, step{Enter: schema + "_" + from})
		for _, habit := range e.habits {
			steps = append(steps, step{Run: habit})
		}
		steps = append(steps, given...)
		for _, table := range madeFrom[from] {
			steps = append(steps, step{Run: defining(t, table)}, step{Save: table, File: s.found(e, from, table)})
		}
	}
	return steps
}

// found is the file of what an engine finds.
func (s handedOver) found(e engine, from, table string) string {
	return filepath.Join(s.folder, e.name+" from "+from+" "+table+".csv")
}

// agrees holds what an engine found against the program's tables.
func (s handedOver) agrees(t *testing.T, e engine) {
	db := s.db.within(t)
	for from, tables := range madeFrom {
		schema := strings.ReplaceAll(e.name+" from "+from, " ", "_")
		db.enter(schema)
		for _, table := range tables {
			if keys[table] == nil {
				continue // not a table of the program's
			}
			db.takeBack(table, s.found(e, from, table))
			db.compare(schema, table)
		}
	}
}

// nulls in CSV files are written as \N, which tells them from empty words.
const asCSV = `FORMAT csv, HEADER true, NULL '\N'`

// write writes what a query finds as a CSV file and returns the steps that make a table of it in another engine.
func (db *database) write(folder, table, query string) []step {
	db.t.Helper()
	var columns []string
	for _, column := range db.rows("DESCRIBE %s", query) {
		columns = append(columns, column[0]+" "+column[1])
	}
	file := filepath.Join(folder, table+".csv")
	db.exec("COPY (%s) TO '%s' (%s)", query, file, asCSV)
	return []step{{Run: fmt.Sprintf("CREATE TABLE %s (%s)", table, strings.Join(columns, ", "))}, {Load: table, File: file}}
}

// takeBack makes a table of the current schema from a CSV file, its columns of the types that the program's have.
func (db *database) takeBack(table, path string) {
	db.t.Helper()
	file, err := os.Open(path)
	if err != nil {
		db.t.Fatal(err)
	}
	defer file.Close()
	header, err := csv.NewReader(file).Read()
	if err != nil {
		db.t.Fatal(err)
	}
	kinds := db.columns("theirs." + table)
	var columns []string
	for _, name := range header {
		columns = append(columns, name+" "+orElse(kinds[name], "VARCHAR"))
	}
	db.exec("CREATE TABLE %s (%s)", table, strings.Join(columns, ", "))
	db.exec("COPY %s FROM '%s' (%s)", table, path, asCSV)
}

// columnsInREADME are the names and types of the columns of shots that the SQL reads, by the README.
func columnsInREADME(t *testing.T) map[string]string {
	t.Helper()
	_, list, _ := strings.Cut(readme(t, "Trino"), "CREATE TABLE shots (")
	list, _, _ = strings.Cut(list, ")")
	columns := map[string]string{}
	for column := range strings.SplitSeq(list, ",") {
		name, kind, _ := strings.Cut(strings.TrimSpace(column), " ")
		columns[name] = kind
	}
	return columns
}

func TestTheREADMEKnowsTheTypesOfTheColumns(t *testing.T) {
	db := openDatabase(t)
	written := db.columns(fmt.Sprintf("read_parquet('%s/tables/shots/*/*.parquet', hive_partitioning = false)", demo.run(t)))
	for name, kind := range columnsInREADME(t) {
		if written[name] != kind {
			t.Errorf("%s is %q, and %s in sql/README.md", name, written[name], kind)
		}
	}
}
