package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// scored is a row of holes with counts from eagle or better to worse.
func scored(kind, group string, toPar, lo, hi float64, scores ...int64) metrics.Scoring {
	row := metrics.Scoring{
		Player: "A", GroupKind: kind, Group: group, Rounds: 46, ToPar: toPar, ToParLo: lo, ToParHi: hi,
		EaglesOrBetter: scores[0], Birdies: scores[1], Pars: scores[2], Bogeys: scores[3], Doubles: scores[4], Worse: scores[5],
		DoubleOrWorseLo: math.NaN(), DoubleOrWorseHi: math.NaN(),
	}
	for _, n := range scores {
		row.N += n
	}
	row.DoubleOrWorseShare = float64(row.Doubles+row.Worse) / float64(row.N)
	return row
}

// started is a cause of doubles of one class.
func started(class string, n, of int64, lo, hi float64) metrics.DoubleCause {
	return metrics.DoubleCause{
		Player: "A", GroupKind: metrics.ByClass, Group: class, Rounds: 46, N: of, Started: n, StartedShare: float64(n) / float64(of),
		StartedLo: lo, StartedHi: hi, LostPerRound: 0.2, LostPerRoundLo: 0.1, LostPerRoundHi: 0.3,
	}
}

func TestTheScoringTitleSaysWhereDoublesStart(t *testing.T) {
	nan := math.NaN()
	for _, test := range []struct {
		what    string
		rounds  int
		doubles int64
		causes  []metrics.DoubleCause
		want    string
	}{
		{"one part stands clear", 46, 40, []metrics.DoubleCause{started("tee shot", 26, 40, 0.52, 0.76), started("approach", 8, 40, 0.12, 0.32), started("putt", 6, 40, 0.1, 0.3)},
			"Tee shots started 26 of 40 doubles or worse, clearly the most"},
		{"one other may start as many", 46, 23, []metrics.DoubleCause{started("tee shot", 6, 23, 0.14, 0.43), started("approach", 11, 23, 0.32, 0.64), started("putt", 0, 23, 0, 0.1)},
			"Approach play started 11 of 23 doubles or worse; tee shots may start as many"},
		{"intervals that touch are not apart", 46, 23, []metrics.DoubleCause{started("tee shot", 6, 23, 0.14, 0.32), started("approach", 11, 23, 0.32, 0.64)},
			"Approach play started 11 of 23 doubles or worse; tee shots may start as many"},
		{"no part stands clear", 46, 20, []metrics.DoubleCause{started("tee shot", 5, 20, 0.1, 0.4), started("approach", 6, 20, 0.2, 0.5), started("short game", 5, 20, 0.1, 0.4), started("putt", 4, 20, 0.1, 0.4)},
			"Approach play started 6 of 20 doubles or worse, but no part of the game stands clear"},
		{"no interval is known", 46, 20, []metrics.DoubleCause{started("tee shot", 5, 20, nan, nan), started("approach", 15, 20, nan, nan)},
			"Approach play started 15 of 20 doubles or worse; tee shots may start as many"},
		{"none", 46, 0, nil, "No double bogey or worse on 300 holes"},
		{"one", 46, 1, []metrics.DoubleCause{started("putt", 1, 1, nan, nan)}, "1 double or worse on 300 holes: too few to say where they start"},
		{"nine", 46, 9, []metrics.DoubleCause{started("putt", 9, 9, 0.7, 1)}, "9 doubles or worse on 300 holes: too few to say where they start"},
		{"few whose strokes are known", 46, 20, []metrics.DoubleCause{started("putt", 3, 3, 0.7, 1)}, "20 doubles or worse on 300 holes: too few to say where they start"},
		{"strokes not known", 46, 20, nil, "Where do doubles start? Their strokes are not all known to the benchmark"},
		{"four rounds", 4, 20, []metrics.DoubleCause{started("putt", 20, 20, nan, nan)}, "Where do doubles start? Four rounds are too few to say"},
		{"one round", 1, 0, nil, "Where do doubles start? One round is too few to say"},
	} {
		rows := []metrics.Scoring{scored(metrics.ByTotal, "all", 2, 1, 3, 0, 30, 200, 70-test.doubles, test.doubles, 0)}
		chart, missing := ScoringChart(Season{Player: "A", Rounds: test.rounds}, rows, test.causes)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestTheScoringAltTextGivesTheFigures(t *testing.T) {
	rows := []metrics.Scoring{
		scored(metrics.ByTotal, "all", 2.48, 1.88, 3.1, 1, 20, 140, 30, 8, 1),
		scored(metrics.ByPar, "3", 9, 3, 15, 0, 1, 3, 2, 1, 1),
		scored(metrics.ByNine, "front", 9, 3, 15, 0, 1, 3, 2, 1, 1),
	}
	chart, _ := ScoringChart(Season{Player: "A", Rounds: 46}, rows, []metrics.DoubleCause{started("tee shot", 3, 9, 0.1, 0.6)})
	want := "9 doubles or worse on 200 holes: too few to say where they start. Scores by par, to par with 90 % interval: " +
		"par 3, 8 holes: +0.5 a hole, eagle or better 0/8, birdie 1/8, par 3/8, bogey 2/8, double bogey 1/8, worse 1/8; " +
		"all holes, 200 holes: +0.14 a hole (+0.10 to +0.17), eagle or better <1 %, birdie 10 %, par 70 %, bogey 15 %, double bogey 4 %, worse <1 %. " +
		"Doubles or worse started: tee shots 3 of 9."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestTheRarestOfManyParsIsLeftToAllHoles(t *testing.T) {
	rows := []metrics.Scoring{scored(metrics.ByTotal, "all", 2, 1, 3, 0, 30, 200, 40, 20, 0)}
	for i, par := range []string{"2", "3", "4", "5", "6"} {
		rows = append(rows, scored(metrics.ByPar, par, 2, 1, 3, 0, 1, 20+int64(i), 3, 1, 0))
	}
	chart, _ := ScoringChart(Season{Player: "A", Rounds: 46}, rows, nil)
	assertLabelsHaveTheirPlace(t, chart)
	if strings.Contains(chart.Alt, "par 2,") || !strings.Contains(chart.Alt, "par 6,") {
		t.Errorf("the alt text says %q", chart.Alt)
	}
}

func TestTooFewHolesAreNotDrawn(t *testing.T) {
	for n, want := range map[int64]string{
		0: "No hole is complete, so there is no score to draw.",
		1: "1 complete hole is too few to draw; it takes 9.",
		8: "8 complete holes are too few to draw; it takes 9.",
	} {
		chart, missing := ScoringChart(Season{Player: "A"}, []metrics.Scoring{scored(metrics.ByTotal, "all", 0, 0, 0, 0, 0, n, 0, 0, 0)}, nil)
		if chart != nil || missing == nil || spaced(missing.Reason) != want {
			t.Errorf("%d holes: %v, %v", n, chart, missing)
		}
	}
}
