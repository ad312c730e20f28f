package metrics

import (
	"bytes"
	"encoding/json"
	"errors"
	"io/fs"
	"math"
	"path/filepath"
	"testing"
	"time"

	"roundmill/ingest/disk"
)

func summaryOf(t *testing.T, warnings []Warning, parts ...*Results) []byte {
	t.Helper()
	summary := NewSummary(disk.Scratch{})
	for _, part := range parts {
		if err := summary.Add(part); err != nil {
			t.Fatal(err)
		}
	}
	var text bytes.Buffer
	if err := summary.Write(&text, Context{Version: "1.2.3", Baseline: "a \"b\"", ChartsMissing: []string{"aim: why"}}, warnings); err != nil {
		t.Fatal(err)
	}
	return text.Bytes()
}

// However players are parted, the file is that of all at once, with a line for
// every row.
func TestASummaryInPartsIsThatOfTheWhole(t *testing.T) {
	day := time.Date(2026, 5, 31, 0, 0, 0, 0, time.UTC)
	first := &Results{Seasons: []Season{{Player: "A", From: day, To: day, Shots: 3}}, Trend: []Trend{{Player: "A"}, {Player: "A"}}}
	second := &Results{Seasons: []Season{{Player: "<B> \xff", Score: 70.25, Putts: 1e-9}, {Score: math.NaN(), Putts: math.Inf(1)}}, Goal: []GoalChance{{Player: "B"}}}
	warnings := []Warning{{Figure: "aim", Text: "little"}, {Figure: "goal", Player: "B", Text: "less"}}
	var whole Results
	whole.Append(first)
	whole.Append(second)
	want := summaryOf(t, warnings, &whole)
	for name, parts := range map[string][]*Results{
		"two parts":        {first, second},
		"with empty parts": {{}, first, {}, {}, second, {}},
	} {
		if got := summaryOf(t, warnings, parts...); !bytes.Equal(got, want) {
			t.Errorf("%s:\n%s\nexpected\n%s", name, got, want)
		}
	}
	rows := 0
	for line := range bytes.Lines(want) {
		if bytes.HasPrefix(line, []byte("      {\"player\":")) {
			rows++
			if row := bytes.TrimRight(line, ",\n"); !json.Valid(row) {
				t.Errorf("%s is no row", row)
			}
		}
	}
	if rows != 6 {
		t.Errorf("%d lines of rows in\n%s", rows, want)
	}
	var read struct {
		Tables   map[string][]map[string]any
		Warnings []Warning
		Missing  []string `json:"charts_missing"`
	}
	if err := json.Unmarshal(want, &read); err != nil || len(read.Tables["seasons"]) != 3 || len(read.Warnings) != 2 || len(read.Missing) != 1 {
		t.Fatalf("%v, %v", read, err)
	}
	if a, b := read.Tables["seasons"][0], read.Tables["seasons"][2]; a["from_date"] != "2026-05-31" || a["shots"] != 3.0 || b["player"] != nil || b["from_date"] != nil {
		t.Errorf("%v and %v", a, b)
	}
	if a, b := read.Tables["seasons"][1], read.Tables["seasons"][2]; a["player"] != "<B> \ufffd" || a["putts_per_18"] != 1e-9 || b["score_per_18"] != nil || b["putts_per_18"] != nil {
		t.Errorf("%v and %v", a, b)
	}
}

func TestFiguresThatCannotBeKeptAreAnError(t *testing.T) {
	summary := NewSummary(disk.Scratch{Folder: filepath.Join(t.TempDir(), "missing"), Memory: 1})
	if err := summary.Add(&Results{Trend: []Trend{{}}}); !errors.Is(err, fs.ErrNotExist) {
		t.Error(err)
	}
}
