package ingest

import (
	"bufio"
	"bytes"
	"fmt"
	"slices"
	"strings"
)

// titleLines is how many lines may stand above the header of a CSV file.
const titleLines = 20

// readHeader finds the header line, below blank lines, # comments and titles,
// and the separator that makes most sense of it; head is the beginning of the
// text, or all of it. It leaves the reader and f.firstLine where the records
// begin.
func (f *file) readHeader(reader *bufio.Reader, head []byte, all bool, mapping Mapping) (notes []string, err error) {
	f.dialect.newline = '\n'
	if bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(head, '\r') >= 0 {
		f.dialect.newline = '\r'
	}
	best, titles, found := f.findHeader(head, all, mapping)
	switch {
	case !found && !all:
		return nil, &fileProblem{line: best.line, text: fmt.Sprintf("expected a header within the first %d KiB: a line of column names, at most %d", headBytes>>10, maxColumns)}
	case !found:
		return nil, &fileProblem{line: best.line, text: "no header: expected a line of column names"}
	case len(best.meanings) > maxColumns:
		return nil, &fileProblem{line: best.line, text: fmt.Sprintf("more than %d columns", maxColumns)}
	case best.problem != nil:
		return nil, &fileProblem{line: best.line, text: best.problem.Error()}
	}
	f.dialect, f.meanings, f.names = best.dialect, best.meanings, best.names
	f.header = withoutLineEnd(head[best.start : best.start+best.length])
	past := best.start + best.length
	f.firstLine = best.line + max(1, best.dialect.lines(head, past)-best.dialect.lines(head, best.start))
	if below := f.unitsBelow(head[past:], all); below > 0 {
		notes = append(notes, fmt.Sprintf("line %d read as the units of the columns", f.firstLine))
		past += below
		f.firstLine++
	} else if below := f.descriptionBelow(head[past:]); below > 0 {
		notes = append(notes, fmt.Sprintf("line %d describes the columns: skipped", f.firstLine))
		past += below
		f.firstLine++
	}
	f.header = bytes.Clone(f.header) // the head is overwritten as reading goes on
	f.decimalComma = f.writesDecimalCommas(head[past:])
	if _, err := reader.Discard(past); err != nil {
		return nil, fmt.Errorf("%s: %w", f.name, err)
	}
	if len(titles) > 0 {
		notes = append(notes, titlesSkipped(titles))
	}
	if len(best.unused) > 0 {
		notes = append(notes, "columns not used: "+listed(best.unused))
	}
	return notes, nil
}

// findHeader tries line after line: the first that is a whole header is meant,
// else the first that gives the most known names, whose problem is then told.
// titles are the numbers of the lines above it that are neither blank nor a
// comment.
func (f *file) findHeader(head []byte, all bool, mapping Mapping) (best csvHeader, titles []int, found bool) {
	best.line = 1
	var commented *csvHeader // scripts put a # before the header
	line, tried := 1, 0
	for at := 0; at < len(head) && tried <= titleLines; line++ {
		end := f.dialect.lineEnd(head[at:])
		if end == 0 {
			end = len(head) - at
		}
		if head[at] == '#' && commented == nil {
			if h, readable := f.bestHeader(head[at+1:], all, mapping); readable && h.problem == nil {
				h.start, h.line = at+1, line
				commented = &h
			}
		}
		if head[at] == '#' || holdsOnlySeparators(head[at:at+end]) {
			at += end
			if tried == 0 {
				best.line = line + 1
			}
			continue
		}
		tried++
		if h, readable := f.bestHeader(head[at:], all, mapping); readable {
			h.start, h.line = at, line
			if !found || h.problem == nil || h.known() > best.known() {
				best, found = h, true
			}
			if h.problem == nil {
				return best, titles, true
			}
		}
		titles = append(titles, line)
		at += end
	}
	if commented != nil {
		return *commented, nil, true
	}
	return best, nil, found
}

func holdsOnlySeparators(line []byte) bool {
	return len(bytes.Trim(line, " \r\n"+string(delimiters))) == 0
}

func titlesSkipped(lines []int) string {
	if len(lines) == 1 {
		return fmt.Sprintf("1 title line above the header skipped, line %d", lines[0])
	}
	first, last := lines[0], lines[len(lines)-1]
	if last-first == len(lines)-1 {
		return fmt.Sprintf("%d title lines above the header skipped, lines %d to %d", len(lines), first, last)
	}
	return fmt.Sprintf("%d title lines above the header skipped, the first on line %d, the last on line %d", len(lines), first, last)
}

// A csvHeader is a record of a CSV file read as its header, with one separator.
type csvHeader struct {
	header
	names   []string
	dialect dialect
	start   int // in the text
	line    int
	length  int   // of the text
	problem error // what is wrong with the header as a whole
}

// bestHeader reads the first record with each separator; the one that gives
// the most known names is meant.
func (f *file) bestHeader(head []byte, all bool, mapping Mapping) (best csvHeader, found bool) {
	var fields [][]byte
	for _, delimiter := range delimiters {
		d := dialect{delimiter: delimiter, newline: f.dialect.newline}
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
			best, found = csvHeader{header: h, names: names, dialect: d, length: length, problem: problem}, true
		}
	}
	return best, found
}

// unitsBelow takes a line below the header that holds nothing but units for
// the units of the columns; it returns its length, 0 when there is none.
func (f *file) unitsBelow(text []byte, all bool) int {
	end, complete := f.dialect.recordEnd(text, all)
	if !complete || end == 0 {
		return 0
	}
	cells, err := f.dialect.fields(text[:end], nil)
	if err != nil || len(cells) > len(f.meanings) {
		return 0
	}
	meanings, named := slices.Clone(f.meanings), false
	for i, cell := range cells {
		if f.meanings[i].field == date { // yyyy-mm-dd
			continue
		}
		text := normalForm(validText(cell))
		if text == "" {
			if len(bytes.TrimSpace(cell)) > 0 && !bytes.Equal(bytes.TrimSpace(cell), []byte("-")) {
				return 0
			}
			continue
		}
		unit, m := unitNamed(text), &meanings[i]
		switch {
		case unit == NoUnit || m.unit != NoUnit && m.unit != unit:
			return 0
		case m.field != noField && units[unit].kind != definitions[m.field].kind:
			return 0
		case m.field != noField:
			m.unit = unit
		}
		named = true
	}
	if !named {
		return 0
	}
	f.meanings = meanings
	return end
}

// descriptionBelow tells a line below the header that says in words what the
// columns hold: there is text where every date and number should be. It returns
// its length, 0 when there is none.
func (f *file) descriptionBelow(text []byte) int {
	const least = 4 // date, hole, par and a distance
	end := f.dialect.lineEnd(text)
	if end == 0 || bytes.IndexByte(text[:end], '"') >= 0 {
		return 0
	}
	cells, _ := f.dialect.fields(text[:end], nil)
	described := 0
	for i, cell := range cells[:min(len(cells), len(f.meanings))] {
		if m := f.meanings[i]; m.field == date || m.field.isMeasure() {
			words := strings.Fields(validText(cell))
			if len(words) == 1 && strings.ContainsAny(words[0], "0123456789") {
				return 0
			}
			described += min(1, len(words))
		}
	}
	if described < least {
		return 0
	}
	f.meanings = slices.Clone(f.meanings)
	for i, cell := range cells[:min(len(cells), len(f.meanings))] {
		m, unit := &f.meanings[i], unitNamed(normalForm(validText(cell)))
		if m.field != noField && m.unit == NoUnit && unit != NoUnit && units[unit].kind == definitions[m.field].kind {
			m.unit = unit
		}
	}
	return end
}

// writesDecimalCommas reports whether a number of the first records has a
// decimal comma that can be nothing else.
func (f *file) writesDecimalCommas(text []byte) bool {
	if f.dialect.delimiter == ',' && bytes.IndexByte(text, '"') < 0 || bytes.IndexByte(text, ',') < 0 {
		return false
	}
	var cells [][]byte
	for len(text) > 0 {
		end, complete := f.dialect.recordEnd(text, false)
		if !complete {
			return false
		}
		var err error
		if cells, err = f.dialect.fields(text[:end], cells[:0]); err == nil {
			for i, cell := range cells[:min(len(cells), len(f.meanings))] {
				if f.meanings[i].field.isMeasure() && hasDecimalComma(trimmed(cell)) {
					return true
				}
			}
		}
		text = text[end:]
	}
	return false
}

// formOf is how the text is laid out, in words.
func (f *file) formOf() string {
	separators := map[byte]string{',': "commas", ';': "semicolons", '\t': "tabs", '|': "bars"}
	form := "CSV"
	if isListOfRejects(f.names) {
		form = "CSV, a list of rejects read as a log: what stands behind hint, not what was said of it"
	}
	return strings.Join([]string{form, "separated by " + separators[f.dialect.delimiter], f.encoding}, ", ")
}
