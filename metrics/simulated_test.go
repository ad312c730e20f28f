package metrics

import (
	"bytes"
	"context"
	"testing"

	"roundmill/ingest"
	"roundmill/testdata/demo/golfer"
	"roundmill/transform"
)

// enriched are the batches of a log.
func enriched(t testing.TB, log []byte) []*transform.Shots {
	t.Helper()
	return enrichedWith(t, log, transform.Options{}.WithDefaults())
}

func enrichedWith(t testing.TB, log []byte, options transform.Options) (batches []*transform.Shots) {
	t.Helper()
	reader, err := ingest.OpenText("log.csv", log, ingest.Options{Workers: 1})
	if err != nil {
		t.Fatal(err)
	}
	for rounds, err := range reader.Rounds(context.Background()) {
		if err != nil {
			t.Fatal(err)
		}
		batch := rounds.Check()
		for _, reject := range batch.Rejects {
			t.Fatal(reject)
		}
		if batch.Record != nil {
			batches = append(batches, transform.Enrich(batch, options))
		}
	}
	return batches
}

// simulated is the log of an invented player of known skill.
func simulated(t testing.TB, seed uint64, player golfer.Player, rounds int) []byte {
	t.Helper()
	var log bytes.Buffer
	if _, err := golfer.WriteCSV(&log, golfer.Season(seed, player, golfer.Courses(), rounds)); err != nil {
		t.Fatal(err)
	}
	return log.Bytes()
}

func figuresOf(t testing.TB, log []byte) *Results {
	t.Helper()
	set := NewSet(Options{Baseline: "test"})
	for _, batch := range enriched(t, log) {
		set.Add(batch)
	}
	return set.Finish()
}

// steady is the demo player without a change over the season.
func steady() golfer.Player {
	player := golfer.Scratch()
	player.Improvement = 0
	return player
}

// The interval that claims 90 % holds the truth in 85 to 95 of 100 seasons. The
// truth is what the same player does over 8,000 rounds. (Of 1,000 seasons,
// measured once, every group held between 87.8 and 92.9 %: the rounds of a
// season are spread over the courses by a plan, which makes the sum of all
// strokes vary a little less than rounds drawn at random.)
func TestIntervalsHoldTheTruthInNineOfTenSeasons(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 400 seasons")
	}
	const seasons, rounds, manyRounds = 400, 46, 8000
	truth := map[string]float64{}
	for _, row := range gainsOf(t, simulated(t, 999, steady(), manyRounds)) {
		truth[row.GroupKind+" "+row.Group] = row.PerRound
	}
	held, tried := map[string]int{}, map[string]int{}
	for season := range uint64(seasons) {
		for _, row := range gainsOf(t, simulated(t, season+1, steady(), rounds)) {
			group := row.GroupKind + " " + row.Group
			if row.Rounds < rounds/2 {
				continue // rare strokes: a season has too few to speak of
			}
			tried[group]++
			if row.PerRoundLo <= truth[group] && truth[group] <= row.PerRoundHi {
				held[group]++
			}
		}
	}
	for group, n := range tried {
		if n < seasons {
			continue
		}
		if share := float64(held[group]) / float64(n); share < 0.85 || share > 0.95 {
			t.Errorf("%s: the 90 %% interval holds the truth in %.1f %% of %d seasons", group, 100*share, n)
		}
	}
	if tried["total all"] != seasons || tried["class putt"] != seasons {
		t.Errorf("tried %v", tried)
	}
	t.Logf("held of %d: %v", seasons, held)
}

func gainsOf(t testing.TB, log []byte) []StrokesGained {
	t.Helper()
	figures := newStrokesGainedFigures(NewSet(Options{}).strokesGained.options)
	for _, batch := range enriched(t, log) {
		figures.Add(batch)
	}
	return figures.Rows()
}

func approachesOf(t testing.TB, log []byte) []ApproachProximity {
	t.Helper()
	figures := newApproachFigures(NewSet(Options{}).approach.options)
	for _, batch := range enriched(t, log) {
		figures.Add(batch)
	}
	return figures.Rows()
}

// The interval of the median goes by order statistics, whose steps only err on
// the wide side: at least 85 of 100, and not all.
func TestMedianIntervalsHoldTheTruth(t *testing.T) {
	if testing.Short() {
		t.Skip("simulates 200 seasons")
	}
	const seasons, rounds, manyRounds = 200, 46, 8000
	type cell struct {
		group string
		band  float64
	}
	truth := map[cell]float64{}
	for _, row := range approachesOf(t, simulated(t, 999, steady(), manyRounds)) {
		truth[cell{row.LieGroup, row.BandFromYd}] = row.MedianFt
	}
	held, tried := map[cell]int{}, map[cell]int{}
	for season := range uint64(seasons) {
		for _, row := range approachesOf(t, simulated(t, season+1, steady(), rounds)) {
			at := cell{row.LieGroup, row.BandFromYd}
			if row.N < 30 {
				continue
			}
			tried[at]++
			if row.MedianLoFt <= truth[at] && truth[at] <= row.MedianHiFt {
				held[at]++
			}
		}
	}
	cells := 0
	for at, n := range tried {
		if n < seasons {
			continue
		}
		cells++
		if share := float64(held[at]) / float64(n); share < 0.85 || share > 0.97 {
			t.Errorf("%v: the 90 %% interval holds the median in %.1f %% of %d seasons", at, 100*share, n)
		}
	}
	if cells < 8 {
		t.Errorf("only %d cells have 30 shots in every season", cells)
	}
}
