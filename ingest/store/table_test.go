package store

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/parquet-go/parquet-go"

	"roundmill/ingest/disk"
)

var (
	wordType = &arrow.DictionaryType{IndexType: arrow.PrimitiveTypes.Int32, ValueType: arrow.BinaryTypes.String}
	schema   = arrow.NewSchema([]arrow.Field{
		{Name: "day", Type: arrow.FixedWidthTypes.Date32, Nullable: true},
		{Name: "word", Type: wordType, Nullable: true},
		{Name: "feet", Type: arrow.PrimitiveTypes.Float64, Nullable: true},
		{Name: "count", Type: arrow.PrimitiveTypes.Int32, Nullable: true},
		{Name: "holed", Type: arrow.FixedWidthTypes.Boolean, Nullable: true},
	}, nil)
)

// batch makes rows whose third and every fourth from there are null.
func batch(rows, from int) arrow.RecordBatch {
	b := array.NewRecordBuilder(memory.DefaultAllocator, schema)
	for row := from; row < from+rows; row++ {
		b.Field(0).(*array.Date32Builder).Append(arrow.Date32(row))
		if row%4 == 3 {
			for _, field := range b.Fields()[1:] {
				field.AppendNull()
			}
			continue
		}
		if err := b.Field(1).(*array.BinaryDictionaryBuilder).AppendString(fmt.Sprintf("word %d", row%7)); err != nil {
			panic(err)
		}
		b.Field(2).(*array.Float64Builder).Append(float64(row) / 10)
		b.Field(3).(*array.Int32Builder).Append(int32(-row))
		b.Field(4).(*array.BooleanBuilder).Append(row%2 == 0)
	}
	return b.NewRecordBatch()
}

// building is a folder under construction.
func building(t *testing.T) *Folder {
	t.Helper()
	folder, err := NewFolder(filepath.Join(t.TempDir(), "results"), disk.OS{}, anything)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := folder.Discard(); err != nil {
			t.Error(err)
		}
	})
	return folder
}

func write(t *testing.T, settle bool, batches ...arrow.RecordBatch) (path string, content []byte) {
	t.Helper()
	folder := building(t)
	path = folder.path("table.parquet")
	table := NewTable(folder, "table.parquet", schema, Options{Version: "1.2.3", Metadata: map[string]string{"key": "value"}, SortedBy: []string{"day"}, Varied: []string{"feet"}, Rising: []string{"day"}})
	if settle {
		if err := table.Settle(); err != nil {
			t.Fatal(err)
		}
	}
	for _, b := range batches {
		first := b.Column(0).(*array.Date32).Value(0)
		if err := table.Add(new(Packer).Pack(b, Group{Key: fmt.Sprintf("%09d", first), From: 0, To: int(b.NumRows())})); err != nil {
			t.Fatal(err)
		}
	}
	if err := table.CloseAndVerify(); err != nil {
		t.Fatal(err)
	}
	content, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return path, content
}

func TestATableIsTheSameHoweverItsRowsWereBatched(t *testing.T) {
	_, whole := write(t, false, batch(300, 0))
	_, parts := write(t, false, batch(100, 200), batch(50, 0), batch(150, 50))
	if !bytes.Equal(whole, parts) {
		t.Error("three batches in another order give other bytes")
	}
	_, settled := write(t, true, batch(50, 0), batch(150, 50), batch(100, 200))
	if bytes.Equal(whole, settled) {
		t.Error("a settled table still declares its order")
	}
}

// Rows may come in any number of pieces, of which a settled table lets go as it writes, and wait on disk.
func TestATableIsTheSameWhereverItsRowsWaited(t *testing.T) {
	rows := 2*RowGroupRows + 1000
	whole := batch(rows, 0)
	var packer Packer
	for _, settle := range []bool{false, true} {
		var first []byte
		for _, memory := range memories {
			folder := building(t)
			folder.Memory = memory
			table := NewTable(folder, "table.parquet", schema, Options{Version: "1.2.3"})
			if settle {
				if err := table.Settle(); err != nil {
					t.Fatal(err)
				}
			}
			for from := 0; from < rows; from += 7000 {
				if err := table.Add(packer.Pack(whole, Group{Key: fmt.Sprintf("%09d", from), From: from, To: min(from+7000, rows)})); err != nil {
					t.Fatal(err)
				}
				if settle && table.Held() >= RowGroupRows {
					t.Errorf("%d rows held after %d", table.Held(), from)
				}
			}
			if err := table.CloseAndVerify(); err != nil {
				t.Fatal(err)
			}
			if waiting, err := os.ReadDir(folder.Scratch().Folder); err != nil || len(waiting) > 0 {
				t.Error(waiting, err)
			}
			content, err := os.ReadFile(folder.path("table.parquet"))
			if err != nil {
				t.Fatal(err)
			}
			if first == nil {
				first = content
			} else if !bytes.Equal(first, content) {
				t.Errorf("settled %t: other bytes where rows waited on disk", settle)
			}
		}
	}
}

func TestRowGroupsHoldTheLengthAskedFor(t *testing.T) {
	path, _ := write(t, true, batch(RowGroupRows-10, 0), batch(20, RowGroupRows-10), batch(RowGroupRows, RowGroupRows+10))
	file, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	info, _ := file.Stat()
	opened, err := parquet.OpenFile(file, info.Size())
	if err != nil {
		t.Fatal(err)
	}
	var rows []int64
	for _, group := range opened.RowGroups() {
		rows = append(rows, group.NumRows())
	}
	if want := []int64{RowGroupRows, RowGroupRows, 10}; fmt.Sprint(rows) != fmt.Sprint(want) {
		t.Errorf("row groups of %v rows, expected %v", rows, want)
	}
	if value, ok := opened.Lookup("key"); !ok || value != "value" {
		t.Errorf("metadata %q", value)
	}
	if created := opened.Metadata().CreatedBy; created != "roundmill version 1.2.3 (build 1.2.3)" {
		t.Errorf("created by %q", created)
	}
}

// The rows of a long table go from file to file in their order, and a file is begun only for rows.
func TestALongTableIsSeveralFiles(t *testing.T) {
	name := func(file int) string { return fmt.Sprintf("part-%d.parquet", file) }
	for _, c := range []struct {
		rows int
		want []int64
	}{
		{0, []int64{0}},
		{1, []int64{1}},
		{2 * RowGroupRows, []int64{2 * RowGroupRows}},
		{4*RowGroupRows + 1000, []int64{2 * RowGroupRows, 2 * RowGroupRows, 1000}},
	} {
		folder := building(t)
		table := NewLongTable(folder, name, 2, schema, Options{Version: "1.2.3"})
		if err := table.Settle(); err != nil {
			t.Fatal(err)
		}
		for from := 0; from < c.rows; from += 100_000 {
			rows := min(100_000, c.rows-from)
			if err := table.Add(new(Packer).Pack(batch(rows, from), Group{To: rows})); err != nil {
				t.Fatal(err)
			}
		}
		if err := table.CloseAndVerify(); err != nil {
			t.Fatal(err)
		}
		var rows []int64
		next := int64(0)
		for _, name := range table.Names() {
			content, err := os.ReadFile(folder.path(name))
			if err != nil {
				t.Fatal(err)
			}
			file, err := parquet.OpenFile(bytes.NewReader(content), int64(len(content)))
			if err != nil {
				t.Fatal(err)
			}
			rows = append(rows, file.NumRows())
			for _, group := range file.RowGroups() {
				least, greatest, _ := group.ColumnChunks()[0].(*parquet.FileColumnChunk).Bounds()
				if int64(least.Int32()) != next || int64(greatest.Int32()) != next+group.NumRows()-1 {
					t.Errorf("%s has days %v to %v, expected them from %d", name, least, greatest, next)
				}
				next += group.NumRows()
			}
		}
		if fmt.Sprint(rows) != fmt.Sprint(c.want) {
			t.Errorf("%d rows are in files of %d, expected %d", c.rows, rows, c.want)
		}
	}
}

// sumsOf is what a file that holds a batch must hold.
func sumsOf(batch arrow.RecordBatch) *sums {
	s := newSums(batch.Schema())
	s.rows = batch.NumRows()
	for i := range s.columns {
		c, column := &s.columns[i], batch.Column(i)
		c.nulls = int64(column.NullN())
		first := true
		for row := range column.Len() {
			if column.IsNull(row) {
				continue
			}
			switch column := column.(type) {
			case *array.Float64:
				c.extent = c.with(column.Value(row), first)
			case *array.Int32:
				c.extent = c.with(float64(column.Value(row)), first)
			case *array.Int64:
				c.extent = c.with(float64(column.Value(row)), first)
			case *array.Date32:
				c.extent = c.with(float64(column.Value(row)), first)
			case *array.Boolean:
				c.extent = c.with(yesIs1(column.Value(row)), first)
			}
			first = false
		}
	}
	return s
}

// What does not read back as it was written is an error that names the column.
func TestVerifyTellsWhatDiffers(t *testing.T) {
	_, content := write(t, false, batch(300, 0))
	for _, c := range []struct {
		change func(*sums)
		want   string
	}{
		{func(s *sums) {}, ""},
		{func(s *sums) { s.rows++ }, "300 rows, expected 301"},
		{func(s *sums) { s.columns[2].sum += 0.5 }, "column feet: found"},
		{func(s *sums) { s.columns[3].min-- }, "column count: found"},
		{func(s *sums) { s.columns[1].nulls++ }, "column word: found"},
		{func(s *sums) { s.columns[0].max++ }, "column day: found"},
		{func(s *sums) { s.columns[4].sum++ }, "column holed: found"},
		{func(s *sums) { s.columns[0].kind = "STRING" }, "column day is DATE, expected STRING"},
		{func(s *sums) { s.columns[2].codec = "SNAPPY" }, "column feet is packed by ZSTD, expected SNAPPY"},
		{func(s *sums) { s.columns[4].name = "other" }, `column 4 is "holed", expected "other"`},
		{func(s *sums) { s.columns = s.columns[1:] }, "5 columns, expected 4"},
	} {
		want := sumsOf(batch(300, 0))
		c.change(want)
		err := verify(bytes.NewReader(content), int64(len(content)), want)
		if got := fmt.Sprint(err); (err == nil) != (c.want == "") || err != nil && !strings.Contains(got, c.want) {
			t.Errorf("verify says %q, expected %q", got, c.want)
		}
	}
}

func TestVerifyFindsDamage(t *testing.T) {
	path, content := write(t, false, batch(300, 0))
	want := sumsOf(batch(300, 0))
	found := 0
	for at := 4; at < len(content); at += 7 {
		damaged := bytes.Clone(content)
		damaged[at] ^= 0x10
		if err := os.WriteFile(path, damaged, 0o644); err != nil {
			t.Fatal(err)
		}
		if verifyFile(path, want) != nil {
			found++
		}
	}
	if found == 0 {
		t.Error("no damage was found")
	}
	t.Logf("found %d of %d flipped bits", found, len(content)/7)
}

// Other tools leave out row groups by the least and greatest value that a file
// says it holds.
func TestVerifyFindsBoundsThatAreNotTrue(t *testing.T) {
	_, content := write(t, false, batch(300, 0))
	greatest := binary.LittleEndian.AppendUint64(nil, math.Float64bits(29.8))
	footer := content[len(content)-8-int(binary.LittleEndian.Uint32(content[len(content)-8:])):]
	if !bytes.Contains(footer, greatest) {
		t.Fatal("the footer does not say the greatest value")
	}
	copy(footer, bytes.ReplaceAll(footer, greatest, binary.LittleEndian.AppendUint64(nil, math.Float64bits(17))))
	want := sumsOf(batch(300, 0))
	err := verify(bytes.NewReader(content), int64(len(content)), want)
	if err == nil || !strings.Contains(err.Error(), "column feet: the file says") || !strings.HasSuffix(err.Error(), "to 17 of itself, and holds 0 to 29.8") {
		t.Error(err)
	}
}

func TestGroupsThatFollowEachOtherBecomeOne(t *testing.T) {
	const long = pieceRows - 10
	for _, of := range []struct{ groups, want []Group }{
		{nil, nil},
		{[]Group{{"b", 0, 5}, {"a", 5, 9}}, []Group{{"b", 0, 9}}},
		{[]Group{{"", 0, 5}, {"", 6, 9}, {"", 9, 10}}, []Group{{"", 0, 5}, {"", 6, 10}}},
		{[]Group{{"", 0, long}, {"", long, long + 10}, {"", long + 10, long + 11}}, []Group{{"", 0, long + 10}, {"", long + 10, long + 11}}},
	} {
		if got := Joined(of.groups); !slices.Equal(got, of.want) {
			t.Errorf("%v become %v, want %v", of.groups, got, of.want)
		}
	}
}
