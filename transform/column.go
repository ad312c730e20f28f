package transform

import (
	"fmt"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
)

// A column is one column of a table that the stage emits: its name with the
// unit as suffix, what it means, and how it is built from a batch.
type column struct {
	name, unit, about string
	build             func(*Shots) arrow.Array
}

// Metadata keys of every field of a schema.
const (
	UnitKey  = "unit"
	AboutKey = "about"
)

func schemaOf(columns []column) *arrow.Schema {
	empty := Enrich(emptyBatch(), Options{}.WithDefaults())
	fields := make([]arrow.Field, len(columns))
	for i, c := range columns {
		fields[i] = arrow.Field{
			Name: c.name, Type: c.build(empty).DataType(), Nullable: true,
			Metadata: arrow.MetadataFrom(map[string]string{UnitKey: c.unit, AboutKey: c.about}),
		}
	}
	return arrow.NewSchema(fields, nil)
}

func recordOf(columns []column, schema *arrow.Schema, s *Shots, rows int) arrow.RecordBatch {
	built := make([]arrow.Array, len(columns))
	for i, c := range columns {
		if built[i] = c.build(s); built[i].Len() != rows {
			panic(fmt.Sprintf("transform: column %s has %d rows of %d", c.name, built[i].Len(), rows))
		}
	}
	return array.NewRecordBatch(schema, built, int64(rows))
}

var wordType = &arrow.DictionaryType{IndexType: arrow.PrimitiveTypes.Int32, ValueType: arrow.BinaryTypes.String}

// validity packs which of n values are present; nil when all are.
func validity(n int, present func(int) bool) (bits *memory.Buffer, nulls int) {
	packed := make([]byte, bitutil.BytesForBits(int64(n)))
	for i := range n {
		if present(i) {
			packed[i>>3] |= 1 << (i & 7)
		} else {
			nulls++
		}
	}
	if nulls == 0 {
		return nil, 0
	}
	return memory.NewBufferBytes(packed), nulls
}

func fixed[V arrow.FixedWidthType](as arrow.DataType, values []V, present func(int) bool) arrow.Array {
	bits, nulls := validity(len(values), present)
	data := memory.NewBufferBytes(arrow.GetBytes(values))
	return array.MakeFromData(array.NewData(as, len(values), []*memory.Buffer{bits, data}, nil, nulls, 0))
}

func always(int) bool { return true }

// numbers is a column of float64 in which NaN is null.
func numbers(values []float64) arrow.Array {
	return fixed(arrow.PrimitiveTypes.Float64, values, func(i int) bool { return values[i] == values[i] })
}

func integers(values []int32, present func(int) bool) arrow.Array {
	return fixed(arrow.PrimitiveTypes.Int32, values, present)
}

func dates(days []int32) arrow.Array {
	return fixed(arrow.FixedWidthTypes.Date32, days, always)
}

func booleans(n int, value, present func(int) bool) arrow.Array {
	bits, nulls := validity(n, present)
	packed := make([]byte, bitutil.BytesForBits(int64(n)))
	for i := range n {
		if value(i) {
			packed[i>>3] |= 1 << (i & 7)
		}
	}
	return array.MakeFromData(array.NewData(arrow.FixedWidthTypes.Boolean, n,
		[]*memory.Buffer{bits, memory.NewBufferBytes(packed)}, nil, nulls, 0))
}

func answers(values []Known, present func(int) bool) arrow.Array {
	return booleans(len(values), func(i int) bool { return values[i] == Yes },
		func(i int) bool { return values[i] != Unknown && present(i) })
}

// dictionary is a column of words; code gives each row's place in the list, or
// less than 0.
func dictionary(n int, list []string, code func(int) int32) arrow.Array {
	codes := make([]int32, n)
	for i := range codes {
		codes[i] = code(i)
	}
	bits, nulls := validity(n, func(i int) bool { return codes[i] >= 0 })
	if nulls > 0 {
		for i := range codes {
			codes[i] = max(codes[i], 0)
		}
	}
	strings := array.NewStringBuilder(memory.DefaultAllocator)
	strings.AppendValues(list, nil)
	index := array.NewData(arrow.PrimitiveTypes.Int32, n, []*memory.Buffer{bits, memory.NewBufferBytes(arrow.GetBytes(codes))}, nil, nulls, 0)
	return array.NewDictionaryArray(wordType, array.NewInt32Data(index), strings.NewStringArray())
}

func wordColumn(w Words) arrow.Array {
	return dictionary(len(w.Codes), w.List, func(i int) int32 { return w.Codes[i] })
}

// at picks the values of some rows.
func at[V any](values []V, rows []int32) []V {
	picked := make([]V, len(rows))
	for i, row := range rows {
		picked[i] = values[row]
	}
	return picked
}

func wordsAt(w Words, rows []int32) arrow.Array {
	return dictionary(len(rows), w.List, func(i int) int32 { return w.Codes[rows[i]] })
}
