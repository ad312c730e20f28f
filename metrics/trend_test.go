package metrics

import (
	"bytes"
	"math"
	"slices"
	"testing"
	"time"

	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
)

func trendOf(t testing.TB, log []byte, split time.Time) *TrendFigures {
	t.Helper()
	return addTo(t, newTrendFigures(testOptions(), split), log)
}

// homeSeason is a season on one course, so that rounds differ by chance alone.
func homeSeason(t testing.TB, seed uint64, player golfer.Player, rounds int) []byte {
	t.Helper()
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Season(seed, player, golfer.Courses()[:1], rounds)); err != nil {
		t.Fatal(err)
	}
	return log.Bytes()
}

// The window that ends with the 20th round is strokes gained over rounds 11 to
// 20 of the log, as the table strokes_gained has it; the classes add up.
func TestAWindowIsTheStrokesGainedOfItsRounds(t *testing.T) {
	rows := trendOf(t, demo.CSV, time.Time{}).Rows()
	if len(rows) != 5*46 {
		t.Fatalf("%d rows", len(rows))
	}
	window := bytes.Join(roundsOf(demo.CSV)[10:20], nil)
	header, _, _ := bytes.Cut(window, []byte("\n"))
	window = append(append(header, '\n'), bytes.ReplaceAll(window, append(header, '\n'), nil)...)
	gained := figuresOf(t, window).StrokesGained
	classes := 0.0
	for _, row := range rows {
		if row.Number != 20 {
			if full := row.Number >= 10; full == math.IsNaN(row.PerRound) || full == math.IsNaN(row.PerRoundLo) {
				t.Errorf("round %d: %+v", row.Number, row)
			}
			continue
		}
		want := find(t, gained, func(r StrokesGained) bool {
			return r.GroupKind == ByClass && r.Group == row.Class || r.GroupKind == ByTotal && row.Class == "all"
		})
		if math.Abs(row.PerRound-want.PerRound) > 1e-9 || row.WindowRounds != 10 {
			t.Errorf("%s: %v, expected %v", row.Class, row.PerRound, want.PerRound)
		}
		// Two kinds of interval of the same ten rounds.
		if width := (row.PerRoundHi - row.PerRoundLo) / (want.PerRoundHi - want.PerRoundLo); width < 0.8 || width > 1.25 {
			t.Errorf("%s: the interval is %.2f of the bootstrap's", row.Class, width)
		}
		if row.Class != "all" {
			classes += row.PerRound
		}
	}
	all := find(t, rows, func(r Trend) bool { return r.Class == "all" && r.Number == 20 })
	if math.Abs(all.PerRound-classes) > 1e-9 {
		t.Errorf("classes add up to %v, all is %v", classes, all.PerRound)
	}
}

func TestTheSplitIsByHalvesOrByDate(t *testing.T) {
	halves := trendOf(t, demo.CSV, time.Time{}).ChangeRows()
	if len(halves) != 5 || halves[0].Class != "all" || halves[0].BeforeRounds != 23 || halves[0].AfterRounds != 23 || halves[0].SplitDate.Format(time.DateOnly) != "2026-07-04" {
		t.Errorf("%+v", halves[0])
	}
	day := time.Date(2026, time.July, 4, 0, 0, 0, 0, time.UTC)
	byDate := trendOf(t, demo.CSV, day).ChangeRows()
	for i := range byDate {
		if byDate[i].SplitBy != SplitByDate {
			t.Errorf("%+v", byDate[i])
		}
		byDate[i].SplitBy = SplitHalves // otherwise the same: 4 July is the 24th round
	}
	sameRows(t, "4 July", halves, byDate)
	late := trendOf(t, demo.CSV, day.AddDate(0, 0, 108)) // 20 October: one round is left
	for _, row := range late.ChangeRows() {
		if row.AfterRounds != 1 || !math.IsNaN(row.P) || !math.IsNaN(row.PCorrected) || !math.IsNaN(row.ChangeLo) || math.IsNaN(row.Change) {
			t.Errorf("one round after the split: %+v", row)
		}
	}
	if warnings := late.warnings(); len(warnings) != 1 || warnings[0].Figure != "trend_change" {
		t.Errorf("%v", warnings)
	}
	never := trendOf(t, demo.CSV, day.AddDate(1, 0, 0)).ChangeRows()
	if never[0].AfterRounds != 0 || !math.IsNaN(never[0].After) || !math.IsNaN(never[0].Change) || never[0].BeforeRounds != 46 {
		t.Errorf("no round after the split: %+v", never[0])
	}
}

// Worked by hand from Holm's rule: 0.01 x 4, 0.02 x 3, 0.03 x 2, which may not
// fall under 0.06, and 0.9 x 1.
func TestPIsCorrectedByHolm(t *testing.T) {
	rows := []TrendChange{{P: 0.03}, {P: 0.01}, {P: 0.9}, {P: 0.02}}
	correct(rows)
	for i, want := range []float64{0.06, 0.04, 0.9, 0.06} {
		if math.Abs(rows[i].PCorrected-want) > 1e-12 {
			t.Errorf("p %v becomes %v, expected %v", rows[i].P, rows[i].PCorrected, want)
		}
	}
	rows = []TrendChange{{P: 0.5}, {P: 0.6}}
	correct(rows)
	if rows[0].PCorrected != 1 || rows[1].PCorrected != 1 {
		t.Errorf("%+v", rows)
	}
}

// Without a change, p is uniform: over 300 seasons the largest distance of its
// distribution from the even one (A. N. Kolmogorov) stays under 1.95/√300, which
// chance passes once in a thousand. The interval of the change holds nought.
func TestWithoutAChangePIsUniform(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 300 seasons")
	}
	const seasons = 300
	changes := inParallel(seasons, func(seed uint64) []TrendChange {
		return trendOf(t, homeSeason(t, seed, steady(), 46), time.Time{}).ChangeRows()
	})
	for place, name := range []string{"all", "tee shot", "approach", "short game", "putt"} {
		held := 0
		var p []float64
		for _, rows := range changes {
			row := rows[place]
			if row.Class != name {
				t.Fatalf("%s is %s", name, row.Class)
			}
			p = append(p, row.P)
			if row.ChangeLo <= 0 && 0 <= row.ChangeHi {
				held++
			}
		}
		slices.Sort(p)
		distance := 0.0
		for i, at := range p {
			distance = max(distance, math.Abs(float64(i+1)/seasons-at), math.Abs(float64(i)/seasons-at))
		}
		if distance > 1.95/math.Sqrt(seasons) {
			t.Errorf("%s: p is %.3f from uniform", name, distance)
		}
		if share := float64(held) / seasons; share < 0.85 || share > 0.95 {
			t.Errorf("%s: the 90 %% interval holds no change in %.1f %%", name, 100*share)
		}
		below, _ := slices.BinarySearch(p, 0.05)
		t.Logf("%s: held %d of %d, p under 0.05 in %d, distance %.3f", name, held, seasons, below, distance)
	}
}

// The interval of a window holds what the player is worth in 85 to 95 of 100
// windows of ten rounds.
func TestWindowsHoldTheTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 8,000 rounds")
	}
	const rounds = 8000
	truth, figures := map[string]float64{}, trendOf(t, homeSeason(t, 7, steady(), rounds), time.Time{})
	for _, row := range figures.ChangeRows() {
		truth[row.Class] = (row.Before*float64(row.BeforeHoles) + row.After*float64(row.AfterHoles)) / float64(row.BeforeHoles+row.AfterHoles)
	}
	held, tried := map[string]int{}, map[string]int{}
	for _, row := range figures.Rows() {
		if row.Number%TrendWindow == 0 { // windows that share no round
			tried[row.Class]++
			if row.PerRoundLo <= truth[row.Class] && truth[row.Class] <= row.PerRoundHi {
				held[row.Class]++
			}
		}
	}
	for class, n := range tried {
		if share := float64(held[class]) / float64(n); share < 0.87 || share > 0.93 || n != rounds/TrendWindow {
			t.Errorf("%s: held in %.1f %% of %d windows", class, 100*share, n)
		}
	}
	t.Logf("held of %d windows: %v", rounds/TrendWindow, held)
}

// A player who gets better is found out, the more the better he gets; the
// intervals hold the change that the seasons show on average.
func TestAChangeIsFound(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 300 seasons")
	}
	const seasons = 100
	found := map[float64]int{}
	for _, improvement := range []float64{0.05, 0.15, 0.3} {
		player := golfer.Scratch()
		player.Improvement = improvement
		changes := inParallel(seasons, func(seed uint64) TrendChange {
			return trendOf(t, homeSeason(t, seed, player, 46), time.Time{}).ChangeRows()[0]
		})
		mean, held := 0.0, 0
		for _, row := range changes {
			mean += row.Change / seasons
			if row.P < 0.05 {
				found[improvement]++
			}
		}
		for _, row := range changes {
			if row.ChangeLo <= mean && mean <= row.ChangeHi {
				held++
			}
		}
		if mean < 0 || held < 82 || held > 97 { // three standard errors of 100 seasons
			t.Errorf("improvement %v: change %v, held in %d of %d", improvement, mean, held, seasons)
		}
		t.Logf("spreads %v smaller after a season: change %.2f a round, p under 0.05 in %d of %d, held %d", improvement, mean, found[improvement], seasons, held)
	}
	if !(found[0.05] < found[0.15] && found[0.15] < found[0.3]) || found[0.3] < 90 {
		t.Errorf("found in %v of %d seasons", found, seasons)
	}
}
