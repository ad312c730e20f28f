package ingest

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"

	"github.com/apache/arrow-go/v18/arrow"
)

const headBytes = 64 << 10

// A chunk is a piece of one file that starts and ends between records.
type chunk struct {
	file     *file
	at       int
	data     []byte            // CSV
	lines    []byte            // JSON, one object a line
	line     int               // where data or lines begin
	records  int               // about how many there are, 0 for not known
	elements []element         // JSON
	table    arrow.RecordBatch // Parquet; line is then the number of its first row
}

// An element is a piece of a JSON file: one value or a line of them, or the
// problem that ends the file there.
type element struct {
	value   []byte
	line    int
	path    string
	cut     int // where value was closed that is not whole in the file
	problem string
}

// feed hands the records of the chunk to a sink and returns the JSON keys that
// meant nothing, and how the others were read.
func (c *chunk) feed(mapping Mapping, to sink) (unused map[string]bool, seen manner) {
	if c.table != nil {
		c.feedTable(to)
		return nil, manner{}
	}
	if c.data != nil {
		c.file.feed(c.data, c.line, to)
		return nil, manner{}
	}
	walker := newJSONWalker(mapping, to)
	if c.lines != nil {
		feeder := jsonLineFeeder{walker: walker}
		feeder.feed(c.lines, c.line)
	}
	for _, e := range c.elements {
		walker.element(e)
	}
	return walker.unused, walker.seen
}

// A fileProblem is what keeps a file, or the rest of it, from being read.
type fileProblem struct {
	line int
	text string
	hint string
}

func (p *fileProblem) Error() string { return p.text }

// chunks cuts a file into chunks of about the given size and hands them on. A
// *fileProblem means that the file cannot be read; any other error that the
// world failed.
func (f *file) chunks(ctx context.Context, at, size int, mapping Mapping, emit func(chunk) error) (notes []string, err error) {
	if f.unreadable != nil {
		f.count()
		return nil, f.unreadable
	}
	opened, err := f.open(ctx)
	var unpacking *fileProblem
	switch {
	case errors.Is(err, fs.ErrPermission):
		return nil, &fileProblem{text: "not readable: permission denied"}
	case errors.As(err, &unpacking):
		f.count()
		return nil, unpacking
	case err != nil:
		return nil, err
	}
	defer func() {
		var problem *fileProblem
		closing := opened.close(err == nil || errors.As(err, &problem))
		if err == nil || problem != nil && closing != nil {
			err = closing
		}
	}()
	if opened.packing != "" {
		if err := f.whole(ctx); err != nil {
			return nil, err
		}
	}
	reader := opened.Reader
	head, err := reader.Peek(headBytes)
	if err != nil && !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("%s: %w", f.name, err)
	}
	if bytes.HasPrefix(head, []byte(parquetMark)) {
		if opened.packing == "" {
			return f.parquetChunks(ctx, nil, at, mapping, emit)
		}
		return f.parquetChunks(ctx, reader, at, mapping, emit)
	}
	isJSON, problem := f.sniff(head)
	if problem != nil {
		return nil, &fileProblem{text: problem.Error()}
	}
	if isJSON {
		f.form = "JSON, " + f.encoding + opened.unpackedFrom()
		return nil, f.jsonChunks(reader, head, at, size, emit)
	}
	notes, err = f.readHeader(reader, head, err != nil, mapping)
	if err != nil {
		return nil, err
	}
	f.form = f.formOf() + opened.unpackedFrom()
	err = f.csvChunks(reader, at, size, emit)
	if f.foreign {
		notes = append(notes, fmt.Sprintf("what is not UTF-8 read as Windows-1252, such as on line %d", f.foreignLine))
	}
	return notes, err
}

// unpackedFrom says in words what the text was packed with.
func (c *content) unpackedFrom() string {
	if c.packing == "" {
		return ""
	}
	return ", unpacked from " + c.packing
}

// readOn is what was carried over from the text before, and up to so many bytes
// more; last says that the text has ended.
func (f *file) readOn(reader *bufio.Reader, carried []byte, more int) (data []byte, last bool, err error) {
	data = make([]byte, len(carried)+more)
	n := copy(data, carried)
	read, err := io.ReadFull(reader, data[n:])
	if last = errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF); err != nil && !last {
		return nil, false, fmt.Errorf("%s: %w", f.name, err)
	}
	return data[:n+read], last, nil
}
