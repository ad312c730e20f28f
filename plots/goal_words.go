package plots

import (
	"fmt"
	"strconv"
	"strings"

	"roundmill/metrics"
)

// goalWords makes the sentences of the goal chart from its figures.
type goalWords struct {
	season        Season
	goal          metrics.GoalChance // any row of the player, for what the goal is
	now           goalRow
	after         []goalRow // in the order of the priorities
	holes, rounds int64     // drawn from
}

func chanceInterval(c chanceOf) string {
	return fmt.Sprintf("(%s–%s)", Number(100*c.lo, 0), Number(100*c.hi, 0))
}

// GoalCalled is a goal inside a sentence: par, +2 to par, 74.
func GoalCalled(goal string) string {
	over, toPar := strings.CutPrefix(goal, "par")
	if strokes, err := strconv.Atoi(over); toPar && err == nil {
		return Signed(float64(strokes), 0) + " to par"
	}
	return goal
}

// title says the chance now with its interval, by both ways to make a round
// where both are known.
func (w goalWords) title() string {
	subject := "The chance of " + GoalCalled(w.goal.Goal) + " or better in one round"
	holes := Chance(w.now.holes.value) + NoBreak + chanceInterval(w.now.holes)
	if !w.now.byRound.known() {
		return subject + ": " + holes
	}
	return fmt.Sprintf("%s: %s by holes, %s by whole rounds", subject, holes, Percent(w.now.byRound.value)+NoBreak+chanceInterval(w.now.byRound))
}

func (w goalWords) counted() []string {
	reading := "Mark: chance. Bar and brackets: its 90" + NoBreak + "% interval, what is gained being taken as given."
	if !w.now.byRound.known() {
		reading += fmt.Sprintf(" Dash: under %s whole rounds.", strings.ToLower(InWords(fewestRounds)))
	}
	return append(w.season.countedAgainst(Counted(int(w.holes), "complete hole", "complete holes"), Counted(int(w.rounds), "whole round", "whole rounds")), reading)
}

func (w goalWords) source() []string {
	ways := "By holes: 18 holes of the usual pars drawn from all complete holes, each by itself; good and bad days spread rounds more than that. " +
		"By rounds: one of the whole rounds as it was played. Holes picked up are in neither: the chance flatters."
	if len(w.after) == 0 {
		return append([]string{ways}, w.season.source("")...)
	}
	return append([]string{askACoach, ways}, w.season.source("A gap to the benchmark is not what practice can win; here it is taken off every round alike.")...)
}

// alt says what the picture shows, row by row.
func (w goalWords) alt() string {
	said := func(row goalRow) string {
		text := fmt.Sprintf("%s %s by holes", Chance(row.holes.value), chanceInterval(row.holes))
		if row.byRound.known() {
			text += fmt.Sprintf(", %s %s by rounds", Percent(row.byRound.value), chanceInterval(row.byRound))
		}
		return text
	}
	rows := []string{"now " + said(w.now)}
	for _, row := range w.after {
		rows = append(rows, fmt.Sprintf("with %s at the benchmark (%s strokes a round) %s", strings.ToLower(row.name[:1])+row.name[1:], row.gain, said(row)))
	}
	return fmt.Sprintf("Chance with 90 %% interval: %s.", strings.Join(rows, "; "))
}
