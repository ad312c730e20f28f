package ingest

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"strconv"

	"github.com/go-json-experiment/json/jsontext"
)

// maxElement bounds one top-level value of a JSON file: a round, or a shot.
const maxElement = 64 << 20

// A jsonWalker hands the records of JSON elements to a sink. An object that
// holds arrays of objects is a round or a hole: its own values are inherited by
// every record inside.
type jsonWalker struct {
	mapping  Mapping
	meanings map[string]meaning
	unused   map[string]bool
	to       sink
	frames   []inherited
}

type inherited struct {
	meaning meaning
	text    []byte
}

func newJSONWalker(mapping Mapping, to sink) *jsonWalker {
	return &jsonWalker{mapping: mapping, meanings: map[string]meaning{}, unused: map[string]bool{}, to: to}
}

// meaningOf is cached: the keys of a file are few.
func (w *jsonWalker) meaningOf(key string) meaning {
	if m, met := w.meanings[key]; met {
		return m
	}
	m, known := w.mapping[normalForm(key)]
	if !known {
		m, known = matchName(key)
	}
	if !known {
		m.field = noField
		w.unused[key] = true
	}
	w.meanings[key] = m
	return m
}

// element walks one top-level value. A broken one is a refused record: what
// came before it in the file is then known to be followed by something.
func (w *jsonWalker) element(e element) {
	hint := "the rest of the file is not read"
	if e.problem == "" {
		w.frames = w.frames[:0]
		err := w.walk(e.value, e.line, e.path)
		if err == nil {
			return
		}
		e.problem, hint = "expected JSON, "+jsonProblem(err), "nothing more of this element is read"
	}
	w.to.begin(e.line, e.path)
	w.to.fault(e.problem, hint)
	w.to.end()
}

func jsonProblem(err error) string {
	var syntactic *jsontext.SyntacticError
	if errors.As(err, &syntactic) {
		return syntactic.Err.Error()
	}
	return err.Error()
}

type nested struct {
	key   string
	value []byte
	line  int
}

// walk reads one object: its scalars first, then what is nested in it.
func (w *jsonWalker) walk(value []byte, line int, path string) error {
	if len(bytes.TrimSpace(value)) == 0 {
		return nil
	}
	if value[0] == '[' {
		return w.walkArray(nested{value: value, line: line}, path)
	}
	if value[0] != '{' {
		return fmt.Errorf("an object, found %s", shown(string(value)))
	}
	outer := len(w.frames)
	defer func() { w.frames = w.frames[:outer] }()
	decoder := jsontext.NewDecoder(bytes.NewBuffer(value))
	if _, err := decoder.ReadToken(); err != nil {
		return err
	}
	var inner []nested
	for decoder.PeekKind() != '}' {
		token, err := decoder.ReadToken()
		if err != nil {
			return err
		}
		key := token.String()
		raw, err := decoder.ReadValue()
		if err != nil {
			return err
		}
		switch raw.Kind() {
		case '[', '{':
			start := int(decoder.InputOffset()) - len(raw)
			inner = append(inner, nested{key, raw.Clone(), line + bytes.Count(value[:start], []byte{'\n'})})
			continue
		case 'n':
			continue
		}
		if m := w.meaningOf(key); m.field != noField {
			w.frames = append(w.frames, inherited{m, scalarText(raw)})
		}
	}
	holdsRecords := false
	for _, member := range inner {
		if !holdsObjects(member.value) {
			w.unused[member.key] = true
			continue
		}
		holdsRecords = true
		if err := w.walkArray(member, path+"."+member.key); err != nil {
			return err
		}
	}
	if !holdsRecords && len(w.frames) > outer {
		w.to.begin(line, path)
		for i := range w.frames {
			w.to.set(&w.frames[i].meaning, w.frames[i].text)
		}
		w.to.end()
	}
	return nil
}

func (w *jsonWalker) walkArray(array nested, path string) error {
	decoder := jsontext.NewDecoder(bytes.NewBuffer(array.value))
	if _, err := decoder.ReadToken(); err != nil {
		return err
	}
	line, counted := array.line, 0
	for i := 0; decoder.PeekKind() != ']'; i++ {
		raw, err := decoder.ReadValue()
		if err != nil {
			return err
		}
		start := int(decoder.InputOffset()) - len(raw)
		line += bytes.Count(array.value[counted:start], []byte{'\n'})
		counted = start
		if err := w.walk(raw.Clone(), line, path+"["+strconv.Itoa(i)+"]"); err != nil {
			return err
		}
	}
	return nil
}

func holdsObjects(value []byte) bool {
	if value[0] != '[' {
		return false
	}
	inside := bytes.TrimSpace(value[1:])
	return inside[0] == '{' || inside[0] == ']'
}

func scalarText(raw jsontext.Value) []byte {
	if raw.Kind() != '"' {
		return raw.Clone()
	}
	text, err := jsontext.AppendUnquote(nil, raw)
	if err != nil {
		return raw.Clone()
	}
	return text
}

// A jsonSplitter cuts a JSON file into its top-level elements: those of an
// array, or one value after another.
type jsonSplitter struct {
	decoder *jsontext.Decoder
	lines   *lineCounter
	inArray bool
	started bool
	index   int
}

func newJSONSplitter(r io.Reader) *jsonSplitter {
	lines := &lineCounter{source: r, line: 1}
	// What one element does wrong is left to its walker.
	lenient := []jsontext.Options{jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true)}
	return &jsonSplitter{decoder: jsontext.NewDecoder(lines, lenient...), lines: lines}
}

// next returns an element, the line it starts on and its path. The error is
// io.EOF at the end; any other ends the file.
func (s *jsonSplitter) next() (value []byte, line int, path string, err error) {
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
	s.lines.since = 0
	value, err = s.decoder.ReadValue()
	if err != nil {
		return nil, s.line(0), "", err
	}
	if s.inArray {
		path = "$[" + strconv.Itoa(s.index) + "]"
	}
	s.index++
	return value, s.line(len(value)), path, nil
}

// line is the line on which the last length bytes read begin.
func (s *jsonSplitter) line(length int) int {
	return s.lines.at(s.decoder.InputOffset() - int64(length))
}

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
	if c.since > maxElement {
		return 0, fmt.Errorf("one element of more than %d MiB: write one round a line", maxElement>>20)
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
