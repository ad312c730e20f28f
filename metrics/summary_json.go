package metrics

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
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
}

// section is a stretch of the spool.
type section struct{ at, bytes int64 }

// NewSummary is a summary without figures.
func NewSummary(scratch disk.Scratch) *Summary {
	return &Summary{spool: scratch.Spool("figures"), tables: map[string][]section{}}
}

// summaryIndent is that of summary.json, and rowIndent what stands before the
// brackets around the rows of a table in it.
const (
	summaryIndent = "  "
	rowIndent     = summaryIndent + summaryIndent
)

// Add adds the rows of a part.
func (s *Summary) Add(part *Results) error {
	var text bytes.Buffer
	for table := range part.Tables() {
		if _, met := s.tables[table.Name]; !met {
			s.names = append(s.names, table.Name)
			s.tables[table.Name] = nil
		}
		if table.Rows == 0 {
			continue
		}
		text.Reset()
		w := jsonWriter{to: newEncoder(&text, jsontext.WithIndentPrefix(rowIndent))}
		w.rows(&table)
		if w.err != nil {
			return w.err
		}
		rows := bytes.TrimSuffix(bytes.TrimPrefix(text.Bytes(), []byte("[")), []byte("\n"+rowIndent+"]\n"))
		at, err := s.spool.Put(rows)
		if err != nil {
			return err
		}
		s.tables[table.Name] = append(s.tables[table.Name], section{at, int64(len(rows))})
	}
	return nil
}

// newEncoder does not look for names met twice: columns of a table have different
// ones, which a test holds them to.
func newEncoder(to io.Writer, more ...jsontext.Options) *jsontext.Encoder {
	return jsontext.NewEncoder(to, append(more, jsontext.WithIndent(summaryIndent), jsontext.AllowInvalidUTF8(true), jsontext.AllowDuplicateNames(true))...)
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

// rows writes the rows as objects, fields in the order of the columns.
func (w *jsonWriter) rows(t *Table) {
	w.token(jsontext.BeginArray)
	for row := range t.Rows {
		w.token(jsontext.BeginObject)
		for i := range t.Columns {
			w.field(t.Columns[i].Name, t.Columns[i].jsonAt(row))
		}
		w.token(jsontext.EndObject)
	}
	w.token(jsontext.EndArray)
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
