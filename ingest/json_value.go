package ingest

import (
	"bytes"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/go-json-experiment/json/jsontext"
)

// What one record does wrong is for the record to say, not for the decoder.
var lenient = []jsontext.Options{jsontext.AllowDuplicateNames(true), jsontext.AllowInvalidUTF8(true)}

// nested is a value inside a document, known to be JSON, and where it stands.
type nested struct {
	value []byte
	line  int
	path  string
	name  string // the key it stands under, "" for none
	cut   int    // where a value that was not whole has been closed, 0 for a whole one
}

// cutOf is the same of a value inside, which begins at start.
func (n nested) cutOf(start, length int) int {
	if n.cut == 0 || start+length <= n.cut {
		return 0
	}
	return n.cut - start
}

// elements visits what an array holds, until visit returns false.
func (n nested) elements(visit func(nested) bool) {
	decoder := jsontext.NewDecoder(bytes.NewBuffer(n.value), lenient...)
	decoder.ReadToken()
	line, counted := n.line, 0
	for i := 0; decoder.PeekKind() != ']'; i++ {
		value, err := decoder.ReadValue()
		if err != nil {
			return
		}
		start := int(decoder.InputOffset()) - len(value)
		line += newlines(n.value[counted:start])
		counted = start
		inner := nested{n.value[start : start+len(value)], line, n.path + "[" + strconv.Itoa(i) + "]", strings.TrimSuffix(n.name, "s"), n.cutOf(start, len(value))}
		if !visit(inner) {
			return
		}
	}
}

// members visits the keys of an object, until visit returns false.
func (n nested) members(visit func(key string, member nested) bool) {
	decoder := jsontext.NewDecoder(bytes.NewBuffer(n.value), lenient...)
	decoder.ReadToken()
	for decoder.PeekKind() == '"' {
		token, err := decoder.ReadToken()
		if err != nil {
			return
		}
		key := token.String()
		value, err := decoder.ReadValue()
		if err != nil {
			return
		}
		start := int(decoder.InputOffset()) - len(value)
		member := nested{value: n.value[start : start+len(value)], name: key, cut: n.cutOf(start, len(value))}
		if kind := member.value[0]; kind == '[' || kind == '{' {
			member.line, member.path = n.line+newlines(n.value[:start]), n.path+"."+key
		}
		if !visit(key, member) {
			return
		}
	}
}

func scalarText(value []byte) []byte {
	if value[0] != '"' {
		return value
	}
	if !utf8.Valid(value) {
		value = []byte(validText(value))
	}
	text, err := jsontext.AppendUnquote(nil, value)
	if err != nil {
		return value
	}
	return text
}

func newlines(text []byte) int { return bytes.Count(text, []byte{'\n'}) }
