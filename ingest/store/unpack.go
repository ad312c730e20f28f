package store

import (
	"bytes"
	"encoding/binary"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/klauspost/compress/s2"
)

// beyond is how far past the last value a loop may read.
const beyond = 8

// unpackedSize is how many bytes a piece unpacks to.
func unpackedSize(piece []byte) (int, error) {
	if piece[0] == plainPiece {
		return len(piece) - 1, nil
	}
	return s2.DecodedLen(piece[1:])
}

func unpack(into, piece []byte) (err error) {
	if piece[0] == plainPiece {
		copy(into, piece[1:])
	} else {
		_, err = s2.Decode(into, piece[1:])
	}
	return err
}

// An unpacker takes a piece of so many rows apart, column after column.
type unpacker struct {
	raw  []byte
	rows int
}

// packedColumn is a column of a piece.
type packedColumn struct {
	presence
	values    []byte // those that are there, or codes, and beyond; answers as bits
	words     []byte // each after its length
	wordCount int
}

// column takes the next column off.
func (u *unpacker) column(as arrow.DataType) (c packedColumn) {
	there := u.rows
	switch u.take(1)[0] {
	case allPresent:
		c.all = true
	case nonePresent:
		c.none = true
		return c
	default:
		c.bits = u.take(int(bitutil.BytesForBits(int64(u.rows))))
		there = bitutil.CountSetBits(c.bits, 0, u.rows)
	}
	switch as := as.(type) {
	case *arrow.BooleanType:
		c.values = u.take(int(bitutil.BytesForBits(int64(u.rows))))
	case *arrow.DictionaryType:
		c.wordCount = u.number()
		c.words = u.raw
		for range c.wordCount {
			u.take(u.number())
		}
		c.values = u.take(there * codeWidth(c.wordCount))
	case arrow.FixedWidthDataType:
		c.values = u.take(there * as.Bytes())
	}
	return c
}

// take takes bytes off; those beyond can be read.
func (u *unpacker) take(n int) []byte {
	taken := u.raw[:n+beyond]
	u.raw = u.raw[n:]
	return taken
}

func (u *unpacker) number() int {
	n, size := binary.Uvarint(u.raw)
	u.raw = u.raw[size:]
	return int(n)
}

// count is how many of rows [from, to) have a value.
func (p presence) count(from, to int) int {
	switch {
	case p.all:
		return to - from
	case p.none:
		return 0
	}
	return bitutil.CountSetBits(p.bits, from, to-from)
}

// spread puts values, so many bytes each, into n rows where they belong; the first of them is that of row from or after.
func (p presence) spread(into, values []byte, from, n, width int) {
	if p.all {
		copy(into[:n*width], values)
		return
	}
	at := 0
	switch width {
	case 4:
		for row := range n {
			there := p.bit(from + row)
			binary.NativeEndian.PutUint32(into[4*row:], binary.NativeEndian.Uint32(values[at:])&-uint32(there))
			at += 4 * there
		}
	case 8:
		for row := range n {
			there := p.bit(from + row)
			binary.NativeEndian.PutUint64(into[8*row:], binary.NativeEndian.Uint64(values[at:])&-uint64(there))
			at += 8 * there
		}
	default:
		for row := range n {
			if p.bit(from+row) == 1 {
				copy(into[width*row:], values[at:at+width])
				at += width
			}
		}
	}
}

// A recoder joins the words of pieces: it gives every word the place at which it was first met.
type recoder struct {
	met    []string
	places map[string]int32
	words  [][]byte // of the piece at hand
	known  []int32  // their places, -1 where not met
}

// recode appends the places of the words of rows [from, to) that have one.
func (r *recoder) recode(codes []int32, c *packedColumn, from, to int) []int32 {
	r.open(c)
	before, n := c.count(0, from), c.count(from, to)
	width := codeWidth(c.wordCount)
	values := c.values[before*width:]
	switch width {
	case 0:
		for range n {
			codes = append(codes, r.place(0))
		}
	case 1:
		for _, code := range values[:n] {
			codes = append(codes, r.place(int(code)))
		}
	case 2:
		for i := range n {
			codes = append(codes, r.place(int(binary.NativeEndian.Uint16(values[2*i:]))))
		}
	case 4:
		for i := range n {
			codes = append(codes, r.place(int(binary.NativeEndian.Uint32(values[4*i:]))))
		}
	}
	return codes
}

// open turns to the words of another piece. Most are the same, in the same order, as those of the piece before.
func (r *recoder) open(c *packedColumn) {
	rest := unpacker{raw: c.words}
	for i := range c.wordCount {
		n := rest.number()
		word := rest.take(n)[:n]
		if i == len(r.words) {
			r.words, r.known = append(r.words, nil), append(r.known, -1)
		}
		if !bytes.Equal(word, r.words[i]) {
			r.words[i], r.known[i] = word, -1
		}
	}
}

// place is the place of a word of the piece at hand.
func (r *recoder) place(code int) int32 {
	if place := r.known[code]; place >= 0 {
		return place
	}
	return r.find(code)
}

func (r *recoder) find(code int) int32 {
	place, met := r.places[string(r.words[code])]
	if !met {
		place = int32(len(r.met))
		word := string(r.words[code])
		r.places[word] = place
		r.met = append(r.met, word)
	}
	r.known[code] = place
	return place
}

func (r *recoder) list() arrow.Array {
	builder := array.NewStringBuilder(memory.DefaultAllocator)
	if r.met == nil {
		builder.Append("") // a null's code must stand for something
	}
	builder.AppendValues(r.met, nil)
	return builder.NewStringArray()
}
