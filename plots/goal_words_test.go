package plots

import (
	"math"
	"strings"
	"testing"

	"roundmill/metrics"
)

// chancesOf a goal by holes and by rounds, with 90 % intervals of so much to both sides.
func chancesOf(goal string, holes, rounds, half float64) []metrics.GoalChance {
	return []metrics.GoalChance{
		{Player: "A", Goal: goal, Method: metrics.ByHoles, Rounds: 46, N: 826, Chance: holes, ChanceLo: holes - half, ChanceHi: holes + half},
		{Player: "A", Goal: goal, Method: metrics.ByRounds, Rounds: 44, N: 44, Chance: rounds, ChanceLo: rounds - half, ChanceHi: rounds + half},
	}
}

func TestTheGoalTitleGivesBothWaysWithTheirIntervals(t *testing.T) {
	few := chancesOf("par", 0.25, 0.25, 0.1)
	few[1].ChanceLo, few[1].ChanceHi = math.NaN(), math.NaN()
	for _, test := range []struct {
		what string
		rows []metrics.GoalChance
		want string
	}{
		{"par", chancesOf("par", 0.25, 0.11, 0.05), "The chance of par or better in one round: 25 % (20–30) by holes, 11 % (6–16) by whole rounds"},
		{"over par", chancesOf("par+2", 0.25, 0.11, 0.05), "The chance of +2 to par or better in one round: 25 % (20–30) by holes, 11 % (6–16) by whole rounds"},
		{"under par", chancesOf("par-1", 0.25, 0.11, 0.05), "The chance of −1 to par or better in one round: 25 % (20–30) by holes, 11 % (6–16) by whole rounds"},
		{"a score, never reached", chancesOf("74", 0.001, 0, 0), "The chance of 74 or better in one round: under 1 % (0–0) by holes, 0 % (0–0) by whole rounds"},
		{"few whole rounds", few, "The chance of par or better in one round: 25 % (15–35)"},
	} {
		chart, missing := GoalChart(Season{Player: "A"}, test.rows, nil, nil)
		if missing != nil {
			t.Fatalf("%s: %s", test.what, missing.Reason)
		}
		if got := spaced(chart.Title); got != test.want {
			t.Errorf("%s:\n got %q\nwant %q", test.what, got, test.want)
		}
	}
}

// priorityClosed is a priority and the chances after it.
func priorityClosed() ([]metrics.GoalAfter, []metrics.Priority) {
	putts := part("putt", "", 1, 2, 0.5, 0.2, 1)
	putts.Cell, putts.Rank = "putt of 3-6 ft", 1
	return []metrics.GoalAfter{
		{Player: "A", Gain: "putt of 3-6 ft", PerRound: 0.5, HolesChance: 0.4, HolesLo: 0.3, HolesHi: 0.5, RoundsChance: 0.3, RoundsLo: 0.2, RoundsHi: 0.4},
		{Player: "A", Gain: "a gain that is no priority", HolesChance: 0.9, HolesLo: 0.9, HolesHi: 0.9},
	}, []metrics.Priority{putts}
}

func TestTheGoalAltTextGivesTheFigures(t *testing.T) {
	after, priorities := priorityClosed()
	chart, _ := GoalChart(Season{Player: "A", Units: Metres}, chancesOf("par", 0.25, 0.11, 0.05), after, priorities)
	want := "The chance of par or better in one round: 25 % (20–30) by holes, 11 % (6–16) by whole rounds. Chance with 90 % interval: " +
		"now 25 % (20–30) by holes, 11 % (6–16) by rounds; with putts of 0.9–1.8 m at the benchmark (+0.5 strokes a round) 40 % (30–50) by holes, 30 % (20–40) by rounds."
	if chart.Alt != want {
		t.Errorf("got %q\nwant %q", chart.Alt, want)
	}
}

func TestAGoalThatSaysWhatToPractiseDefersToACoach(t *testing.T) {
	words := goalWords{}
	if got := strings.Join(words.source(), " "); strings.Contains(got, "coach") {
		t.Errorf("nothing is to practise: %q", got)
	}
	words.after = []goalRow{{}}
	if got := strings.Join(words.source(), " "); !strings.Contains(got, "coach") || !strings.Contains(got, "doctor") {
		t.Errorf("the foot asks nobody: %q", got)
	}
}

func TestTheGoalCountsWhatItDrawsFrom(t *testing.T) {
	words := goalWords{season: Season{Player: "Alex"}, holes: 826, rounds: 1, now: goalRow{byRound: chanceOf{0, math.NaN(), math.NaN()}}}
	want := []string{"Alex · 826 complete holes · 1 whole round",
		"Mark: chance. Bar and brackets: its 90 % interval, what is gained being taken as given. Dash: under five whole rounds."}
	if got, want := spaced(strings.Join(words.counted(), "\n")), strings.Join(want, "\n"); got != want {
		t.Errorf("got %q\nwant %q", got, want)
	}
}

func TestAGoalThatNobodyAskedForIsNotMissing(t *testing.T) {
	few := chancesOf("par", 0.25, 0.11, math.NaN())
	few[0].Rounds, few[1].Rounds = 4, 4
	for want, rows := range map[string][]metrics.GoalChance{
		"No complete hole": nil, "needs 5 rounds with complete holes; the log has 4": few,
	} {
		chart, missing := GoalChart(Season{Player: "A"}, rows, nil, nil)
		if chart != nil || missing == nil || !strings.Contains(missing.Reason, want) {
			t.Errorf("got %v, %v, want %q", chart, missing, want)
		}
	}
	season := wholeSeasons()[3] // three players
	unasked := *season.figures
	unasked.Goal, unasked.GoalAfter = nil, nil
	_, missing := Charts(&unasked, season.display)
	times := 0
	for _, gap := range missing {
		if strings.HasSuffix(gap.Name, goalName) {
			times++
		}
	}
	if times != 0 {
		t.Errorf("the goal that nobody set is missing %d times", times)
	}
}
