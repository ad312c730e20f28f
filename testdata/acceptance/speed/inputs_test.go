//go:build linux

package main

import (
	"bytes"
	"compress/gzip"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// builtIn is the log of the built-in season, which the generator wrote.
var builtIn = filepath.Join("..", "..", "demo", "season.csv")

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestColumnsAreThoseOfAGeneratedLog(t *testing.T) {
	var names []string
	for _, column := range columns {
		names = append(names, column.name)
	}
	header, _, _ := strings.Cut(read(t, builtIn), "\n")
	if got := strings.Join(names, ","); got != header {
		t.Errorf("got  %s\nwant %s", got, header)
	}
}

func TestTheSizeOfALogIsItsShotsAndItsBytes(t *testing.T) {
	log := read(t, builtIn)
	size, err := measureLog(builtIn)
	if want := (logSize{strings.Count(log, "\n") - 1, int64(len(log))}); size != want || err != nil {
		t.Errorf("got %+v, %v; want %+v", size, err, want)
	}
}

func TestFilesTogetherAreTheLogAndEachHoldsWholeRounds(t *testing.T) {
	log := read(t, builtIn)
	header, lines, _ := strings.Cut(log, "\n")
	folder := filepath.Join(t.TempDir(), "files")
	if err := splitIntoFiles(builtIn, folder); err != nil {
		t.Fatal(err)
	}
	names, err := filepath.Glob(filepath.Join(folder, "*.csv"))
	if err != nil {
		t.Fatal(err)
	}
	if len(names) != 46 { // rounds, as 2,000 files would want more of them
		t.Errorf("%d files, want one a round", len(names))
	}
	var together strings.Builder
	seen := map[string]string{}
	for _, name := range names {
		above, shots, _ := strings.Cut(read(t, name), "\n")
		if above != header {
			t.Errorf("%s begins with %q", name, above)
		}
		together.WriteString(shots)
		for line := range strings.Lines(shots) {
			round := string(roundOf([]byte(line)))
			if file, known := seen[round]; known && file != name {
				t.Errorf("round %s is in %s and in %s", round, file, name)
			}
			seen[round] = name
		}
	}
	if together.String() != lines {
		t.Error("the files hold other lines than the log")
	}
}

func TestALogOfManyRoundsBecomesTwoThousandFiles(t *testing.T) {
	folder := t.TempDir()
	log := filepath.Join(folder, "log.csv")
	var text strings.Builder
	text.WriteString("date,player,course,tees,course_rating,slope_rating,round,hole\n")
	for round := range 7_000 {
		for hole := range 1 + round%9 {
			fmt.Fprintf(&text, "2026-03-07,P,C,white,70,120,%d,%d\n", round, hole)
		}
	}
	if err := os.WriteFile(log, []byte(text.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := splitIntoFiles(log, filepath.Join(folder, "files")); err != nil {
		t.Fatal(err)
	}
	entries, err := os.ReadDir(filepath.Join(folder, "files"))
	if err != nil || len(entries) != files {
		t.Errorf("%d files, %v; want %d", len(entries), err, files)
	}
}

func TestAPackedLogUnpacksToItself(t *testing.T) {
	packed := filepath.Join(t.TempDir(), "log.csv.gz")
	if err := pack(builtIn, packed); err != nil {
		t.Fatal(err)
	}
	unpacked, err := gzip.NewReader(strings.NewReader(read(t, packed)))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(unpacked)
	if err != nil || string(text) != read(t, builtIn) {
		t.Errorf("other text, %v", err)
	}
}

func TestJSONLinesSayWhatTheLogSaysAndLeaveOutTheRest(t *testing.T) {
	lines := filepath.Join(t.TempDir(), "log.jsonl")
	if err := writeJSONLines(builtIn, lines); err != nil {
		t.Fatal(err)
	}
	records, err := csv.NewReader(strings.NewReader(read(t, builtIn))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	objects := json.NewDecoder(bytes.NewReader([]byte(read(t, lines))))
	objects.UseNumber()
	for _, record := range records[1:] {
		var object map[string]any
		if err := objects.Decode(&object); err != nil {
			t.Fatal(err)
		}
		for i, column := range columns {
			value, there := object[column.name]
			_, quoted := value.(string)
			if there != (record[i] != "") || there && (fmt.Sprint(value) != record[i] || quoted != column.isText()) {
				t.Fatalf("%s is %#v, in the log %q", column.name, value, record[i])
			}
		}
	}
	if objects.More() {
		t.Error("more objects than shots")
	}
}

func TestScatteredLinesAreThoseOfTheLogInAnotherOrderHeaderFirst(t *testing.T) {
	log := slices.Collect(strings.Lines(read(t, builtIn)))
	for _, bucketBytes := range []int64{bucketBytes, 50_000} { // one bucket, ten
		folder := t.TempDir()
		to := filepath.Join(folder, "scattered.csv")
		if err := scatter(builtIn, to, bucketBytes); err != nil {
			t.Fatal(err)
		}
		scattered := slices.Collect(strings.Lines(read(t, to)))
		if scattered[0] != log[0] {
			t.Errorf("the first line is %q", scattered[0])
		}
		inPlace := 0
		for i := range min(len(log), len(scattered)) {
			if log[i] == scattered[i] {
				inPlace++
			}
		}
		if inPlace > 20 { // one and the header are expected
			t.Errorf("%d lines of %d stayed where they were", inPlace, len(log))
		}
		if !slices.Equal(slices.Sorted(slices.Values(scattered)), slices.Sorted(slices.Values(log))) {
			t.Errorf("buckets of %d: %d lines of %d, or others", bucketBytes, len(scattered), len(log))
		}
		if left, err := os.ReadDir(folder); err != nil || len(left) != 1 {
			t.Errorf("left in the folder: %v, %v", left, err)
		}
	}
}
