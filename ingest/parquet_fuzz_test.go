package ingest

import (
	"bytes"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	parquetgo "github.com/parquet-go/parquet-go"
)

// ownShot is a row of the program's own table of shots, as far as a reader
// tells it by its columns.
type ownShot struct {
	Date          string   `parquet:"date"`
	Hole          int32    `parquet:"hole"`
	Par           int32    `parquet:"par"`
	Shot          int32    `parquet:"shot"`
	Lie           string   `parquet:"lie,dict"`
	ToHole        float64  `parquet:"to_hole_yd"`
	Right         *float64 `parquet:"right_yd,optional"`
	AimRight      *float64 `parquet:"aim_left_right_yd,optional"`
	Holed         *bool    `parquet:"holed,optional"`
	Penalty       int32    `parquet:"penalty"`
	Finish        *float64 `parquet:"finish_yd,optional"`
	Proximity     *float64 `parquet:"proximity_ft,optional"`
	Complete      bool     `parquet:"hole_complete"`
	StrokesGained *float64 `parquet:"strokes_gained,optional"`
}

func ownTable(t tester) string {
	at := func(v float64) *float64 { return &v }
	yes := true
	var out bytes.Buffer
	if err := parquetgo.Write(&out, []ownShot{
		{"2026-05-31", 1, 3, 1, "tee", 150, at(2), at(-1), nil, 0, at(4), at(12), true, at(0.2)},
		{"2026-05-31", 1, 3, 2, "green", 4, nil, nil, &yes, 0, at(0), at(0), true, at(0.3)},
		{"2026-05-31", 2, 4, 1, "tee", 400, nil, nil, nil, 1, at(150), nil, false, nil},
	}); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestTheProgramsOwnTableIsToldByItsColumns(t *testing.T) {
	o := readLog(t, "shots.parquet", ownTable(t), Options{})
	if got := o.column("left_right_yd"); len(o.rejects) > 0 || len(got) != 3 || got[0] != "3" {
		t.Errorf("left_right_yd %q, rejects %q", got, o.rejects)
	}
}

// A table of a few kilobytes must not make the reader ask for more than this.
const mostForATable = 1 << 30

// FuzzParquet holds any bytes that say they are Parquet to what holds for every
// log, and to a bound on what is allocated for them. Among the seeds are files
// that crashed readers (Apache Parquet project, parquet-testing, bad_data), where
// they are at hand.
func FuzzParquet(f *testing.F) {
	log := plainHeader + goodHole
	for _, text := range []string{asParquet(f, readLog(f, "log", log, Options{}).records[0]), foreignParquet(f), ownTable(f)} {
		f.Add([]byte(text))
	}
	paths, _ := filepath.Glob(filepath.Join(os.Getenv("ROUNDMILL_SUITES"), "parquet-bad-data", "*.parquet"))
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, table []byte) {
		if !bytes.HasPrefix(table, []byte(parquetMark)) {
			return
		}
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		o := readLog(t, "log", string(table), Options{Workers: 1})
		runtime.ReadMemStats(&after)
		if asked := after.TotalAlloc - before.TotalAlloc; asked > mostForATable {
			t.Errorf("%d bytes were allocated for a file of %d", asked, len(table))
		}
		if o.tally.Refused > int64(len(o.rejects)) || o.tally.Kept != int64(len(o.column("hole"))) {
			t.Errorf("%+v with %d rejects", o.tally, len(o.rejects))
		}
	})
}
