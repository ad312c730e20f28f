package metrics

import (
	"encoding/json"
	"math"
	"time"
)

// Results are the finished figures.
type Results struct {
	Seasons       []Season
	StrokesGained []StrokesGained
	Approach      []ApproachProximity
	Priorities    []Priority
	Squad         []SquadPlayer
	Warnings      []Warning
}

// Tables are the figures as tables, in the order in which they are listed.
func (r *Results) Tables() []Table {
	return []Table{
		TableOf("seasons", "What each player's log holds, with scores and counts over its complete holes.", r.Seasons),
		TableOf("strokes_gained", "Strokes gained a round and per 100 strokes by group of strokes, over complete holes.", r.StrokesGained),
		TableOf("approach_proximity", "Where approaches at the green finished, by player, lie group and yardage band.", r.Approach),
		TableOf("priorities", "Strokes a round to be had by skill cell, shrunk towards its class, ranked where there are shots enough.", r.Priorities),
		TableOf("squad", "A row a player, with the range of ranks that the rounds cannot tell apart.", r.Squad),
	}
}

// Context is what summary.json says of the figures as a whole.
type Context struct {
	Version        string
	Baseline       string
	BaselineSource string
	Invented       bool // the built-in demo season
	ChartsMissing  []string
}

// JSON is summary.json: the figures of every table as objects, unrounded, null
// where a figure is not known.
func (r *Results) JSON(c Context) ([]byte, error) {
	document := struct {
		Version        string                      `json:"version"`
		Invented       bool                        `json:"invented_data"`
		Baseline       string                      `json:"baseline"`
		BaselineSource string                      `json:"baseline_source"`
		Level          float64                     `json:"interval_level"`
		Tables         map[string][]map[string]any `json:"tables"`
		Warnings       []Warning                   `json:"warnings"`
		ChartsMissing  []string                    `json:"charts_missing"`
	}{c.Version, c.Invented, c.Baseline, c.BaselineSource, Level, map[string][]map[string]any{}, r.Warnings, c.ChartsMissing}
	for _, table := range r.Tables() {
		document.Tables[table.Name] = table.objects()
	}
	return json.MarshalIndent(document, "", "  ")
}

// objects are the rows as name and value, null for an absent one.
func (t *Table) objects() []map[string]any {
	rows := make([]map[string]any, t.Rows)
	for i := range rows {
		rows[i] = make(map[string]any, len(t.Columns))
		for _, column := range t.Columns {
			var value any
			switch values := column.Values.(type) {
			case []string:
				if values[i] != "" {
					value = values[i]
				}
			case []int64:
				value = values[i]
			case []float64:
				if !math.IsNaN(values[i]) {
					value = values[i]
				}
			case []bool:
				value = values[i]
			case []time.Time:
				value = values[i].Format(time.DateOnly)
			}
			rows[i][column.Name] = value
		}
	}
	return rows
}
