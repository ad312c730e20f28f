package ingest

import (
	"bufio"
	"bytes"
	"fmt"
)

// readHeader finds the header line, below blank lines and # comments, and the
// separator that makes most sense of it; head is the beginning of the text, or
// all of it. It leaves the reader and f.firstLine where the records begin.
func (f *file) readHeader(reader *bufio.Reader, head []byte, all bool, mapping Mapping) (notes []string, err error) {
	f.dialect.newline = '\n'
	if bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(head, '\r') >= 0 {
		f.dialect.newline = '\r'
	}
	line, above := 1, 0
	for above < len(head) {
		end := bytes.IndexByte(head[above:], f.dialect.newline) + 1
		if end == 0 {
			end = len(head) - above
		}
		if head[above] != '#' && !isBlank(head[above:above+end], ',') {
			break
		}
		above += end
		line++
	}
	head = head[above:]
	best, found := f.bestHeader(head, all, mapping)
	switch {
	case !found && !all:
		return nil, &fileProblem{line: line, text: fmt.Sprintf("expected a header within the first %d KiB: a line of column names, at most %d", headBytes>>10, maxColumns)}
	case !found:
		return nil, &fileProblem{line: line, text: "no header: expected a line of column names"}
	case len(best.meanings) > maxColumns:
		return nil, &fileProblem{line: line, text: fmt.Sprintf("more than %d columns", maxColumns)}
	case best.problem != nil:
		return nil, &fileProblem{line: line, text: best.problem.Error()}
	}
	f.dialect, f.meanings = best.dialect, best.meanings
	f.firstLine = line + max(1, bytes.Count(head[:best.length], []byte{f.dialect.newline}))
	if _, err := reader.Discard(above + best.length); err != nil {
		return nil, fmt.Errorf("%s: %w", f.name, err)
	}
	if len(best.unused) > 0 {
		notes = append(notes, "columns not used: "+listed(best.unused))
	}
	return notes, nil
}

// A csvHeader is the first record of a CSV file, read with one separator.
type csvHeader struct {
	header
	dialect dialect
	length  int   // of the text
	problem error // what is wrong with the header as a whole
}

// bestHeader reads the first record with each separator; the one that gives
// the most known names is meant.
func (f *file) bestHeader(head []byte, all bool, mapping Mapping) (best csvHeader, found bool) {
	var fields [][]byte
	for _, delimiter := range delimiters {
		d := dialect{delimiter, f.dialect.newline}
		length, complete := d.recordEnd(head, all)
		if !complete {
			continue
		}
		var err error
		if fields, err = d.fields(head[:length], fields[:0]); err != nil {
			continue
		}
		names := make([]string, len(fields))
		for i, field := range fields {
			names[i] = validText(bytes.TrimSpace(field))
		}
		h, problem := matchHeader(names, mapping)
		if !found || h.known() > best.known() {
			best, found = csvHeader{h, d, length, problem}, true
		}
	}
	return best, found
}
