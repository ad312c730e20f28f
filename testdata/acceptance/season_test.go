package acceptance

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"
)

// season is one input of the program, with what the SQL must know of the flags that it is run with. Distances are SQL.
type season struct {
	name       string
	log        string   // the CSV file
	args       []string // flags, without --out
	sourceFile string   // what source_file says when it is not the name of the log
	refused    []int    // lines of the log that are to be refused
	bands      []string // edges in yards; default those of bands.sql
	shortGame  string   // yards; default 50
	reach      string   // yards; default 250
	puttUnit   string   // as --putt-unit
	baseline   string   // the file given as --baseline
	lacks      bool     // the baseline has no values for a lie
}

// demo is the season that is built into the program.
var demo = season{
	name: "the built-in season", log: "../demo/season.csv", args: []string{"--demo", "--no-charts"},
	sourceFile: "demo season (invented)",
}

// seasons are the inputs on which the program and the SQL are held together.
func seasons(t *testing.T) []season { return append(smallSeasons(t), generated(t, 60, 60, 5)) }

// smallSeasons are all but the one of a quarter of a million shots.
func smallSeasons(t *testing.T) []season {
	odd := func(name, log string, args ...string) season {
		return season{name: name, log: "logs/" + log, args: append([]string{"--no-charts"}, args...)}
	}
	inMetres := func(metres ...string) (yards []string) {
		for _, m := range metres {
			yards = append(yards, m+" / 0.9144e0")
		}
		return yards
	}
	all := []season{
		demo,
		generated(t, 3, 60, 7),
		generated(t, 1, 5, 3),
		generated(t, 2, 4, 11),
		odd("few columns, feet on the green, two days without a round", "bare.csv"),
		odd("shots in file order, a par 6, quoted notes", "unnumbered.csv"),
		odd("headers in metres", "metres.csv"),
		odd("penalties, stroke and distance, drops", "penalties.csv"),
		odd("picked up holes and gaps in the numbering", "unfinished.csv"),
		odd("shots, holes and rounds out of order", "order.csv"),
		odd("bands, reach and intent", "bands.csv"),
		odd("left and the next shot do not quite agree", "disagreeing.csv"),
		odd("words for lies, wind, slope, pins and aims", "words.csv"),
	}
	refused := odd("records that are refused", "refused.csv")
	refused.refused = []int{3, 8, 9, 16}
	metres := odd("figures in metres", "metres.csv", "--units", "m")
	metres.bands = inMetres("50", "70", "90", "110", "130", "150", "170", "190", "210", "230")
	flagsInMetres := odd("flags in metres", "metres.csv", "--units", "m", "--bands", "45,90,120,235", "--short-game", "49", "--reach", "150")
	flagsInMetres.bands = inMetres("45", "90", "120", "235")
	flagsInMetres.shortGame, flagsInMetres.reach = "49 / 0.9144e0", "150 / 0.9144e0"
	bands := odd("bands of the flags", "bands.csv", "--bands", "30,60,120,230", "--short-game", "30", "--reach", "235")
	bands.bands, bands.shortGame, bands.reach = []string{"30e0", "60e0", "120e0", "230e0"}, "30e0", "235e0"
	wide := odd("a wide short game", "bands.csv", "--short-game", "60")
	wide.shortGame = "60e0"
	puttsInYards := odd("putts in yards", "bare.csv", "--putt-unit", "yd")
	puttsInYards.puttUnit, puttsInYards.refused = "yd", []int{15} // a putt of 120 yd is too long to be one
	puttsInMetres := odd("putts in metres", "disagreeing.csv", "--putt-unit", "m")
	puttsInMetres.puttUnit = "m"
	own := odd("a baseline of the user's own", "bands.csv", "--baseline", "baseline.csv")
	own.baseline = "logs/baseline.csv"
	lacking := odd("a baseline that lacks a lie", "bands.csv", "--baseline", "baseline-without-recovery.csv")
	lacking.baseline, lacking.lacks = "logs/baseline-without-recovery.csv", true
	return append(all, refused, metres, flagsInMetres, bands, wide, puttsInYards, puttsInMetres, own, lacking)
}

func (s season) sourceName() string {
	if s.sourceFile != "" {
		return s.sourceFile
	}
	return filepath.Base(s.log)
}

// refusedList is the lines that are to be refused, as a list of SQL.
func (s season) refusedList() string {
	return strings.ReplaceAll(fmt.Sprint(append([]int{}, s.refused...)), " ", ", ") + "::INTEGER[]"
}

// recompute makes every table in the schema ours from the raw log alone.
func (db *database) recompute(s season) {
	db.t.Helper()
	db.enter("ours")
	db.read(s)
	for _, table := range madeFrom["log"] {
		db.define(table)
	}
}

// madeFrom are the tables that the SQL makes of what read reads, or of shots and bands alone, each of those before it.
var madeFrom = map[string][]string{
	"log":   {"lies", "baseline", "shots", "holes", "rounds", "strokes_gained", "approach_proximity"},
	"shots": {"holes", "rounds", "strokes_gained", "approach_proximity"},
}

// read makes the tables log, baseline_rows, bands and settings.
func (db *database) read(s season) {
	db.t.Helper()
	db.readBaseline(s)
	db.cutBands(s)
	db.readLog(s)
	db.exec("CREATE TABLE settings AS SELECT %s AS short_game_yd, %s AS reach_yd, units.* FROM units",
		orElse(s.shortGame, "50e0"), orElse(s.reach, "250e0"))
}

// derive makes every table but shots in the schema derived from the program's shots alone.
func (db *database) derive(s season) {
	db.t.Helper()
	db.enter("derived")
	db.cutBands(s)
	db.exec("CREATE VIEW shots AS FROM theirs.shots")
	for _, table := range madeFrom["shots"] {
		db.define(table)
	}
}

// readBaseline makes the table baseline_rows, of the published tables or of the user's own.
func (db *database) readBaseline(s season) {
	db.t.Helper()
	const long = `SELECT category, CAST(distance AS DOUBLE) / %s AS distance_yd, CAST(strokes AS DOUBLE) AS strokes
		FROM (UNPIVOT (SELECT %s AS distance, %s FROM read_csv('%s', header = true, all_varchar = true, comment = '#')) ON %s INTO NAME category VALUE strokes)`
	if s.baseline != "" {
		const lies = "tee, fairway, rough, sand, recovery, green"
		db.exec("CREATE TABLE baseline_rows AS "+long, "1e0", "distance_yd", lies, s.baseline, lies)
	} else {
		const lies = "tee, fairway, rough, sand, recovery"
		db.exec("CREATE TABLE baseline_rows AS "+long+" UNION ALL "+long,
			"1e0", "distance_yd", lies, "../reference/strokes-to-hole-out-2012.csv", lies,
			"3e0", "distance_ft", "putts AS green", "../reference/putts-to-hole-out-2014.csv", "green")
	}
}

// cutBands makes the table bands: those of the folder sql, or the season's own. A label is the edges in yards, to a tenth.
func (db *database) cutBands(s season) {
	db.t.Helper()
	if s.bands == nil {
		db.define("bands")
		return
	}
	db.exec(`CREATE TABLE bands AS
		SELECT from_yd, to_yd, regexp_replace(printf('%%.1f-%%.1f', from_yd, to_yd), '\.0', '', 'g') AS label
		FROM (SELECT edge AS from_yd, lead(edge) OVER (ORDER BY edge) AS to_yd FROM (SELECT unnest([%s]) AS edge))
		WHERE to_yd IS NOT NULL`, strings.Join(s.bands, ", "))
}

func orElse(value, otherwise string) string {
	if value == "" {
		return otherwise
	}
	return value
}
