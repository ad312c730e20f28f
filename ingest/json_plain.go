package ingest

import (
	"bytes"
	"unicode/utf8"
)

// A jsonLineFeeder hands the records of JSON lines to a sink: a plain line by
// one loop over its bytes, any other through its walker.
//
// A plain line is one object whose values are strings, numbers, true, false and
// null. What holds of it:
//   - It is sure to be JSON (RFC 8259), and to be what the walker would read.
//     Whatever needs more than a glance is not plain: escapes, numbers with an
//     exponent, what is not UTF-8, two keys for one field, no keys at all.
//   - Nothing is handed on, and nothing remembered of a key, before the line has
//     been seen to its end.
//   - Bytes that it shares with the line before, up to the comma behind a value,
//     say the same: those values are not read again. That line was plain and its
//     record in order, and none of the values hangs on others of its record.
type jsonLineFeeder struct {
	walker   *jsonWalker
	keys     []jsonKey
	before   []byte       // the line before, when it was plain and in order
	members  []jsonMember // of the line at hand; at first those of the line before
	meanings []meaning    // of the members
}

// A jsonKey is a key that has been met, and what it means.
type jsonKey struct {
	quoted  string
	meaning meaning
	known   bool // to the walker
}

// A jsonMember is a key and its value in a line.
type jsonMember struct {
	key      int // its place among the keys
	from, to int // of the text of the value
	null     bool
	next     int // what stands behind the comma
}

// feed hands over lines that start on the given one.
func (f *jsonLineFeeder) feed(lines []byte, line int) {
	for ; len(lines) > 0; line++ {
		text, rest, _ := bytes.Cut(lines, []byte{'\n'})
		if text = withoutComma(text); len(text) > 0 && !f.plain(text, line) {
			f.before = nil
			f.walker.element(element{value: text, line: line})
		}
		lines = rest
	}
}

// plain hands over a plain line; it reports whether the line is one.
func (f *jsonLineFeeder) plain(text []byte, line int) bool {
	shared := f.sharedMembers(text)
	f.members, f.meanings = f.members[:shared], f.meanings[:shared]
	if !f.scan(text) {
		return false
	}
	for i := range f.members {
		if key := &f.keys[f.members[i].key]; !key.known && !f.members[i].null {
			f.introduce(key, text[f.members[i].from:f.members[i].to])
		}
	}
	to := f.walker.to
	to.begin(line, "")
	if shared > 0 {
		to.repeat(f.meanings[:shared])
	}
	for i := shared; i < len(f.members); i++ {
		if f.meanings[i].field != noField {
			to.set(&f.meanings[i], text[f.members[i].from:f.members[i].to])
		}
	}
	f.before = text
	if to.end() {
		return true
	}
	f.before = nil
	var names []string
	var meanings []meaning
	var cells [][]byte
	for i, m := range f.members {
		if f.meanings[i].field != noField {
			quoted := f.keys[m.key].quoted
			names, meanings, cells = append(names, quoted[1:len(quoted)-1]), append(meanings, f.meanings[i]), append(cells, text[m.from:m.to])
		}
	}
	to.original(names, meanings, cells)
	return true
}

// introduce makes a key known to the walker, for what is said of the file.
func (f *jsonLineFeeder) introduce(key *jsonKey, value []byte) {
	name := key.quoted[1 : len(key.quoted)-1]
	if key.meaning.field == noField {
		f.walker.take("", name, value, 0)
		key.known = f.walker.unused[name]
		return
	}
	f.walker.meaningOf("", name)
	key.known = true
}

// sharedMembers is how many members at the start of a line are those of the
// line before, and may be repeated.
func (f *jsonLineFeeder) sharedMembers(text []byte) (shared int) {
	length := sharedPrefix(text, f.before)
	for shared < len(f.members) && f.members[shared].next <= length && f.members[shared].next > 0 {
		if field := f.meanings[shared].field; field.hangsOnLie() || field.ofScorecard() {
			break
		}
		shared++
	}
	return shared
}

// scan reads the members of a line behind those that it has already. It reports
// whether the line is plain.
func (f *jsonLineFeeder) scan(text []byte) bool {
	at, fields, next := 1, uint64(0), 0
	for i, m := range f.members {
		if at, next = m.next, m.key+1; f.meanings[i].field != noField {
			fields |= 1 << f.meanings[i].field
		}
	}
	if text[0] != '{' {
		return false
	}
	for {
		at = passSpaces(text, at)
		key := f.key(text[at:], next)
		if key < 0 {
			return false
		}
		next = key + 1
		at = passSpaces(text, at+len(f.keys[key].quoted))
		if at == len(text) || text[at] != ':' {
			return false
		}
		m := jsonMember{key: key}
		if at = f.value(text, passSpaces(text, at+1), &m); at < 0 {
			return false
		}
		means := f.keys[key].meaning
		if m.null {
			means = meaning{field: noField}
		}
		if means.field != noField {
			if fields>>means.field&1 == 1 {
				return false
			}
			fields |= 1 << means.field
		}
		if at = passSpaces(text, at); at == len(text) {
			return false
		}
		last := text[at] == '}'
		if !last && text[at] != ',' {
			return false
		}
		at++
		if !last {
			m.next = at
		}
		f.members, f.meanings = append(f.members, m), append(f.meanings, means)
		if last {
			return at == len(text)
		}
	}
}

// A field is a bit of what scan has met.
const _ = uint(64 - noField)

func passSpaces(text []byte, at int) int {
	for at < len(text) && text[at] == ' ' {
		at++
	}
	return at
}

// key finds the key that text begins with, first where it stood in the line
// before; -1 when it is not plain. Keys are remembered: those of a file are few.
func (f *jsonLineFeeder) key(text []byte, expected int) int {
	const most = 200
	for i := range f.keys {
		at := expected + i
		if at >= len(f.keys) {
			at -= len(f.keys)
		}
		if quoted := f.keys[at].quoted; len(text) >= len(quoted) && string(text[:len(quoted)]) == quoted {
			return at
		}
	}
	if len(f.keys) == most || len(text) == 0 || text[0] != '"' {
		return -1
	}
	end := jsonString(text, 1)
	if end < 0 {
		return -1
	}
	f.keys = append(f.keys, jsonKey{quoted: string(text[:end+1]), meaning: f.walker.look("", string(text[1:end]))})
	return len(f.keys) - 1
}

// value reads the value at a place and returns where it ends, -1 when it is not
// plain.
func (f *jsonLineFeeder) value(text []byte, at int, m *jsonMember) (end int) {
	if at == len(text) {
		return -1
	}
	switch c := text[at]; {
	case c == '"':
		if end = jsonString(text, at+1); end < 0 {
			return -1
		}
		m.from, m.to = at+1, end
		return end + 1
	case c == '-' || c >= '0' && c <= '9':
		end = jsonNumber(text, at)
	case bytes.HasPrefix(text[at:], []byte("null")):
		m.null = true
		return at + len("null")
	case bytes.HasPrefix(text[at:], []byte("true")):
		end = at + len("true")
	case bytes.HasPrefix(text[at:], []byte("false")):
		end = at + len("false")
	default:
		return -1
	}
	m.from, m.to = at, end
	return end
}

// jsonString is the place of the quote that ends the string whose content
// begins at from; -1 when there is none, or when the content is not as it stands.
func jsonString(text []byte, from int) int {
	all := byte(0)
	for i := from; i < len(text); i++ {
		c := text[i]
		switch {
		case c == '"':
			if all >= utf8.RuneSelf && !utf8.Valid(text[from:i]) {
				return -1
			}
			return i
		case c == '\\' || c < ' ':
			return -1
		}
		all |= c
	}
	return -1
}

// jsonNumber is where a number without exponent ends, -1 when it is none.
func jsonNumber(text []byte, at int) int {
	digits := func() (n int) {
		for ; at < len(text) && text[at] >= '0' && text[at] <= '9'; at++ {
			n++
		}
		return n
	}
	if text[at] == '-' {
		at++
	}
	zero := at < len(text) && text[at] == '0'
	if n := digits(); n == 0 || zero && n > 1 {
		return -1
	}
	if at < len(text) && text[at] == '.' {
		if at++; digits() == 0 {
			return -1
		}
	}
	if at < len(text) && (text[at] == 'e' || text[at] == 'E') {
		return -1
	}
	return at
}
