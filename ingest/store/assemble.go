package store

import (
	"encoding/binary"
	"math/bits"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
)

// assemble makes one batch of pieces. Dictionaries are joined into one that holds
// only the words in use, in the order they first appear, so that the bytes do not
// depend on how the input was cut.
func assemble(schema *arrow.Schema, pieces []piece) arrow.RecordBatch {
	rows := 0
	unpackers := make([]*unpacker, len(pieces))
	for i, p := range pieces {
		rows += p.to - p.from
		unpackers[i] = p.open()
	}
	columns := make([]arrow.Array, schema.NumFields())
	for i := range columns {
		columns[i] = join(schema.Field(i).Type, i, unpackers, rows)
	}
	return array.NewRecordBatch(schema, columns, int64(rows))
}

// join makes the next column of all pieces, with 0 where there is no value.
func join(as arrow.DataType, column int, pieces []*unpacker, rows int) arrow.Array {
	present := make([]byte, bitutil.BytesForBits(int64(rows)))
	var values []byte
	var words *recoder
	bytes := 0
	switch as.ID() {
	case arrow.BOOL:
		values = make([]byte, len(present))
	case arrow.DICTIONARY:
		words = newRecoder()
		values = make([]byte, 4*rows)
	default:
		bytes = as.(arrow.FixedWidthDataType).Bytes()
		values = make([]byte, bytes*rows)
	}
	at, nulls := 0, 0
	for _, p := range pieces {
		n := p.to - p.from
		var part presence
		switch {
		case words != nil:
			part = p.words(column, values[4*at:], words)
		case bytes > 0:
			part = p.fixed(values[bytes*at:], bytes)
		default:
			part = p.answers(values, at)
		}
		switch {
		case part.all:
			bitutil.SetBitsTo(present, int64(at), int64(n), true)
		case part.none:
			nulls += n
		default:
			bitutil.CopyBitmap(part.bits, p.from, n, present, at)
			nulls += n - bitutil.CountSetBits(present, at, n)
		}
		at += n
	}
	var validity *memory.Buffer
	if nulls > 0 {
		validity = memory.NewBufferBytes(present)
	}
	data := func(as arrow.DataType) arrow.ArrayData {
		return array.NewData(as, rows, []*memory.Buffer{validity, memory.NewBufferBytes(values)}, nil, nulls, 0)
	}
	if words != nil {
		return array.NewDictionaryArray(as, array.NewInt32Data(data(arrow.PrimitiveTypes.Int32)), words.list())
	}
	return array.MakeFromData(data(as))
}

// A recoder joins dictionaries: it gives every word the place at which it was first
// met.
type recoder struct {
	met       []string
	places    map[string]int32
	recodings map[arrow.Array][]int32 // places of the words of a dictionary, -1 where not met
}

func newRecoder() *recoder { return &recoder{nil, map[string]int32{}, map[arrow.Array][]int32{}} }

// of are the places of the words of a dictionary as far as they are known.
func (r *recoder) of(dictionary arrow.Array) []int32 {
	known := r.recodings[dictionary]
	if known == nil {
		known = make([]int32, dictionary.Len())
		for i := range known {
			known[i] = -1
		}
		r.recodings[dictionary] = known
	}
	return known
}

func (r *recoder) place(word string) int32 {
	place, known := r.places[word]
	if !known {
		place = int32(len(r.met))
		r.places[word] = place
		r.met = append(r.met, word)
	}
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

// An unpacker takes a piece apart, column after column.
type unpacker struct {
	piece
	raw []byte
}

func (u *unpacker) take(n int) []byte {
	taken := u.raw[:n]
	u.raw = u.raw[n:]
	return taken
}

// presence reads which rows have a value, and how many of them lie before and
// within the rows of the piece, and in all.
func (u *unpacker) presence() (present presence, before, within, all int) {
	switch u.take(1)[0] {
	case allPresent:
		return presence{all: true}, u.from, u.to - u.from, u.rows
	case nonePresent:
		return presence{none: true}, 0, 0, 0
	}
	present.bits = u.take(int(bitutil.BytesForBits(int64(u.rows))))
	return present, bitutil.CountSetBits(present.bits, 0, u.from), bitutil.CountSetBits(present.bits, u.from, u.to-u.from), bitutil.CountSetBits(present.bits, 0, u.rows)
}

// fixed puts the values, so many bytes each, where they belong.
func (u *unpacker) fixed(into []byte, bytes int) presence {
	present, before, within, all := u.presence()
	values := u.take(all * bytes)[before*bytes : (before+within)*bytes]
	if present.all {
		copy(into, values)
		return present
	}
	present.each(u.from, u.to, func(row int) {
		copy(into[(row-u.from)*bytes:][:bytes], values)
		values = values[bytes:]
	})
	return present
}

// words puts recoded codes where they belong.
func (u *unpacker) words(column int, into []byte, words *recoder) presence {
	present, before, within, all := u.presence()
	dictionary := u.lists[column]
	width := codeWidth(dictionary)
	values := u.take(all * width)[before*width : (before+within)*width]
	known := words.of(dictionary)
	next := func(row int) {
		var code uint32
		for i, b := range values[:width] {
			code |= uint32(b) << (8 * i)
		}
		values = values[width:]
		if known[code] < 0 {
			known[code] = words.place(dictionary.(*array.String).Value(int(code)))
		}
		binary.NativeEndian.PutUint32(into[4*(row-u.from):], uint32(known[code]))
	}
	if present.all {
		for row := u.from; row < u.to; row++ {
			next(row)
		}
	} else {
		present.each(u.from, u.to, next)
	}
	return present
}

// answers puts bits where they belong.
func (u *unpacker) answers(into []byte, at int) presence {
	present, _, _, _ := u.presence()
	if !present.none {
		bitutil.CopyBitmap(u.take(int(bitutil.BytesForBits(int64(u.rows)))), u.from, u.to-u.from, into, at)
	}
	return present
}

// each calls do for every row of [from, to) that some, but not all, have a value.
func (p presence) each(from, to int, do func(row int)) {
	if p.none {
		return
	}
	for row := from; row < to; {
		byteOf := p.bits[row>>3] >> (row & 7)
		if byteOf == 0 {
			row = row&^7 + 8
			continue
		}
		row += bits.TrailingZeros8(byteOf)
		if row >= to {
			return
		}
		do(row)
		row++
	}
}
