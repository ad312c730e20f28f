package ingest

import (
	"bytes"
	"fmt"
)

// Limits on one file: what goes beyond is refused with the limit named.
const (
	maxLine    = 1 << 20
	maxField   = 64 << 10
	maxColumns = 2000
)

// A sink takes the records of a file one after another.
type sink interface {
	begin(line int, path string)
	set(m *meaning, text []byte)
	fault(expected, hint string) // the record as a whole is malformed
	end()
}

// A dialect is how a CSV file separates its fields and records.
type dialect struct {
	delimiter byte
	newline   byte
}

var delimiters = []byte{',', ';', '\t', '|'}

// recordEnd finds the end of the first record in data, past its line break.
// Only a quote at the start of a field opens a quoted one, which may hold line
// breaks. complete is false when more data may change the answer; last says
// that there is no more.
func (d dialect) recordEnd(data []byte, last bool) (end int, complete bool) {
	lineEnd := bytes.IndexByte(data, d.newline)
	if lineEnd < 0 {
		lineEnd = len(data)
		if !last {
			return 0, false
		}
	} else {
		lineEnd++
	}
	if bytes.IndexByte(data[:lineEnd], '"') < 0 {
		return lineEnd, true
	}
	for i, start := 0, true; i < len(data); i++ {
		switch c := data[i]; {
		case c == '"' && start:
			closing := closingQuote(data[i+1:])
			if closing < 0 {
				if !last && len(data)-i <= maxField {
					return 0, false
				}
				return lineEnd, true // never closed: the damage is to its own line
			}
			i += 1 + closing
			start = false
		case c == d.newline:
			return i + 1, true
		default:
			start = c == d.delimiter || start && c == ' '
		}
	}
	return len(data), last
}

// closingQuote finds the quote that ends a quoted field, whose content starts
// data; -1 when there is none within the longest field allowed.
func closingQuote(data []byte) int {
	for i := 0; i < min(len(data), maxField); i++ {
		if data[i] != '"' {
			continue
		}
		if i+1 < len(data) && data[i+1] == '"' {
			i++
			continue
		}
		return i
	}
	return -1
}

// fields cuts one record into its fields, appending to into. The error says
// what is wrong with a quoted field.
func (d dialect) fields(record []byte, into [][]byte) ([][]byte, error) {
	record = bytes.TrimRight(record, "\r\n")
	for {
		if trimmed := bytes.TrimLeft(record, " "); len(trimmed) > 0 && trimmed[0] == '"' {
			content, rest, err := d.quoted(trimmed[1:])
			if err != nil {
				return into, err
			}
			into = append(into, content)
			if rest == nil {
				return into, nil
			}
			record = rest
			continue
		}
		i := bytes.IndexByte(record, d.delimiter)
		if i < 0 {
			return append(into, record), nil
		}
		into = append(into, record[:i])
		record = record[i+1:]
	}
}

// quoted reads a field behind its opening quote; rest is nil at the end of the
// record.
func (d dialect) quoted(data []byte) (content, rest []byte, err error) {
	closing := closingQuote(data)
	if closing < 0 {
		return nil, nil, fmt.Errorf("expected a closing quote")
	}
	content, rest = data[:closing], bytes.TrimLeft(data[closing+1:], " ")
	if bytes.IndexByte(content, '"') >= 0 {
		content = bytes.ReplaceAll(content, []byte(`""`), []byte(`"`))
	}
	if len(rest) == 0 {
		return content, nil, nil
	}
	if rest[0] != d.delimiter {
		return nil, nil, fmt.Errorf("expected a separator after the closing quote")
	}
	return content, rest[1:], nil
}

// feed hands the records of a piece of CSV to a sink. The piece starts at a
// record, on the given line.
func (d dialect) feed(data []byte, line int, meanings []meaning, to sink) {
	var fields [][]byte
	for len(data) > 0 {
		end, _ := d.recordEnd(data, true)
		record := data[:end]
		data = data[end:]
		at := line
		line += max(1, bytes.Count(record, []byte{d.newline}))
		if isBlank(record, d.delimiter) {
			continue
		}
		to.begin(at, "")
		var err error
		fields, err = d.fields(record, fields[:0])
		switch {
		case err != nil:
			to.fault(err.Error(), `close the quote, or double every quote inside a quoted cell`)
		case len(fields) > len(meanings) && !allBlank(fields[len(meanings):]):
			to.fault(fmt.Sprintf("expected %d fields as in the header, found %d", len(meanings), len(fields)),
				"put a cell that holds the separator in quotes")
		}
		for i := range min(len(fields), len(meanings)) {
			if meanings[i].field != noField {
				to.set(&meanings[i], fields[i])
			}
		}
		to.end()
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
