package transform

import (
	"fmt"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"

	"roundmill/ingest"
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
	empty := Enrich(emptyBatch(), Options{})
	fields := make([]arrow.Field, len(columns))
	for i, c := range columns {
		fields[i] = arrow.Field{
			Name: c.name, Type: c.build(empty).DataType(), Nullable: true,
			Metadata: arrow.MetadataFrom(map[string]string{UnitKey: c.unit, AboutKey: c.about}),
		}
	}
	return arrow.NewSchema(fields, nil)
}

func emptyBatch() *ingest.Batch {
	empty := array.NewRecordBuilder(memory.DefaultAllocator, ingest.RawSchema)
	return &ingest.Batch{Record: empty.NewRecordBatch()}
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

// packed is n bits. It inlines with the function it is given.
func packed(n int, bit func(int) bool) []byte {
	bits := make([]byte, bitutil.BytesForBits(int64(n)))
	for i := range n {
		var one byte
		if bit(i) {
			one = 1
		}
		bits[i>>3] |= one << (i & 7)
	}
	return bits
}

// A validity says which values of a column are present; the zero validity, that
// all are.
type validity struct {
	bits  *memory.Buffer
	nulls int
}

func validityOf(bits []byte, n int) validity {
	if nulls := n - bitutil.CountSetBits(bits, 0, n); nulls > 0 {
		return validity{memory.NewBufferBytes(bits), nulls}
	}
	return validity{}
}

func (v validity) array(as arrow.DataType, n int, values []byte) arrow.Array {
	return array.MakeFromData(array.NewData(as, n, []*memory.Buffer{v.bits, memory.NewBufferBytes(values)}, nil, v.nulls, 0))
}

// numbers is a column in which NaN is null.
func numbers(values []float64) arrow.Array {
	present := packed(len(values), func(i int) bool { return values[i] == values[i] })
	return validityOf(present, len(values)).array(arrow.PrimitiveTypes.Float64, len(values), arrow.GetBytes(values))
}

func integers(values []int32) arrow.Array {
	return validity{}.array(arrow.PrimitiveTypes.Int32, len(values), arrow.GetBytes(values))
}

// integersKnown is a column in which less than 0 is null.
func integersKnown(values []int32) arrow.Array {
	bits := packed(len(values), func(i int) bool { return values[i] >= 0 })
	return validityOf(bits, len(values)).array(arrow.PrimitiveTypes.Int32, len(values), arrow.GetBytes(values))
}

// integersWhere is a column with nulls where a value is not present.
func integersWhere(present []bool, values []int32) arrow.Array {
	bits := packed(len(values), func(i int) bool { return present[i] })
	return validityOf(bits, len(values)).array(arrow.PrimitiveTypes.Int32, len(values), arrow.GetBytes(values))
}

func dates(days []int32) arrow.Array {
	return validity{}.array(arrow.FixedWidthTypes.Date32, len(days), arrow.GetBytes(days))
}

func booleans(values []bool) arrow.Array {
	bits := packed(len(values), func(i int) bool { return values[i] })
	return validity{}.array(arrow.FixedWidthTypes.Boolean, len(values), bits)
}

// answers is a column of yes and no in which Unknown is null.
func answers(values []Known) arrow.Array {
	present := packed(len(values), func(i int) bool { return values[i] != Unknown })
	yes := packed(len(values), func(i int) bool { return values[i] == Yes })
	return validityOf(present, len(values)).array(arrow.FixedWidthTypes.Boolean, len(values), yes)
}

var wordType = &arrow.DictionaryType{IndexType: arrow.PrimitiveTypes.Int32, ValueType: arrow.BinaryTypes.String}

// dictionary is a column of words by their places in a list; less than 0 is
// null.
func dictionary(codes []int32, list arrow.Array) arrow.Array {
	present := validityOf(packed(len(codes), func(i int) bool { return codes[i] >= 0 }), len(codes))
	if present.nulls > 0 {
		for i := range codes {
			codes[i] = max(codes[i], 0)
		}
	}
	return array.NewDictionaryArray(wordType, present.array(arrow.PrimitiveTypes.Int32, len(codes), arrow.GetBytes(codes)), list)
}

func listOf(words ...string) arrow.Array {
	list := array.NewStringBuilder(memory.DefaultAllocator)
	list.AppendValues(words, nil)
	return list.NewStringArray()
}

var classList = listOf(classNames[:]...)

func classes(values []Class) arrow.Array {
	codes := make([]int32, len(values))
	for i, class := range values {
		codes[i] = int32(class)
	}
	return dictionary(codes, classList)
}

// The words of lie categories; NoCategory is the one before them.
var categoryList = func() arrow.Array {
	var words []string
	for c := ingest.NoCategory + 1; c < ingest.CategoryCount; c++ {
		words = append(words, c.String())
	}
	return listOf(words...)
}()

func categories(values []ingest.Category) arrow.Array {
	codes := make([]int32, len(values))
	for i, category := range values {
		codes[i] = int32(category) - int32(ingest.NoCategory) - 1
	}
	return dictionary(codes, categoryList)
}

// logged is a column that goes out as the reader gave it.
func logged(name string) func(*Shots) arrow.Array {
	return func(s *Shots) arrow.Array { return rawColumn(s.raw, name) }
}

// at picks the values of some rows.
func at[V any](values []V, rows []int32) []V {
	picked := make([]V, len(rows))
	for i, row := range rows {
		picked[i] = values[row]
	}
	return picked
}

func wordsAt(w Words, rows []int32) arrow.Array { return dictionary(at(w.Codes, rows), w.list) }
