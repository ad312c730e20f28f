package store

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// drawnBatch has columns of every type, each with no nulls, some or nothing else, and dictionaries whose codes take one,
// two or four bytes.
func drawnBatch(t *rapid.T, rows int) arrow.RecordBatch {
	distinct := rapid.SampledFrom([]int{1, 256, 257, 1 << 16, 1<<16 + 1}).Draw(t, "words")
	list := array.NewStringBuilder(memory.DefaultAllocator)
	for i := range distinct {
		list.Append(string(rune('a' + i)))
	}
	fields := append(schema.Fields(), arrow.Field{Name: "large", Type: arrow.PrimitiveTypes.Int64, Nullable: true})
	columns := make([]arrow.Array, len(fields))
	for i, field := range fields {
		shareNull := rapid.SampledFrom([]int{0, 50, 100}).Draw(t, "share of nulls in "+field.Name)
		null := func() bool { return rapid.IntRange(0, 99).Draw(t, "null") < shareNull }
		value := rapid.IntRange(0, distinct-1)
		if field.Type.ID() == arrow.DICTIONARY {
			codes := array.NewInt32Builder(memory.DefaultAllocator)
			for range rows {
				if null() {
					codes.AppendNull()
				} else {
					codes.Append(int32(value.Draw(t, "code")))
				}
			}
			columns[i] = array.NewDictionaryArray(field.Type, codes.NewArray(), list.NewArray())
			continue
		}
		builder := array.NewBuilder(memory.DefaultAllocator, field.Type)
		for range rows {
			if null() {
				builder.AppendNull()
				continue
			}
			v := value.Draw(t, "value")
			switch builder := builder.(type) {
			case *array.Float64Builder:
				builder.Append(float64(v) / 7)
			case *array.Int32Builder:
				builder.Append(int32(-v))
			case *array.Int64Builder:
				builder.Append(int64(v) << 40)
			case *array.Date32Builder:
				builder.Append(arrow.Date32(v))
			case *array.BooleanBuilder:
				builder.Append(v%2 == 0)
			}
		}
		columns[i] = builder.NewArray()
	}
	return array.NewRecordBatch(arrow.NewSchema(fields, nil), columns, int64(rows))
}

func TestWhatIsPackedComesOutAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rows := rapid.IntRange(1, 40).Draw(t, "rows")
		whole := drawnBatch(t, rows)
		skipped := rapid.IntRange(0, rows-1).Draw(t, "rows of the batch that are sliced off")
		sliced := whole.NewSlice(int64(skipped), int64(rows))
		from := rapid.IntRange(0, rows-skipped).Draw(t, "from")
		to := rapid.IntRange(from, rows-skipped).Draw(t, "to")
		var packer packer
		first := packer.pack(whole, listsOf(whole), 0, rows)
		second := packer.pack(sliced, listsOf(sliced), from, to)
		cut := rapid.IntRange(0, rows).Draw(t, "where a piece is cut")
		got := assemble(whole.Schema(), []piece{{first, "", cut, rows}, {second, "", 0, to - from}, {first, "", 0, cut}})
		want := slices.Concat(rowsOf(whole, cut, rows), rowsOf(sliced, from, to), rowsOf(whole, 0, cut))
		if diff := cmp.Diff(want, rowsOf(got, 0, len(want))); diff != "" {
			t.Fatal(diff)
		}
	})
}

// rowsOf is rows of a batch in words.
func rowsOf(batch arrow.RecordBatch, from, to int) (rows []string) {
	for row := from; row < to; row++ {
		var text strings.Builder
		for _, column := range batch.Columns() {
			fmt.Fprintf(&text, "%s ", column.ValueStr(row))
		}
		rows = append(rows, text.String())
	}
	return rows
}
