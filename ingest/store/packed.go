package store

import (
	"encoding/binary"
	"fmt"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/klauspost/compress/s2"
)

// packed is rows of a batch as they are held until their row group is written: column after column only the values that
// are there, words by the shortest codes that do, all of it compressed. A shot takes about a sixth of what it takes in a
// batch.
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
		codes := column.Indices().(*array.Int32).Int32Values()[from:to]
		switch width := codeWidth(list); width {
		case 1:
			for row, code := range codes {
				if present.at(row) {
					p.raw = append(p.raw, byte(code))
				}
			}
		case 2:
			for row, code := range codes {
				if present.at(row) {
					p.raw = binary.LittleEndian.AppendUint16(p.raw, uint16(code))
				}
			}
		default:
			packFixed(p, codes, present)
		}
	default:
		panic(fmt.Sprintf("store: no table holds columns of type %s", column.DataType()))
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

// presence says which of some rows have a value.
type presence struct {
	all, none bool
	bits      []byte
	from      int
}

func (p presence) at(row int) bool {
	return p.all || p.bits[(p.from+row)>>3]>>((p.from+row)&7)&1 != 0
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
	p.bits(bits, start, to-from)
	return presence{bits: bits, from: start}
}

// bits copies n bits that start at one of them.
func (p *packer) bits(bits []byte, start, n int) {
	at := len(p.raw)
	p.raw = append(p.raw, make([]byte, bitutil.BytesForBits(int64(n)))...)
	bitutil.CopyBitmap(bits, start, n, p.raw[at:], 0)
}

func packFixed[V arrow.FixedWidthType](p *packer, values []V, present presence) {
	if present.all {
		p.raw = append(p.raw, arrow.GetBytes(values)...)
		return
	}
	for row := range values {
		if present.at(row) {
			p.raw = append(p.raw, arrow.GetBytes(values[row:row+1])...)
		}
	}
}

// unpack makes a batch of the rows again, with 0 where there is no value.
func (p packed) unpack(schema *arrow.Schema) arrow.RecordBatch {
	raw, err := s2.Decode(nil, p.bytes)
	if err != nil {
		panic(err) // it was packed here
	}
	u := unpacker{raw: raw, rows: p.rows}
	columns := make([]arrow.Array, schema.NumFields())
	for i := range columns {
		columns[i] = u.column(schema.Field(i).Type, p.lists[i])
	}
	return array.NewRecordBatch(schema, columns, int64(p.rows))
}

type unpacker struct {
	raw  []byte
	rows int
}

func (u *unpacker) take(n int) []byte {
	taken := u.raw[:n]
	u.raw = u.raw[n:]
	return taken
}

func (u *unpacker) column(as arrow.DataType, list arrow.Array) arrow.Array {
	present := presence{}
	var validity *memory.Buffer
	nulls := 0
	bitmap := int(bitutil.BytesForBits(int64(u.rows)))
	switch u.take(1)[0] {
	case allPresent:
		present.all = true
	case nonePresent:
		present.none = true
		nulls = u.rows
		validity = memory.NewBufferBytes(make([]byte, bitmap))
	case somePresent:
		present.bits = u.take(bitmap)
		nulls = u.rows - bitutil.CountSetBits(present.bits, 0, u.rows)
		validity = memory.NewBufferBytes(present.bits)
	}
	data := func(as arrow.DataType, values []byte) arrow.ArrayData {
		return array.NewData(as, u.rows, []*memory.Buffer{validity, memory.NewBufferBytes(values)}, nil, nulls, 0)
	}
	switch as.ID() {
	case arrow.BOOL:
		values := make([]byte, bitmap)
		if !present.none {
			copy(values, u.take(bitmap))
		}
		return array.MakeFromData(data(as, values))
	case arrow.DICTIONARY:
		codes := make([]byte, 4*u.rows)
		u.values(codes, 4, codeWidth(list), present)
		return array.NewDictionaryArray(as, array.NewInt32Data(data(arrow.PrimitiveTypes.Int32, codes)), list)
	}
	width := as.(arrow.FixedWidthDataType).Bytes()
	values := make([]byte, width*u.rows)
	u.values(values, width, width, present)
	return array.MakeFromData(data(as, values))
}

// values puts what is there, so many bytes each, into places of width bytes.
func (u *unpacker) values(into []byte, width, bytes int, present presence) {
	switch {
	case present.none:
		return
	case present.all && width == bytes:
		copy(into, u.take(len(into)))
		return
	}
	for row := range u.rows {
		if present.at(row) {
			copy(into[row*width:], u.take(bytes))
		}
	}
}
