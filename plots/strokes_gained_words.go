package plots

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// gainWords makes the sentences of the strokes gained chart from its figures.
type gainWords struct {
	season  Season
	classes []gainRow
	total   []gainRow
}

// does is the part with a verb: "Approach play loses", "Tee shots lose".
func (p gamePart) does(one, more string) string {
	if p.plural {
		return p.name + " " + more
	}
	return p.name + " " + one
}

// title names the part of the game that loses the most only where its interval
// is clear of zero and of every other part's interval, and else says how far
// the figures go.
func (w gainWords) title() string {
	const question = "Where are the strokes lost?"
	if !w.hasIntervals() {
		if rounds := w.rounds(); rounds < fewestRounds {
			return question + " " + tooFewRounds(rounds)
		}
		return question
	}
	byLoss := slices.Clone(w.classes)
	slices.SortStableFunc(byLoss, func(a, b gainRow) int { return cmp.Compare(a.PerRound, b.PerRound) })
	if i := slices.IndexFunc(byLoss, gainRow.loses); i >= 0 {
		return lossTitle(byLoss[i], slices.Delete(slices.Clone(byLoss), i, i+1))
	}
	slices.Reverse(byLoss)
	if i := slices.IndexFunc(byLoss, gainRow.gains); i >= 0 {
		return gainTitle(byLoss[i], slices.Delete(slices.Clone(byLoss), i, i+1))
	}
	return question + " No part of the game stands clear of the benchmark"
}

func lossTitle(worst gainRow, others []gainRow) string {
	lost := fmt.Sprintf("%s a round", Strokes(worst.amount()))
	var losing []string
	level, asMuch := 0, "as much"
	for _, other := range others {
		if !other.hasInterval() || other.PerRoundLo <= worst.PerRoundHi {
			level++
			if other.PerRound < 0 {
				losing = append(losing, strings.ToLower(other.part.name))
			}
		}
		if other.PerRound < worst.PerRound {
			asMuch = "as much or more"
		}
	}
	switch {
	case len(others) > 0 && level == 0:
		return fmt.Sprintf("%s the most: %s", worst.part.does("loses", "lose"), lost)
	case level > 2:
		return fmt.Sprintf("%s %s, but no part of the game stands clear of the others", worst.part.does("loses", "lose"), lost)
	case len(losing) == 0:
		return fmt.Sprintf("%s %s", worst.part.does("loses", "lose"), lost)
	}
	return fmt.Sprintf("%s %s; %s may lose %s", worst.part.does("loses", "lose"), lost, strings.Join(losing, " and "), asMuch)
}

func gainTitle(best gainRow, others []gainRow) string {
	clear := !slices.ContainsFunc(others, func(other gainRow) bool {
		return !other.hasInterval() || other.PerRoundHi >= best.PerRoundLo
	})
	if len(others) > 0 && clear {
		return fmt.Sprintf("%s the most: %s a round; no part of the game clearly loses",
			best.part.does("gains", "gain"), Strokes(best.amount()))
	}
	return fmt.Sprintf("%s %s a round; no part of the game clearly loses",
		best.part.does("gains", "gain"), Strokes(best.amount()))
}

func (w gainWords) hasIntervals() bool { return slices.ContainsFunc(w.classes, gainRow.hasInterval) }

// rounds is how many rounds the figures are of.
func (w gainWords) rounds() int {
	most := 0
	for _, row := range slices.Concat(w.classes, w.total) {
		most = max(most, int(row.Rounds))
	}
	return most
}

func (w gainWords) counted() []string {
	season := w.season
	season.Rounds = w.rounds()
	var parts []string
	if season.Shots > 0 {
		parts = append(parts, Counted(season.Shots, "shot", "shots"))
	}
	lines := season.countedAgainst(parts...)
	var reading string
	switch {
	case w.hasIntervals():
		reading = "Mark: strokes gained a round. Bar: its 90" + NoBreak + "% interval over rounds. Filled: clear of zero. Hollow and grey: the bar spans zero."
	case w.rounds() < fewestRounds:
		reading = fmt.Sprintf("Under %s rounds no interval can be drawn: the marks are what happened, not what to expect.", strings.ToLower(InWords(fewestRounds)))
	default:
		reading = "Mark: strokes gained a round. No interval is known."
	}
	return append(lines, reading)
}

func (w gainWords) source() []string {
	return w.season.source("Only complete holes count; a round is 18 of them.")
}

// alt says what the picture shows, row by row.
func (w gainWords) alt() string {
	var rows []string
	for _, row := range slices.Concat(w.classes, w.total) {
		rows = append(rows, strings.ToLower(row.part.name)+" "+row.withInterval())
	}
	interval := " with 90 % interval"
	if !w.hasIntervals() {
		interval = ", too few rounds for intervals"
	}
	return fmt.Sprintf("Strokes gained a round against the benchmark%s: %s; from %s.",
		interval, strings.Join(rows, ", "), Counted(w.rounds(), "round", "rounds"))
}
