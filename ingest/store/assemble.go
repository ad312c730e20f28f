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
	levels  []int16 // of every row: 1 if it has a value, 0 if not
	values  []byte  // those that are there
	answers []bool  // those that are there, of a column of answers
}

// values makes a column of values of so many bytes each.
func (o *opened) values(column, width int, into *dense) {
	into.levels, into.values = slices.Grow(into.levels[:0], o.rows), slices.Grow(into.values[:0], width*o.rows)
	for part, packed := range o.each(column) {
		into.present(part, packed.presence)
		if !packed.none {
			before, within := packed.count(0, part.from), packed.count(part.from, part.to)
			into.values = append(into.values, packed.values[before*width:(before+within)*width]...)
		}
	}
}

// answers makes a column of answers.
func (o *opened) answers(column int, into *dense) {
	into.levels, into.answers = slices.Grow(into.levels[:0], o.rows), slices.Grow(into.answers[:0], o.rows)
	for part, packed := range o.each(column) {
		into.present(part, packed.presence)
		for row := part.from; row < part.to && !packed.none; row++ {
			if packed.all || packed.bit(row) == 1 {
				into.answers = append(into.answers, bitutil.BitIsSet(packed.values, row))
			}
		}
	}
}

// present appends which rows of a part have a value.
func (d *dense) present(part part, present presence) {
	from := len(d.levels)
	d.levels = d.levels[:from+part.to-part.from]
	levels := d.levels[from:]
	switch {
	case present.none:
		clear(levels)
	case present.all:
		for i := range levels {
			levels[i] = 1
		}
	default:
		for i := range levels {
			levels[i] = int16(present.bit(part.from + i))
		}
	}
}

// column makes a column of all parts, with 0 where there is no value.
func (o *opened) column(column int) arrow.Array {
	present := make([]byte, bitutil.BytesForBits(int64(o.rows)))
	as := o.schema.Field(column).Type
	var values []byte
	var words *recoder
	width := 0
	switch as.ID() {
	case arrow.BOOL:
		values = make([]byte, len(present))
	case arrow.DICTIONARY:
		words = &recoder{places: map[string]int32{}}
		width = 4
	default:
		width = as.(arrow.FixedWidthDataType).Bytes()
	}
	if width > 0 {
		values = make([]byte, width*o.rows)
	}
	at, nulls := 0, 0
	for part, packed := range o.each(column) {
		from, n := part.from, part.to-part.from
		nulls += n - packed.count(from, part.to)
		switch {
		case packed.none:
			at += n
			continue
		case packed.all:
			bitutil.SetBitsTo(present, int64(at), int64(n), true)
		default:
			bitutil.CopyBitmap(packed.bits, from, n, present, at)
		}
		switch {
		case words != nil:
			packed.spread(values[4*at:], words.recode(&packed, from, part.to), from, n, 4)
		case width > 0:
			packed.spread(values[width*at:], packed.values[packed.count(0, from)*width:], from, n, width)
		default:
			bitutil.CopyBitmap(packed.values, from, n, values, at)
		}
		at += n
	}
	var validity *memory.Buffer
	if nulls > 0 {
		validity = memory.NewBufferBytes(present)
	}
	data := func(as arrow.DataType) arrow.ArrayData {
		return array.NewData(as, o.rows, []*memory.Buffer{validity, memory.NewBufferBytes(values)}, nil, nulls, 0)
	}
	if words != nil {
		return array.NewDictionaryArray(as, array.NewInt32Data(data(arrow.PrimitiveTypes.Int32)), words.list())
	}
	return array.MakeFromData(data(as))
}
