package plots

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"roundmill/metrics"
	"roundmill/testdata/demo"
	"roundmill/testdata/demo/figures"
	"roundmill/testdata/demo/golfer"
)

// wholeSeason is a log taken through all stages, to see every chart on figures
// that belong together.
type wholeSeason struct {
	name    string
	figures *metrics.Results
	display Display
}

// wholeSeasons are the logs that people look at: the demo season, parts of it,
// a long one, several players, metres.
var wholeSeasons = sync.OnceValue(func() []wholeSeason {
	invented := Display{Units: Yards, Invented: true, BaselineSource: "an invented note on where the table comes from."}
	metres := invented
	metres.Units = Metres
	var long, squad bytes.Buffer
	if _, err := golfer.WriteCSV(&long, golfer.Field(5, 1, 300)); err != nil {
		panic(err)
	}
	if _, err := golfer.WriteCSV(&squad, golfer.Field(6, 3, 12)); err != nil {
		panic(err)
	}
	seasons := []wholeSeason{
		{"demo", figures.OfLog(demo.CSV), invented},
		{"five-rounds", figures.OfLog(firstRounds(demo.CSV, 5)), invented},
		{"one-round", figures.OfLog(firstRounds(demo.CSV, 1)), invented},
		{"three-players", figures.OfLog(squad.Bytes()), invented},
		{"metres", figures.OfLog(demo.CSV), metres},
	}
	if !testing.Short() {
		seasons = append(seasons, wholeSeason{"300-rounds", figures.OfLog(long.Bytes()), invented})
	}
	return seasons
})

// firstRounds is the beginning of a log that has a round a day.
func firstRounds(log []byte, rounds int) []byte {
	lines := strings.SplitAfter(string(log), "\n")
	days, last := 0, ""
	for i, line := range lines[1:] {
		if day, _, _ := strings.Cut(line, ","); day != last {
			if days++; days > rounds {
				return []byte(strings.Join(lines[:i+1], ""))
			}
			last = day
		}
	}
	return log
}

func TestWholeSeasonsKeepEveryTextInItsPlace(t *testing.T) {
	for _, season := range wholeSeasons() {
		charts, _ := Charts(season.figures, season.display)
		if len(charts) == 0 {
			t.Errorf("%s: no chart", season.name)
		}
		for _, chart := range charts {
			t.Run(season.name+"/"+chart.Name, func(t *testing.T) { assertLabelsHaveTheirPlace(t, chart) })
		}
	}
}

func TestNoFigureThatIsNotKnownIsPrinted(t *testing.T) {
	for _, season := range wholeSeasons() {
		charts, missing := Charts(season.figures, season.display)
		for _, chart := range charts {
			texts := []string{chart.Title, chart.Alt}
			for _, label := range labelsOf(chart) {
				texts = append(texts, label.text)
			}
			for _, text := range texts {
				if strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "%!") {
					t.Errorf("%s, %s says %q", season.name, chart.Name, text)
				}
			}
		}
		for _, gap := range missing {
			if !strings.HasSuffix(gap.Reason, ".") && !strings.Contains(gap.Reason, "--player") {
				t.Errorf("%s, %s: the reason is no sentence: %q", season.name, gap.Name, gap.Reason)
			}
		}
	}
}

// goldenOfDemo leaves out the charts that golden has in situations of their own.
func goldenOfDemo(name string) bool { return len(golden[name]) == 0 }

func TestChartsOfTheDemoSeasonLookAsCheckedIn(t *testing.T) {
	demo := wholeSeasons()[0]
	charts, _ := Charts(demo.figures, demo.display)
	checkedIn, err := filepath.Glob(filepath.Join("testdata", "golden", "*-demo.png"))
	if want := len(charts) - len(golden); err != nil || len(checkedIn) != want {
		t.Errorf("%d pictures of the demo season are checked in, want %d (%v)", len(checkedIn), want, err)
	}
	for _, chart := range charts {
		if !goldenOfDemo(chart.Name) {
			continue
		}
		t.Run(chart.Name, func(t *testing.T) {
			assertLooksAsCheckedIn(t, chart, filepath.Join("testdata", "golden", chart.Name+"-demo.png"))
		})
	}
}

// TestDrawWholeSeasons writes every chart of every season into a folder, to be
// looked at: ROUNDMILL_LOOK=DIR go test -run DrawWholeSeasons ./plots
func TestDrawWholeSeasons(t *testing.T) {
	folder := os.Getenv("ROUNDMILL_LOOK")
	if folder == "" {
		t.Skip("ROUNDMILL_LOOK names no folder to draw into")
	}
	for _, season := range wholeSeasons() {
		charts, missing := Charts(season.figures, season.display)
		for _, gap := range missing {
			t.Logf("%s: no chart %s: %s", season.name, gap.Name, gap.Reason)
		}
		for _, chart := range charts {
			name := filepath.Join(folder, season.name, strings.ReplaceAll(chart.Name, "/", "-")+".png")
			var drawn bytes.Buffer
			if err := chart.WritePNG(&drawn); err != nil {
				t.Fatal(err)
			}
			if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(name, drawn.Bytes(), 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}
