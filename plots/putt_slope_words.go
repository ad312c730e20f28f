package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// puttSlopeWords makes the sentences of the chart of putts by slope.
type puttSlopeWords struct {
	season      Season
	putts       int // with a slope
	columns     puttColumns
	rows        []metrics.PuttingGround // uphill and downhill
	differences []metrics.PuttingGroundDifference
}

// missing says why there is nothing to draw, "" when there is.
func (w puttSlopeWords) missing() string {
	switch {
	case w.putts == 0:
		return "No putt has a slope: the column putt_slope (uphill, level or downhill) of the log is needed."
	case w.between() == nil:
		return "No distance has putts both uphill and downhill; the column putt_slope tells which they are."
	case min(w.between().N, w.between().NOther) < fewestPutts:
		return fmt.Sprintf("From like distance there are %d putts downhill and %d uphill, too few to draw; it takes %d of each.",
			w.between().N, w.between().NOther, fewestPutts)
	}
	return ""
}

// between is downhill against uphill, nil where there is no such row.
func (w puttSlopeWords) between() *metrics.PuttingGroundDifference {
	i := slices.IndexFunc(w.differences, func(row metrics.PuttingGroundDifference) bool {
		return row.Ground == "downhill" && row.Other == "uphill"
	})
	if i < 0 {
		return nil
	}
	return &w.differences[i]
}

// title says which way more putts are made where the interval is clear of zero.
func (w puttSlopeWords) title() string {
	const question = "Are more putts made uphill or downhill?"
	row := w.between()
	amount := strings.TrimPrefix(strings.TrimPrefix(inHundred(row.Made, row.MadeLo, row.MadeHi), minus), "+")
	switch few := differenceMark(row.Made, row.MadeLo, row.MadeHi, min(row.N, row.NOther), blue, vermilion).few(); {
	case w.season.fewRounds():
		return question + " " + tooFewRounds(w.season.Rounds)
	case few || math.IsNaN(row.MadeLo+row.MadeHi):
		return question + " Too few putts to say"
	case row.MadeHi < 0:
		return fmt.Sprintf("Of 100 putts, %s fewer drop downhill than uphill from like distance", amount)
	case row.MadeLo > 0:
		return fmt.Sprintf("Of 100 putts, %s more drop downhill than uphill from like distance", amount)
	}
	return question + " These putts do not tell"
}

func (w puttSlopeWords) counted() []string {
	marks := marksShown{}
	for _, row := range w.rows {
		marks.add(row.N, row.MadeLo, row.MadeHi)
	}
	reading := "Mark: share made."
	if marks.withLine {
		reading += " " + marks.lineReading()
	}
	if marks.hollow {
		reading += hollowUnder("putts")
	}
	if slices.ContainsFunc(w.differences, func(row metrics.PuttingGroundDifference) bool { return !math.IsNaN(row.MadeLo) }) {
		reading += " Below, grey: the line spans zero."
	}
	return []string{w.season.counted(Counted(w.putts, "putt with a slope", "putts with a slope")), reading}
}

func (w puttSlopeWords) source() []string {
	text := "Putts are compared within the distances above, so that longer putts on one slope do not count against it."
	if !slices.ContainsFunc(w.differences, func(row metrics.PuttingGroundDifference) bool { return row.Kind == metrics.ByBreak }) {
		text += " By break: needs the column putt_break."
	}
	return []string{text + " " + drawnFrom}
}

// alt says what the picture shows: every difference.
func (w puttSlopeWords) alt() string {
	var rows []string
	for _, row := range w.differences {
		said := fmt.Sprintf("%s against %s %s", row.Ground, row.Other, inHundred(row.Made, row.MadeLo, row.MadeHi))
		if !math.IsNaN(row.MadeLo + row.MadeHi) {
			said += fmt.Sprintf(" (%s to %s)", Signed(100*row.MadeLo, 0), Signed(100*row.MadeHi, 0))
		}
		rows = append(rows, fmt.Sprintf("%s of %s and %s putts", said, Count(int(row.N)), Count(int(row.NOther))))
	}
	return fmt.Sprintf("Putts made of 100, more or fewer at like distance, with 90 %% interval: %s.",
		strings.Join(rows, "; "))
}
