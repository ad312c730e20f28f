package store

import (
	"encoding/binary"
	"fmt"
	"slices"
	"sync"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/klauspost/compress/s2"
)

// A packed piece says whether it is compressed, and is then column after column: which rows have a value, then only the
// values that are there. A column of words has the words that occur before its codes, which take no more bytes than they
// must. A shot takes about six tenths of what it takes in a batch, and compressed a quarter.

// How a piece begins.
const (
	plainPiece byte = iota
	compressedPiece
)

// How a packed column says which rows have a value.
const (
	allPresent byte = iota
	nonePresent
	somePresent // a bitmap follows
)

// presence is which of some rows have a value: all, none, or those of the bits.
type presence struct {
	all, none bool
	bits      []byte
}

// Packed are pieces of a batch on their way to a pile. They refer to nothing of the batch.
type Packed struct {
	bytes  []byte
	pieces []packedPiece
}

type packedPiece struct {
	key       string
	end, rows int // in the bytes; of the batch
}

// A Packer packs batches of any schema; it keeps its buffers. Columns are of fixed width, booleans, or dictionaries of
// strings with codes of 32 bits.
type Packer struct {
	Compress bool // for what is kept in large numbers: it takes time

	raw      []byte
	meetings []meeting // by the code of a word in its dictionary
	turn     uint32    // counts columns packed
	words    []int32   // codes of the words met, in order
	codes    []int32   // of the rows, as places among the words
}

// meeting is when a word was last met, and its place among the words that were met then.
type meeting struct {
	turn  uint32
	place int32
}

// spent are the bytes of Packed that a pile has taken in.
var spent = sync.Pool{New: func() any { return new(Packed) }}

// Pack packs groups of a batch, each as a piece.
func (p *Packer) Pack(batch arrow.RecordBatch, groups ...Group) *Packed {
	packed := spent.Get().(*Packed)
	bytes, pieces := packed.bytes[:0], packed.pieces[:0]
	for _, g := range groups {
		p.raw = p.raw[:0]
		for _, column := range batch.Columns() {
			p.column(column, g.From, g.To)
		}
		if p.Compress {
			bytes = slices.Grow(append(bytes, compressedPiece), s2.MaxEncodedLen(len(p.raw)))
			bytes = bytes[:len(bytes)+len(s2.Encode(bytes[len(bytes):cap(bytes)], p.raw))]
		} else {
			bytes = append(append(bytes, plainPiece), p.raw...)
		}
		pieces = append(pieces, packedPiece{g.Key, len(bytes), g.To - g.From})
	}
	packed.bytes, packed.pieces = bytes, pieces
	return packed
}

// Keys are the keys of the groups.
func (p *Packed) Keys() []string {
	keys := make([]string, len(p.pieces))
	for i, piece := range p.pieces {
		keys[i] = piece.key
	}
	return keys
}

func (p *Packer) column(column arrow.Array, from, to int) {
	present := p.presence(column, from, to)
	if present.none {
		return
	}
	data := column.Data()
	switch as := column.DataType().(type) {
	case *arrow.BooleanType:
		p.bits(data.Buffers()[1].Bytes(), data.Offset()+from, to-from)
	case *arrow.DictionaryType:
		column := column.(*array.Dictionary)
		p.dictionary(column.Indices().(*array.Int32).Int32Values()[from:to], column.Dictionary().(*array.String), present)
	case arrow.FixedWidthDataType:
		first, width := data.Offset()+from, as.Bytes()
		p.fixed(data.Buffers()[1].Bytes()[first*width:(first+to-from)*width], width, present)
	default:
		panic(fmt.Sprintf("store: no pile keeps columns of type %s", as))
	}
}

// presence writes down which rows have a value.
func (p *Packer) presence(column arrow.Array, from, to int) presence {
	if column.NullN() == 0 {
		p.raw = append(p.raw, allPresent)
		return presence{all: true}
	}
	bits, start := column.NullBitmapBytes(), column.Data().Offset()+from
	switch bitutil.CountSetBits(bits, start, to-from) {
	case to - from:
		p.raw = append(p.raw, allPresent)
		return presence{all: true}
	case 0:
		p.raw = append(p.raw, nonePresent)
		return presence{none: true}
	}
	p.raw = append(p.raw, somePresent)
	return presence{bits: p.bits(bits, start, to-from)}
}

// bits copies n bits that start at one of them, and returns the copy.
func (p *Packer) bits(bits []byte, start, n int) []byte {
	into := p.extend(int(bitutil.BytesForBits(int64(n))))
	clear(into)
	bitutil.CopyBitmap(bits, start, n, into, 0)
	return into
}

// extend makes room for n more bytes.
func (p *Packer) extend(n int) []byte {
	at := len(p.raw)
	p.raw = slices.Grow(p.raw, n)[:at+n]
	return p.raw[at:]
}

// fixed writes values of so many bytes each.
func (p *Packer) fixed(values []byte, width int, present presence) {
	if present.all {
		p.raw = append(p.raw, values...)
		return
	}
	into, n := p.extend(len(values)), 0
	switch width { // every value is written, and the next one over it if it is not there
	case 4:
		for row := range len(values) / 4 {
			binary.NativeEndian.PutUint32(into[n:], binary.NativeEndian.Uint32(values[4*row:]))
			n += 4 * present.bit(row)
		}
	case 8:
		for row := range len(values) / 8 {
			binary.NativeEndian.PutUint64(into[n:], binary.NativeEndian.Uint64(values[8*row:]))
			n += 8 * present.bit(row)
		}
	default:
		for row := range len(values) / width {
			copy(into[n:n+width], values[row*width:])
			n += width * present.bit(row)
		}
	}
	p.raw = p.raw[:len(p.raw)-len(into)+n]
}

// bit is 1 if a row has a value, of which some, but not all, have one.
func (p presence) bit(row int) int { return int(p.bits[row>>3] >> (row & 7) & 1) }

// dictionary writes the words in use and the codes of the rows.
func (p *Packer) dictionary(codes []int32, list *array.String, present presence) {
	if p.turn++; p.turn == 0 {
		clear(p.meetings)
		p.turn = 1
	}
	if n := list.Len() - len(p.meetings); n > 0 {
		p.meetings = append(p.meetings, make([]meeting, n)...)
	}
	p.words, p.codes = p.words[:0], p.codes[:0]
	for row, code := range codes {
		if !present.all && present.bit(row) == 0 {
			continue
		}
		m := &p.meetings[code]
		if m.turn != p.turn {
			*m = meeting{p.turn, int32(len(p.words))}
			p.words = append(p.words, code)
		}
		p.codes = append(p.codes, m.place)
	}
	p.raw = binary.AppendUvarint(p.raw, uint64(len(p.words)))
	for _, code := range p.words {
		word := list.Value(int(code))
		p.raw = append(binary.AppendUvarint(p.raw, uint64(len(word))), word...)
	}
	switch codeWidth(len(p.words)) {
	case 1:
		for _, code := range p.codes {
			p.raw = append(p.raw, byte(code))
		}
	case 2:
		for _, code := range p.codes {
			p.raw = binary.NativeEndian.AppendUint16(p.raw, uint16(code))
		}
	case 4:
		p.raw = append(p.raw, arrow.GetBytes(p.codes)...)
	}
}

// codeWidth is the bytes that the code of one of so many words takes.
func codeWidth(words int) int {
	switch {
	case words <= 1:
		return 0
	case words <= 1<<8:
		return 1
	case words <= 1<<16:
		return 2
	}
	return 4
}
