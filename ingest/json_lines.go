package ingest

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"

	"github.com/go-json-experiment/json/jsontext"
)

// isJSONLines tells a file with one object a line from a document: its first
// line is an object, or is broken and the second one is an object.
func isJSONLines(head []byte) bool {
	isObject := func(line []byte) bool {
		line = withoutComma(line)
		return len(line) > 0 && line[0] == '{' && jsontext.Value(line).IsValid(lenient...)
	}
	first, rest, found := bytes.Cut(bytes.TrimLeft(head, " \t\r\n"), []byte{'\n'})
	if !found || len(first) == 0 || first[0] != '{' {
		return false
	}
	if isObject(first) {
		return true
	}
	second, _, _ := bytes.Cut(rest, []byte{'\n'})
	if !isObject(second) {
		return false
	}
	decoder := jsontext.NewDecoder(bytes.NewReader(append(append(bytes.Clone(first), '\n'), second...)), lenient...)
	_, err := decoder.ReadValue()
	var syntactic *jsontext.SyntacticError
	return errors.As(err, &syntactic) && syntactic.ByteOffset <= int64(len(first))+1
}

// withoutComma is a line without the comma that some write behind every object.
func withoutComma(line []byte) []byte {
	return bytes.TrimSpace(bytes.TrimSuffix(bytes.TrimSpace(line), []byte{','}))
}

// jsonLines cuts JSON between lines; a bad line costs only itself.
func (f *file) jsonLines(reader *bufio.Reader, at, size int, emit func(chunk) error) error {
	size = min(size, max(headBytes, 2*int(f.onDisk)))
	line := 1
	var carried []byte
	for last := false; !last; {
		more := max(size, min(len(carried), maxElement-len(carried))) // so that a long line is not copied often
		var data []byte
		var err error
		data, last, err = f.readOn(reader, carried, more)
		if err != nil {
			return err
		}
		whole := len(data)
		if !last {
			whole = bytes.LastIndexByte(data, '\n') + 1
		}
		if first, _, _ := bytes.Cut(data, []byte{'\n'}); len(first) > maxElement { // any other is shorter than what was read
			return &fileProblem{line: line, text: fmt.Sprintf("a line of more than %d MiB", maxElement>>20), hint: "the rest of the file is not read"}
		}
		carried = data[whole:]
		for rest := data[:whole]; len(rest) > 0; {
			end := endOfLines(rest, mostLines, newlineEnd)
			lines := newlines(rest[:end])
			if err := emit(chunk{file: f, at: at, lines: rest[:end:end], line: line, records: lines + 1}); err != nil {
				return err
			}
			line += lines
			rest = rest[end:]
		}
	}
	return nil
}

// firstJSONLine is where the first line ends that holds anything.
func firstJSONLine(lines []byte) int {
	for end := 0; ; {
		length := bytes.IndexByte(lines[end:], '\n') + 1
		if length == 0 {
			return len(lines)
		}
		line := lines[end : end+length]
		if end += length; len(withoutComma(line)) > 0 {
			return end
		}
	}
}

// newlineEnd is the length of the first line with its newline, 0 when data has
// none.
func newlineEnd(data []byte) int { return bytes.IndexByte(data, '\n') + 1 }
