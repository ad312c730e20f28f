package store

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/parquet-go/parquet-go"
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

func write(t *testing.T, settle bool, batches ...arrow.RecordBatch) (path string, content []byte) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "table.parquet")
	table := NewTable(path, schema, Options{Version: "1.2.3", Metadata: map[string]string{"key": "value"}, SortedBy: []string{"day"}})
	if settle {
		if err := table.Settle(); err != nil {
			t.Fatal(err)
		}
	}
	for _, b := range batches {
		first := b.Column(0).(*array.Date32).Value(0)
		if err := table.Add(b, Group{Key: fmt.Sprintf("%09d", first), From: 0, To: int(b.NumRows())}); err != nil {
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

// A table that waits for a full row group does not keep the large batches that
// its rows came in.
func TestASettledTableLetsGoOfBatches(t *testing.T) {
	table := NewTable(filepath.Join(t.TempDir(), "t.parquet"), schema, Options{})
	defer table.Abandon()
	if err := table.Settle(); err != nil {
		t.Fatal(err)
	}
	large := batch(1000, 0)
	if err := table.Add(large, Group{From: 10, To: 20}); err != nil {
		t.Fatal(err)
	}
	if table.Held() != 10 || table.held[0].batch.NumRows() != 10 {
		t.Errorf("holds %d rows in a batch of %d", table.Held(), table.held[0].batch.NumRows())
	}
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
		{func(s *sums) { s.columns[4].name = "other" }, `column 4 is "holed", expected "other"`},
		{func(s *sums) { s.columns = s.columns[1:] }, "5 columns, expected 4"},
	} {
		want := newSums(schema)
		want.add(assemble(schema, []piece{{batch(300, 0), "", 0, 300}}))
		c.change(want)
		err := verify(bytes.NewReader(content), int64(len(content)), want)
		if got := fmt.Sprint(err); (err == nil) != (c.want == "") || err != nil && !strings.Contains(got, c.want) {
			t.Errorf("verify says %q, expected %q", got, c.want)
		}
	}
}

func TestVerifyFindsDamage(t *testing.T) {
	path, content := write(t, false, batch(300, 0))
	want := newSums(schema)
	want.add(batch(300, 0))
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

func anything(string) error { return nil }

func TestAFolderAppearsWholeOrNotAtAll(t *testing.T) {
	parent := t.TempDir()
	place := filepath.Join(parent, "deep", "results")
	publish := func(text string) {
		folder, err := NewFolder(place, anything)
		if err != nil {
			t.Fatal(err)
		}
		if err := folder.WriteFile("tables/a.txt", []byte(text)); err != nil {
			t.Fatal(err)
		}
		before, _ := os.ReadFile(filepath.Join(place, "tables", "a.txt"))
		if string(before) == text {
			t.Error("the file is there before the folder was published")
		}
		if err := folder.Publish(); err != nil {
			t.Fatal(err)
		}
		if after, err := os.ReadFile(filepath.Join(place, "tables", "a.txt")); err != nil || string(after) != text {
			t.Errorf("published %q (%v), expected %q", after, err, text)
		}
	}
	publish("first")
	publish("second")
	discarded, err := NewFolder(place, anything)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(discarded.WriteFile("b.txt", nil), discarded.Discard()); err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(filepath.Dir(place))
	if err != nil || len(entries) != 1 {
		t.Errorf("beside the results there is %v (%v)", entries, err)
	}
}

func TestAFolderThatIsNotOursIsLeftAlone(t *testing.T) {
	place := t.TempDir()
	notOurs := errors.New("not ours")
	if _, err := NewFolder(place, func(string) error { return notOurs }); err != nil {
		t.Errorf("an empty folder: %v", err)
	}
	diary := filepath.Join(place, "diary.txt")
	if err := os.WriteFile(diary, []byte("dear diary"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := NewFolder(place, func(string) error { return notOurs }); !errors.Is(err, notOurs) {
		t.Errorf("a full folder: %v", err)
	}
	if _, err := NewFolder(diary, anything); err == nil || !strings.Contains(err.Error(), "is a file") {
		t.Errorf("a file: %v", err)
	}
	// What was ours at the start and is not at the end is not replaced either.
	asked := 0
	folder, err := NewFolder(place, func(string) error {
		if asked++; asked > 1 {
			return notOurs
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if err := folder.Publish(); !errors.Is(err, notOurs) {
		t.Errorf("publish: %v", err)
	}
	if err := folder.Discard(); err != nil {
		t.Fatal(err)
	}
	if text, _ := os.ReadFile(diary); string(text) != "dear diary" {
		t.Errorf("the diary says %q", text)
	}
}

func TestExchangeByPairPutsTheOldFolderBack(t *testing.T) {
	parent := t.TempDir()
	place := filepath.Join(parent, "place")
	if err := os.Mkdir(place, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := exchangeByPair(filepath.Join(parent, "missing"), place); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("exchange with nothing: %v", err)
	}
	if _, err := os.Stat(place); err != nil {
		t.Errorf("the old folder: %v", err)
	}
	staging := filepath.Join(parent, "staging")
	if err := os.WriteFile(filepath.Join(place, "old"), nil, 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(staging, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := exchangeByPair(staging, place); err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(filepath.Join(staging, "old")); err != nil {
		t.Errorf("the old folder is not at the staging place: %v", err)
	}
}
