package metrics

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"roundmill/ingest/disk"
)

// Context is what summary.json says of the figures as a whole.
type Context struct {
	Version        string
	Baseline       string
	BaselineSource string
	Invented       bool // the built-in demo season
	ChartsMissing  []string
}

// A Summary becomes summary.json: the figures of every table as objects,
// unrounded, null where a figure is not known. Players come in one part after
// another, and the file has table after table, so what is said of a part waits
// in a spool: that of a large squad is larger than its log.
type Summary struct {
	spool  *disk.Spool
	names  []string // of the tables, in order
	tables map[string][]section
	text   []byte // of the rows at hand
}

// section is a stretch of the spool.
type section struct{ at, bytes int64 }

// NewSummary is a summary without figures.
func NewSummary(scratch disk.Scratch) *Summary {
	return &Summary{spool: scratch.Spool("figures"), tables: map[string][]section{}}
}

// summaryIndent is that of summary.json, and rowIndent what stands before the
// brackets around the rows of a table in it. A row takes a line.
const (
	summaryIndent = "  "
	rowIndent     = summaryIndent + summaryIndent
)

// Add adds the rows of a part.
func (s *Summary) Add(part *Results) error {
	for table := range part.Tables() {
		if _, met := s.tables[table.Name]; !met {
			s.names = append(s.names, table.Name)
			s.tables[table.Name] = nil
		}
		if table.Rows == 0 {
			continue
		}
		s.text = appendRows(s.text[:0], &table)
		at, err := s.spool.Put(s.text)
		if err != nil {
			return err
		}
		s.tables[table.Name] = append(s.tables[table.Name], section{at, int64(len(s.text))})
	}
	return nil
}

// appendRows appends rows as objects with their fields in the order of the
// columns, with commas between rows.
func appendRows(to []byte, t *Table) []byte {
	names := make([]string, len(t.Columns))
	for i := range names {
		names[i] = fmt.Sprintf("%q:", t.Columns[i].Name)
	}
	for row := range t.Rows {
		if row > 0 {
			to = append(to, ',')
		}
		to = append(to, "\n"+rowIndent+summaryIndent+"{"...)
		for i := range t.Columns {
			if i > 0 {
				to = append(to, ',')
			}
			to = t.Columns[i].appendValue(append(to, names[i]...), row)
		}
		to = append(to, '}')
	}
	return to
}

// appendValue appends the value of a row, or null.
func (c *Column) appendValue(to []byte, row int) []byte {
	switch values := c.Values.(type) {
	case []string:
		if values[row] != "" {
			to, _ = jsontext.AppendQuote(to, values[row]) // its error says that what is no UTF-8 was replaced
			return to
		}
	case []int64:
		return strconv.AppendInt(to, values[row], 10)
	case []Rank:
		if values[row] != 0 {
			return strconv.AppendInt(to, int64(values[row]), 10)
		}
	case []float64:
		if value := values[row]; !math.IsNaN(value) && !math.IsInf(value, 0) {
			return strconv.AppendFloat(to, value, 'f', -1, 64)
		}
	case []bool:
		return strconv.AppendBool(to, values[row])
	case []time.Time:
		if !values[row].IsZero() {
			return values[row].AppendFormat(to, `"`+time.DateOnly+`"`)
		}
	}
	return append(to, "null"...)
}

func newEncoder(to io.Writer) *jsontext.Encoder {
	return jsontext.NewEncoder(to, jsontext.WithIndent(summaryIndent), jsontext.AllowInvalidUTF8(true))
}

// Write writes summary.json, with a line break at the end.
func (s *Summary) Write(to io.Writer, c Context, warnings []Warning) error {
	var head, tail bytes.Buffer
	w := jsonWriter{to: newEncoder(&head)}
	w.token(jsontext.BeginObject)
	w.field("version", jsontext.String(c.Version))
	w.field("invented_data", jsontext.Bool(c.Invented))
	w.field("baseline", jsontext.String(c.Baseline))
	w.field("baseline_source", jsontext.String(c.BaselineSource))
	w.field("interval_level", jsontext.Float(Level))
	w.token(jsontext.EndObject)
	last := jsonWriter{to: newEncoder(&tail)}
	last.token(jsontext.BeginObject)
	last.warnings(warnings)
	last.field("charts_missing", jsontext.BeginArray)
	for _, missing := range c.ChartsMissing {
		last.token(jsontext.String(missing))
	}
	last.token(jsontext.EndArray)
	last.token(jsontext.EndObject)
	if err := errors.Join(w.err, last.err); err != nil {
		return err
	}
	_, err := fmt.Fprintf(to, "%s,\n%s\"tables\": {", bytes.TrimSuffix(head.Bytes(), []byte("\n}\n")), summaryIndent)
	if err != nil {
		return err
	}
	for i, name := range s.names {
		if err := s.writeTable(to, name, i == 0); err != nil {
			return err
		}
	}
	_, err = fmt.Fprintf(to, "\n%s},%s", summaryIndent, bytes.TrimPrefix(tail.Bytes(), []byte("{")))
	return err
}

// writeTable writes a table with the rows of all parts.
func (s *Summary) writeTable(to io.Writer, name string, first bool) error {
	before, end := ",", "]"
	if first {
		before = ""
	}
	if _, err := fmt.Fprintf(to, "%s\n%s%q: [", before, rowIndent, name); err != nil {
		return err
	}
	for i, part := range s.tables[name] {
		if i > 0 {
			if _, err := io.WriteString(to, ","); err != nil {
				return err
			}
		}
		if _, err := io.Copy(to, io.NewSectionReader(s.spool, part.at, part.bytes)); err != nil {
			return err
		}
		end = "\n" + rowIndent + "]"
	}
	_, err := io.WriteString(to, end)
	return err
}

// Close lets go of the figures.
func (s *Summary) Close() error { return s.spool.Close() }

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

func (w *jsonWriter) warnings(warnings []Warning) {
	w.field("warnings", jsontext.BeginArray)
	for _, warning := range warnings {
		w.token(jsontext.BeginObject)
		w.field("figure", jsontext.String(warning.Figure))
		if warning.Player != "" {
			w.field("player", jsontext.String(warning.Player))
		}
		w.field("text", jsontext.String(warning.Text))
		w.token(jsontext.EndObject)
	}
	w.token(jsontext.EndArray)
}
