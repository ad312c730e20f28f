package ingest

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"slices"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// Limits on a JSON file.
const (
	maxElement      = 64 << 20  // bytes of one top-level value: a round, or a shot
	maxElementLines = 4_000_000 // lines of it
	maxNesting      = 16        // arrays and objects around a record
)

// A jsonWalker hands the records of JSON elements to a sink. An object that
// holds arrays of records is a round or a hole: its own values are inherited by
// every record inside.
type jsonWalker struct {
	mapping  Mapping
	meanings map[string]meaning
	unused   map[string]bool
	seen     manner
	to       sink
	values   []keyedValue // of the objects around and of the object itself
	fault    string       // what is wrong with the keys of one of them
	nesting  int
	line     int // of the object at hand
}

type keyedValue struct {
	meaning meaning
	key     string
	text    []byte
	object  int // where the values of its object begin
}

func newJSONWalker(mapping Mapping, to sink) *jsonWalker {
	return &jsonWalker{mapping: mapping, meanings: map[string]meaning{}, unused: map[string]bool{}, seen: manner{names: map[string]meaning{}}, to: to}
}

// meaningOf is what a key means inside an object that stands under another key,
// "" for none. It is cached: the keys of a file are few.
func (w *jsonWalker) meaningOf(outer, key string) meaning {
	name := key
	if outer != "" {
		name = outer + "." + key
	}
	m, met := w.meanings[name]
	if met {
		return m
	}
	m = w.look(outer, key)
	w.meanings[name] = m
	if m.field != noField {
		w.seen.names[name] = m
	}
	return m
}

// look finds what a key means, and remembers nothing of it.
func (w *jsonWalker) look(outer, key string) (m meaning) {
	for _, reading := range readings(outer, key) {
		known := false
		if m, known = w.mapping[normalForm(reading)]; known {
			break
		}
		if m, known = matchName(reading); known {
			break
		}
	}
	if slices.Contains(wholeObjects, normalForm(outer)) && slices.Contains(fieldsOfPlaces, m.field) && m.mapped == nil {
		return meaning{field: noField}
	}
	return m
}

// element walks the values of an element. A broken one is a refused record:
// what came before it in the file is then known to be followed by something.
func (w *jsonWalker) element(e element) {
	if e.problem != "" {
		w.refuse(e.line, e.path, e.problem, "the rest of the file is not read")
		return
	}
	if e.cut > 0 {
		w.walk(nested{value: e.value, line: e.line, path: e.path, cut: e.cut})
		return
	}
	decoder := jsontext.NewDecoder(bytes.NewBuffer(e.value), lenient...)
	for {
		value, err := decoder.ReadValue()
		if errors.Is(err, io.EOF) {
			return
		}
		if err != nil {
			w.refuse(e.line, e.path, "expected JSON, "+jsonProblem(err), "the rest of the line is not read")
			return
		}
		start := int(decoder.InputOffset()) - len(value)
		w.walk(nested{value: e.value[start : start+len(value)], line: e.line + newlines(e.value[:start]), path: e.path})
	}
}

// refuse hands over a record of which nothing can be read.
func (w *jsonWalker) refuse(line int, path, expected, hint string) {
	w.to.begin(line, path)
	w.to.fault(expected, hint)
	w.to.end()
}

func jsonProblem(err error) string {
	var syntactic *jsontext.SyntacticError
	if errors.As(err, &syntactic) {
		return syntactic.Err.Error()
	}
	return err.Error()
}

func (w *jsonWalker) walk(n nested) {
	if w.nesting++; w.nesting > maxNesting {
		w.refuse(n.line, n.path, fmt.Sprintf("expected at most %d levels of nesting", maxNesting), "")
	} else {
		switch n.value[0] {
		case '{':
			w.walkObject(n)
		case '[':
			n.elements(func(inner nested) bool { w.walk(inner); return true })
		default:
			w.refuse(n.line, n.path, "expected an object, found "+shown(validText(n.value)), "")
		}
	}
	w.nesting--
}

// walkObject reads one object: its values first, then what is nested in it. It
// is a record when it holds none, though not a hole whose list of shots is empty
// nor an object of which the rest is lost.
func (w *jsonWalker) walkObject(object nested) {
	outer, fault := len(w.values), w.fault
	w.line = object.line
	var inside []nested
	emptyList := false
	object.members(func(key string, member nested) bool {
		switch member.value[0] {
		case '[', '{':
			switch {
			case w.holdsRecords(member, w.nesting):
				inside = append(inside, member)
			case member.value[0] == '{':
				w.takeObject(member, outer)
			case len(bytes.Trim(member.value, "[] \t\r\n")) == 0:
				emptyList = true
			default:
				w.unused[key] = true
			}
		case 'n':
		default:
			w.take(object.name, key, member.value, outer)
		}
		return true
	})
	for _, array := range inside {
		w.walk(array)
	}
	if inside == nil && object.cut == 0 && (!emptyList || w.saysOfAShot(outer)) {
		w.record(object)
	}
	w.values, w.fault = w.values[:outer], fault
}

// saysOfAShot reports whether the object whose values begin at from has one that
// only a shot, or the score of a hole, has.
func (w *jsonWalker) saysOfAShot(from int) bool {
	return slices.ContainsFunc(w.values[from:], func(v keyedValue) bool {
		return slices.Contains([]field{shot, lie, toHole, puttLength, latitude, x, holeScore}, v.meaning.field)
	})
}

// take keeps a value of the object whose values begin at from.
func (w *jsonWalker) take(outer, key string, value []byte, from int) {
	m := w.meaningOf(outer, key)
	if m.field == noField {
		if !(key == "type" && bytes.Contains(value, []byte("Feature"))) { // GeoJSON
			w.unused[key] = true
		}
		return
	}
	text := scalarText(value)
	if !utf8.Valid(value) {
		w.seen.meet(foreignText, text, w.line)
	}
	w.keep(m, key, text, from)
}

func (w *jsonWalker) keep(m meaning, key string, text []byte, from int) {
	for i := range w.values[from:] {
		earlier := &w.values[from+i]
		switch {
		case earlier.meaning.field != m.field:
		case earlier.meaning.mapped != nil && m.mapped == nil: // what the user mapped goes first
			w.unused[key] = true
			return
		case earlier.meaning.mapped == nil && m.mapped != nil:
			w.unused[earlier.key] = true
			*earlier = keyedValue{m, key, text, from}
			return
		default:
			w.fault = fmt.Sprintf("expected one key for %s, found %q and %q", m.field, earlier.key, key)
		}
	}
	w.values = append(w.values, keyedValue{m, key, text, from})
}

// record hands over a record; of values for one field the innermost counts.
func (w *jsonWalker) record(object nested) {
	w.to.begin(object.line, object.path)
	if w.fault != "" {
		w.to.fault(w.fault, "")
	}
	var innermost [fieldCount]int
	for i := range w.values {
		innermost[w.values[i].meaning.field] = i
	}
	counts := func(v *keyedValue, i int) bool {
		return innermost[v.meaning.field] == i && !(v.meaning.field.ofScorecard() && w.isOutside(v, innermost[hole]))
	}
	for i := range w.values {
		if v := &w.values[i]; counts(v, i) {
			w.to.set(&v.meaning, v.text)
		}
	}
	if w.to.end() {
		return
	}
	var names []string
	var meanings []meaning
	var cells [][]byte
	for i := range w.values {
		if v := &w.values[i]; counts(v, i) {
			names, meanings, cells = append(names, v.key), append(meanings, v.meaning), append(cells, v.text)
		}
	}
	w.to.original(names, meanings, cells)
}

// isOutside reports whether a value stands in an object around the one that says
// which hole it is, where it speaks of a round.
func (w *jsonWalker) isOutside(v *keyedValue, holeAt int) bool {
	says := &w.values[holeAt]
	return says.meaning.field == hole && v.object < says.object
}

// holdsRecords reports whether a value is an array of records, or holds such
// arrays.
func (w *jsonWalker) holdsRecords(n nested, depth int) bool {
	holds := false
	if depth > maxNesting {
		return false
	}
	if n.value[0] == '{' {
		n.members(func(_ string, member nested) bool {
			holds = (member.value[0] == '[' || member.value[0] == '{') && w.holdsRecords(member, depth+1)
			return !holds
		})
		return holds
	}
	n.elements(func(element nested) bool {
		if element.value[0] == '{' {
			element.members(func(key string, member nested) bool {
				switch member.value[0] {
				case '[':
					holds = bytes.IndexByte(member.value, '{') >= 0
				case '{':
					holds = w.saysSomething(member)
				case 'n':
				default:
					holds = w.meaningOf(element.name, key).field != noField
				}
				return !holds
			})
		}
		return !holds
	})
	return holds
}

// saysSomething reports whether a key of an object means a field.
func (w *jsonWalker) saysSomething(object nested) bool {
	says := false
	object.members(func(key string, member nested) bool {
		says = member.value[0] != 'n' && w.meaningOf(object.name, key).field != noField
		return !says
	})
	return says
}
