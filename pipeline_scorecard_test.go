package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"roundmill/testdata/demo"
)

// scorecards is a scorecard file of some rounds, two of them on days of the demo
// season, under names of their own, and a last one of which half is missing.
func scorecards() string {
	var log strings.Builder
	log.WriteString("date,player,course,tees,course_rating,slope_rating,round,hole,par,stroke_index,score,putts\n")
	for round, date := range []string{"2026-01-10", "2026-03-07", "2026-07-01", "2026-12-31"} {
		for hole := 1; hole <= 18-9*(round/3); hole++ {
			putts := ""
			if round > 0 {
				putts = fmt.Sprint(1 + hole%3)
			}
			fmt.Fprintf(&log, "%s,Wenlo Tarrowby,Invented Park,white,70.1,121,card,%d,4,%d,%d,%s\n", date, hole, hole, 4+(round+hole)%3, putts)
		}
	}
	return log.String()
}

func written(t *testing.T, name, text string) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), name)
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestScorecardsBesideStrokesGiveTheSameBytesOnAnyNumberOfWorkers(t *testing.T) {
	strokes, cards := written(t, "strokes.csv", string(demo.CSV)), written(t, "cards.csv", scorecards())
	one, two := filepath.Join(t.TempDir(), "out"), filepath.Join(t.TempDir(), "out")
	mustRun(t, "--goal", "75", "--workers", "1", "-o", one, strokes, cards)
	mustRun(t, "--goal", "75", "--workers", "2", "-o", two, strokes, cards)
	sameFiles(t, outFiles(t, one), outFiles(t, two))

	alone, back := filepath.Join(t.TempDir(), "out"), filepath.Join(t.TempDir(), "out")
	mustRun(t, "--goal", "75", "--no-charts", "-o", alone, strokes)
	mustRun(t, "--goal", "75", "--no-charts", "-o", back, one)
	of := func(files map[string]string) map[string]string {
		tables := map[string]string{}
		for name, content := range files {
			for _, score := range []string{"holes", "rounds", "seasons", "squad", "scoring", "bounce_back", "course_holes", "goal", "handicap"} {
				name = strings.TrimPrefix(name, "tables/"+score)
			}
			if strings.HasPrefix(name, "tables/") {
				tables[name] = content
			}
		}
		return tables
	}
	sameFiles(t, of(outFiles(t, alone)), of(outFiles(t, one)))
	if first, second := figuresOf(t, alone), figuresOf(t, back); fmt.Sprint(first) != fmt.Sprint(second) {
		t.Error("results with scorecards do not read back as the strokes alone")
	}
}

// The scorecard that the README shows is read, counted and scored.
func TestTheScorecardOfTheReadme(t *testing.T) {
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	card, out := written(t, "card.csv", readmeFiles(string(text))["card.csv"]), filepath.Join(t.TempDir(), "out")
	mustRun(t, "--strict", "-o", out, card)
	record, err := os.ReadFile(filepath.Join(out, "run.json"))
	if err != nil {
		t.Fatal(err)
	}
	var told struct {
		Total  map[string]int
		Inputs []struct {
			Cards  int      `json:"scorecard_holes"`
			ReadAs []string `json:"read_as"`
		}
	}
	if err := json.Unmarshal(record, &told); err != nil {
		t.Fatal(err)
	}
	const want = "3 records with a score and no stroke, read as scorecards: they count for scores and handicap only"
	if told.Total["kept"] != 3 || told.Total["scorecard_holes"] != 3 || told.Inputs[0].Cards != 3 || !strings.Contains(strings.Join(told.Inputs[0].ReadAs, "\n"), want) {
		t.Errorf("%+v", told)
	}
	page, err := os.ReadFile(filepath.Join(out, "report.html"))
	if err != nil || !strings.Contains(string(page), "holes of scorecards, which count for scores, goal and handicap only.") {
		t.Errorf("the page says nothing of scorecards (%v)", err)
	}
	season := figuresOf(t, out)["tables"].(map[string]any)["seasons"].([]any)[0].(map[string]any)
	if season["score_per_18"] != 84.0 || season["putts_per_18"] != 36.0 || season["shots"] != 0.0 || season["penalties_per_18"] != nil {
		t.Errorf("%+v", season)
	}
}
