package ingest

import (
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// words is a dictionary-encoded text column. The index knows every spelling
// met, the list only the ones that are stored.
type words struct {
	codes []int32
	list  []string
	index map[string]int32
}

const (
	noWord  int32 = -1
	badWord int32 = -2 // a spelling that the column's vocabulary refuses
)

// code finds the stored word for a spelling, through canonical for one not met
// before in this column.
func (w *words) code(spelling []byte, canonical func(string) (string, bool)) int32 {
	if code, met := w.index[string(spelling)]; met {
		return code
	}
	code := badWord
	if word, ok := canonical(validText(spelling)); ok {
		code = w.add(word)
	}
	if w.index == nil {
		w.index = map[string]int32{}
	}
	w.index[string(spelling)] = code
	return code
}

// add returns the code of a word to be stored as it is. The index always knows
// the stored words themselves.
func (w *words) add(word string) int32 {
	if w.index == nil {
		w.index = make(map[string]int32, len(w.list))
		for code, known := range w.list {
			w.index[known] = int32(code)
		}
	}
	if code, met := w.index[word]; met && code >= 0 {
		return code
	}
	w.list = append(w.list, word)
	w.index[word] = int32(len(w.list) - 1)
	return int32(len(w.list) - 1)
}

// validText reads bytes that are not UTF-8 as Windows-1252, in which every
// byte has a meaning.
func validText(text []byte) string {
	if utf8.Valid(text) {
		return string(text)
	}
	decoded, err := charmap.Windows1252.NewDecoder().Bytes(text)
	if err != nil {
		return string([]rune(string(text)))
	}
	return string(decoded)
}

// appendRecoded is the codes with those of another column behind them.
func (w *words) appendRecoded(from *words) []int32 {
	const unknown = badWord
	recoded := make([]int32, len(from.list))
	for i := range recoded {
		recoded[i] = unknown
	}
	codes := w.codes
	for _, code := range from.codes {
		if code >= 0 {
			if recoded[code] == unknown {
				recoded[code] = w.add(from.list[code])
			}
			code = recoded[code]
		}
		codes = append(codes, code)
	}
	return codes
}

// A shortWord is a spelling of up to 8 bytes as one number, and its code. A
// column has few of them; a table of them saves hashing every lie and club.
type shortWord struct {
	letters uint64
	length  uint8
	code    int32
}

const (
	longestShortWord = 8
	shortWords       = 64 // in the table of a column
)

// shortWordOf is the spelling as a number, and its place in a table.
func shortWordOf(spelling []byte) (letters uint64, place int) {
	for _, letter := range spelling {
		letters = letters<<8 | uint64(letter)
	}
	const golden = 0x9E3779B97F4A7C15 // Knuth's multiplicative hashing
	return letters, int(letters * golden >> 58)
}

// wordCategories knows the category of every word of a lie column.
type wordCategories struct {
	of    func(word string) Category
	known []Category
}

func (c *wordCategories) at(column *words, row int) Category {
	if column.codes == nil || column.codes[row] < 0 {
		return NoCategory
	}
	code := int(column.codes[row])
	for len(c.known) <= code {
		c.known = append(c.known, c.of(column.list[len(c.known)]))
	}
	return c.known[code]
}
