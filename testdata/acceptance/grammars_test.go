package acceptance

import (
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// complaints are what the grammars of Spark and Trino have against statements, by dialect and name.
func complaints(t *testing.T, statements map[string]string) (found map[string]map[string]string) {
	t.Helper()
	if err := json.Unmarshal(node(t, statements, "parse.mjs"), &found); err != nil {
		t.Fatal(err)
	}
	for _, dialect := range []string{"Spark", "Trino"} {
		if len(found[dialect]) != len(statements) {
			t.Fatalf("%s: %d statements of %d were parsed", dialect, len(found[dialect]), len(statements))
		}
	}
	return found
}

// The grammars are those of dt-sql-parser, after the ANTLR grammars of Spark and Trino: neither is the engine's own parser.
func TestEveryQueryParsesInSparkAndTrino(t *testing.T) {
	files, err := filepath.Glob("sql/*.sql")
	if err != nil || len(files) == 0 {
		t.Fatalf("no queries: %v", err)
	}
	statements := map[string]string{}
	for _, file := range files {
		query, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(query), ";") {
			t.Errorf("%s holds a semicolon, at which some clients cut, also within comments", file)
		}
		table := strings.TrimSuffix(filepath.Base(file), ".sql")
		statements[file], statements["table "+table] = string(query), defining(t, table)
	}
	for dialect, found := range complaints(t, statements) {
		for name, complaint := range found {
			if complaint != "" {
				t.Errorf("%s, %s: %s", dialect, name, complaint)
			}
		}
	}
}

// A grammar that took what only another engine knows would prove nothing. What the README says for an engine is for it alone.
func TestTheGrammarsTellDialectsApart(t *testing.T) {
	only := map[string]string{
		readme(t, "Spark"): "Spark",
		"SELECT shot FROM shots WHERE course <=> tees":                                "Spark",
		"SELECT club, word FROM shots LATERAL VIEW explode(split(note, ' ')) AS word": "Spark",

		readme(t, "Trino"): "Trino",
		"SELECT place FROM UNNEST(ARRAY[10, 20]) WITH ORDINALITY AS t (value, place)": "Trino",
		"SELECT TRY_CAST(note AS ROW(hole INTEGER)) FROM shots":                       "Trino",

		"FROM shots":                                                "DuckDB",
		"SELECT * EXCLUDE (note) FROM shots":                        "DuckDB",
		"SELECT par::INTEGER FROM shots":                            "DuckDB",
		"SELECT quantile_cont(proximity_ft, [0.1, 0.9]) FROM shots": "DuckDB",

		"SELECT par + FROM shots":                                          "nobody",
		"SELECT hole FROM shots GROUP BY":                                  "nobody",
		"SELECT count(*) FROM shots WINDOW whole_hole AS (PARTITION hole)": "nobody",
		"CREATE TABLE holes AS (SELECT hole FROM shots;)":                  "nobody",
	}
	statements := map[string]string{}
	for statement := range only {
		statements[statement] = statement
	}
	for dialect, found := range complaints(t, statements) {
		for statement, home := range only {
			if parses := found[statement] == ""; parses != (home == dialect) {
				t.Errorf("%s: %s: parses is %t", dialect, statement, parses)
			}
		}
	}
}

// readme is the block of sql/README.md that reads the shots in an engine.
func readme(t *testing.T, engine string) string {
	t.Helper()
	text, err := os.ReadFile("sql/README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, block, found := strings.Cut(string(text), "```sql\n-- "+engine)
	_, block, cut := strings.Cut(block, "\n")
	block, _, closed := strings.Cut(block, "\n```")
	if !found || !cut || !closed {
		t.Fatalf("sql/README.md does not say how %s reads the shots", engine)
	}
	return block
}
