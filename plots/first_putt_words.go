package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// firstPuttWords makes the sentences of the chart of first putts.
type firstPuttWords struct {
	season  Season
	lengths puttColumns // one a row
	rows    []metrics.Putting
	all     metrics.Putting
}

func firstPuttsMissing(n int) string {
	if n == 0 {
		return "No complete hole has a putt whose end is known."
	}
	return fmt.Sprintf("%s of complete holes %s too few to draw; it takes %d.",
		Sentence(Counted(n, "first putt", "first putts")), IsOrAre(n), fewestPutts)
}

// title says from how far most three-putts began, which is a count and no
// estimate, where there are enough of them to count.
func (w firstPuttWords) title() string {
	const question = "Where do three-putts begin?"
	three, holes := int(w.all.NThreePutt), int(w.all.NFirst)
	switch {
	case w.season.fewRounds():
		return question + " " + tooFewRounds(w.season.Rounds)
	case three == 0:
		return fmt.Sprintf("No three-putt on %s", Counted(holes, "hole", "holes"))
	case three < fewestSolid:
		return fmt.Sprintf("%s on %s: too few to say where they begin", Sentence(Counted(three, "three-putt", "three-putts")), Counted(holes, "hole", "holes"))
	}
	fromFt, n := w.mostFrom()
	if fromFt == w.rows[0].FromFt {
		return fmt.Sprintf("%s in 100 first putts take three or more", Number(100*w.all.ThreePutt, 0))
	}
	return fmt.Sprintf("%d of %d three-putts began from %s or more",
		n, three, w.lengths.edgePrinted(fromFt)+NoBreak+w.season.Units.Short())
}

// mostFrom is the farthest edge beyond which at least three in four of the
// three-putts began, and how many did.
func (w firstPuttWords) mostFrom() (fromFt float64, n int) {
	for _, row := range slices.Backward(w.rows) {
		if n += int(row.NThreePutt); 4*n >= 3*int(w.all.NThreePutt) {
			return row.FromFt, n
		}
	}
	return w.rows[0].FromFt, n
}

func (w firstPuttWords) counted() []string {
	marks := marksShown{}
	for _, row := range w.rows {
		marks.add(row.NFirst, row.ThreePuttLo, row.ThreePuttHi)
	}
	lines := []string{
		w.season.counted(Counted(int(w.all.NFirst), "first putt", "first putts")),
		"Left: median of what the first putt leaves, holed ones as 0. Right: share of holes with three putts or more.",
	}
	if marks.withLine {
		lines = append(lines, marks.lineReading()+" Pale bar: middle half.")
	}
	if marks.hollow {
		lines[len(lines)-1] += hollowUnder("putts")
	}
	return lines
}

func (w firstPuttWords) source() []string {
	text := "First putts of complete holes, from the green."
	if !math.IsNaN(w.all.ThreePutt) {
		text += fmt.Sprintf(" In all %s of %s took three putts or more", Count(int(w.all.NThreePutt)), Counted(int(w.all.NFirst), "hole", "holes"))
		if !math.IsNaN(w.all.ThreePuttLo) {
			text += fmt.Sprintf(", %s (%s to %s)", Percent(w.all.ThreePutt), wholePercent(w.all.ThreePuttLo), wholePercent(w.all.ThreePuttHi))
		}
		text += "."
	}
	return []string{text + " " + drawnFrom}
}

// alt says what the picture shows, length by length.
func (w firstPuttWords) alt() string {
	var rows []string
	for i, row := range w.rows {
		said := fmt.Sprintf("from %s %s %s left, three putts %s", w.lengths.lengthPrinted(w.lengths.columns[i]),
			leavePrinted(row, w.season.Units), w.season.Units.ShortSymbol(), madeOf(row.NThreePutt, row.NFirst))
		if row.NFirst >= fewestSolid && !math.IsNaN(row.ThreePuttLo+row.ThreePuttHi) {
			said += fmt.Sprintf(" (%s to %s)", wholePercent(row.ThreePuttLo), wholePercent(row.ThreePuttHi))
		}
		rows = append(rows, said)
	}
	return fmt.Sprintf("Median left by the first putt, and share of three putts or more with 90 %% interval: %s.",
		strings.Join(rows, "; "))
}
