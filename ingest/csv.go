package ingest

import (
	"bytes"
	"errors"
)

// Limits on one file: what goes beyond is refused with the limit named.
const (
	maxLine    = 1 << 20
	maxField   = 64 << 10
	maxColumns = 2000
)

// A dialect is how a CSV file separates its fields and records. With a newline
// of '\n', a carriage return that stands alone ends a record as well.
type dialect struct {
	delimiter byte
	newline   byte
}

var delimiters = []byte{',', ';', '\t', '|'}

// lineEnd is the length of the first line with its break, 0 when data has none.
// It looks at a window after the other, so that a break of the rarer kind far
// away is not looked for in every line.
func (d dialect) lineEnd(data []byte) int {
	if d.newline != '\n' {
		return bytes.IndexByte(data, d.newline) + 1
	}
	const window = 512
	for from := 0; from < len(data); from += window {
		line := data[from:min(from+window, len(data))]
		newline := bytes.IndexByte(line, '\n')
		if newline >= 0 {
			line = line[:newline]
		}
		for at := 0; ; at++ {
			i := bytes.IndexByte(line[at:], '\r')
			if i < 0 {
				break
			}
			if at += i; d.loneReturn(data, from+at) {
				return from + at + 1
			}
		}
		if newline >= 0 {
			return from + newline + 1
		}
	}
	return 0
}

// lastLineEnd is where the last whole line of data ends, 0 when there is none.
func (d dialect) lastLineEnd(data []byte) int {
	end := bytes.LastIndexByte(data, d.newline) + 1
	for rest := data; d.newline == '\n'; {
		i := bytes.LastIndexByte(rest[end:], '\r')
		if i < 0 {
			break
		}
		if d.loneReturn(data, end+i) {
			return end + i + 1
		}
		rest = rest[:end+i]
	}
	return end
}

// loneReturn reports whether the carriage return at i is a line break of its
// own. At the end of data that is not known.
func (d dialect) loneReturn(data []byte, i int) bool {
	return d.newline == '\n' && i+1 < len(data) && data[i+1] != '\n' && data[i+1] != '\r'
}

// lines is how many line breaks there are in the first so many bytes of data.
func (d dialect) lines(data []byte, length int) int {
	n := bytes.Count(data[:length], []byte{d.newline})
	if d.newline != '\n' {
		return n
	}
	for from := 0; ; {
		i := bytes.IndexByte(data[from:length], '\r')
		if i < 0 {
			return n
		}
		if from += i + 1; d.loneReturn(data, from-1) {
			n++
		}
	}
}

// recordEnd finds the end of the first record in data, past its line break.
// Only a quote at the start of a field opens a quoted one, which may hold line
// breaks. complete is false when more data may change the answer; last says
// that there is no more.
func (d dialect) recordEnd(data []byte, last bool) (end int, complete bool) {
	lineEnd := d.lineEnd(data)
	if lineEnd == 0 {
		if !last {
			return 0, false
		}
		lineEnd = len(data)
	}
	if bytes.IndexByte(data[:lineEnd], '"') < 0 {
		return lineEnd, true
	}
	for i, start := 0, true; i < len(data); i++ {
		switch c := data[i]; {
		case c == '"' && start:
			closing := closingQuote(data[i+1:])
			undecided := closing < 0 && len(data)-i <= maxField || closing >= 0 && i+closing+2 == len(data)
			if undecided && !last {
				return 0, false
			}
			if closing < 0 || !d.endsField(data[i+closing+2:]) {
				return lineEnd, true // a stray quote: the damage is to its own line
			}
			i += 1 + closing
			start = false
		case c == d.newline, c == '\r' && d.loneReturn(data, i):
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

// endsField reports whether what stands behind a closing quote ends the field.
func (d dialect) endsField(rest []byte) bool {
	rest = bytes.TrimLeft(rest, " ")
	return len(rest) == 0 || rest[0] == d.delimiter || rest[0] == d.newline || rest[0] == '\r'
}

func withoutLineEnd(record []byte) []byte {
	for n := len(record); n > 0 && (record[n-1] == '\n' || record[n-1] == '\r'); n-- {
		record = record[:n-1]
	}
	return record
}

// fields cuts one record into its fields, appending to into. The error says
// what is wrong with a quoted field.
func (d dialect) fields(record []byte, into [][]byte) ([][]byte, error) {
	record = withoutLineEnd(record)
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
		return nil, nil, errors.New("expected a closing quote")
	}
	content, rest = data[:closing], bytes.TrimLeft(data[closing+1:], " ")
	if bytes.IndexByte(content, '"') >= 0 {
		content = bytes.ReplaceAll(content, []byte(`""`), []byte(`"`))
	}
	if len(rest) == 0 {
		return content, nil, nil
	}
	if rest[0] != d.delimiter {
		return nil, nil, errors.New("expected a separator after the closing quote")
	}
	return content, rest[1:], nil
}
