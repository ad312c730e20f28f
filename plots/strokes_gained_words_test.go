package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// gained is a class row over 46 rounds.
func gained(class string, perRound, lo, hi float64) metrics.StrokesGained {
	return metrics.StrokesGained{Player: "A", GroupKind: "class", Group: class, Rounds: 46, N: 600, PerRound: perRound, PerRoundLo: lo, PerRoundHi: hi}
}

func inRounds(rounds int64, rows ...metrics.StrokesGained) []metrics.StrokesGained {
	for i := range rows {
		rows[i].Rounds, rows[i].PerRoundLo, rows[i].PerRoundHi = rounds, math.NaN(), math.NaN()
	}
	return rows
}

func TestTheStrokesGainedTitleSaysWhatTheIntervalsCarry(t *testing.T) {
	for _, test := range []struct {
		what string
		rows []metrics.StrokesGained
		want string
	}{
		{"clear of zero and of the others", []metrics.StrokesGained{
			gained("tee shot", -0.3, -0.7, 0.1), gained("approach", -2.04, -2.5, -1.6), gained("putt", 0.1, -0.3, 0.5),
		}, "Approach play loses the most: 2.0 strokes a round"},
		{"a plural part", []metrics.StrokesGained{
			gained("tee shot", -2, -2.5, -1.5), gained("approach", -0.5, -0.9, -0.1),
		}, "Tee shots lose the most: 2.0 strokes a round"},
		{"clear of zero, one other may be as bad", []metrics.StrokesGained{
			gained("approach", -1.1, -1.6, -0.6), gained("short game", -0.8, -1.2, -0.4), gained("putt", 0.1, -0.3, 0.5),
		}, "Approach play loses 1.1 strokes a round; short game may lose as much"},
		{"intervals that touch are not apart", []metrics.StrokesGained{
			gained("approach", -1.1, -1.6, -0.6), gained("short game", -0.3, -0.6, 0),
		}, "Approach play loses 1.1 strokes a round; short game may lose as much"},
		{"another is not apart, but gains", []metrics.StrokesGained{
			gained("tee shot", -0.41, -0.79, -0.04), gained("short game", -0.3, -0.5, -0.1), gained("putt", 0.2, -0.3, 0.6),
		}, "Tee shots lose 0.41 strokes a round; short game may lose as much"},
		{"not apart from one that gains, and no other", []metrics.StrokesGained{
			gained("tee shot", -0.41, -0.79, -0.04), gained("putt", 0.2, -0.3, 0.6),
		}, "Tee shots lose 0.41 strokes a round"},
		{"two others may be as bad", []metrics.StrokesGained{
			gained("tee shot", -0.5, -0.8, -0.2), gained("approach", -1.1, -1.6, -0.6), gained("short game", -0.8, -1.2, -0.4), gained("putt", 0.1, -0.3, 0.5),
		}, "Approach play loses 1.1 strokes a round; short game and tee shots may lose as much"},
		{"all others may be as bad", []metrics.StrokesGained{
			gained("tee shot", -0.5, -0.8, -0.2), gained("approach", -1.1, -1.6, -0.6), gained("short game", -0.8, -1.2, -0.4), gained("putt", -0.4, -0.9, 0.1),
		}, "Approach play loses 1.1 strokes a round, but no part of the game stands clear of the others"},
		{"the worst spans zero, the next does not", []metrics.StrokesGained{
			gained("approach", -0.9, -1.9, 0.1), gained("putt", -0.5, -0.8, -0.2),
		}, "Putting loses 0.5 strokes a round; approach play may lose as much or more"},
		{"a loss is said before a gain", []metrics.StrokesGained{
			gained("approach", -0.5, -0.8, -0.2), gained("putt", 0.9, 0.5, 1.3),
		}, "Approach play loses the most: 0.5 strokes a round"},
		{"only a gain is clear", []metrics.StrokesGained{
			gained("approach", -0.2, -0.6, 0.2), gained("putt", 0.9, 0.5, 1.3),
		}, "Putting gains the most: 0.9 strokes a round; no part of the game clearly loses"},
		{"a gain not clear of another", []metrics.StrokesGained{
			gained("approach", 0.4, -0.2, 1), gained("putt", 0.9, 0.5, 1.3),
		}, "Putting gains 0.9 strokes a round; no part of the game clearly loses"},
		{"nothing is clear", []metrics.StrokesGained{
			gained("approach", -0.2, -0.6, 0.2), gained("putt", 0.1, -0.3, 0.5),
		}, "Where are the strokes lost? No part of the game stands clear of the benchmark"},
		{"an interval that ends at zero is not clear of it", []metrics.StrokesGained{
			gained("approach", -0.4, -0.8, 0),
		}, "Where are the strokes lost? No part of the game stands clear of the benchmark"},
		{"a wide interval takes digits away", []metrics.StrokesGained{
			gained("approach", -2.3, -4.4, -0.6),
		}, "Approach play loses 2 strokes a round"},
		{"exactly one stroke", []metrics.StrokesGained{
			gained("approach", -1.4, -2.7, -0.6),
		}, "Approach play loses 1 stroke a round"},
		{"an end that would be printed as zero", []metrics.StrokesGained{
			gained("approach", -1.2, -2.3, -0.1),
		}, "Approach play loses 1.2 strokes a round"},
		{"four rounds", inRounds(4, gained("approach", -2, 0, 0), gained("putt", 1, 0, 0)), "Where are the strokes lost? Four rounds are too few to say"},
		{"one round", inRounds(1, gained("approach", -2, 0, 0)), "Where are the strokes lost? One round is too few to say"},
		{"enough rounds, but no interval known", inRounds(8, gained("approach", -2, 0, 0)), "Where are the strokes lost?"},
	} {
		chart, missing := StrokesGainedChart(Season{Player: "A"}, test.rows)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestAnIntervalUnderFiveRoundsIsNeverUsed(t *testing.T) {
	row := gained("approach", -2, -2.5, -1.5)
	row.Rounds = 4
	chart, _ := StrokesGainedChart(Season{Player: "A"}, []metrics.StrokesGained{row})
	if want := "Where are the strokes lost? Four rounds are too few to say"; spaced(chart.Title) != want {
		t.Errorf("got %q, want %q", chart.Title, want)
	}
}

func TestTheStrokesGainedAltTextGivesTheFigures(t *testing.T) {
	total := gained("all", -2.5, -3.3, -1.7)
	total.GroupKind = "total"
	rows := []metrics.StrokesGained{total, gained("putt", 0.12, -0.3, 0.5), gained("approach", -2.04, -2.5, -1.6)}
	chart, _ := StrokesGainedChart(Season{Player: "A"}, rows)
	want := "Approach play loses the most: 2.0 strokes a round. Strokes gained a round against the benchmark with 90 % interval: " +
		"approach play −2.0 (−2.5 to −1.6), putting +0.1 (−0.3 to +0.5), all strokes −2.5 (−3.3 to −1.7); from 46 rounds."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
	chart, _ = StrokesGainedChart(Season{Player: "A"}, inRounds(1, gained("approach", -2.04, 0, 0)))
	want = "Where are the strokes lost? One round is too few to say. Strokes gained a round against the benchmark, " +
		"too few rounds for intervals: approach play −2.0; from 1 round."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestTheCountingLineNamesTheBenchmarkAndTheRounds(t *testing.T) {
	words := gainWords{season: Season{Player: "Alex", Rounds: 50, Shots: 3372, Baseline: "men's professional tour"}, classes: []gainRow{newGainRow(gained("approach", -2, -2.5, -1.5), gameParts[1])}}
	if got, want := spaced(words.counted()[0]), "Alex · 46 rounds · 3,372 shots · benchmark: men's professional tour"; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	if got := words.counted()[1]; !strings.Contains(got, "interval over rounds") {
		t.Errorf("the reading line %q does not explain the interval", got)
	}
	words.classes = []gainRow{newGainRow(inRounds(8, gained("approach", -2, 0, 0))[0], gameParts[1])}
	if got, want := words.counted()[1], "Mark: strokes gained a round. No interval is known."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	words.classes = []gainRow{newGainRow(inRounds(3, gained("approach", -2, 0, 0))[0], gameParts[1])}
	if got, want := words.counted()[1], "Under five rounds no interval can be drawn: the marks are what happened, not what to expect."; got != want {
		t.Errorf("got %q, want %q", got, want)
	}
}

func TestWithoutACompleteHoleNothingIsDrawn(t *testing.T) {
	unknown := gained("approach", math.NaN(), math.NaN(), math.NaN())
	lie := gained("rough", -1, -2, 0)
	lie.GroupKind = "lie"
	chart, missing := StrokesGainedChart(Season{Player: "A"}, []metrics.StrokesGained{unknown, lie})
	if chart != nil || missing == nil || missing.Name != "strokes-gained" {
		t.Fatalf("got %v, %v", chart, missing)
	}
}
