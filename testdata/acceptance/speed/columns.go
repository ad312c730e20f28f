//go:build linux

package main

import "strings"

// A column of a generated log, with the type that DuckDB is told.
type column struct{ name, kind string }

// columns are those of a generated log, in its order.
var columns = []column{
	{"date", "DATE"}, {"player", "VARCHAR"}, {"course", "VARCHAR"}, {"tees", "VARCHAR"}, {"course_rating", "DOUBLE"},
	{"slope_rating", "DOUBLE"}, {"round", "VARCHAR"}, {"hole", "INTEGER"}, {"par", "INTEGER"}, {"hole_length_yd", "DOUBLE"},
	{"stroke_index", "INTEGER"}, {"shot", "INTEGER"}, {"lie", "VARCHAR"}, {"to_hole", "DOUBLE"}, {"club", "VARCHAR"},
	{"left", "DOUBLE"}, {"finish_lie", "VARCHAR"}, {"long_short_yd", "DOUBLE"}, {"left_right_yd", "DOUBLE"},
	{"aim_long_short_yd", "DOUBLE"}, {"aim_left_right_yd", "DOUBLE"}, {"pin_side", "VARCHAR"}, {"pin_depth", "VARCHAR"},
	{"headwind_mph", "DOUBLE"}, {"crosswind_mph", "DOUBLE"}, {"green_depth_yd", "DOUBLE"}, {"green_width_yd", "DOUBLE"},
	{"elevation_yd", "DOUBLE"}, {"putt_slope", "VARCHAR"}, {"putt_break", "VARCHAR"}, {"penalty", "INTEGER"},
	{"penalty_kind", "VARCHAR"}, {"intent", "VARCHAR"}, {"fault", "VARCHAR"}, {"holed", "VARCHAR"}, {"note", "VARCHAR"},
}

// isText tells whether JSON puts the column in quotes.
func (c column) isText() bool { return c.kind == "VARCHAR" || c.kind == "DATE" }

// columnsForDuckDB are names and types as its readers want them.
func columnsForDuckDB() string {
	var pairs []string
	for _, column := range columns {
		pairs = append(pairs, "'"+column.name+"': '"+column.kind+"'")
	}
	return "{" + strings.Join(pairs, ", ") + "}"
}
