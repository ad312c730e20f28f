package ingest

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math/bits"
	"slices"
	"strings"
)

// A sink takes the records of a file one after another.
type sink interface {
	begin(line int, path string)
	repeat(meanings []meaning)   // these fields say the same as in the record before
	set(m *meaning, text []byte) // one field as written
	fault(expected, hint string) // the record as a whole is malformed
	incomplete()                 // the hole of the record is known to lack something
	end() (inOrder bool)
	// What becomes of the record that has just ended and was not in order: it is
	// no shot, or stood so.
	withdraw(why noShot)
	original(names []string, meanings []meaning, cells [][]byte)
}

// A noShot says why a line of a table is not meant as a shot.
type noShot string

const (
	totalLine   noShot = "total line"
	headerAgain noShot = "repeated header line"
	commentLine noShot = "comment"
	reasonOnly  noShot = "reject without its record"
)

// A csvFeeder hands the records of a piece of CSV to a sink.
type csvFeeder struct {
	dialect
	meanings []meaning
	to       sink
	most     int      // how many of the first columns may be taken from the line before
	header   []byte   // the line of the column names
	names    []string // in it
	before   []byte   // the line before, when it was plain and in order
	fields   [][]byte // of a line that is not plain
}

// feed hands over a piece that starts at a record, on the given line.
func (f *file) feed(data []byte, line int, to sink) {
	feeder := csvFeeder{dialect: f.dialect, meanings: f.meanings, header: f.header, names: f.names, to: to}
	feeder.feed(data, line)
}

func (f *csvFeeder) feed(data []byte, line int) {
	d, meanings := f.dialect, f.meanings
	returns := bytes.IndexByte(data, '\r') >= 0 // mostly there is none to look for in every line
	for f.most < len(meanings) && !meanings[f.most].field.hangsOnLie() && !meanings[f.most].field.ofScorecard() {
		f.most++
	}
	for len(data) > 0 {
		end := bytes.IndexByte(data, d.newline) + 1
		if returns {
			end = d.lineEnd(data)
		}
		if end == 0 {
			end = len(data)
		}
		switch record := data[:end]; {
		case isBlank(record, d.delimiter):
			line++
		case end <= maxLine && bytes.IndexByte(record, '"') < 0 && bytes.Count(record, []byte{d.delimiter}) < len(meanings):
			f.plain(withoutLineEnd(record), line)
			line++
		default:
			end, _ = d.recordEnd(data, true)
			f.careful(data[:end], line)
			line += max(1, d.lines(data, end))
		}
		data = data[end:]
	}
}

// plain hands over a line without quotes and with no more fields than columns.
// Most lines begin as the one before, with the same round and the same hole:
// that part is not read again.
func (f *csvFeeder) plain(record []byte, line int) {
	f.to.begin(line, "")
	column, start := f.sharedColumns(record)
	if column > 0 {
		f.to.repeat(f.meanings[:column])
	}
	for i := start; i <= len(record); i++ {
		if i < len(record) && record[i] != f.delimiter {
			continue
		}
		if i > start && f.meanings[column].field != noField {
			f.to.set(&f.meanings[column], record[start:i])
		}
		column++
		start = i + 1
	}
	f.before = record
	if !f.to.end() {
		f.before = nil
		f.fields = f.fields[:0]
		for cell := range bytes.SplitSeq(record, []byte{f.delimiter}) {
			f.fields = append(f.fields, cell)
		}
		f.refused(record)
	}
}

// refused looks again at a record that was not in order, its cells in f.fields:
// people and spreadsheets write lines between the shots that are none.
func (f *csvFeeder) refused(record []byte) {
	switch {
	case bytes.Equal(record, f.header):
		f.to.withdraw(headerAgain)
	case record[0] == '#' && (len(f.fields) != len(f.meanings) || f.meanings[0].field == date || f.meanings[0].field.isMeasure()):
		f.to.withdraw(commentLine)
	case isTotal(f.fields) && !f.saysItsHole():
		f.to.withdraw(totalLine)
	case isListOfRejects(f.names) && allBlank(f.fields[min(len(rejectColumns), len(f.fields)):]):
		f.to.withdraw(reasonOnly)
	default:
		f.to.original(f.names, f.meanings, f.fields)
	}
}

// saysItsHole tells a record that has a number where its date, hole and par are:
// a player may be called Sum.
func (f *csvFeeder) saysItsHole() bool {
	said := 0
	for i, cell := range f.fields[:min(len(f.fields), len(f.meanings))] {
		switch f.meanings[i].field {
		case date, hole, par:
			if bytes.ContainsAny(cell, "0123456789") {
				said++
			}
		}
	}
	return said == 3
}

var (
	totalWords = []string{"total", "totals", "subtotal", "sum", "average", "averages", "mean"}
	nineWords  = []string{"out", "in"} // the totals of the nines of a scorecard
)

// isTotal reports whether the first cell with a text begins or ends with a word
// such as total.
func isTotal(cells [][]byte) bool {
	for _, cell := range cells {
		words := strings.Fields(plainForm(validText(cell)))
		if len(words) > 0 {
			return len(words) == 1 && slices.Contains(nineWords, words[0]) || slices.Contains(totalWords, words[0]) ||
				slices.Contains(totalWords, words[len(words)-1])
		}
	}
	return false
}

// sharedColumns is how many of the first columns are the same as in the line
// before, and where the next one starts.
func (f *csvFeeder) sharedColumns(record []byte) (columns, length int) {
	separator := []byte{f.delimiter}
	length = bytes.LastIndexByte(record[:sharedPrefix(record, f.before)], f.delimiter) + 1
	columns = bytes.Count(record[:length], separator)
	for columns > f.most {
		columns--
		length = bytes.LastIndexByte(record[:length-1], f.delimiter) + 1
	}
	return columns, length
}

// sharedPrefix is the length of what two texts begin with.
func sharedPrefix(a, b []byte) int {
	i := 0
	for ; i+8 <= len(a) && i+8 <= len(b); i += 8 {
		if differing := binary.LittleEndian.Uint64(a[i:]) ^ binary.LittleEndian.Uint64(b[i:]); differing != 0 {
			return i + bits.TrailingZeros64(differing)/8
		}
	}
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	return i
}

// careful hands over any record.
func (f *csvFeeder) careful(record []byte, line int) {
	f.before = nil
	f.to.begin(line, "")
	if len(record) > maxLine {
		f.to.fault(fmt.Sprintf("expected a line of at most %d MiB", maxLine>>20), "")
		f.to.end()
		return
	}
	var err error
	f.fields, err = f.dialect.fields(record, f.fields[:0])
	if n := len(f.meanings); len(f.fields) > n && allBlank(f.fields[n:]) {
		f.fields = f.fields[:n]
	}
	switch {
	case err != nil:
		f.to.fault(err.Error(), "close the quote, or double every quote inside a quoted cell")
	case len(f.fields) > len(f.meanings):
		f.to.fault(fmt.Sprintf("expected %d fields as in the header, found %d", len(f.meanings), len(f.fields)),
			"put a cell that holds the separator in quotes")
	}
	for i := range min(len(f.fields), len(f.meanings)) {
		if f.meanings[i].field != noField {
			f.to.set(&f.meanings[i], f.fields[i])
		}
	}
	switch inOrder := f.to.end(); {
	case inOrder:
	case record[0] != '#' && (err != nil || len(f.fields) > len(f.meanings)):
		f.to.original(f.names, f.meanings, [][]byte{withoutLineEnd(record)}) // it cannot be told what stands where
	default:
		f.refused(withoutLineEnd(record))
	}
}

func isBlank(record []byte, delimiter byte) bool {
	for _, c := range record {
		if c != delimiter && c != ' ' && c != '\r' && c != '\n' && c != '\t' {
			return false
		}
	}
	return true
}

func allBlank(fields [][]byte) bool {
	for _, field := range fields {
		if len(bytes.TrimSpace(field)) > 0 {
			return false
		}
	}
	return true
}
