package store

import (
	"fmt"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/klauspost/compress/s2"
)

// packed is rows of a batch as they are held until their row group is written: column after column only the values that
// are there, words by the shortest codes that do, all of it compressed. A shot takes about a quarter of what it takes in
// a batch.
type packed struct {
	rows  int
	bytes []byte
	lists []arrow.Array // the dictionaries of the batch, nil where a column has none
}

// How a packed column says which rows have a value.
const (
	allPresent byte = iota
	nonePresent
	somePresent // a bitmap follows
)

// A packer packs one batch after another; it keeps its buffer.
type packer struct{ raw []byte }

// listsOf are the dictionaries of a batch, for all that is packed from it.
func listsOf(batch arrow.RecordBatch) []arrow.Array {
	lists := make([]arrow.Array, batch.NumCols())
	for i, column := range batch.Columns() {
		if words, ok := column.(*array.Dictionary); ok {
			lists[i] = words.Dictionary()
		}
	}
	return lists
}

// pack packs rows [from, to) of a batch that has these dictionaries.
func (p *packer) pack(batch arrow.RecordBatch, lists []arrow.Array, from, to int) packed {
	p.raw = p.raw[:0]
	for i, column := range batch.Columns() {
		p.column(column, lists[i], from, to)
	}
	return packed{to - from, slices.Clone(s2.Encode(nil, p.raw)), lists}
}

func (p *packer) column(column, list arrow.Array, from, to int) {
	present := p.presence(column, from, to)
	if present.none {
		return
	}
	switch column := column.(type) {
	case *array.Float64:
		packFixed(p, column.Float64Values()[from:to], present)
	case *array.Int64:
		packFixed(p, column.Int64Values()[from:to], present)
	case *array.Int32:
		packFixed(p, column.Int32Values()[from:to], present)
	case *array.Date32:
		packFixed(p, column.Date32Values()[from:to], present)
	case *array.Boolean:
		data := column.Data()
		p.bits(data.Buffers()[1].Bytes(), data.Offset()+from, to-from)
	case *array.Dictionary:
		p.codes(column.Indices().(*array.Int32).Int32Values()[from:to], codeWidth(list), present)
	default:
		panic(fmt.Sprintf("store: no table holds columns of type %s", column.DataType()))
	}
}

// codes packs codes into a dictionary, so many bytes each.
func (p *packer) codes(codes []int32, width int, present presence) {
	one := func(row int) {
		for i := range width {
			p.raw = append(p.raw, byte(codes[row]>>(8*i)))
		}
	}
	if !present.all {
		present.each(0, len(codes), one)
		return
	}
	for row := range codes {
		one(row)
	}
}

// codeWidth is the bytes that a code into a dictionary takes.
func codeWidth(list arrow.Array) int {
	switch n := list.Len(); {
	case n <= 1<<8:
		return 1
	case n <= 1<<16:
		return 2
	}
	return 4
}

// presence says which of some rows have a value: all, none, or those of the bits.
type presence struct {
	all, none bool
	bits      []byte
}

// presence writes down which rows have a value.
func (p *packer) presence(column arrow.Array, from, to int) presence {
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
func (p *packer) bits(bits []byte, start, n int) []byte {
	at := len(p.raw)
	p.raw = append(p.raw, make([]byte, bitutil.BytesForBits(int64(n)))...)
	bitutil.CopyBitmap(bits, start, n, p.raw[at:], 0)
	return p.raw[at:]
}

func packFixed[V arrow.FixedWidthType](p *packer, values []V, present presence) {
	if present.all {
		p.raw = append(p.raw, arrow.GetBytes(values)...)
		return
	}
	present.each(0, len(values), func(row int) {
		p.raw = append(p.raw, arrow.GetBytes(values[row:row+1])...)
	})
}

// open starts to take the piece apart.
func (p piece) open() *unpacker {
	raw, err := s2.Decode(nil, p.bytes)
	if err != nil {
		panic(err) // it was packed here
	}
	return &unpacker{p, raw}
}
