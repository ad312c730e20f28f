package store

import (
	"fmt"
	"iter"
	"slices"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
)

// roomBytes is how much is made room for at a time, to unpack small pieces into.
const roomBytes = 1 << 20

// part is rows [from, to) of a piece that is kept.
type part struct {
	Kept
	from, to int
}

// opened is parts of pieces, unpacked. Columns can be made of it, also several at once.
type opened struct {
	schema *arrow.Schema
	parts  []part
	rows   int
	raw    [][]byte // by part: what was packed, and a little more
	starts []int32  // in raw, of the columns of the first part, of the second ...
}

// open unpacks pieces.
func (p *Pile) open(parts []part) (*opened, error) {
	o := &opened{schema: p.schema, parts: parts, raw: make([][]byte, len(parts))}
	fields := p.schema.Fields()
	o.starts = make([]int32, 0, len(parts)*len(fields))
	var packed, room []byte
	for i, part := range parts {
		var err error
		if packed, err = p.bytes(part.Kept, packed); err != nil {
			return nil, err
		}
		size, err := unpackedSize(packed)
		if err == nil {
			if len(room) < size+beyond {
				room = make([]byte, max(size+beyond, min(roomBytes, len(parts)*(size+beyond))))
			}
			err = unpack(room[:size], packed)
		}
		if err != nil {
			return nil, fmt.Errorf("rows did not come back as they were put aside: %w", err)
		}
		o.raw[i], room = room[:size+beyond], room[size:]
		o.rows += part.to - part.from
		rest := unpacker{o.raw[i], int(part.Rows)}
		for _, field := range fields {
			o.starts = append(o.starts, int32(len(o.raw[i])-len(rest.raw)))
			rest.column(field.Type)
		}
	}
	return o, nil
}

// each is the packed column of every part.
func (o *opened) each(column int) iter.Seq2[part, packedColumn] {
	as := o.schema.Field(column).Type
	return func(yield func(part, packedColumn) bool) {
		for i, part := range o.parts {
			rest := unpacker{o.raw[i][o.starts[i*o.schema.NumFields()+column]:], int(part.Rows)}
			if !yield(part, rest.column(as)) {
				return
			}
		}
	}
}

// dense is a column without its nulls.
type dense struct {
	rows    int
	present []byte  // a bit of every row: whether it has a value
	there   int     // how many have one
	values  []byte  // those that are there
	answers []bool  // those that are there, of a column of answers
	codes   []int32 // those that are there, of a column of words, as places in a list
}

// clear makes room for so many rows.
func (d *dense) clear(rows int) {
	size := int(bitutil.BytesForBits(int64(rows)))
	d.rows, d.there, d.present = 0, 0, slices.Grow(d.present[:0], size)[:size]
	clear(d.present)
	d.values, d.answers, d.codes = d.values[:0], d.answers[:0], d.codes[:0]
}

// add appends which rows of a part have a value.
func (d *dense) add(part part, present presence) {
	n := part.to - part.from
	switch {
	case present.none:
	case present.all:
		bitutil.SetBitsTo(d.present, int64(d.rows), int64(n), true)
	default:
		bitutil.CopyBitmap(present.bits, part.from, n, d.present, d.rows)
	}
	d.rows += n
	d.there += present.count(part.from, part.to)
}

// values makes a column of values of so many bytes each.
func (o *opened) values(column, width int, into *dense) {
	into.clear(o.rows)
	into.values = slices.Grow(into.values, width*o.rows)
	for part, packed := range o.each(column) {
		into.add(part, packed.presence)
		if !packed.none {
			before, within := packed.count(0, part.from), packed.count(part.from, part.to)
			into.values = append(into.values, packed.values[before*width:(before+within)*width]...)
		}
	}
}

// answers makes a column of answers.
func (o *opened) answers(column int, into *dense) {
	into.clear(o.rows)
	into.answers = slices.Grow(into.answers, o.rows)
	for part, packed := range o.each(column) {
		into.add(part, packed.presence)
		for row := part.from; row < part.to && !packed.none; row++ {
			if packed.all || packed.bit(row) == 1 {
				into.answers = append(into.answers, bitutil.BitIsSet(packed.values, row))
			}
		}
	}
}

// words makes a column of words, and lists them in the order in which they are met.
func (o *opened) words(column int, into *dense) []string {
	into.clear(o.rows)
	words := &recoder{places: map[string]int32{}}
	for part, packed := range o.each(column) {
		into.add(part, packed.presence)
		if !packed.none {
			into.codes = words.recode(into.codes, &packed, part.from, part.to)
		}
	}
	return words.met
}

// column makes a column of all parts, with 0 where there is no value.
func (o *opened) column(column int) arrow.Array {
	var d dense
	d.clear(o.rows)
	as := o.schema.Field(column).Type
	var values []byte
	var words *recoder
	var codes []int32
	width := 0
	switch as.ID() {
	case arrow.BOOL:
		values = make([]byte, len(d.present))
	case arrow.DICTIONARY:
		words = &recoder{places: map[string]int32{}}
		width = 4
	default:
		width = as.(arrow.FixedWidthDataType).Bytes()
	}
	if width > 0 {
		values = make([]byte, width*o.rows)
	}
	for part, packed := range o.each(column) {
		at, from, n := d.rows, part.from, part.to-part.from
		d.add(part, packed.presence)
		switch {
		case packed.none:
		case words != nil:
			codes = words.recode(codes[:0], &packed, from, part.to)
			packed.spread(values[4*at:], arrow.GetBytes(append(codes, make([]int32, beyond/4)...)), from, n, 4)
		case width > 0:
			packed.spread(values[width*at:], packed.values[packed.count(0, from)*width:], from, n, width)
		default:
			bitutil.CopyBitmap(packed.values, from, n, values, at)
		}
	}
	nulls := o.rows - d.there
	var validity *memory.Buffer
	if nulls > 0 {
		validity = memory.NewBufferBytes(d.present)
	}
	data := func(as arrow.DataType) arrow.ArrayData {
		return array.NewData(as, o.rows, []*memory.Buffer{validity, memory.NewBufferBytes(values)}, nil, nulls, 0)
	}
	if words != nil {
		return array.NewDictionaryArray(as, array.NewInt32Data(data(arrow.PrimitiveTypes.Int32)), words.list())
	}
	return array.MakeFromData(data(as))
}
