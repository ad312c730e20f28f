package ingest

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"roundmill/ingest/disk"
)

// rejectColumns lead the list of rejects; the columns of the log follow.
var rejectColumns = []string{"scope", "file", "line", "path", "field", "value", "expected", "hint"}

// A RejectWriter writes rejects as CSV, one a record. Behind the reason stands
// the refused record in the columns of its log, so that it can be mended and
// the list read as a log.
type RejectWriter struct {
	written *disk.Spool     // records, each after its number of cells and its length
	columns []writtenColumn // of the logs met so far
	cells   []string        // of a reject
	record  bytes.Buffer    // the same as CSV
	list    *csv.Writer     // to record
	piece   []byte          // the record as it is written
}

// NewRejectWriter keeps the rejects in a spool until Finish.
func NewRejectWriter(scratch disk.Scratch) *RejectWriter {
	w := &RejectWriter{written: scratch.Spool("rejects")}
	w.list = csv.NewWriter(&w.record)
	return w
}

// Write adds one reject.
func (w *RejectWriter) Write(r Reject) error {
	line := ""
	if r.Line > 0 {
		line = strconv.Itoa(r.Line)
	}
	hint := r.Hint
	if r.Scope == HoleScope {
		hint = strings.TrimPrefix(hint+"; this record is kept: mend it in its log", "; ")
	}
	w.cells = append(w.cells[:0],
		string(r.Scope), cellSafe(r.File), line, cellSafe(r.Path), r.Field,
		cellSafe(r.Value), cellSafe(r.Expected), cellSafe(hint))
	w.cells = append(w.cells, make([]string, len(w.columns))...)
	for i, column := range r.record.columns {
		at, text := w.place(column, i), ""
		if i < len(r.record.texts) {
			text = r.record.texts[i]
		}
		if _, isNumber := parseNumber([]byte(text)); !isNumber {
			text = cellSafe(text)
		}
		w.cells[len(rejectColumns)+at] = text
	}
	w.record.Reset()
	w.list.Write(w.cells)
	if w.list.Flush(); w.list.Error() != nil {
		return w.list.Error()
	}
	w.piece = binary.AppendUvarint(w.piece[:0], uint64(len(w.cells)))
	w.piece = binary.AppendUvarint(w.piece, uint64(w.record.Len()))
	w.piece = append(w.piece, w.record.Bytes()...)
	_, err := w.written.Put(w.piece)
	return err
}

// place finds a column, most likely the one expected. One that was not met
// before is added.
func (w *RejectWriter) place(column writtenColumn, expected int) int {
	if expected < len(w.columns) && column.same(w.columns[expected]) {
		return expected
	}
	at := slices.IndexFunc(w.columns, column.same)
	if at < 0 {
		at = len(w.columns)
		w.columns = append(w.columns, column)
		w.cells = append(w.cells, "")
	}
	return at
}

// Finish writes the list with all its columns to out: a record that was written
// before the last of them was met lacks cells at its end.
func (w *RejectWriter) Finish(out io.Writer) error {
	list := bufio.NewWriter(out)
	header := slices.Clone(rejectColumns)
	for _, column := range w.columns {
		header = append(header, cellSafe(column.name))
	}
	w.record.Reset()
	w.list.Write(header)
	w.list.Flush()
	list.Write(w.record.Bytes())
	for body := bufio.NewReader(w.written.Reader()); ; {
		cells, err := binary.ReadUvarint(body)
		if err == io.EOF {
			break
		}
		var length uint64
		if err == nil {
			length, err = binary.ReadUvarint(body)
		}
		if err == nil {
			_, err = io.CopyN(list, body, int64(length)-1)
		}
		if err == nil {
			_, err = body.Discard(1) // its line end
		}
		if err != nil {
			return fmt.Errorf("listing the rejects: %w", err)
		}
		for range len(header) - int(cells) {
			list.WriteByte(',')
		}
		list.WriteByte('\n')
	}
	return list.Flush()
}

// Close lets go of the rejects.
func (w *RejectWriter) Close() error { return w.written.Close() }

// cellSafe puts a quote before text that a spreadsheet would take for a formula
// (OWASP, "CSV injection").
func cellSafe(text string) string {
	if startsFormula(text) {
		return "'" + text
	}
	return text
}

func startsFormula(text string) bool {
	return text != "" && strings.ContainsRune("=+-@\t\r\x00", rune(text[0]))
}

// isListOfRejects tells a list of rejects, mended or not, by its header.
func isListOfRejects(names []string) bool {
	return len(names) > len(rejectColumns) && slices.Equal(names[:len(rejectColumns)], rejectColumns)
}

// A writtenRecord is what stood in a refused record. Of the last columns texts
// may be lacking.
type writtenRecord struct {
	columns []writtenColumn
	texts   []string
}

type writtenColumn struct {
	name    string
	meaning meaning
}

// same reports whether two columns say the same thing in the same unit.
func (c writtenColumn) same(other writtenColumn) bool {
	if c.meaning.field != other.meaning.field || c.meaning.unit != other.meaning.unit {
		return false
	}
	return c.meaning.field != noField || c.name == other.name
}

// original attaches to the record that was just refused what stood in it.
// What only its file could tell, such as the order of its dates, is settled;
// every name can be read without a mapping.
func (p *recordParser) original(names []string, meanings []meaning, cells [][]byte) {
	if len(names) == 0 {
		return
	}
	if p.malformed {
		cells = cells[:min(len(cells), 1)]
	}
	if &names[0] != p.columnsOf { // of a table there are as many rejects as lines, of the same columns
		p.columnsOf, p.columns = &names[0], nil
		for i, name := range names {
			if !isIdle(name, meanings[i]) {
				p.columns = append(p.columns, writtenColumn{readableName(name, meanings[i]), meanings[i]})
			}
		}
	}
	texts := make([]string, 0, min(len(names), len(cells)))
	for i := range cap(texts) {
		if !isIdle(names[i], meanings[i]) {
			texts = append(texts, p.settledText(&meanings[i], trimmed(cells[i])))
		}
	}
	p.rejects[len(p.rejects)-1].record = writtenRecord{p.columns, texts}
}

// isIdle reports whether a column has neither name nor meaning.
func isIdle(name string, m meaning) bool {
	return m.field == noField && strings.TrimSpace(name) == ""
}

// readableName is a column's own name where that tells its meaning.
func readableName(name string, m meaning) string {
	if plain, known := matchName(name); m.field == noField || known && plain.field == m.field && plain.unit == m.unit {
		return strings.TrimSpace(name)
	}
	if m.unit != NoUnit {
		return m.field.String() + "_" + m.unit.String()
	}
	return m.field.String()
}

func (p *recordParser) settledText(m *meaning, text []byte) string {
	switch {
	case m.field == date:
		order := m.order
		if order == unsettled {
			order = p.file.dates
		}
		days, ok := parseDate(text, order)
		if !ok {
			days, ok = parseNamedDate(text)
		}
		if ok {
			return dateOf(days).Format("2006-01-02")
		}
	case m.field.isMeasure() && p.file.decimalComma:
		if value, _, ok := parseMarkedNumber(text, true); ok {
			return strconv.FormatFloat(value, 'g', -1, 64)
		}
	}
	return validText(text)
}

// writtenOut is a parsed record as it could stand in its log.
func (c *checker) writtenOut(at int32) (record writtenRecord) {
	r, f := c.rows, c.files[c.rows.file[at]]
	names, meanings := f.names, f.meanings
	if names == nil { // JSON: records need not have the same keys
		for field := range fieldCount {
			names, meanings = append(names, field.String()), append(meanings, meaning{field: field, order: unsettled})
		}
	}
	for i := range meanings {
		m, text := &meanings[i], ""
		switch {
		case m.field == noField:
		case m.field.isText():
			text = r.text(m.field, int(at))
		default:
			if number := r.number(m.field, int(at)); !isMissing(number) {
				text = c.numberText(m, number, at)
			}
		}
		if text != "" {
			record.columns = append(record.columns, writtenColumn{readableName(names[i], *m), *m})
			record.texts = append(record.texts, text)
		}
	}
	return record
}

// numberText writes a stored number in the unit of its column.
func (c *checker) numberText(m *meaning, number float64, at int32) string {
	const digits = 12 // what conversion leaves beyond is noise
	onGreen := c.lieOf(at) == Green
	if m.field == left {
		onGreen = c.finishOf(at) == Green || onGreen && c.finishOf(at) == NoCategory
	}
	switch unit := m.unit; {
	case m.field == date:
		return dateOf(number).Format("2006-01-02")
	case definitions[m.field].kind == yesNo:
		return map[float64]string{0: "no", 1: "yes"}[number]
	case m.field.hangsOnLie() && onGreen && c.puttUnit != NoUnit && m.field != puttLength:
		number *= units[c.puttUnit].perBase
	case m.field.hangsOnLie() && onGreen && unit == NoUnit && m.field != puttLength:
		number *= feetPerYard
	default:
		number *= units[unit].perBase
	}
	return strconv.FormatFloat(number, 'g', digits, 64)
}
