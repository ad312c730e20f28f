package ingest

import (
	"encoding/csv"
	"io"
	"strconv"
	"strings"
)

// A RejectWriter writes rejects as CSV, one a record, as they come.
type RejectWriter struct {
	csv *csv.Writer
}

// NewRejectWriter writes the header.
func NewRejectWriter(w io.Writer) (*RejectWriter, error) {
	out := &RejectWriter{csv.NewWriter(w)}
	return out, out.csv.Write([]string{"scope", "file", "line", "path", "field", "value", "expected", "hint"})
}

// Write adds one reject.
func (w *RejectWriter) Write(r Reject) error {
	line := ""
	if r.Line > 0 {
		line = strconv.Itoa(r.Line)
	}
	return w.csv.Write([]string{
		string(r.Scope), cellSafe(r.File), line, cellSafe(r.Path), r.Field,
		cellSafe(r.Value), cellSafe(r.Expected), cellSafe(r.Hint),
	})
}

// Flush writes what is buffered and returns the first error met.
func (w *RejectWriter) Flush() error {
	w.csv.Flush()
	return w.csv.Error()
}

// cellSafe puts a quote before text that a spreadsheet would take for a formula
// (OWASP, "CSV injection").
func cellSafe(text string) string {
	if text != "" && strings.ContainsRune("=+-@\t\r\x00", rune(text[0])) {
		return "'" + text
	}
	return text
}
