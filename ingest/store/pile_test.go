package store

import (
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roundmill/ingest/disk"
	"roundmill/ingest/ordered"
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

// memories are such that nothing goes to the file of a pile, or everything.
var memories = map[string]int{"in memory": 0, "on disk": 1}

// Whatever the types and nulls of a batch and however it is cut into pieces, their rows come back in any order that is
// asked for, also after a pile was renewed with some of them, and nothing stays in the scratch folder.
func TestWhatAPileKeepsComesBackAsItWas(t *testing.T) {
	for where, memory := range memories {
		scratch := t.TempDir()
		t.Run(where, rapid.MakeCheck(func(t *rapid.T) {
			whole := drawnBatch(t, rapid.IntRange(1, 40).Draw(t, "rows"))
			pile := NewPile(whole.Schema(), disk.Scratch{Folder: scratch, Memory: memory})
			var kept []Kept
			var rows [][]string
			packer := Packer{Compress: rapid.Bool().Draw(t, "compress")}
			for range rapid.IntRange(1, 6).Draw(t, "batches") {
				skipped := rapid.IntRange(0, int(whole.NumRows())).Draw(t, "rows of the batch that are sliced off")
				sliced := whole.NewSlice(int64(skipped), whole.NumRows())
				var groups []Group
				for range rapid.IntRange(1, 3).Draw(t, "pieces") {
					from := rapid.IntRange(0, int(sliced.NumRows())).Draw(t, "from")
					to := rapid.IntRange(from, int(sliced.NumRows())).Draw(t, "to")
					groups, rows = append(groups, Group{Key: fmt.Sprint(len(rows)), From: from, To: to}), append(rows, rowsOf(sliced, from, to))
				}
				packed := packer.Pack(sliced, groups...)
				for i, key := range packed.Keys() {
					if key != groups[i].Key {
						t.Fatalf("key %d is %s, expected %s", i, key, groups[i].Key)
					}
				}
				pieces, err := pile.Add(packed)
				if err != nil || len(pieces) != len(groups) {
					t.Fatalf("%d pieces of %d, %v", len(pieces), len(groups), err)
				}
				for i, piece := range pieces {
					if int(piece.Rows) != groups[i].To-groups[i].From {
						t.Fatalf("%d rows kept of %+v", piece.Rows, groups[i])
					}
				}
				kept = append(kept, pieces...)
			}
			if files, err := os.ReadDir(scratch); err != nil || (len(files) > 0) != (where == "on disk") {
				t.Fatalf("%s: %v, %v", where, files, err)
			}
			order := rapid.SliceOfN(rapid.IntRange(0, len(kept)-1), 0, 8).Draw(t, "order")
			var asked []Kept
			var parts []part
			var want, wantParts []string
			for _, i := range order {
				asked, want = append(asked, kept[i]), append(want, rows[i]...)
				from := rapid.IntRange(0, len(rows[i])).Draw(t, "part from")
				to := rapid.IntRange(from, len(rows[i])).Draw(t, "part to")
				parts, wantParts = append(parts, part{kept[i], from, to}), append(wantParts, rows[i][from:to]...)
			}
			same(t, pile, want, func() (arrow.RecordBatch, error) { return pile.Batch(asked) })
			same(t, pile, wantParts, func() (arrow.RecordBatch, error) { return pile.batch(parts) })
			if err := pile.renew(parts); err != nil {
				t.Fatal(err)
			}
			same(t, pile, wantParts, func() (arrow.RecordBatch, error) { return pile.batch(parts) })
			if err := pile.Close(); err != nil {
				t.Fatal(err)
			}
			if left, err := os.ReadDir(scratch); err != nil || len(left) > 0 {
				t.Fatal(left, err)
			}
		}))
	}
}

// Several goroutines may ask at once, also for what is on disk.
func TestAPileIsReadFromSeveralGoroutines(t *testing.T) {
	for where, memory := range memories {
		t.Run(where, func(t *testing.T) {
			pile := NewPile(schema, disk.Scratch{Folder: t.TempDir(), Memory: memory})
			defer pile.Close()
			whole := batch(1000, 0)
			var kept []Kept
			for from := 0; from < 1000; from += 10 {
				pieces, err := pile.Add(new(Packer).Pack(whole, Group{From: from, To: from + 10}))
				if err != nil {
					t.Fatal(err)
				}
				kept = append(kept, pieces...)
			}
			want := rowsOf(whole, 0, 1000)
			group := ordered.NewGroup(8)
			for i := range 50 {
				group.Go(func() error {
					got, err := pile.Batch(kept[i : i+50])
					if err == nil && !slices.Equal(rowsOf(got, 0, 500), want[10*i:10*i+500]) {
						err = fmt.Errorf("pieces from %d on are not what was added", i)
					}
					return err
				})
			}
			if err := group.Wait(); err != nil {
				t.Error(err)
			}
		})
	}
}

// same checks the rows of a batch, that it is sound, and that its dictionaries hold just the words in use.
func same(t *rapid.T, pile *Pile, want []string, make func() (arrow.RecordBatch, error)) {
	got, err := make()
	if err != nil {
		t.Fatal(err)
	}
	if got.NumRows() != int64(len(want)) {
		t.Fatalf("%d rows, expected %d", got.NumRows(), len(want))
	}
	if diff := cmp.Diff(want, rowsOf(got, 0, len(want))); diff != "" {
		t.Fatal(diff)
	}
	for _, column := range got.Columns() {
		words, ok := column.(*array.Dictionary)
		if !ok {
			continue
		}
		next := 0
		for row := range words.Len() {
			if words.IsValid(row) {
				word := words.GetValueIndex(row)
				if word > next {
					t.Fatalf("row %d: word %d before word %d", row, word, next)
				}
				next = max(next, word+1)
			}
		}
		if words.Dictionary().Len() != max(next, 1) {
			t.Fatalf("%d words, %d in use", words.Dictionary().Len(), next)
		}
	}
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
