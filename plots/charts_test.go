package plots

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

func TestPlayerFoldersAreSafeAndDifferent(t *testing.T) {
	seen := map[string]bool{}
	for i, name := range []string{"../x", "CON", "", strings.Repeat("a", 300), "Ann Lee", "ann lee", "Zoë", "名前", "a/b\\c", "."} {
		folder := PlayerFolder(i+1, name)
		if strings.ContainsAny(folder, "/\\.: ") || folder == "" || len(folder) > 50 || seen[strings.ToLower(folder)] {
			t.Errorf("%q gets the folder %q", name, folder)
		}
		seen[strings.ToLower(folder)] = true
	}
}

// The terminal summary fits 80 columns, whatever the names and numbers.
func TestSummaryFitsEightyColumns(t *testing.T) {
	results := &metrics.Results{}
	for player := range 40 {
		name := fmt.Sprintf("%02d %s", player, strings.Repeat("Very Long Name ", 20))
		results.Seasons = append(results.Seasons, metrics.Season{
			Player: name, Rounds: 12345, Shots: 1234567, Holes: 99999, ToPar: -10.25, ToParLo: -11.5, ToParHi: -9, Score: 100.2,
			Putts: 40.1, Penalties: 10.3, FairwayShare: 1, GreenShare: math.NaN(), UpAndDownShare: 1, BirdiesOrBetter: 10.2, DoublesOrWorse: 12.5,
		})
		results.StrokesGained = append(results.StrokesGained,
			metrics.StrokesGained{Player: name, GroupKind: metrics.ByTotal, Group: "all", N: 1234567, PerRound: -20.51, PerRoundLo: -22.25, PerRoundHi: -18.75, Baseline: strings.Repeat("long baseline ", 10)},
			metrics.StrokesGained{Player: name, GroupKind: metrics.ByClass, Group: "putt", N: 1, PerRound: 0, PerRoundLo: math.NaN(), PerRoundHi: math.NaN()})
		results.Approach = append(results.Approach,
			metrics.ApproachProximity{Player: name, LieGroup: metrics.FromFairway, BandFromYd: 225, BandToYd: 250, N: 123456, MedianFt: 151.5, MedianLoFt: 148.2, MedianHiFt: 155.1, GreenShare: 1},
			metrics.ApproachProximity{Player: name, LieGroup: metrics.FromRough, BandFromYd: 225, BandToYd: 250, N: 1, MedianFt: 1.5, MedianLoFt: math.NaN(), MedianHiFt: math.NaN()})
	}
	for _, players := range []int{1, 3, 4, 40} {
		some := *results
		some.Seasons = results.Seasons[:players]
		for _, units := range []Units{Yards, Metres} {
			var out strings.Builder
			if err := WriteSummary(&out, &some, Display{Units: units}, Outcome{Folder: "out", Refused: 12345, Charts: 2, Page: "report.html", WithoutPages: strings.Repeat("why there is none ", 10)}); err != nil {
				t.Fatal(err)
			}
			for line := range strings.Lines(out.String()) {
				if n := len([]rune(strings.TrimRight(line, "\n"))); n > summaryWidth {
					t.Errorf("%d players, %s: %d columns: %s", players, units, n, line)
				}
			}
		}
	}
}
