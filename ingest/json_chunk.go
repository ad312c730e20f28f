package ingest

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
)

// jsonChunks cuts a JSON file into chunks of its elements.
func (f *file) jsonChunks(reader *bufio.Reader, head []byte, at, size int, emit func(chunk) error) error {
	if isJSONLines(head) {
		return f.jsonLines(reader, at, size, emit)
	}
	splitter := newJSONSplitter(reader)
	current, held := chunk{file: f, at: at}, 0
	for {
		value, line, path, err := splitter.next()
		if err != nil && !errors.Is(err, io.EOF) {
			var syntactic *jsontext.SyntacticError
			if !errors.As(err, &syntactic) && !errors.Is(err, io.ErrUnexpectedEOF) && !errors.Is(err, errElementTooLong) {
				return fmt.Errorf("%s: %w", f.name, err)
			}
			problem := "expected JSON, " + jsonProblem(err)
			saved := splitter.salvage(errors.Is(err, errElementTooLong))
			if splitter.index == 0 && saved.value == nil {
				return &fileProblem{line: line, text: problem}
			}
			if saved.value != nil {
				current.elements = append(current.elements, saved)
			}
			current.elements = append(current.elements, element{line: line, problem: problem})
			return emit(current)
		}
		if err == nil {
			current.elements = append(current.elements, element{value: bytes.Clone(value), line: line, path: path})
			held += len(value)
		}
		if held >= size || len(current.elements) >= mostLines || err != nil && len(current.elements) > 0 {
			if err := emit(current); err != nil {
				return err
			}
			current, held = chunk{file: f, at: at}, 0
		}
		if err != nil {
			return nil
		}
	}
}

// A jsonSplitter cuts a JSON file into its top-level elements: those of an
// array, or one value after another.
type jsonSplitter struct {
	decoder *jsontext.Decoder
	lines   *lineCounter
	inArray bool
	started bool
	index   int

	brokenLine int // where the element that cannot be read begins
}

const betweenElements = ", \t\r\n"

func newJSONSplitter(r io.Reader) *jsonSplitter {
	lines := &lineCounter{source: r, line: 1}
	return &jsonSplitter{decoder: jsontext.NewDecoder(lines, lenient...), lines: lines}
}

// next returns an element, the line it starts on and its path. The error is
// io.EOF at the end; any other ends the file.
func (s *jsonSplitter) next() (value []byte, line int, path string, err error) {
	s.lines.since = 0
	if !s.started {
		s.started = true
		if s.decoder.PeekKind() == '[' {
			if _, err := s.decoder.ReadToken(); err != nil {
				return nil, s.line(0), "", err
			}
			s.inArray = true
		}
	}
	if s.inArray && s.decoder.PeekKind() == ']' {
		if _, err := s.decoder.ReadToken(); err != nil {
			return nil, s.line(0), "", err
		}
		s.inArray = false
	}
	value, err = s.decoder.ReadValue()
	if err != nil && !errors.Is(err, io.EOF) {
		unread := s.decoder.UnreadBuffer()
		start := len(unread) - len(bytes.TrimLeft(unread, betweenElements))
		s.brokenLine = s.lines.at(s.decoder.InputOffset() + int64(start))
	}
	var syntactic *jsontext.SyntacticError
	if errors.As(err, &syntactic) {
		return nil, s.lines.at(syntactic.ByteOffset), "", err
	}
	if err != nil {
		return nil, s.line(0), "", err
	}
	if s.inArray {
		path = "$[" + strconv.Itoa(s.index) + "]"
	}
	s.index++
	return value, s.line(len(value)), path, nil
}

// salvage is what of the element that could not be read stands before the place
// where it is broken: up to the last value in it that is whole, and closed there.
func (s *jsonSplitter) salvage(tooLong bool) element {
	if tooLong {
		return element{}
	}
	broken := bytes.TrimLeft(s.decoder.UnreadBuffer(), betweenElements)
	decoder := jsontext.NewDecoder(bytes.NewReader(broken), lenient...)
	saved := element{line: s.brokenLine}
	var closing []byte
	for {
		token, err := decoder.ReadToken()
		if err != nil {
			break
		}
		around, length := decoder.StackIndex(decoder.StackDepth())
		isName := around == '{' && length%2 == 1
		opens := token.Kind() == '{' || token.Kind() == '['
		end := int(decoder.InputOffset())
		if decoder.StackDepth() == 0 || end == len(broken) {
			break // a number that ends there may have been longer
		}
		if isName || opens {
			continue
		}
		saved.cut = end
		closing = closing[:0]
		for depth := decoder.StackDepth(); depth > 0; depth-- {
			kind, _ := decoder.StackIndex(depth)
			closing = append(closing, map[jsontext.Kind]byte{'{': '}', '[': ']'}[kind])
		}
	}
	if saved.cut == 0 {
		return element{}
	}
	saved.value = append(bytes.Clone(broken[:saved.cut]), closing...)
	if s.inArray {
		saved.path = "$[" + strconv.Itoa(s.index) + "]"
	}
	return saved
}

// line is the line on which the last length bytes read begin.
func (s *jsonSplitter) line(length int) int {
	return s.lines.at(s.decoder.InputOffset() - int64(length))
}

var errElementTooLong = fmt.Errorf("one element of more than %d MiB or %d million lines: write one round a line", maxElement>>20, maxElementLines/1_000_000)

// A lineCounter remembers where the lines of what it passes on begin, until
// they are asked for, and bounds one element.
type lineCounter struct {
	source io.Reader
	offset int64
	breaks []int64
	line   int
	since  int
}

func (c *lineCounter) Read(p []byte) (int, error) {
	if c.since > maxElement || len(c.breaks) > maxElementLines {
		return 0, errElementTooLong
	}
	n, err := c.source.Read(p)
	for i, b := range p[:n] {
		if b == '\n' {
			c.breaks = append(c.breaks, c.offset+int64(i))
		}
	}
	c.offset += int64(n)
	c.since += n
	return n, err
}

func (c *lineCounter) at(offset int64) int {
	passed := 0
	for passed < len(c.breaks) && c.breaks[passed] < offset {
		passed++
	}
	c.line += passed
	c.breaks = c.breaks[passed:]
	return c.line
}
