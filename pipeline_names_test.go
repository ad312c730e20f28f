package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"roundmill/testdata/demo/golfer"
)

// Whatever players, courses and rounds are called, every file is in the folder
// of the results, under a name that is good on every system and no two of which
// differ only in case.
func TestHostileNamesMakeNoHostileFiles(t *testing.T) {
	names := []string{"../x", "..", "CON", "", strings.Repeat("long ", 60), "anna", "ANNA", `a/b\c:d`, "x.", "-rf", "=1+1", "new\nline", "\u202etxt", "Ö"}
	if testing.Short() {
		names = names[:3]
	}
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Field(7, len(names), 2)); err != nil {
		t.Fatal(err)
	}
	records, err := csv.NewReader(&log).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	met := map[string]int{}
	player, course := slices.Index(records[0], "player"), slices.Index(records[0], "course")
	for _, record := range records[1:] {
		number, known := met[record[player]]
		if !known {
			number = len(met)
			met[record[player]] = number
		}
		record[player], record[course] = names[number], names[len(names)-1-number]+" course"
	}
	parent := t.TempDir()
	file, err := os.Create(filepath.Join(parent, "log.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if err := csv.NewWriter(file).WriteAll(records); err != nil {
		t.Fatal(err)
	}
	file.Close()
	out := filepath.Join(parent, "out")
	mustRun(t, "--quiet", "-o", out, file.Name())
	folded := map[string]string{}
	good := regexp.MustCompile(`^[a-zA-Z0-9][a-zA-Z0-9=_-]{0,60}(\.[a-z]+)?$`)
	reserved := regexp.MustCompile(`(?i)^(con|prn|aux|nul|com[0-9]|lpt[0-9])(\.|$)`)
	charts := map[string]bool{}
	for name := range outFiles(t, out) {
		if other, same := folded[strings.ToLower(name)]; same {
			t.Errorf("%s and %s are one file where case does not count", name, other)
		}
		folded[strings.ToLower(name)] = name
		for _, part := range strings.Split(name, "/") {
			if !good.MatchString(part) || reserved.MatchString(part) {
				t.Errorf("%s is no good name everywhere", name)
			}
		}
		if strings.HasPrefix(name, "charts/") {
			charts[path.Dir(name)] = true
		}
	}
	if len(charts) != len(names) {
		t.Errorf("%d folders of charts for %d players: %v", len(charts), len(names), charts)
	}
	if entries, err := os.ReadDir(parent); err != nil || len(entries) != 2 {
		t.Errorf("beside the log and the results there is %v (%v)", entries, err)
	}
}
