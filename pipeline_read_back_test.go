package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
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
	if err := json.Unmarshal([]byte(withoutSources(string(text))), &figures); err != nil {
		t.Fatal(err)
	}
	return figures
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
		path := writeFile(t, folder, "log.csv", log)
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

// A list of rejects, once mended, is read as a log: beside the logs that it came
// from it fills their gaps, whatever separators, units, dates and layouts they have.
func TestMendedRejectsFillTheGapsOfTheirLogs(t *testing.T) {
	logs := map[string]string{
		"a.csv": `date,course,hole,par,shot,lie,to_hole,left_right,note,mood
2026-05-31,Invented,1,4,1,tee,402,-9.5,,calm
2026-05-31,Invented,1,4,2,rough,148,,"=1+1, he said",calm
2026-05-31,Invented,1,4,3,green,24,,,calm
2026-05-31,Invented,1,4,4,green,3,,,calm
2026-05-31,Invented,2,3,1,tee,150,,,calm
2026-05-31,Invented,2,3,2,green,12,,,calm
`,
		"b.csv": `Played;Course;Hole;Par;Shot;Lie;Dist;Putt length
05/06/2026;Invented;1;4;1;tee;350,125;
05/06/2026;Invented;1;4;2;fairway;101,5;
05/06/2026;Invented;1;4;3;green;;12,5
16/06/2026;Invented;1;3;1;tee;137,625;
16/06/2026;Invented;1;3;2;green;;2
`,
		"c.json": `[{"date":"2026-07-01","course":"Invented","holes":[{"hole":1,"par":3,"shots":[
{"shot":1,"lie":"tee","to_hole_m":140},
{"shot":2,"lie":"bunker","to_hole_m":10.5},
{"shot":3,"lie":"green","to_hole_m":1.5}]}]}]`,
	}
	slips := []struct{ file, right, wrong string }{
		{"a.csv", ",1,4,2,rough,148,", ",1,4,2,ruff,148,"},
		{"a.csv", "2,3,1,tee,150,,", "2,3,1,tee,150,near,"},
		{"b.csv", "4;2;fairway", "4;2;farway"},
		{"b.csv", "3;1;tee;137,625", "3;1;teee;137,625"},
		{"c.json", `"bunker"`, `"bunkerr"`},
	}
	folder := t.TempDir()
	write := func(name, text string) string { return writeFile(t, folder, name, text) }
	columns := write("columns.txt", "Dist = to_hole m\nPlayed = date\n")
	for name, text := range logs {
		write("right/"+name, text)
		for _, slip := range slips {
			if slip.file == name {
				if !strings.Contains(text, slip.right) {
					t.Fatalf("%s has no %s", name, slip.right)
				}
				text = strings.Replace(text, slip.right, slip.wrong, 1)
			}
		}
		write("wrong/"+name, text)
	}
	out := func(name string) string { return filepath.Join(folder, name) }
	mustRun(t, "--no-charts", "--columns", columns, "-o", out("of right"), out("right"))
	mustRun(t, "--no-charts", "--columns", columns, "-o", out("of wrong"), out("wrong"))
	list, err := os.ReadFile(filepath.Join(out("of wrong"), "rejects.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if lines := strings.Count(string(list), "\n"); lines != 1+len(slips) {
		t.Errorf("%d lines of rejects, expected a header and %d:\n%s", lines, len(slips), list)
	}
	mended := string(list)
	for _, slip := range []struct{ wrong, right string }{{",ruff,148,", ",rough,148,"}, {",near,", ",,"}, {",farway,", ",fairway,"}, {",teee,", ",tee,"}, {",bunkerr,", ",bunker,"}} {
		parts := strings.Split(mended, "\n")
		for i, line := range parts {
			if at := strings.LastIndex(line, slip.wrong); at >= 0 {
				parts[i] = line[:at] + slip.right + line[at+len(slip.wrong):]
			}
		}
		mended = strings.Join(parts, "\n")
	}
	write("wrong/rejects.csv", mended)
	mustRun(t, "--no-charts", "--columns", columns, "-o", out("of mended"), out("wrong"))
	for _, table := range []string{"tables/holes.parquet", "tables/rounds.parquet"} {
		right, _ := os.ReadFile(filepath.Join(out("of right"), table))
		mended, err := os.ReadFile(filepath.Join(out("of mended"), table))
		if err != nil || string(right) != string(mended) {
			t.Errorf("%s of the mended log differs from that of the right one (%v)", table, err)
		}
	}
	// Without being mended it is refused again, and alone it needs no mapping.
	write("again/rejects.csv", string(list))
	if status := run(t.Context(), []string{"--no-charts", "-o", out("of again"), out("again")}, nil, &bytes.Buffer{}, &bytes.Buffer{}); status != exitRejected {
		t.Errorf("rejects that were not mended: exit status %d", status)
	}
	write("alone/rejects.csv", mended)
	mustRun(t, "--no-charts", "-o", out("of alone"), out("alone"))
}
