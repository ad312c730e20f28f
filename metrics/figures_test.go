package metrics

import (
	"bytes"
	"errors"
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roundmill/ingest/ordered"
	"roundmill/testdata/demo"
	"roundmill/testdata/demo/golfer"
	"roundmill/transform"
)

// sameRows compares rows to the last bit; NaN is equal to NaN, and where a
// stroke stands in its file is not looked at.
func sameRows(t *testing.T, name string, a, b any) {
	t.Helper()
	if diff := cmp.Diff(a, b, cmpopts.EquateNaNs(), cmpopts.IgnoreFields(CostlyShot{}, "SourceLine"), cmpopts.IgnoreUnexported(SquadPlayer{})); diff != "" {
		t.Errorf("%s (-whole +parts):\n%s", name, diff)
	}
}

// rounds cuts a log into one log a round.
func roundsOf(log []byte) (logs [][]byte) {
	lines := strings.SplitAfter(string(log), "\n")
	header, last := lines[0], ""
	for _, line := range lines[1:] {
		if line == "" {
			continue
		}
		fields := strings.SplitN(line, ",", 8)
		if key := fields[0] + fields[2] + fields[6]; key != last {
			logs = append(logs, []byte(header))
			last = key
		}
		logs[len(logs)-1] = append(logs[len(logs)-1], line...)
	}
	return logs
}

func TestRoundsInAnyBatchesAndOrderGiveTheSameRows(t *testing.T) {
	options := Options{Baseline: "test"}
	whole := NewSet(options)
	for _, batch := range enriched(t, demo.CSV) {
		whole.Add(batch)
	}
	oneByOne := NewSet(options)
	logs := roundsOf(demo.CSV)
	if len(logs) != 46 {
		t.Fatalf("%d rounds", len(logs))
	}
	for i := range logs {
		round := len(logs) - 1 - i // the last first
		for _, batch := range enriched(t, logs[round]) {
			oneByOne.Add(batch)
		}
	}
	sameRows(t, "results", whole.Finish(), oneByOne.Finish())
}

// What the players' figures are made of is apart, but for the ranks of a squad
// and the bound on advice on aim.
func TestPlayersInPartsGiveTheSameResults(t *testing.T) {
	for _, players := range []int{2, 7, mostAimedFor + 1} {
		var log bytes.Buffer
		if _, err := golfer.WriteCSV(&log, golfer.Field(4, players, 6)); err != nil {
			t.Fatal(err)
		}
		byPlayer := map[string]*Set{}
		whole := NewSet(Options{})
		for _, round := range roundsOf(log.Bytes()) {
			for _, batch := range enriched(t, round) {
				whole.Add(batch)
				name := batch.Player.At(0)
				if byPlayer[name] == nil {
					byPlayer[name] = NewSet(Options{Players: players})
				}
				byPlayer[name].Add(batch)
			}
		}
		var parts Results
		for _, name := range slices.Sorted(maps.Keys(byPlayer)) {
			parts.Append(byPlayer[name].Finish())
		}
		RankSquad(parts.Squad)
		want := whole.Finish()
		for _, warnings := range [][]Warning{want.Warnings, parts.Warnings} {
			slices.SortFunc(warnings, func(a, b Warning) int {
				return strings.Compare(a.Player+a.Figure+a.Text, b.Player+b.Figure+b.Text)
			})
		}
		sameRows(t, "results", want, &parts)
		if len(byPlayer) != players || len(want.Squad) != players {
			t.Fatalf("%d players, %d in the squad", len(byPlayer), len(want.Squad))
		}
	}
}

func find[R any](t *testing.T, rows []R, is func(R) bool) R {
	t.Helper()
	for _, row := range rows {
		if is(row) {
			return row
		}
	}
	t.Fatal("no such row")
	panic("unreachable")
}

// Two holes worked by hand with the published values of the 2012 and 2014
// tables (testdata/reference, from memory): a par 4 of 400 yd (3.99) in four,
// and a par 3 of 160 yd (2.99) in two.
func TestTwoHolesByHand(t *testing.T) {
	results := figuresOf(t, []byte(`date,player,hole,par,shot,lie,to_hole
2026-05-31,A,1,4,1,tee,400
2026-05-31,A,1,4,2,fairway,160
2026-05-31,A,1,4,3,green,8
2026-05-31,A,1,4,4,green,1
2026-05-31,A,2,3,1,tee,160
2026-05-31,A,2,3,2,green,10
`))
	gain := func(kind, group string) StrokesGained {
		return find(t, results.StrokesGained, func(r StrokesGained) bool { return r.GroupKind == kind && r.Group == group })
	}
	const perRound = 18.0 / 2
	for _, want := range []struct {
		kind, group string
		n           int64
		gained      float64
	}{
		{ByTotal, "all", 6, 3.99 - 4 + 2.99 - 2},
		{ByClass, "tee shot", 1, 3.99 - 2.98 - 1},
		{ByClass, "approach", 2, 2.98 - 1.50 - 1 + 2.99 - 1.61 - 1},
		{ByClass, "putt", 3, 1.50 - 1.00 - 1 + 1.00 - 1 + 1.61 - 1},
		{ByLie, "tee", 2, 3.99 - 2.98 - 1 + 2.99 - 1.61 - 1},
		{ByPar, "3", 2, 2.99 - 2},
		{ByPar, "4", 4, 3.99 - 4},
		{ByBand, "150-175", 2, 2.98 - 1.50 - 1 + 2.99 - 1.61 - 1},
	} {
		row := gain(want.kind, want.group)
		if row.N != want.n || math.Abs(row.PerRound-perRound*want.gained) > 1e-9 || math.Abs(row.Per100-100*want.gained/float64(want.n)) > 1e-9 {
			t.Errorf("%s %s: n %d, %v a round, %v per 100; expected %d, %v and %v", want.kind, want.group,
				row.N, row.PerRound, row.Per100, want.n, perRound*want.gained, 100*want.gained/float64(want.n))
		}
		if !math.IsNaN(row.PerRoundLo) || !math.IsNaN(row.PerRoundHi) {
			t.Errorf("%s %s: an interval from one round", want.kind, want.group)
		}
	}
	all := find(t, results.Approach, func(r ApproachProximity) bool { return r.LieGroup == AllLies && r.BandFromYd == 150 })
	if all.N != 2 || all.MeanFt != 9 || all.MedianFt != 9 || all.P25Ft != 8.5 || all.GreenShare != 1 || all.Inside15ftShare != 1 || !math.IsNaN(all.MedianLoFt) {
		t.Errorf("approaches from 150-175: %+v", all)
	}
	season := results.Seasons[0]
	if season.Score != 54 || season.ToPar != -9 || season.Rounds != 1 || season.Holes != 2 || season.GreenShare != 1 {
		t.Errorf("season: %+v", season)
	}
	if first := results.Warnings[0]; first.Figure != "every interval" || first.Player != "A" {
		t.Errorf("the first warning is %v", first)
	}
}

// A penalty counts in n and against the shares, and has no distance.
func TestAPenaltyIsAnApproachWithoutADistance(t *testing.T) {
	results := figuresOf(t, []byte(`date,hole,par,shot,lie,to_hole,penalty
2026-05-31,1,3,1,tee,160,1
2026-05-31,1,3,2,drop zone,90,
2026-05-31,1,3,3,green,30,
2026-05-31,1,3,4,green,2,
`))
	row := find(t, results.Approach, func(r ApproachProximity) bool { return r.LieGroup == FromFairway })
	if row.N != 1 || row.NPenalty != 1 || row.GreenShare != 0 || row.Inside30ftShare != 0 || !math.IsNaN(row.MedianFt) || len(row.FinishesFt) != 0 {
		t.Errorf("%+v", row)
	}
	// 2.99 before, then 90 yd in the rough (2.99): the stroke and the penalty are lost.
	if math.Abs(row.StrokesGainedPer+2) > 1e-9 {
		t.Errorf("strokes gained %v", row.StrokesGainedPer)
	}
}

// Shots add to holes, holes to rounds, classes, lies and pars to the total.
func TestGroupsAddUpToTheTotal(t *testing.T) {
	results := figuresOf(t, demo.CSV)
	total := find(t, results.StrokesGained, func(r StrokesGained) bool { return r.GroupKind == ByTotal })
	for _, kind := range []string{ByClass, ByLie, ByPar} {
		n, perRound := int64(0), 0.0
		for _, row := range results.StrokesGained {
			if row.GroupKind == kind {
				n += row.N
				perRound += row.PerRound
			}
		}
		if n != total.N || math.Abs(perRound-total.PerRound) > 1e-9 {
			t.Errorf("by %s: %d strokes, %v a round; in all %d, %v", kind, n, perRound, total.N, total.PerRound)
		}
	}
	var fromRounds, eighteens float64
	for _, batch := range enriched(t, demo.CSV) {
		for round := range batch.Rounds.Len() {
			fromRounds += batch.Rounds.StrokesGained[round]
			eighteens += float64(batch.Rounds.Holes[round]) / 18
		}
	}
	if math.Abs(fromRounds/eighteens-total.PerRound) > 1e-9 {
		t.Errorf("rounds give %v a round, strokes %v", fromRounds/eighteens, total.PerRound)
	}
}

// The bands that a player names are the bands of the tables, edges as given.
func TestBandsAreThoseAskedFor(t *testing.T) {
	edges := []float64{100 / 0.9144, 120 / 0.9144, 140 / 0.9144}
	set := NewSet(Options{BandsYd: edges})
	log := []byte("date,hole,par,shot,lie,to_hole_m\n2026-05-31,1,3,1,tee,120\n2026-05-31,1,3,2,green,2\n")
	reader := enrichedWith(t, log, transform.Options{BandsYd: edges}.WithDefaults())
	for _, batch := range reader {
		set.Add(batch)
	}
	rows := set.Finish().Approach
	if len(rows) != 2 || rows[0].BandFromYd != edges[1] || rows[0].BandToYd != edges[2] {
		t.Errorf("120 m is in %+v", rows)
	}
}

func TestRoundsOfADayStandInTheOrderOfPlay(t *testing.T) {
	day := func(course, round string) roundKey { return roundKey{20000, course, round} }
	want := []roundKey{
		{19999, "Vale", "12"}, day("Vale", "1"), day("Ash", "2"), day("Vale", "2"), day("Vale", "09"), day("Vale", "9"),
		day("Ash", "10"), day("Vale", ""), day("Ash", "afternoon"), day("Ash", "morning"),
	}
	got := slices.Clone(want)
	slices.Reverse(got)
	slices.SortFunc(got, roundKey.compare)
	if !slices.Equal(got, want) {
		t.Errorf("%v, expected %v", got, want)
	}
}

// A mistake in the figures of one player reaches whoever asked for them.
func TestAPanicInTheFiguresOfAPlayerIsNotLost(t *testing.T) {
	err := ordered.Guard(func() error {
		rowsOf(byPlayer[int]{"A": new(int), "B": nil}, func(_ string, figures *int) []int { return []int{*figures} })
		return nil
	})
	var bug *ordered.Bug
	if !errors.As(err, &bug) || !strings.Contains(string(bug.Stack), "TestAPanicInTheFigures") {
		t.Errorf("%v", err)
	}
}

// Page and terminal show a warning without the name of its figure.
func TestAWarningSaysWhatItIsAbout(t *testing.T) {
	results := figuresOf(t, []byte(`date,course_rating,slope_rating,hole,par,shot,lie,to_hole,club
2026-05-31,70,120,1,4,1,tee,400,driver
2026-05-31,70,120,1,4,2,fairway,100,PW
2026-05-31,70,120,1,4,3,green,3,putter
`))
	for figure, want := range map[string]string{
		"tee_clubs":        "left or right is not known of 1 of 1 tee shots: left_right is not written, nor are positions of ball and target",
		"distance_control": "1 of 1 shots are left out of distance control: long_short is not written, nor are positions",
		"wind_slope":       "1 of 1 shots at the green are left out of the figures by wind and slope: long_short is not written, nor are positions",
		"miss_pattern":     "1 of 1 shots at the green are left out of the pattern of misses: long_short and left_right are not both written, nor are positions",
		"handicap":         "handicap, left out, not a round of 18 holes: 1 of 1 rounds",
	} {
		if got := find(t, results.Warnings, func(w Warning) bool { return w.Figure == figure }); got.Text != want {
			t.Errorf("%s: %q, expected %q", figure, got.Text, want)
		}
	}
}
