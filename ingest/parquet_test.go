package ingest

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/apache/arrow-go/v18/arrow"
	"github.com/apache/arrow-go/v18/arrow/array"
	"github.com/apache/arrow-go/v18/arrow/memory"
	"github.com/apache/arrow-go/v18/parquet"
	"github.com/apache/arrow-go/v18/parquet/pqarrow"
	parquetgo "github.com/parquet-go/parquet-go"
	"pgregory.net/rapid"
)

// A log as another writer of Parquet has it: other types, plain strings, a time
// stamp for a date, a NaN for a value that is absent.
type foreignShot struct {
	Date   time.Time `parquet:"Date,timestamp(millisecond)"`
	Hole   int64     `parquet:"hole"`
	Par    int32     `parquet:"par"`
	Shot   *int64    `parquet:"shot,optional"`
	Lie    string    `parquet:"Lie"`
	ToHole float32   `parquet:"To hole (m)"`
	Left   *float64  `parquet:"left,optional"`
	Holed  bool      `parquet:"holed"`
	Mood   string    `parquet:"mood"`
}

func foreignParquet(t tester) string {
	day := time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC)
	number := func(n int64) *int64 { return &n }
	nan := missing
	var out bytes.Buffer
	w := parquetgo.NewGenericWriter[foreignShot](&out)
	if _, err := w.Write([]foreignShot{
		{day, 1, 3, number(1), "tee", 137.16, nil, false, "calm"},
		{day, 1, 3, number(2), "Bunkers", 9.144, &nan, false, "angry"},
		{day, 1, 3, number(3), "gren", 3, nil, false, "sad"},
		{day, 1, 3, number(4), "green", 0.9144, nil, true, ""},
	}); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestParquetOfAnotherWriter(t *testing.T) {
	text := foreignParquet(t)
	for _, packed := range []string{text, gzipped(t, text)} {
		o := readLog(t, "shots.parquet", packed, Options{})
		if got := strings.Join(o.column("to_hole_yd"), " "); got != "150 10 1" && !strings.HasPrefix(got, "150.0000") {
			t.Errorf("to_hole %s", got)
		}
		if got := strings.Join(o.column("date"), " ") + strings.Join(o.column("shot"), "") + strings.Join(o.column("left_yd"), ""); got != "2026-05-31 2026-05-31 2026-05-31124" {
			t.Errorf("%s", got)
		}
		want := []string{`shots.parquet:3: lie "gren": expected a known word, such as tee, fairway, rough, bunker, recovery, green; did you mean green?`}
		if !slices.Equal(o.rejects, want) || !slices.Contains(o.notes, "shots.parquet: columns not used: mood") {
			t.Errorf("%q %q", o.rejects, o.notes)
		}
	}
}

// asParquet writes a raw batch as it is, dictionaries and all.
func asParquet(t tester, batch arrow.RecordBatch) string {
	var out bytes.Buffer
	w, err := pqarrow.NewFileWriter(batch.Schema(), &out, parquet.NewWriterProperties(), pqarrow.NewArrowWriterProperties(pqarrow.WithStoreSchema()))
	if err != nil {
		t.Fatal(err)
	}
	if err := w.Write(batch); err != nil {
		t.Fatal(err)
	}
	if err := w.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// The raw batch of a log, written as Parquet, is the same log.
func TestARawBatchSurvivesParquet(t *testing.T) {
	for _, log := range []string{string(longLog(t, 2)), plainHeader + goodHole, "date,hole,par,lie,lat,lon,hole_lat,hole_lon,note\n2026-05-31,1,3,tee,56.1,-2.8,56.101,-2.8,\"a\n\"\"b\"\"\"\n"} {
		want := readLog(t, "log", log, Options{})
		got := readLog(t, "log", asParquet(t, want.records[0]), Options{})
		for _, field := range RawSchema.Fields() {
			if field.Name == SourceLine {
				continue
			}
			if a, b := strings.Join(want.column(field.Name), "|"), strings.Join(got.column(field.Name), "|"); a != b {
				t.Errorf("%s: %.80s became %.80s (%q)", field.Name, a, b, got.rejects)
			}
		}
	}
}

func TestParquetOfSomethingElseIsRefusedAsAFile(t *testing.T) {
	schema := arrow.NewSchema([]arrow.Field{{Name: "a", Type: arrow.BinaryTypes.String}}, nil)
	builder := array.NewRecordBuilder(memory.DefaultAllocator, schema)
	builder.Field(0).(*array.StringBuilder).Append("x")
	o := readLog(t, "log", asParquet(t, builder.NewRecordBatch()), Options{})
	if len(o.rejects) != 1 || !strings.HasPrefix(o.rejects[0], "log:1: no column for date, hole, par, to_hole and lie") {
		t.Errorf("%q", o.rejects)
	}
}

// Damage never crashes the reader.
func TestFlippedBitsOfParquet(t *testing.T) {
	whole := asParquet(t, readLog(t, "log", plainHeader+goodHole, Options{}).records[0])
	rapid.Check(t, func(t *rapid.T) {
		damaged := []byte(whole)
		for range rapid.IntRange(1, 3).Draw(t, "flips") {
			damaged[rapid.IntRange(0, len(damaged)-1).Draw(t, "at")] ^= 1 << rapid.IntRange(0, 7).Draw(t, "bit")
		}
		readLog(t, "log", string(damaged), Options{})
	})
}

// Damaged files that crashed readers (Apache Parquet project, parquet-testing).
func TestDamagedParquetOfTheSuite(t *testing.T) {
	paths, _ := filepath.Glob(filepath.Join(suites(t), "parquet-bad-data", "*"))
	if len(paths) < 3 {
		t.Fatalf("%d files of the suite", len(paths))
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if o := readLog(t, filepath.Base(path), string(text), Options{}); o.tally.Kept > 0 || len(o.rejects) == 0 {
			t.Errorf("%s: %+v %q", path, o.tally, o.rejects)
		}
	}
}
