package ingest

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Logs that people do write, and that were once taken for something else.
func TestRareLogs(t *testing.T) {
	const strokes = "date,player,hole,par,shot,lie,to_hole\n"
	for _, c := range []struct {
		name, log string
		options   Options
		kept      int64
		says      string // what is said of it contains this
	}{
		{"a drive by positions has no end", "date,hole,par,shot,lie,lat,lon,hole_lat,hole_lon\n2026-05-31,1,4,1,tee,56.3400,-2.8,56.3433,-2.8\n", Options{}, 1, "hole 1 has no end: the last record is a stroke from 401 yd"},
		{"nor has one without a hole", "date,hole,par,shot,lie,lat,lon\n2026-05-31,1,4,1,tee,56.34,-2.8\n2026-05-31,1,4,2,rough,56.342,-2.8\n", Options{}, 2, "is not known; write where the hole is"},
		{"a unit that is not the header's", "date,hole,par,shot,lie,to_hole_m\n2026-05-31,1,3,1,tee,150 m\n2026-05-31,1,3,2,green,12 ft\n", Options{}, 1, `to_hole "12 ft": expected a number; such as 137.5; the header says that the column is in m, and a cell can be in no other unit`},
		{"thousands marks and a decimal point", "date,hole,par,shot,lie,to_hole_ft\n2026-05-31,1,4,1,tee,\"1,206.5\"\n2026-05-31,1,4,2,green,20\n2026-05-31,2,4,1,tee,\"1,206\"\n2026-05-31,2,4,2,green,20\n", Options{}, 3, `to_hole "1,206": expected a number`},
		{"a refused stroke of a player called Sum", "player," + strings.Replace(strokes, "player,", "", 1) + "Kim Sum,2026-05-31,1,3,1,tee,150\nKim Sum,2026-05-31,1,3,2,gren,5\n", Options{}, 1, `lie "gren"`},
		{"a description that names a unit", "date,hole,par,shot,lie,to_hole\nday played,number,of the hole,number,where it lay,metres\n2026-05-31,1,3,1,tee,137\n2026-05-31,1,3,2,green,5\n", Options{}, 2, "line 2 describes the columns"},
		{"a unit in the cell goes before the flag", "date,hole,par,shot,lie,to_hole\n2026-05-31,1,3,1,tee,150\n2026-05-31,1,3,2,green,12 ft\n", Options{PuttUnit: Metres}, 2, ""},
		{"a stroke that is commented out", strokes + "2026-05-31,A,1,3,1,tee,150\n# 2026-05-31,A,1,3,2,rough,20\n2026-05-31,A,1,3,2,green,5\n", Options{}, 2, "1 comment"},
		{"a comment with more commas than columns", strokes + "2026-05-31,A,1,3,1,tee,150\n# wet, cold, windy, dark, late, slow, loud, long\n2026-05-31,A,1,3,2,green,5\n", Options{}, 2, "1 comment"},
		{"a total with blank cells behind it", strokes + "2026-05-31,A,1,3,1,tee,150\n2026-05-31,A,1,3,2,green,5\nTotal,,,,2,,,,,\n", Options{}, 2, "1 total line"},
		{"a title in brackets", "[Season 2026]\n" + strokes + "2026-05-31,A,1,3,1,tee,150\n2026-05-31,A,1,3,2,green,5\n", Options{}, 2, "1 title line"},
		{"an hour of one digit", strokes + "2026-05-31 9:05,A,1,3,1,tee,150\n2026-05-31 9:05,A,1,3,2,green,5\n", Options{}, 2, ""},
		{"a slope in degrees is no slope rating", "date,hole,par,shot,lie,to_hole,Slope (deg)\n2026-05-31,1,3,1,tee,150,\n2026-05-31,1,3,2,green,5,2\n", Options{}, 2, "columns not used: Slope (deg)"},
		{"scorecards of a course that has a place", `{"date":"2026-05-31","course":{"name":"Example course","lat":56.34,"lon":-2.8,"length":6500},"holes":[{"hole":1,"par":4,"score":5},{"hole":2,"par":3,"score":3}]}`, Options{}, 2, ""},
	} {
		reader, err := OpenText("log", []byte(c.log), c.options)
		if err != nil {
			t.Fatal(err)
		}
		o := readAll(t, reader)
		said := strings.Join(append(append(o.rejects, o.notes...), reader.ReadAs()[0]...), "\n")
		if o.tally.Kept != c.kept || !strings.Contains(said, c.says) {
			t.Errorf("%s: %d kept, expected %d and %q\n%s", c.name, o.tally.Kept, c.kept, c.says, said)
		}
		if strings.HasPrefix(c.name, "scorecards") && o.tally.Scorecards != 2 {
			t.Errorf("%s: %+v", c.name, o.tally)
		}
		if want, described := map[string]string{"a description that names a unit": "149.8", "a unit in the cell goes before the flag": "4"}[c.name]; described && !strings.Contains(strings.Join(o.column("to_hole_yd"), " "), want) {
			t.Errorf("%s: %q", c.name, o.column("to_hole_yd"))
		}
	}
}

// What the user mapped goes before what a key seems to say, in JSON as in CSV.
func TestAMappedKeyGoesFirst(t *testing.T) {
	mapping, err := ReadMapping("columns", strings.NewReader("Dist = to_hole yd\n"))
	if err != nil {
		t.Fatal(err)
	}
	for _, keys := range []string{`"Dist":150,"to_hole":9`, `"to_hole":9,"Dist":150`} {
		o := readLog(t, "log", `{"date":"2026-05-31","hole":1,"par":3,"lie":"tee","holed":"yes",`+keys+`}`, Options{Columns: mapping})
		if o.tally.Kept != 1 || strings.Join(o.column("to_hole_yd"), "") != "150" {
			t.Errorf("%s: %q %q", keys, o.column("to_hole_yd"), o.rejects)
		}
	}
}

// One line feed, behind the header, and carriage returns behind the records: all
// are read, however the text is cut.
func TestLinesThatEndInBothWays(t *testing.T) {
	const holes = 2000
	var log strings.Builder
	log.WriteString("date,round,hole,par,shot,lie,to_hole,note\n")
	for i := range holes {
		for shot, lie := range []string{"tee", "green"} {
			fmt.Fprintf(&log, "2026-05-31,%d,%d,3,%d,%s,%d,%s\r", i/18, 1+i%18, shot+1, lie, 150-140*shot, strings.Repeat("x", 300))
		}
	}
	for _, chunk := range []int{500, 4096, defaultChunkBytes} {
		reader, err := OpenText("log.csv", []byte(log.String()), Options{Workers: 1})
		if err != nil {
			t.Fatal(err)
		}
		reader.chunkBytes = chunk
		if o := readAll(t, reader); o.tally.Kept != 2*holes || len(o.rejects) > 0 {
			t.Errorf("chunks of %d: %+v, %q", chunk, o.tally, o.rejects[:min(3, len(o.rejects))])
		}
	}
}

// A line too long is passed over to its end, whichever way it ends.
func TestALongLineEndsAtALoneReturn(t *testing.T) {
	good := "2026-05-31,1,3,1,tee,150\r2026-05-31,1,3,2,green,5\r"
	o := readLog(t, "log.csv", "date,hole,par,shot,lie,to_hole\n"+strings.Repeat("x", 6*maxLine)+"\r"+good, Options{Workers: 1})
	if o.tally.Kept != 2 || o.tally.Refused != 1 {
		t.Errorf("%+v %q", o.tally, o.rejects)
	}
}

func TestAnArchiveThatChangesStopsTheRun(t *testing.T) {
	name := filepath.Join(t.TempDir(), "season.zip")
	write := func(text string) {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	write(zipped(t, "may.csv", plainHeader+goodHole, "june.csv", plainHeader+goodHole))
	reader, err := Open(t.Context(), []string{name}, nil, Options{})
	if err != nil {
		t.Fatal(err)
	}
	write(zipped(t, "may.csv", plainHeader))
	os.Chtimes(name, time.Time{}, time.Now().Add(time.Hour))
	for _, err = range reader.Rounds(t.Context()) {
	}
	if err == nil || !strings.Contains(err.Error(), "was changed while it was read") {
		t.Errorf("%v", err)
	}
}

// A word of the user's table means that also where a stroke ended.
func TestAUsersLieGoesBeforeAWordForTheFinish(t *testing.T) {
	lies := DefaultLies()
	if err := lies.ReadLies("lies", strings.NewReader("water = recovery\n")); err != nil {
		t.Fatal(err)
	}
	if got := lies.FinishCategory("Water"); got != Recovery {
		t.Errorf("water is %v", got)
	}
	if got := DefaultLies().FinishCategory("Water"); got != OutOfPlay {
		t.Errorf("water is %v", got)
	}
}
