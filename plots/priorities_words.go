package plots

import (
	"fmt"
	"slices"
	"strings"

	"roundmill/metrics"
)

// askACoach stands under every chart that says what to practise.
const askACoach = "Decide what to practise with a coach; about pain or injury, ask a doctor first."

// priorityWords makes the sentences of the priorities chart from its figures.
type priorityWords struct {
	season           Season
	ranked, unranked []metrics.Priority // all of the player, in order
}

// ToGainDecimals are those that the interval of strokes to gain supports, and
// one at least: a list in order of rank has to read in order.
func ToGainDecimals(row metrics.Priority) int {
	return max(1, IntervalDecimals(row.StrokesToGain, row.StrokesLo, row.StrokesHi))
}

// strokesToGain is strokes a round, signed.
func strokesToGain(row metrics.Priority) string {
	return Signed(row.StrokesToGain, ToGainDecimals(row))
}

// Certain says whether a part is below the benchmark beyond what the luckiest of
// so many parts shows: Bonferroni's bound on one error in twenty.
func Certain(row metrics.Priority, parts int) bool {
	return row.StrokesLo > 0 && (1-row.ChanceBelow)*float64(parts) <= 0.05
}

// title names the first part that is shown to be below the benchmark, and how many
// others its interval cannot be told from.
func (w priorityWords) title() string {
	i := slices.IndexFunc(w.ranked, func(row metrics.Priority) bool { return Certain(row, len(w.ranked)) })
	if i < 0 {
		return "What to work on first? No part of the game is shown to be below the benchmark"
	}
	first, level, asMuch := w.ranked[i], 0, "as much"
	for j, other := range w.ranked {
		if j != i && other.StrokesHi >= first.StrokesLo {
			level++
		}
	}
	if i > 0 {
		asMuch = "as much or more"
	}
	amount := strings.TrimPrefix(strokesToGain(first), "+")
	named := fmt.Sprintf("%s, %s a round", partOfGame(first, w.season.Units), Strokes(amount))
	switch level {
	case 0:
		return "Look first at " + named
	case 1:
		return fmt.Sprintf("Worth a look: %s; one other part may give %s", named, asMuch)
	}
	return fmt.Sprintf("Worth a look: %s; %s other parts may give %s", named, strings.ToLower(InWords(level)), asMuch)
}

func (w priorityWords) counted(ranked, unranked int) []string {
	reading := "Mark: what the part would give if played at the benchmark. Bar: its 90" + NoBreak + "% interval. Hollow and grey: it spans zero."
	lines := append(w.season.countedAgainst(), reading)
	var which []string
	if more := len(w.ranked) - ranked; more > 0 {
		which = append(which, fmt.Sprintf("Drawn: the %d that give the most of %s with 10 strokes and 5 rounds.", ranked, Counted(len(w.ranked), "part", "parts")))
	}
	if unranked > 0 {
		which = append(which, "Below the rule: parts with fewer, as played.")
	}
	if len(which) > 0 {
		lines = append(lines, strings.Join(which, " "))
	}
	return lines
}

func (w priorityWords) source() []string {
	text := "A gap to the benchmark is not what practice can win."
	if n := len(w.ranked); n > 1 {
		text += fmt.Sprintf(" Each part is drawn towards its class (empirical Bayes); of %d parts, one may look below by chance.", n)
	}
	return append([]string{askACoach}, w.season.source(text)...)
}

// alt says what the picture shows, row by row.
func (w priorityWords) alt(drawn []metrics.Priority) string {
	var rows []string
	for _, row := range drawn {
		decimals := ToGainDecimals(row)
		rows = append(rows, fmt.Sprintf("%s %s (%s to %s, really below: %s) of %s", partOfGame(row, w.season.Units), strokesToGain(row),
			Signed(row.StrokesLo, decimals), Signed(row.StrokesHi, decimals), Chance(row.ChanceBelow), Counted(int(row.N), "stroke", "strokes")))
	}
	return fmt.Sprintf("Strokes a round that each part of the game would give if played at the benchmark, with 90 %% interval: %s. %s",
		strings.Join(rows, "; "), askACoach)
}
