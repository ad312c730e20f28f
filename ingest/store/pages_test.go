package store

import (
	"bytes"
	"context"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet/file"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"
	"github.com/parquet-go/parquet-go"
	"pgregory.net/rapid"
)

// readByArrow is a file as arrow-go reads it; each table is read by parquet-go before it is closed.
func readByArrow(t rapid.TB, content []byte) arrow.Table {
	t.Helper()
	opened, err := file.NewParquetReader(bytes.NewReader(content))
	if err != nil {
		t.Fatal(err)
	}
	reader, err := pqarrow.NewFileReader(opened, pqarrow.ArrowReadProperties{}, memory.DefaultAllocator)
	if err != nil {
		t.Fatal(err)
	}
	table, err := reader.ReadTable(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func mustReadBack(t rapid.TB, content []byte, want arrow.RecordBatch) {
	t.Helper()
	table := readByArrow(t, content)
	for i, column := range want.Columns() {
		row := 0
		for _, chunk := range table.Column(i).Data().Chunks() {
			for at := range chunk.Len() {
				if got, want := chunk.ValueStr(at), column.ValueStr(row); got != want {
					t.Fatalf("%s, row %d: %s, was %s", want, row, got, want)
				}
				row++
			}
		}
		if row != column.Len() {
			t.Fatalf("column %d: %d rows of %d", i, row, column.Len())
		}
	}
}

func TestEveryKindOfColumnReadsBackInBothLibraries(t *testing.T) {
	folder := building(t)
	files := 0
	rapid.Check(t, func(t *rapid.T) {
		rows := drawnBatch(t, rapid.IntRange(1, 400).Draw(t, "rows"))
		files++
		name := strconv.Itoa(files) + ".parquet"
		options := Options{Version: "1.2.3"}
		if rapid.Bool().Draw(t, "varied") {
			options.Varied = []string{"feet", "large"}
		}
		if rapid.Bool().Draw(t, "rising") {
			options.Rising = []string{"day"}
		}
		mustReadBack(t, written(t, folder, name, options, rows), rows)
	})
}

func written(t rapid.TB, folder *Folder, name string, options Options, rows arrow.RecordBatch) []byte {
	t.Helper()
	table := NewTable(folder, name, rows.Schema(), options)
	if err := table.Add(new(Packer).Pack(rows, Group{To: int(rows.NumRows())})); err != nil {
		t.Fatal(err)
	}
	if err := table.CloseAndVerify(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(folder.path(name))
	if err != nil {
		t.Fatal(err)
	}
	return content
}

// Row groups that are full, of columns that lie at the bounds of what is done.
func TestWholeRowGroupsReadBackInBothLibraries(t *testing.T) {
	const rows = RowGroupRows + 100
	columns := []struct {
		name  string
		value func(row int) float64 // NaN is a null
		dict  bool                  // of the first row group
	}{
		{"one value", func(int) float64 { return 4.5 }, true},
		{"nothing", func(int) float64 { return math.NaN() }, false},
		{"one value among nulls", func(row int) float64 {
			if row == 77 {
				return 1
			}
			return math.NaN()
		}, false},
		{"rounds of 73 shots", func(row int) float64 { return float64(row / 73) }, true},
		{"half differ", func(row int) float64 { return float64(row/2) / 10 }, true},
		{"more than half differ", func(row int) float64 { return float64(max(row, RowGroupRows/2-1)) / 10 }, false},
		{"all differ", func(row int) float64 { return float64(row) * math.Pi }, false},
		{"signs of zero, bounds", func(row int) float64 {
			return []float64{0, math.Copysign(0, -1), math.MaxFloat64, -math.MaxFloat64, math.SmallestNonzeroFloat64}[row%5]
		}, true},
	}
	var fields []arrow.Field
	var arrays []arrow.Array
	for _, column := range columns {
		numbers, integers := array.NewFloat64Builder(memory.DefaultAllocator), array.NewInt32Builder(memory.DefaultAllocator)
		for row := range rows {
			if value := column.value(row); math.IsNaN(value) {
				numbers.AppendNull()
				integers.AppendNull()
			} else {
				numbers.Append(value)
				integers.Append(int32(math.Float64bits(value) >> 32))
			}
		}
		fields = append(fields, arrow.Field{Name: column.name, Type: arrow.PrimitiveTypes.Float64, Nullable: true},
			arrow.Field{Name: column.name + ", integers", Type: arrow.PrimitiveTypes.Int32, Nullable: true})
		arrays = append(arrays, numbers.NewArray(), integers.NewArray())
	}
	words := array.NewDictionaryBuilder(memory.DefaultAllocator, wordType).(*array.BinaryDictionaryBuilder)
	for row := range rows {
		if err := words.AppendString(strings.Repeat("ä", row%300) + strconv.Itoa(row)); err != nil {
			t.Fatal(err)
		}
	}
	fields, arrays = append(fields, arrow.Field{Name: "words", Type: wordType, Nullable: true}), append(arrays, words.NewArray())
	batch := array.NewRecordBatch(arrow.NewSchema(fields, nil), arrays, rows)
	content := written(t, building(t), "table.parquet", Options{Version: "1.2.3"}, batch)
	mustReadBack(t, content, batch)

	opened, err := parquet.OpenFile(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		t.Fatal(err)
	}
	for i, column := range columns {
		if chunk := opened.Metadata().RowGroups[0].Columns[2*i].MetaData; (chunk.DictionaryPageOffset != 0) != column.dict {
			t.Errorf("%s: a dictionary at %d", column.name, chunk.DictionaryPageOffset)
		}
	}
}
