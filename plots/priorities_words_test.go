package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// part is a ranked part of the game over 46 rounds; ranks go by the order.
func part(class, lie string, fromYd, toYd, toGain, half, below float64) metrics.Priority {
	return metrics.Priority{
		Player: "A", Class: class, LieGroup: lie, FromYd: fromYd, ToYd: toYd, N: 100, Rounds: 46,
		StrokesToGain: toGain, StrokesLo: toGain - half, StrokesHi: toGain + half, ChanceBelow: below,
	}
}

func inRanks(rows ...metrics.Priority) []metrics.Priority {
	for i := range rows {
		rows[i].Rank = metrics.Rank(i + 1)
	}
	return rows
}

func notRanked(class, lie string, fromYd, toYd, raw float64) metrics.Priority {
	row := part(class, lie, fromYd, toYd, math.NaN(), 0, math.NaN())
	row.N, row.PerRoundRaw = 9, raw
	return row
}

func TestThePrioritiesTitleNamesWhatIsCertain(t *testing.T) {
	tee := part("tee shot", "", 500, 550, 0.654, 0.14, 0.9999)
	for _, test := range []struct {
		what  string
		units Units
		rows  []metrics.Priority
		want  string
	}{
		{"clear of all others", Yards, inRanks(tee, part("putt", "", 1, 2, 0.2, 0.1, 0.999)),
			"Look first at tee shots on holes of 500–550 yd, 0.7 strokes a round"},
		{"alone", Yards, inRanks(tee), "Look first at tee shots on holes of 500–550 yd, 0.7 strokes a round"},
		{"one other may give as much", Yards, inRanks(tee, part("approach", "fairway", 150, 175, 0.46, 0.15, 0.999)),
			"Worth a look: tee shots on holes of 500–550 yd, 0.7 strokes a round; one other part may give as much"},
		{"intervals that touch are not apart", Yards, inRanks(part("approach", "rough", 100, 125, 1, 0.25, 1), part("putt", "", 1, 2, 0.5, 0.25, 1)),
			"Worth a look: approaches from rough, 100–125 yd, 1.0 strokes a round; one other part may give as much"},
		{"two others", Yards, inRanks(tee, tee, tee),
			"Worth a look: tee shots on holes of 500–550 yd, 0.7 strokes a round; two other parts may give as much"},
		{"the first is not certain, the next is", Yards, inRanks(part("putt", "", 1, 2, 0.7, 0.8, 0.9), part("short game", "sand", 10, 20, 0.5, 0.2, 0.9999)),
			"Worth a look: short game from sand, 10–20 yd, 0.5 strokes a round; one other part may give as much or more"},
		{"a range without end", Yards, inRanks(part("short game", "rough", 30, math.NaN(), 1, 0.8, 0.9999)),
			"Look first at short game from rough, 30 yd and more, 1.0 strokes a round"},
		{"above 95 % is luck among many", Yards, inRanks(part("putt", "", 1, 2, 0.5, 0.4, 0.97), part("putt", "", 2, 3, 0.1, 0.4, 0.6)),
			"What to work on first? No part of the game is shown to be below the benchmark"},
		{"above 95 % alone is enough", Yards, inRanks(part("putt", "", 1, 2, 0.5, 0.4, 0.97)),
			"Look first at putts of 3–6 ft, 0.5 strokes a round"},
		{"an interval that spans zero is never enough", Yards, inRanks(part("putt", "", 1, 2, 0.5, 0.6, 0.97)),
			"What to work on first? No part of the game is shown to be below the benchmark"},
		{"better than the benchmark", Yards, inRanks(part("putt", "", 1, 2, -0.5, 0.2, 0.001)),
			"What to work on first? No part of the game is shown to be below the benchmark"},
		{"metres", Metres, inRanks(tee), "Look first at tee shots on holes of 457–503 m, 0.7 strokes a round"},
		{"putts in metres", Metres, inRanks(part("putt", "", 1, 2, 0.5, 0.2, 1)), "Look first at putts of 0.9–1.8 m, 0.5 strokes a round"},
	} {
		chart, missing := PrioritiesChart(Season{Player: "A", Units: test.units}, test.rows)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

func TestThePrioritiesAreNamedAsAGolferSaysThem(t *testing.T) {
	for _, test := range []struct {
		cell metrics.Priority
		want string
	}{
		{part("approach", metrics.OutOfReach, 0, math.NaN(), 0, 0, 0), "approaches laid up or out of reach"},
		{part("approach", metrics.FromRecovery, 0, math.NaN(), 0, 0, 0), "approaches from recovery"},
		{part("short game", metrics.FromRecovery, 0, 10, 0, 0, 0), "short game from recovery, 0–10 yd"},
		{part("tee shot", "", 550, math.NaN(), 0, 0, 0), "tee shots on holes of 550 yd and more"},
		{part("putt", "", 40.0/3, math.NaN(), 0, 0, 0), "putts of 40 ft and more"},
	} {
		if got := spaced(partOfGame(test.cell, Yards)); got != test.want {
			t.Errorf("got %q, want %q", got, test.want)
		}
	}
}

func TestThePrioritiesSayHowManyAreDrawnAndWhoToAsk(t *testing.T) {
	var rows []metrics.Priority
	for range 11 {
		rows = append(rows, part("putt", "", 1, 2, 0.1, 0.05, 1))
	}
	rows = append(inRanks(rows...), notRanked("putt", "", 2, 3, -0.2), notRanked("putt", "", 3, 4, 0.2))
	words := priorityWords{season: Season{Player: "A", Rounds: 46}, ranked: rows[:11], unranked: rows[11:12]}
	lines := words.counted(8, 1)
	if got, want := spaced(lines[len(lines)-1]), "Drawn: the 8 that give the most of 11 parts with 10 strokes and 5 rounds. Below the rule: parts with fewer, as played."; got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
	if lines := words.counted(11, 0); len(lines) != 2 {
		t.Errorf("nothing is left out, and the lines are %q", lines)
	}
	source := strings.Join(words.source(), " ")
	if !strings.Contains(source, "coach") || !strings.Contains(source, "doctor") {
		t.Errorf("the foot asks nobody: %q", source)
	}
	chart, _ := PrioritiesChart(words.season, rows)
	if !strings.Contains(chart.Alt, "putts of 3–6 ft +0.10 (+0.05 to +0.15, really below: over 99 %) of 100 strokes") {
		t.Errorf("the alt text says %q", chart.Alt)
	}
}

func TestWithoutARankThereAreNoPriorities(t *testing.T) {
	other := part("putt", "", 1, 2, 0.5, 0.2, 1)
	other.Player, other.Rank = "B", 1
	chart, missing := PrioritiesChart(Season{Player: "A"}, []metrics.Priority{notRanked("putt", "", 1, 2, -0.5), other})
	if chart != nil || missing == nil || missing.Name != "priorities" || !strings.Contains(missing.Reason, "10 strokes in 5 rounds") {
		t.Errorf("got %v, %v", chart, missing)
	}
}
