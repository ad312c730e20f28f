package ingest

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"unicode/utf8"
)

// csvChunks cuts the text below the header into chunks.
func (f *file) csvChunks(reader *bufio.Reader, at, size int, emit func(chunk) error) error {
	// Twice the size on disk: UTF-16 may grow as it becomes UTF-8.
	size = min(size, max(headBytes, 2*int(f.onDisk)))
	line := f.firstLine
	var carried []byte
	for last := false; !last; {
		var data []byte
		var err error
		data, last, err = f.readOn(reader, carried, size)
		if err != nil {
			return err
		}
		whole := f.wholeRecords(data, last)
		if len(data)-whole > maxLine {
			if data, whole, err = f.passLongLine(reader, data, whole); err != nil {
				return fmt.Errorf("%s: %w", f.name, err)
			}
		}
		carried = data[whole:]
		if whole == 0 {
			continue
		}
		if !f.foreign && !utf8.Valid(data[:whole]) {
			f.foreign = true
			f.foreignLine = line + f.dialect.lines(data, firstForeign(data[:whole]))
		}
		for rest := data; whole > 0; {
			end, lines := f.chunkEnd(rest, whole)
			if err := emit(chunk{file: f, at: at, data: rest[:end:end], line: line, records: lines + 1}); err != nil {
				return err
			}
			line += lines
			rest, whole = rest[end:], whole-end
		}
	}
	return nil
}

// mostLines is about how many lines a chunk may have: a line of next to nothing
// takes as much memory to refuse as any other.
const mostLines = 1 << 15

// chunkEnd is the length of a chunk of whole records, given data and how much
// of it is whole records, and its lines. What comes after them says whether a
// carriage return that ends them is a line break.
func (f *file) chunkEnd(data []byte, whole int) (end, lines int) {
	if lines = f.dialect.lines(data, whole); lines <= mostLines {
		return whole, lines
	}
	records := data[:whole]
	if bytes.IndexByte(records, '"') < 0 {
		end = endOfLines(records, mostLines, f.dialect.lineEnd)
		return end, f.dialect.lines(data, end)
	}
	for lines = 0; lines < mostLines && end < whole; {
		length, complete := f.dialect.recordEnd(records[end:], true)
		if !complete {
			length = whole - end
		}
		lines += f.dialect.lines(data[end:], length)
		end += length
	}
	return end, lines
}

// endOfLines is where so many lines of a text end, or the text.
func endOfLines(text []byte, lines int, lineEnd func([]byte) int) (end int) {
	for range lines {
		length := lineEnd(text[end:])
		if length == 0 {
			return len(text)
		}
		end += length
	}
	return end
}

// firstForeign is where text that is not UTF-8 first shows.
func firstForeign(text []byte) int {
	for i := 0; i < len(text); {
		r, width := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError && width == 1 {
			return i
		}
		i += width
	}
	return len(text)
}

// passLongLine takes a record that is longer than any allowed, and begins at
// whole, for complete. Enough of it is left to be refused; the rest is passed
// over to the end of its line.
func (f *file) passLongLine(reader *bufio.Reader, data []byte, whole int) ([]byte, int, error) {
	enough := whole + maxLine + 1
	if length := f.dialect.lineEnd(data[enough-1:]); length > 0 {
		return data, enough - 1 + length, nil
	}
	data = append(data[:enough], f.dialect.newline)
	for {
		piece, err := reader.Peek(headBytes)
		passed := f.dialect.lineEnd(piece)
		ended := passed > 0
		if !ended {
			passed = len(piece)
		}
		if !ended && err == nil && piece[passed-1] == '\r' {
			passed-- // it is not known yet whether it stands alone
		}
		if _, discarding := reader.Discard(passed); discarding != nil {
			return nil, 0, discarding
		}
		if ended || errors.Is(err, io.EOF) {
			return data, len(data), nil
		}
		if err != nil {
			return nil, 0, err
		}
	}
}

// wholeRecords is the length of the whole records in data.
func (f *file) wholeRecords(data []byte, last bool) int {
	if last {
		return len(data)
	}
	if bytes.IndexByte(data, '"') < 0 {
		return f.dialect.lastLineEnd(data)
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
