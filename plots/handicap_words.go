package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// handicapWords makes the sentences of the handicap chart.
type handicapWords struct {
	season Season
	rows   []metrics.Handicap // every round of the player
	last   metrics.Handicap   // the last one that counts
}

// fewestScores is from how many scores there is an index: Rules of Handicapping
// (R&A and USGA, 2024), Rule 5.2a.
const fewestScores = 3

// handicapMissing says why there is no index after so many scores that count.
func handicapMissing(rows []metrics.Handicap, scores int) string {
	rated := slices.ContainsFunc(rows, func(row metrics.Handicap) bool { return !math.IsNaN(row.CourseRating + row.SlopeRating) })
	switch {
	case len(rows) == 0:
		return "No round is logged."
	case !rated:
		return "No round is rated: the columns course_rating and slope_rating of the log are needed."
	}
	reason := fmt.Sprintf("%s complete, rated rounds of 18 holes; an estimated index takes %d.", InWords(scores), fewestScores)
	if scores == 1 {
		reason = fmt.Sprintf("One complete, rated round of 18 holes; an estimated index takes %d.", fewestScores)
	}
	return strings.TrimSpace(reason + " " + leftOutOf(rows))
}

// leftOutOf counts the rounds that do not count, by the reason; it is empty
// where all count.
func leftOutOf(rows []metrics.Handicap) string {
	var reasons []string
	rounds := map[string]int{}
	for _, row := range rows {
		if reason, out := strings.CutPrefix(row.Note, "left out, "); out {
			if rounds[reason] == 0 {
				reasons = append(reasons, reason)
			}
			rounds[reason]++
		}
	}
	for i, reason := range reasons {
		reasons[i] = fmt.Sprintf("%s (%s)", Counted(rounds[reason], "round", "rounds"), reason)
	}
	if len(reasons) == 0 {
		return ""
	}
	return "Left out: " + strings.Join(reasons, ", ") + "."
}

// HandicapIndex prints an index to a tenth. One below zero is a plus index and
// written so: +0.9. A differential below zero has a minus (Rules of Handicapping,
// rule 5.1, from memory) but for the axis of the chart, which both share.
func HandicapIndex(value float64) string { return indexNumber(value, 1) }

func indexNumber(value float64, decimals int) string {
	if number := Number(value, decimals); !strings.HasPrefix(number, minus) {
		return number
	}
	return "+" + Number(-value, decimals)
}

// title gives the last index and what it is made of: it is a figure of the
// rules, not a sample, and is called an estimate because the log may lack
// scores.
func (w handicapWords) title() string {
	from := fmt.Sprintf("the best %d of the last %d rounds", w.last.Counted, min(w.last.Scores, 20))
	switch {
	case w.last.Counted == 1:
		from = fmt.Sprintf("the best of %d rounds", w.last.Scores)
	case w.last.Scores <= 20:
		from = fmt.Sprintf("the best %d of %d rounds", w.last.Counted, w.last.Scores)
	}
	return fmt.Sprintf("Estimated Handicap Index: %s, from %s", HandicapIndex(w.last.IndexAfter), from)
}

func (w handicapWords) counted() []string {
	reading := "Dot: Score Differential of a round. Thick line: estimated index after it, from the third score on."
	if !math.IsNaN(w.last.LowIndex) {
		reading = "Dot: Score Differential of a round. Thick line: estimated index after it. Thin line: Low Handicap Index."
	}
	season := w.season
	season.Rounds = len(w.rows)
	return []string{season.counted(Counted(int(w.last.Scores), "score that counts", "scores that count")), reading}
}

func (w handicapWords) source() []string {
	sentences := []string{Sentence(metrics.HandicapStanding) + "."}
	plus, capped, unadjusted := false, 0, 0
	for _, row := range w.rows {
		plus = plus || row.IndexAfter < 0 || row.Differential < 0
		if row.Cap != "" {
			capped++
		}
		if strings.Contains(row.Note, "stroke_index") {
			unadjusted++
		}
	}
	if left := leftOutOf(w.rows); left != "" {
		sentences = append(sentences, left)
	}
	if plus {
		sentences = append(sentences, "+: better than scratch.")
	}
	if w.last.Scores <= 6 {
		sentences = append(sentences, "From 3, 4 or 6 scores the rules take 1 or 2 strokes off.")
	}
	if capped > 0 {
		sentences = append(sentences, fmt.Sprintf("A cap held the index back after %s.", Counted(capped, "round", "rounds")))
	}
	if unadjusted > 0 {
		sentences = append(sentences, fmt.Sprintf("In %s a hole counts up to par + 5, for want of stroke_index.", Counted(unadjusted, "round", "rounds")))
	}
	sentences = append(sentences, "Without playing conditions and scores that are not in the log.", drawnFrom)
	return []string{strings.Join(sentences, " ")}
}

// alt says what the picture shows: the ends of the line.
func (w handicapWords) alt() string {
	var indexes []float64
	for _, row := range w.rows {
		if !math.IsNaN(row.IndexAfter) {
			indexes = append(indexes, row.IndexAfter)
		}
	}
	text := fmt.Sprintf("After each round, first %s, lowest %s, highest %s, last %s", HandicapIndex(indexes[0]),
		HandicapIndex(slices.Min(indexes)), HandicapIndex(slices.Max(indexes)), HandicapIndex(indexes[len(indexes)-1]))
	if !math.IsNaN(w.last.LowIndex) {
		text += "; Low Handicap Index " + HandicapIndex(w.last.LowIndex)
	}
	text += fmt.Sprintf("; %s.", Counted(int(w.last.Scores), "score", "scores"))
	if left := leftOutOf(w.rows); left != "" {
		text += " " + left
	}
	return text + " " + Sentence(metrics.HandicapStanding) + "."
}
