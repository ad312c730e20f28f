package acceptance

import (
	"encoding/csv"
	"fmt"
	"os"
	"strings"
)

// logColumn is how a field of the shot log is read: its name in the table log, its type, and for a distance or a speed
// the number of header units in the unit that the SQL works in (yards, miles per hour).
type logColumn struct{ name, kind string }

// logColumns are the fields of the shot log that the SQL needs, by canonical name. Fields whose meaning depends on other
// fields keep _logged in their name; distances that depend on the lie are converted in shots.sql.
var logColumns = map[string]logColumn{
	"date": {"date", "DATE"}, "player": {"player", "VARCHAR"}, "course": {"course", "VARCHAR"},
	"tees": {"tees", "VARCHAR"}, "round": {"round", "VARCHAR"},
	"course_rating": {"course_rating", "DOUBLE"}, "slope_rating": {"slope_rating", "DOUBLE"},
	"hole": {"hole", "INTEGER"}, "par": {"par", "INTEGER"}, "hole_length": {"hole_length_yd", "YARDS"},
	"stroke_index": {"stroke_index", "INTEGER"}, "shot": {"shot_logged", "INTEGER"},
	"lie": {"lie_logged", "VARCHAR"}, "to_hole": {"to_hole", "DOUBLE"}, "putt_length": {"putt_length", "DOUBLE"},
	"club": {"club", "VARCHAR"}, "left": {"left_logged", "DOUBLE"}, "finish_lie": {"finish_lie_logged", "VARCHAR"},
	"long_short": {"long_short_yd", "YARDS"}, "left_right": {"left_right_yd", "YARDS"},
	"aim_long_short": {"aim_long_short_yd", "YARDS"}, "aim_left_right": {"aim_left_right_yd", "YARDS"},
	"pin_side": {"pin_side", "VARCHAR"}, "pin_depth": {"pin_depth", "VARCHAR"},
	"headwind": {"headwind_mph", "DOUBLE"}, "crosswind": {"crosswind_mph", "DOUBLE"},
	"green_depth": {"green_depth_yd", "YARDS"}, "green_width": {"green_width_yd", "YARDS"},
	"elevation": {"elevation_yd", "YARDS"}, "putt_slope": {"putt_slope", "VARCHAR"}, "putt_break": {"putt_break", "VARCHAR"},
	"penalty": {"penalty_logged", "INTEGER"}, "penalty_kind": {"penalty_kind", "VARCHAR"},
	"intent": {"intent", "VARCHAR"}, "fault": {"fault", "VARCHAR"}, "holed": {"holed_logged", "BOOLEAN"},
	"note": {"note", "VARCHAR"},
}

// perYard is the number of a unit in a yard; 1 yd = 0.9144 m and 1 ft = 0.3048 m exactly (1959 agreement).
var perYard = map[string]string{"": "1e0", "yd": "1e0", "ft": "3e0", "m": "0.9144e0"}

// readLog makes the table log, the typed rows of one CSV file, and the units of its distances as columns of settings.
// puttUnit is the --putt-unit of the run, or "".
func (db *database) readLog(path, sourceFile, puttUnit string) {
	db.t.Helper()
	file, err := os.Open(path)
	if err != nil {
		db.t.Fatal(err)
	}
	header, err := csv.NewReader(file).Read()
	file.Close()
	if err != nil {
		db.t.Fatal(err)
	}
	units := map[string]string{}
	chosen := []string{fmt.Sprintf("'%s' AS source_file", sourceFile), "source_line"}
	seen := map[string]bool{}
	for _, title := range header {
		field, unit := splitUnit(title)
		column, known := logColumns[field]
		if !known {
			db.t.Fatalf("%s: no field is called %q", path, title)
		}
		seen[field], units[field] = true, unit
		value := fmt.Sprintf("NULLIF(TRIM(%q), '')", title)
		switch column.kind {
		case "YARDS":
			value = fmt.Sprintf("CAST(%s AS DOUBLE) / %s", value, perYard[unit])
		case "VARCHAR":
		default:
			value = fmt.Sprintf("CAST(%s AS %s)", value, column.kind)
		}
		chosen = append(chosen, value+" AS "+column.name)
	}
	for field, column := range logColumns {
		if !seen[field] {
			kind := strings.Replace(column.kind, "YARDS", "DOUBLE", 1)
			chosen = append(chosen, fmt.Sprintf("CAST(NULL AS %s) AS %s", kind, column.name))
		}
	}
	db.exec(fmt.Sprintf(`CREATE OR REPLACE TABLE log AS
		SELECT %s FROM (
			SELECT *, row_number() OVER () + 1 AS source_line
			FROM read_csv('%s', header = true, all_varchar = true, delim = ',', quote = '"', parallel = false)
		)`, strings.Join(chosen, ", "), path))
	onGreen := func(field string) string {
		switch {
		case puttUnit != "":
			return perYard[puttUnit]
		case units[field] == "":
			return perYard["ft"]
		}
		return perYard[units[field]]
	}
	db.exec(fmt.Sprintf(`CREATE OR REPLACE TABLE units AS
		SELECT %s AS to_hole_per_yd, %s AS to_hole_per_yd_on_green, %s AS putt_length_per_yd,
			%s AS left_per_yd, %s AS left_per_yd_on_green`,
		perYard[units["to_hole"]], onGreen("to_hole"), onGreen("putt_length"), perYard[units["left"]], onGreen("left")))
}

// splitUnit takes the unit suffix off a header: to_hole_m is to_hole in metres.
func splitUnit(title string) (field, unit string) {
	for _, unit := range []string{"yd", "ft", "m", "mph"} {
		if field, cut := strings.CutSuffix(title, "_"+unit); cut {
			return field, unit
		}
	}
	return title, ""
}
