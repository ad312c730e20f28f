package ingest

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"github.com/go-json-experiment/json/jsontext"
)

const (
	chunkBytes = 4 << 20
	headBytes  = 64 << 10
)

// A chunk is a piece of one file that starts and ends between records.
type chunk struct {
	file     *file
	at       int
	data     []byte    // CSV
	line     int       // where data begins
	elements []element // JSON
}

// An element is one top-level value of a JSON file, or the problem that ends
// the file there.
type element struct {
	value   []byte
	line    int
	path    string
	problem string
}

// feed hands the records of the chunk to a sink and returns the JSON keys that
// meant nothing.
func (c *chunk) feed(mapping Mapping, to sink) (unused map[string]bool) {
	if c.elements == nil {
		c.file.dialect.feed(c.data, c.line, c.file.meanings, to)
		return nil
	}
	walker := newJSONWalker(mapping, to)
	for _, e := range c.elements {
		walker.element(e)
	}
	return walker.unused
}

// A fileProblem is what keeps a file, or the rest of it, from being read.
type fileProblem struct {
	line int
	text string
	hint string
}

func (p *fileProblem) Error() string { return p.text }

// chunks cuts a file into chunks and hands them on. A *fileProblem means that
// the file cannot be read; any other error that the world failed.
func (f *file) chunks(ctx context.Context, at int, mapping Mapping, emit func(chunk) error) (notes []string, err error) {
	opened, err := f.open()
	if errors.Is(err, fs.ErrPermission) {
		return nil, &fileProblem{text: "not readable: permission denied"}
	}
	if err != nil {
		return nil, err
	}
	defer func() {
		if closing := opened.close(); err == nil {
			err = closing
		}
	}()
	reader := bufio.NewReaderSize(contextReader{ctx, opened}, headBytes)
	head, err := reader.Peek(headBytes)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: %w", f.name, err)
	}
	isJSON, err := f.sniff(head)
	if err != nil {
		return nil, &fileProblem{text: err.Error()}
	}
	if isJSON {
		return nil, f.jsonChunks(reader, head, at, emit)
	}
	return f.csvChunks(reader, head, at, mapping, emit)
}

func (f *file) csvChunks(reader *bufio.Reader, head []byte, at int, mapping Mapping, emit func(chunk) error) (notes []string, err error) {
	f.dialect.newline = '\n'
	if bytes.IndexByte(head, '\n') < 0 && bytes.IndexByte(head, '\r') >= 0 {
		f.dialect.newline = '\r'
	}
	line, notes, err := f.readHeader(reader, head, mapping)
	if err != nil {
		return nil, err
	}
	// Twice the size on disk: UTF-16 may grow as it becomes UTF-8.
	size := min(chunkBytes, max(headBytes, 2*f.onDisk))
	var carried []byte
	for last := false; !last; {
		data := make([]byte, size)
		n := copy(data, carried)
		read, err := io.ReadFull(reader, data[n:])
		last = errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF)
		if err != nil && !last {
			return nil, fmt.Errorf("%s: %w", f.name, err)
		}
		data = data[:n+read]
		whole := f.wholeRecords(data, last)
		if whole == 0 && !last {
			return notes, &fileProblem{line: line, text: fmt.Sprintf("a line of more than %d MiB", maxLine>>20), hint: "the rest of the file is not read"}
		}
		carried = data[whole:]
		if whole == 0 {
			break
		}
		if err := emit(chunk{file: f, at: at, data: data[:whole:whole], line: line}); err != nil {
			return nil, err
		}
		line += bytes.Count(data[:whole], []byte{f.dialect.newline})
	}
	return notes, nil
}

// wholeRecords is the length of the whole records in data.
func (f *file) wholeRecords(data []byte, last bool) int {
	if last {
		return len(data)
	}
	if bytes.IndexByte(data, '"') < 0 {
		return bytes.LastIndexByte(data, f.dialect.newline) + 1
	}
	whole := 0
	for {
		end, complete := f.dialect.recordEnd(data[whole:], false)
		if !complete {
			return whole
		}
		whole += end
	}
}

// readHeader finds the header line, below blank lines and # comments, and the separator that make most sense of
// it, and returns the line on which the records begin.
func (f *file) readHeader(reader *bufio.Reader, head []byte, mapping Mapping) (line int, notes []string, err error) {
	line = 1
	for len(head) > 0 {
		end := bytes.IndexByte(head, f.dialect.newline) + 1
		if end == 0 {
			end = len(head)
		}
		if isBlank(head[:end], ',') || head[0] == '#' {
			line++
			reader.Discard(end)
			head = head[end:]
			continue
		}
		break
	}
	var best header
	var problem error
	matched := -1
	end := 0
	for _, delimiter := range delimiters {
		d := dialect{delimiter, f.dialect.newline}
		recordEnd, complete := d.recordEnd(head, true)
		fields, err := d.fields(head[:recordEnd], nil)
		absent := delimiter != delimiters[0] && bytes.IndexByte(head[:recordEnd], delimiter) < 0
		if err != nil || !complete || absent {
			continue
		}
		if len(fields) > maxColumns {
			return 0, nil, &fileProblem{line: line, text: fmt.Sprintf("more than %d columns", maxColumns)}
		}
		names := make([]string, len(fields))
		for i, field := range fields {
			names[i] = validText(bytes.TrimSpace(field))
		}
		h, err := matchHeader(names, mapping)
		if n := len(names) - len(h.unused); n > matched && n-blankNames(names) >= 0 {
			best, problem, matched, end = h, err, n, recordEnd
			f.dialect = d
		}
	}
	if matched < 0 {
		return 0, nil, &fileProblem{line: line, text: "no header: expected a line of column names"}
	}
	if problem != nil {
		return 0, nil, &fileProblem{line: line, text: problem.Error()}
	}
	line += max(1, bytes.Count(head[:end], []byte{f.dialect.newline}))
	reader.Discard(end)
	f.meanings = best.meanings
	if len(best.unused) > 0 {
		notes = append(notes, "columns not used: "+listed(best.unused))
	}
	return line, notes, nil
}

func blankNames(names []string) (n int) {
	for _, name := range names {
		if name == "" {
			n++
		}
	}
	return n
}

func (f *file) jsonChunks(reader *bufio.Reader, head []byte, at int, emit func(chunk) error) error {
	first := bytes.TrimLeft(head, " \t\r\n")
	if end := bytes.IndexByte(first, '\n'); first[0] == '{' && end > 0 && jsontext.Value(first[:end]).IsValid() {
		return f.jsonLines(reader, at, emit)
	}
	splitter := newJSONSplitter(reader)
	current := chunk{file: f, at: at}
	size := 0
	for {
		value, line, path, err := splitter.next()
		if err != nil && !errors.Is(err, io.EOF) {
			var syntactic *jsontext.SyntacticError
			if !errors.As(err, &syntactic) && !errors.Is(err, io.ErrUnexpectedEOF) && splitter.lines.since <= maxElement {
				return fmt.Errorf("%s: %w", f.name, err)
			}
			problem := "expected JSON, " + jsonProblem(err)
			if splitter.index == 0 {
				return &fileProblem{line: line, text: problem}
			}
			current.elements = append(current.elements, element{line: line, problem: problem})
			return emit(current)
		}
		if err == nil {
			current.elements = append(current.elements, element{value: bytes.Clone(value), line: line, path: path})
			size += len(value)
		}
		if size >= chunkBytes || err != nil && len(current.elements) > 0 {
			if err := emit(current); err != nil {
				return err
			}
			current, size = chunk{file: f, at: at}, 0
		}
		if err != nil {
			return nil
		}
	}
}

// jsonLines reads one JSON value a line; a bad line costs only itself.
func (f *file) jsonLines(reader *bufio.Reader, at int, emit func(chunk) error) error {
	lines := bufio.NewScanner(reader)
	lines.Buffer(make([]byte, headBytes), maxElement)
	current := chunk{file: f, at: at}
	line, size := 1, 0
	for ; lines.Scan(); line++ {
		if text := bytes.TrimSpace(lines.Bytes()); len(text) > 0 {
			current.elements = append(current.elements, element{value: bytes.Clone(text), line: line})
			size += len(text)
		}
		if size >= chunkBytes {
			if err := emit(current); err != nil {
				return err
			}
			current, size = chunk{file: f, at: at}, 0
		}
	}
	if len(current.elements) > 0 {
		if err := emit(current); err != nil {
			return err
		}
	}
	if errors.Is(lines.Err(), bufio.ErrTooLong) {
		return &fileProblem{line: line, text: fmt.Sprintf("a line of more than %d MiB", maxElement>>20), hint: "the rest of the file is not read"}
	}
	return lines.Err()
}

type contextReader struct {
	ctx    context.Context
	source io.Reader
}

func (r contextReader) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.source.Read(p)
}
