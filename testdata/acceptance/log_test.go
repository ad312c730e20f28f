package acceptance

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
)

// logField is how a field of the shot log is read: the column of the table log that it becomes, and its kind: a type of
// SQL, or YARDS or MPH for a number that is converted from the unit in the header.
type logField struct{ title, column, kind string }

// logFields are the fields of the shot log that the SQL works with. A column that ends in _logged means more only
// together with others; distances that depend on the lie are converted in shots.sql.
var logFields = []logField{
	{"date", "date", "DATE"}, {"player", "player", "VARCHAR"}, {"course", "course", "VARCHAR"}, {"tees", "tees", "VARCHAR"},
	{"round", "round", "VARCHAR"}, {"course_rating", "course_rating", "DOUBLE"}, {"slope_rating", "slope_rating", "DOUBLE"},
	{"hole", "hole", "INTEGER"}, {"par", "par", "INTEGER"}, {"hole_length", "hole_length_yd", "YARDS"},
	{"stroke_index", "stroke_index", "INTEGER"}, {"shot", "shot_logged", "INTEGER"}, {"lie", "lie_logged", "VARCHAR"},
	{"to_hole", "to_hole", "DOUBLE"}, {"putt_length", "putt_length", "DOUBLE"}, {"club", "club", "VARCHAR"},
	{"left", "left_logged", "DOUBLE"}, {"finish_lie", "finish_lie_logged", "VARCHAR"},
	{"long_short", "long_short_yd", "YARDS"}, {"left_right", "left_right_yd", "YARDS"},
	{"aim_long_short", "aim_long_short_yd", "YARDS"}, {"aim_left_right", "aim_left_right_yd", "YARDS"},
	{"pin_side", "pin_side", "VARCHAR"}, {"pin_depth", "pin_depth", "VARCHAR"},
	{"headwind", "headwind_mph", "MPH"}, {"crosswind", "crosswind_mph", "MPH"},
	{"green_depth", "green_depth_yd", "YARDS"}, {"green_width", "green_width_yd", "YARDS"},
	{"elevation", "elevation_yd", "YARDS"}, {"putt_slope", "putt_slope", "VARCHAR"}, {"putt_break", "putt_break", "VARCHAR"},
	{"penalty", "penalty_logged", "INTEGER"}, {"penalty_kind", "penalty_kind", "VARCHAR"},
	{"intent", "intent", "VARCHAR"}, {"fault", "fault", "VARCHAR"}, {"holed", "holed_logged", "BOOLEAN"},
	{"note", "note", "VARCHAR"},
}

// perYard is how many of a unit are in a yard, as SQL: 1 yd = 0.9144 m and 1 ft = 0.3048 m exactly (international yard
// and pound agreement, 1959). perMph follows from them: 1 mile is 1760 yards.
var (
	perYard = map[string]string{"": "1e0", "yd": "1e0", "ft": "3e0", "m": "0.9144e0"}
	perMph  = map[string]string{"": "1e0", "mph": "1e0", "m/s": "0.44704e0", "km/h": "1.609344e0"}
)

// readLog makes the table log, the typed records of one CSV file, and the table units, those of its distances.
func (db *database) readLog(s season) {
	db.t.Helper()
	file, err := os.Open(s.log)
	if err != nil {
		db.t.Fatal(err)
	}
	header, err := csv.NewReader(file).Read()
	file.Close()
	if err != nil {
		db.t.Fatal(err)
	}
	titles, units := map[string]string{}, map[string]string{}
	for _, title := range header {
		field, unit := splitUnit(title)
		if !slices.ContainsFunc(logFields, func(f logField) bool { return f.title == field }) {
			db.t.Fatalf("%s: no field is called %q", s.log, title)
		}
		titles[field], units[field] = title, unit
	}
	var columns []string
	for _, field := range logFields {
		value := "NULL"
		if title, logged := titles[field.title]; logged {
			value = fmt.Sprintf(`NULLIF(TRIM("%s"), '')`, title)
		}
		unit := units[field.title]
		switch field.kind {
		case "YARDS":
			value = fmt.Sprintf("CAST(%s AS DOUBLE) / %s", value, perYard[unit])
		case "MPH":
			value = fmt.Sprintf("CAST(%s AS DOUBLE) / %s", value, perMph[unit])
		default:
			value = fmt.Sprintf("CAST(%s AS %s)", value, field.kind)
		}
		columns = append(columns, value+" AS "+field.column)
	}
	db.exec(`CREATE TABLE log AS
		SELECT '%s' AS source_file, source_line, list_contains(%s, source_line) AS refused, %s FROM (
			SELECT *, CAST(row_number() OVER () + 1 AS INTEGER) AS source_line
			FROM read_csv('%s', header = true, all_varchar = true, delim = ',', quote = '"', escape = '"', parallel = false)
		)`, s.sourceName(), s.refusedList(), strings.Join(columns, ", "), s.log)
	onGreen := func(field string) string {
		switch {
		case s.puttUnit != "":
			return perYard[s.puttUnit]
		case units[field] == "":
			return perYard["ft"]
		}
		return perYard[units[field]]
	}
	db.exec(`CREATE TABLE units AS
		SELECT %s AS to_hole_per_yd, %s AS to_hole_per_yd_on_green, %s AS putt_length_per_yd,
			%s AS left_per_yd, %s AS left_per_yd_on_green`,
		perYard[units["to_hole"]], onGreen("to_hole"), onGreen("putt_length"), perYard[units["left"]], onGreen("left"))
}

// splitUnit takes the unit off a header: to_hole_m and to_hole (m) are to_hole in metres.
func splitUnit(title string) (field, unit string) {
	if field, unit, cut := strings.Cut(strings.TrimSuffix(title, ")"), " ("); cut {
		return field, unit
	}
	for _, unit := range []string{"yd", "ft", "m", "mph"} {
		if field, cut := strings.CutSuffix(title, "_"+unit); cut {
			return field, unit
		}
	}
	return title, ""
}
