package acceptance

import (
	"fmt"
	"path/filepath"
	"strings"
)

// season is one input of the program, with what the SQL must know of the flags it is run with.
type season struct {
	name string
	log  string   // the CSV file
	args []string // the command line, without -o
	// sourceFile is what source_file must say; "" is the name of the log.
	sourceFile string
	bands      []float64 // edges, in metres if metres is set; nil is the default
	metres     bool
	shortGame  string // yards, as SQL; "" is 50
	reach      string // yards, as SQL; "" is 250
	puttUnit   string
	baseline   string // file given with --baseline
	refused    bool   // the log holds records that are to be refused
}

// recompute makes the tables shots, holes, rounds, strokes_gained and approach_proximity in the schema ours from the raw
// log alone.
func (db *database) recompute(s season) {
	db.t.Helper()
	db.exec("CREATE OR REPLACE SCHEMA ours")
	db.exec("USE ours")
	db.settle(s)
	sourceFile := s.sourceFile
	if sourceFile == "" {
		sourceFile = filepath.Base(s.log)
	}
	db.readLog(s.log, sourceFile, s.puttUnit)
	db.exec(fmt.Sprintf("CREATE OR REPLACE TABLE settings AS SELECT %s AS short_game_yd, %s AS reach_yd, units.* FROM units",
		orElse(s.shortGame, "50e0"), orElse(s.reach, "250e0")))
	db.define("shots")
	db.summarise()
}

// summarise makes holes, rounds and both tables of figures from the table shots of the current schema.
func (db *database) summarise() {
	db.t.Helper()
	for _, table := range []string{"holes", "rounds", "strokes_gained", "approach_proximity"} {
		db.define(table)
	}
}

// settle makes the tables that do not come from the log: lies, baseline, bands.
func (db *database) settle(s season) {
	db.t.Helper()
	db.define("lies")
	if s.baseline == "" {
		db.exec(`CREATE OR REPLACE TABLE baseline_rows AS
			UNPIVOT (SELECT * REPLACE (CAST(distance_yd AS DOUBLE) AS distance_yd)
				FROM read_csv('reference/strokes-to-hole-out-2012.csv', header = true, skip = 3))
			ON tee, fairway, rough, sand, recovery INTO NAME category VALUE strokes`)
		db.exec(`INSERT INTO baseline_rows BY NAME
			SELECT distance_ft / 3e0 AS distance_yd, 'green' AS category, putts AS strokes
			FROM read_csv('reference/putts-to-hole-out-2014.csv', header = true, skip = 3)`)
	} else {
		db.exec(fmt.Sprintf(`CREATE OR REPLACE TABLE baseline_rows AS
			UNPIVOT (SELECT * REPLACE (CAST(distance_yd AS DOUBLE) AS distance_yd) FROM read_csv('%s', header = true))
			ON tee, fairway, rough, sand, recovery, green INTO NAME category VALUE strokes`, s.baseline))
	}
	db.define("baseline")
	edges, unit := s.bands, "1e0"
	if s.metres {
		unit = perYard["m"]
	}
	if edges == nil {
		edges = []float64{50, 75, 100, 125, 150, 175, 200, 225, 250}
		if s.metres {
			edges = []float64{50, 70, 90, 110, 130, 150, 170, 190, 210, 230}
		}
	}
	var bands []string
	for i := range edges[1:] {
		bands = append(bands, fmt.Sprintf("(%[1]v / %[3]s, %[2]v / %[3]s, '%[1]v-%[2]v')", edges[i], edges[i+1], unit))
	}
	db.exec("CREATE OR REPLACE TABLE bands AS SELECT * FROM (VALUES " + strings.Join(bands, ", ") +
		") AS bands (from_yd, to_yd, label)")
}

func orElse(value, otherwise string) string {
	if value == "" {
		return otherwise
	}
	return value
}
