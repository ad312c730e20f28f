package metrics

import (
	"bufio"
	"errors"
	"io"
	"math"
	"time"

	"github.com/go-json-experiment/json/jsontext"
)

// Context is what summary.json says of the figures as a whole.
type Context struct {
	Version        string
	Baseline       string
	BaselineSource string
	Invented       bool // the built-in demo season
	ChartsMissing  []string
}

// WriteJSON writes summary.json: the figures of every table as objects,
// unrounded, null where a figure is not known, with a line break at the end. It
// is written as it is made: that of a large squad is larger than its log.
func (r *Results) WriteJSON(to io.Writer, c Context) error {
	text := bufio.NewWriterSize(to, 1<<16)
	w := jsonWriter{to: jsontext.NewEncoder(text, jsontext.WithIndent("  "), jsontext.AllowInvalidUTF8(true))}
	w.token(jsontext.BeginObject)
	w.field("version", jsontext.String(c.Version))
	w.field("invented_data", jsontext.Bool(c.Invented))
	w.field("baseline", jsontext.String(c.Baseline))
	w.field("baseline_source", jsontext.String(c.BaselineSource))
	w.field("interval_level", jsontext.Float(Level))
	w.field("tables", jsontext.BeginObject)
	for table := range r.Tables() {
		w.table(&table)
	}
	w.token(jsontext.EndObject)
	w.field("warnings", jsontext.BeginArray)
	for _, warning := range r.Warnings {
		w.token(jsontext.BeginObject)
		w.field("figure", jsontext.String(warning.Figure))
		if warning.Player != "" {
			w.field("player", jsontext.String(warning.Player))
		}
		w.field("text", jsontext.String(warning.Text))
		w.token(jsontext.EndObject)
	}
	w.token(jsontext.EndArray)
	w.field("charts_missing", jsontext.BeginArray)
	for _, missing := range c.ChartsMissing {
		w.token(jsontext.String(missing))
	}
	w.token(jsontext.EndArray)
	w.token(jsontext.EndObject)
	return errors.Join(w.err, text.Flush())
}

// jsonWriter writes tokens until one fails.
type jsonWriter struct {
	to  *jsontext.Encoder
	err error
}

func (w *jsonWriter) token(token jsontext.Token) {
	if w.err == nil {
		w.err = w.to.WriteToken(token)
	}
}

func (w *jsonWriter) field(name string, value jsontext.Token) {
	w.token(jsontext.String(name))
	w.token(value)
}

// table writes the rows as objects, fields in the order of the columns.
func (w *jsonWriter) table(t *Table) {
	w.field(t.Name, jsontext.BeginArray)
	for row := range t.Rows {
		w.token(jsontext.BeginObject)
		for i := range t.Columns {
			w.field(t.Columns[i].Name, t.Columns[i].jsonAt(row))
		}
		w.token(jsontext.EndObject)
	}
	w.token(jsontext.EndArray)
}

func (c *Column) jsonAt(row int) jsontext.Token {
	switch values := c.Values.(type) {
	case []string:
		if values[row] != "" {
			return jsontext.String(values[row])
		}
	case []int64:
		return jsontext.Int(values[row])
	case []Rank:
		if values[row] != 0 {
			return jsontext.Int(int64(values[row]))
		}
	case []float64:
		if !math.IsNaN(values[row]) {
			return jsontext.Float(values[row])
		}
	case []bool:
		return jsontext.Bool(values[row])
	case []time.Time:
		if !values[row].IsZero() {
			return jsontext.String(values[row].Format(time.DateOnly))
		}
	}
	return jsontext.Null
}
