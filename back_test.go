package main

import (
	"encoding/json"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roundmill/testdata/demo"
)

// figuresOf is the summary of a result folder without the places in the log.
func figuresOf(t *testing.T, folder string) (figures map[string]any) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, "summary.json"))
	if err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal([]byte(withoutSourcesIn(string(text))), &figures); err != nil {
		t.Fatal(err)
	}
	return figures
}

// withoutSourcesIn blanks the names and lines of files, so that what is left
// is still JSON.
func withoutSourcesIn(text string) string {
	return sourcePlace.ReplaceAllString(text, `"source_$1": 0`)
}

// The program's own tables, read back, give the figures of the log they came
// from; so does what another log has that is worse than the demo season.
func TestOwnParquetGivesTheFiguresOfItsLog(t *testing.T) {
	worse := strings.Replace(string(demo.CSV), ",4,fairway,10.1,", ",4,fairwy,10.1,", 1) // a refused record
	lines := strings.SplitAfter(worse, "\n")
	worse = strings.Join(append(lines[:40:40], lines[42:]...), "") // a gap
	worse = strings.Join(strings.SplitAfter(worse, "\n")[:300], "")
	for name, log := range map[string]string{"demo": string(demo.CSV), "worse": worse} {
		folder := t.TempDir()
		path := filepath.Join(folder, "log.csv")
		if err := os.WriteFile(path, []byte(log), 0o644); err != nil {
			t.Fatal(err)
		}
		out := filepath.Join(folder, "out")
		mustRun(t, "--no-charts", "-o", out, path)
		parts, err := filepath.Glob(filepath.Join(out, "tables", "shots", "*", "*.parquet"))
		if err != nil || len(parts) == 0 {
			t.Fatal(parts, err)
		}
		for how, paths := range map[string][]string{"the files": parts, "the folder": {out}} {
			back := filepath.Join(folder, "back of "+how)
			mustRun(t, append([]string{"--no-charts", "-o", back}, paths...)...)
			if diff := cmp.Diff(figuresOf(t, out), figuresOf(t, back)); diff != "" {
				t.Errorf("%s, from %s (-log +Parquet):\n%s", name, how, diff)
			}
			for _, table := range []string{"tables/holes.parquet", "tables/rounds.parquet"} {
				a, _ := os.ReadFile(filepath.Join(out, table))
				b, _ := os.ReadFile(filepath.Join(back, table))
				if string(a) != string(b) {
					t.Errorf("%s, from %s: %s differs", name, how, table)
				}
			}
			if _, err := os.Stat(filepath.Join(back, "rejects.csv")); err == nil && name == "demo" {
				t.Errorf("%s, from %s: there are rejects", name, how)
			}
		}
	}
}

var sourcePlace = regexp.MustCompile(`"source_(file|line)": [^,\n]*`)
