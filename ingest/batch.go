package ingest

import (
	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/bitutil"
	"github.com/apache/arrow-go/v18/arrow/memory"
)

// A Batch is whole rounds of checked records as Arrow columns, holes and shots
// in order, with what was found wrong on the way. A hole is its strokes, or one
// record of a scorecard, whose shot is null.
type Batch struct {
	Record     arrow.RecordBatch // in RawSchema; nil when no record was kept
	RoundRows  []int             // how many records each round has
	Rejects    []Reject
	Notes      []Note
	Tallies    map[int]*Tally // by the file's place in Reader.Files
	Rounds     map[int]int    // rounds kept, by the file of their first record
	FirstPutts FeetCounts
	LastPutts  FeetCounts // that nothing but their place says were holed

	Strokes *Batch // Record and RoundRows without the scorecards; nil when there are none
}

func (b *Batch) tallyOf(file int) *Tally {
	if b.Tallies == nil {
		b.Tallies = map[int]*Tally{}
	}
	tally := b.Tallies[file]
	if tally == nil {
		tally = &Tally{}
		b.Tallies[file] = tally
	}
	return tally
}

// FeetCounts counts putts by their length in whole feet; the last class takes
// in all that are longer.
type FeetCounts [201]int64

func (c *FeetCounts) count(feet float64) { c[min(int(feet), len(c)-1)]++ }

// Add adds other counts.
func (c *FeetCounts) Add(other FeetCounts) {
	for feet, n := range other {
		c[feet] += n
	}
}

// N is how many putts were counted.
func (c *FeetCounts) N() (total int64) {
	for _, n := range c {
		total += n
	}
	return total
}

// Median is the median length in whole feet; ok is false without any putt.
func (c *FeetCounts) Median() (feet int, ok bool) {
	var below int64
	total := c.N()
	for feet, n := range c {
		if below += n; total > 0 && 2*below >= total {
			return feet, true
		}
	}
	return 0, false
}

// Names of the columns that the reader adds to those of the log.
const (
	SourceFile = "source_file"
	SourceLine = "source_line"
	HoleState  = "hole_state"
)

var wordType = &arrow.DictionaryType{IndexType: arrow.PrimitiveTypes.Int32, ValueType: arrow.BinaryTypes.String}

// RawSchema is the schema of a Batch: the fields of the log in base units, then
// source_file, source_line and hole_state. Absent values are null.
var RawSchema = func() *arrow.Schema {
	var fields []arrow.Field
	for f := range fieldCount {
		if f != puttLength {
			fields = append(fields, arrow.Field{Name: definitions[f].columnName(), Type: f.arrowType(), Nullable: true})
		}
	}
	fields = append(fields,
		arrow.Field{Name: SourceFile, Type: wordType},
		arrow.Field{Name: SourceLine, Type: arrow.PrimitiveTypes.Int32},
		arrow.Field{Name: HoleState, Type: arrow.PrimitiveTypes.Int32})
	return arrow.NewSchema(fields, nil)
}()

func (d *definition) columnName() string {
	if d.column != "" {
		return d.column
	}
	return d.name
}

func (f field) arrowType() arrow.DataType {
	switch definitions[f].kind {
	case freeText, closedSet, lieWord, clubName:
		return wordType
	case calendarDate:
		return arrow.FixedWidthTypes.Date32
	case wholeNumber:
		return arrow.PrimitiveTypes.Int32
	case yesNo:
		return arrow.FixedWidthTypes.Boolean
	}
	return arrow.PrimitiveTypes.Float64
}

// record turns checked rows into an Arrow record batch.
func (r *rows) record(files []*file, states []holeState) arrow.RecordBatch {
	columns := make([]arrow.Array, 0, RawSchema.NumFields())
	for f := range fieldCount {
		switch {
		case f == puttLength:
		case f.isText():
			columns = append(columns, wordArray(r.texts[f].codes, r.texts[f].list, r.n))
		default:
			columns = append(columns, numberArray(f.arrowType(), r.numbers[f.number()], r.n))
		}
	}
	names := make([]string, len(files))
	for i, f := range files {
		names[i] = f.name
	}
	columns = append(columns, wordArray(r.file, names, r.n), intArray(r.line), intArray(states))
	return array.NewRecordBatch(RawSchema, columns, int64(r.n))
}

// validity packs which values are present, from a bitmap of those and how many
// are not; nil when all are.
func validity(packed []byte, nulls int) *memory.Buffer {
	if nulls == 0 {
		return nil
	}
	return memory.NewBufferBytes(packed)
}

func wordArray(codes []int32, list []string, n int) arrow.Array {
	if codes == nil {
		return array.MakeArrayOfNull(memory.DefaultAllocator, wordType, n)
	}
	packed, nulls := make([]byte, bitutil.BytesForBits(int64(n))), 0
	for i, code := range codes {
		if code >= 0 {
			packed[i>>3] |= 1 << (i & 7)
		} else {
			nulls++
		}
	}
	indices := codes
	if nulls > 0 {
		indices = make([]int32, n)
		for i, code := range codes {
			indices[i] = max(code, 0)
		}
	}
	builder := array.NewStringBuilder(memory.DefaultAllocator)
	builder.AppendValues(list, nil)
	dictionary := builder.NewStringArray()
	index := array.NewData(arrow.PrimitiveTypes.Int32, n, []*memory.Buffer{validity(packed, nulls), bufferOf(indices)}, nil, nulls, 0)
	return array.NewDictionaryArray(wordType, array.NewInt32Data(index), dictionary)
}

func intArray(values []int32) arrow.Array {
	data := array.NewData(arrow.PrimitiveTypes.Int32, len(values), []*memory.Buffer{nil, bufferOf(values)}, nil, 0, 0)
	return array.NewInt32Data(data)
}

func bufferOf[V arrow.FixedWidthType](values []V) *memory.Buffer {
	return memory.NewBufferBytes(arrow.GetBytes(values))
}

func numberArray(as arrow.DataType, values []float64, n int) arrow.Array {
	if values == nil {
		return array.MakeArrayOfNull(memory.DefaultAllocator, as, n)
	}
	present, nulls := make([]byte, bitutil.BytesForBits(int64(n))), 0
	for i, v := range values {
		if isMissing(v) {
			nulls++
		} else {
			present[i>>3] |= 1 << (i & 7)
		}
	}
	var buffer *memory.Buffer
	switch as.ID() {
	case arrow.FLOAT64:
		buffer = bufferOf(values)
	case arrow.BOOL:
		packed := make([]byte, bitutil.BytesForBits(int64(n)))
		for i, v := range values {
			if v == 1 {
				packed[i>>3] |= 1 << (i & 7)
			}
		}
		buffer = memory.NewBufferBytes(packed)
	default:
		whole := make([]int32, n)
		for i, v := range values {
			if !isMissing(v) {
				whole[i] = int32(v)
			}
		}
		buffer = bufferOf(whole)
	}
	return array.MakeFromData(array.NewData(as, n, []*memory.Buffer{validity(present, nulls), buffer}, nil, nulls, 0))
}
