package plots

import (
	"math"
	"strings"
	"testing"
	"time"

	"roundmill/metrics"
)

var july4 = time.Date(2026, 7, 4, 0, 0, 0, 0, time.UTC)

// changedBy is a change of a class from one half of 40 rounds to the other.
func changedBy(class string, change, half, p float64) metrics.TrendChange {
	return metrics.TrendChange{
		Player: "A", Class: class, SplitBy: metrics.SplitHalves, SplitDate: july4, BeforeRounds: 20, AfterRounds: 20,
		Before: -1, After: -1 + change, Change: change, ChangeLo: change - half, ChangeHi: change + half, P: p, PCorrected: p,
	}
}

func withoutTest(c metrics.TrendChange) metrics.TrendChange {
	c.BeforeRounds, c.P, c.PCorrected, c.ChangeLo, c.ChangeHi = 4, math.NaN(), math.NaN(), math.NaN(), math.NaN()
	return c
}

func splitByDate(c metrics.TrendChange) metrics.TrendChange {
	c.SplitBy = metrics.SplitByDate
	return c
}

// rolling are rounds of the classes named, of the usual length.
func rolling(rounds int, classes ...string) (rows []metrics.Trend) {
	for _, class := range classes {
		for number := 1; number <= rounds; number++ {
			row := metrics.Trend{Player: "A", Class: class, Number: int64(number), Date: july4, RoundGained: -1 + 0.1*float64(number%5),
				PerRound: math.NaN(), PerRoundLo: math.NaN(), PerRoundHi: math.NaN()}
			if number >= metrics.TrendWindow {
				row.PerRound, row.PerRoundLo, row.PerRoundHi = -0.8, -1.3, -0.3
			}
			rows = append(rows, row)
		}
	}
	return rows
}

func TestTheTrendTitleNamesAChangeThatTestAndIntervalCarry(t *testing.T) {
	for _, test := range []struct {
		what    string
		changes []metrics.TrendChange
		want    string
	}{
		{"all strokes", []metrics.TrendChange{changedBy("all", 1.27, 0.6, 0.01), changedBy("putt", 0.9, 0.4, 0.001)},
			"The game is better by 1.3 strokes a round in the second half of the rounds"},
		{"all strokes, worse, from a day on", []metrics.TrendChange{splitByDate(changedBy("all", -1.27, 0.6, 0.01))},
			"The game is worse by 1.3 strokes a round since 4 Jul 2026"},
		{"one class", []metrics.TrendChange{changedBy("all", 1.2, 1.4, 0.2), changedBy("putt", 0.9, 0.4, 0.03), changedBy("tee shot", 0.1, 0.4, 0.8)},
			"Putting is better by 0.9 strokes a round in the second half of the rounds"},
		{"two classes: the one that chance explains less", []metrics.TrendChange{changedBy("putt", 0.9, 0.4, 0.03), changedBy("tee shot", -0.6, 0.4, 0.01)},
			"Tee shots are worse by 0.6 strokes a round in the second half of the rounds"},
		{"the interval is clear, the test is not", []metrics.TrendChange{changedBy("all", 1.27, 1.2, 0.07)},
			"Has the game changed? These rounds do not tell it from chance"},
		{"the test is clear, the interval spans zero", []metrics.TrendChange{changedBy("all", 1.27, 1.4, 0.04)},
			"Has the game changed? These rounds do not tell it from chance"},
		{"too few rounds on a side", []metrics.TrendChange{withoutTest(changedBy("all", 1.27, 0, 0)), withoutTest(changedBy("putt", 1, 0, 0))},
			"Has the game changed? Too few rounds before or after to say"},
		{"nothing to compare", nil, "Has the game changed? Too few rounds before or after to say"},
	} {
		chart, missing := StrokesGainedTrendChart(Season{Player: "A"}, rolling(40, "tee shot", "putt"), test.changes)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestChanceIsSaidInWords(t *testing.T) {
	for p, want := range map[float64]string{
		0.069: "by chance: 7 in 100", 0.0005: "by chance: under 1 in 100", 1: "by chance: over 99 in 100", math.NaN(): "too few rounds for a test",
	} {
		if got := byChance(changedBy("all", 1, 1, p)); got != want {
			t.Errorf("p = %v: got %q, want %q", p, got, want)
		}
	}
}

func TestAChangeWithoutAnIntervalHasNone(t *testing.T) {
	if got, want := changed(changedBy("all", 1.27, 1.2, 0.07)), "+1.3 (+0.1 to +2.5)"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got, want := changed(withoutTest(changedBy("all", 1.27, 0, 0))), "+1.3"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestTheTrendAltTextGivesTheFigures(t *testing.T) {
	chart, _ := StrokesGainedTrendChart(Season{Player: "A"}, rolling(40, "putt"), []metrics.TrendChange{changedBy("putt", 0.5, 0.4, 0.2)})
	want := "Has the game changed? These rounds do not tell it from chance. Rolling strokes gained a round by class: " +
		"putting −0.8 (−1.3 to −0.3) over the last 10 rounds, before −1.0, after −0.5, change +0.5 (+0.1 to +0.9), by chance: 20 in 100."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestATrendNeedsTwelveRounds(t *testing.T) {
	chart, missing := StrokesGainedTrendChart(Season{Player: "A"}, rolling(11, "putt"), nil)
	if chart != nil || missing == nil || !strings.Contains(missing.Reason, "needs 12 rounds") || !strings.Contains(missing.Reason, "has 11") {
		t.Errorf("got %v, %v", chart, missing)
	}
	if chart, missing = StrokesGainedTrendChart(Season{Player: "B"}, rolling(40, "putt"), nil); chart != nil || missing == nil {
		t.Error("another player's rounds were drawn")
	}
}
