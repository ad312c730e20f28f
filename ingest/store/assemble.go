package store

import (
	"fmt"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
)

// assemble copies pieces into one batch. Dictionaries are joined
// into one that holds only the words in use, in the order they first appear,
// so that the bytes do not depend on how the input was cut.
func assemble(schema *arrow.Schema, pieces []piece) arrow.RecordBatch {
	rows := 0
	for i, p := range pieces {
		rows += p.to - p.from
		if p.batch == nil {
			pieces[i].batch = p.packed.unpack(schema)
		}
	}
	columns := make([]arrow.Array, schema.NumFields())
	for i := range columns {
		columns[i] = joined(schema.Field(i).Type, i, pieces, rows)
	}
	return array.NewRecordBatch(schema, columns, int64(rows))
}

func joined(as arrow.DataType, column int, pieces []piece, rows int) arrow.Array {
	switch as.ID() {
	case arrow.FLOAT64:
		return joinFixed(as, column, pieces, rows, func(a arrow.Array) []float64 { return a.(*array.Float64).Float64Values() })
	case arrow.INT64:
		return joinFixed(as, column, pieces, rows, func(a arrow.Array) []int64 { return a.(*array.Int64).Int64Values() })
	case arrow.INT32:
		return joinFixed(as, column, pieces, rows, func(a arrow.Array) []int32 { return a.(*array.Int32).Int32Values() })
	case arrow.DATE32:
		return joinFixed(as, column, pieces, rows, func(a arrow.Array) []arrow.Date32 { return a.(*array.Date32).Date32Values() })
	case arrow.BOOL:
		return joinBooleans(column, pieces, rows)
	case arrow.DICTIONARY:
		return joinWords(as, column, pieces, rows)
	}
	panic(fmt.Sprintf("store: no table holds columns of type %s", as))
}

// joinValidity copies the null bits; nil when nothing is null.
func joinValidity(column int, pieces []piece, rows int) (bits *memory.Buffer, nulls int) {
	packed := make([]byte, bitutil.BytesForBits(int64(rows)))
	at := 0
	for _, p := range pieces {
		values := p.batch.Column(column)
		n := p.to - p.from
		if values.NullN() == 0 {
			bitutil.SetBitsTo(packed, int64(at), int64(n), true)
		} else {
			bitutil.CopyBitmap(values.NullBitmapBytes(), values.Data().Offset()+p.from, n, packed, at)
			nulls += n - bitutil.CountSetBits(packed, at, n)
		}
		at += n
	}
	if nulls == 0 {
		return nil, 0
	}
	return memory.NewBufferBytes(packed), nulls
}

func joinFixed[V arrow.FixedWidthType](as arrow.DataType, column int, pieces []piece, rows int, get func(arrow.Array) []V) arrow.Array {
	values := make([]V, 0, rows)
	for _, p := range pieces {
		values = append(values, get(p.batch.Column(column))[p.from:p.to]...)
	}
	bits, nulls := joinValidity(column, pieces, rows)
	data := memory.NewBufferBytes(arrow.GetBytes(values))
	return array.MakeFromData(array.NewData(as, rows, []*memory.Buffer{bits, data}, nil, nulls, 0))
}

func joinBooleans(column int, pieces []piece, rows int) arrow.Array {
	packed := make([]byte, bitutil.BytesForBits(int64(rows)))
	at := 0
	for _, p := range pieces {
		data := p.batch.Column(column).Data()
		bitutil.CopyBitmap(data.Buffers()[1].Bytes(), data.Offset()+p.from, p.to-p.from, packed, at)
		at += p.to - p.from
	}
	bits, nulls := joinValidity(column, pieces, rows)
	return array.MakeFromData(array.NewData(arrow.FixedWidthTypes.Boolean, rows,
		[]*memory.Buffer{bits, memory.NewBufferBytes(packed)}, nil, nulls, 0))
}

func joinWords(as arrow.DataType, column int, pieces []piece, rows int) arrow.Array {
	codes := make([]int32, rows)
	var list []string
	index := map[string]int32{}
	recodings := map[arrow.ArrayData][]int32{} // by dictionary, as pieces of one batch share theirs
	at := 0
	for _, p := range pieces {
		words := p.batch.Column(column).(*array.Dictionary)
		dictionary := words.Dictionary().(*array.String)
		recoded := recodings[dictionary.Data()]
		if recoded == nil {
			recoded = make([]int32, dictionary.Len())
			for i := range recoded {
				recoded[i] = -1
			}
			recodings[dictionary.Data()] = recoded
		}
		indices := words.Indices().(*array.Int32)
		for row := p.from; row < p.to; row++ {
			if words.IsNull(row) {
				at++
				continue
			}
			code := indices.Value(row)
			if recoded[code] < 0 {
				word := dictionary.Value(int(code))
				known, met := index[word]
				if !met {
					known = int32(len(list))
					index[word] = known
					list = append(list, word)
				}
				recoded[code] = known
			}
			codes[at] = recoded[code]
			at++
		}
	}
	bits, nulls := joinValidity(column, pieces, rows)
	if list == nil {
		list = []string{""} // a null's code must stand for something
	}
	builder := array.NewStringBuilder(memory.DefaultAllocator)
	builder.AppendValues(list, nil)
	data := array.NewData(arrow.PrimitiveTypes.Int32, rows, []*memory.Buffer{bits, memory.NewBufferBytes(arrow.GetBytes(codes))}, nil, nulls, 0)
	return array.NewDictionaryArray(as, array.NewInt32Data(data), builder.NewStringArray())
}
