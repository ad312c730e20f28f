package plots

import (
	"fmt"
	"math"
	"strings"

	"roundmill/metrics"
)

// shortGameWords makes the sentences of the short game chart.
type shortGameWords struct {
	season      Season
	all         metrics.ShortGame
	lies, drawn []metrics.ShortGame // most frequent first; those with a row
	distances   []metrics.ShortGame
	sided       metrics.ShortSided // of all distances; the zero row for none
}

func shortGamesMissing(n int) string {
	if n == 0 {
		return "No complete hole has a short-game stroke."
	}
	return fmt.Sprintf("%s with a short-game stroke %s too few to draw; it takes %d.",
		Sentence(Counted(n, "complete hole", "complete holes")), IsOrAre(n), fewestShortGames)
}

// distance names a row of one distance.
func (w shortGameWords) distance(row metrics.ShortGame) string {
	return w.season.Units.Band(row.FromYd, row.ToYd) + NoBreak + w.season.Units.Long()
}

// title names the lie that loses the most strokes in all of those whose
// interval lies beyond the benchmark's strokes, else one that gains. It goes by
// strokes: the share that the benchmark implies is only as good as its
// assumption (metrics.ShortGame).
func (w shortGameWords) title() string {
	const question = "Where does the short game lose strokes?"
	if w.season.fewRounds() {
		return question + " " + tooFewRounds(w.season.Rounds)
	}
	var worst, best *metrics.ShortGame
	known := false
	lost := func(row *metrics.ShortGame) float64 { return float64(row.N) * (row.Strokes - row.BaselineStrokes) }
	for i := range w.lies {
		row := &w.lies[i]
		if row.N < EnoughForQuestion || math.IsNaN(row.StrokesLo+row.StrokesHi+row.BaselineStrokes) {
			continue
		}
		known = true
		if row.StrokesLo > row.BaselineStrokes && (worst == nil || lost(row) > lost(worst)) {
			worst = row
		}
		if row.StrokesHi < row.BaselineStrokes && (best == nil || lost(row) < lost(best)) {
			best = row
		}
	}
	switch {
	case worst != nil:
		return fmt.Sprintf("From the %s holing out takes %s more than the benchmark expects", printable(worst.Lie), apartFromBenchmark(worst))
	case best != nil:
		return fmt.Sprintf("From the %s holing out takes %s fewer than the benchmark expects; no lie clearly loses", printable(best.Lie), apartFromBenchmark(best))
	case known:
		return question + " No lie stands clear of the benchmark"
	}
	return fmt.Sprintf("%s No lie has %d holes to say it with", question, EnoughForQuestion)
}

// apartFromBenchmark is by how many strokes the mean differs.
func apartFromBenchmark(row *metrics.ShortGame) string {
	apart := math.Abs(row.Strokes - row.BaselineStrokes)
	return Strokes(Number(apart, max(1, Decimals(apart, row.StrokesHi-row.StrokesLo))))
}

func (w shortGameWords) counted() []string {
	marks, benchmark := marksShown{}, false
	for _, row := range append(append([]metrics.ShortGame{w.all}, w.drawn...), w.distances...) {
		marks.add(row.N, row.UpAndDownLo, row.UpAndDownHi)
		benchmark = benchmark || !math.IsNaN(row.BaselineShare)
	}
	reading := "Saved: up and down, in %."
	if marks.withLine {
		reading += " " + marks.lineReading()
	}
	if benchmark {
		reading += " Dash: the benchmark."
	}
	if marks.hollow {
		reading += hollowUnder("holes")
	}
	return []string{w.season.counted(Counted(int(w.all.N), "hole", "holes") + " with a short-game stroke"), reading}
}

// shortSided says what being short-sided costs, as far as it is known.
func (w shortGameWords) shortSided() string {
	row := w.sided
	compared := fmt.Sprintf("%s against %s", Counted(int(row.N), "such miss", "such misses"), Counted(int(row.NOther), "other", "others"))
	decimals := max(1, IntervalDecimals(row.Cost, row.CostLo, row.CostHi))
	interval := fmt.Sprintf("(%s to %s)", Signed(row.CostLo, decimals), Signed(row.CostHi, decimals))
	amount := Strokes(Number(math.Abs(row.Cost), decimals))
	switch {
	case row.N == 0:
		return "What being short-sided costs is not known: it needs the columns pin_side with left_right, or pin_depth with long_short."
	case min(row.N, row.NOther) < fewestSolid || math.IsNaN(row.CostLo+row.CostHi):
		return fmt.Sprintf("What being short-sided costs is not known: %s are too few to say.", compared)
	case row.CostLo > 0:
		return fmt.Sprintf("Being short-sided costs %s %s at like distance: %s.", amount, interval, compared)
	case row.CostHi < 0:
		return fmt.Sprintf("Being short-sided does not cost here: %s fewer %s at like distance, %s.", amount, interval, compared)
	}
	return fmt.Sprintf("Whether being short-sided costs is open: %s strokes %s at like distance, %s.", Signed(row.Cost, decimals), interval, compared)
}

func (w shortGameWords) source() []string {
	text := "Up and down: two strokes or fewer, from the first short-game stroke of a complete hole. The benchmark's share, from the same lies and distances, is implied: 3 less the strokes it expects."
	if rest := len(w.lies) - len(w.drawn); rest > 0 {
		holes := 0
		for _, row := range w.lies[len(w.drawn):] {
			holes += int(row.N)
		}
		text += fmt.Sprintf(" Not drawn: %s with %s.", Counted(rest, "lie", "lies"), Counted(holes, "hole", "holes"))
	}
	return []string{w.shortSided(), text + " " + drawnFrom}
}

// alt says what the picture shows, row by row.
func (w shortGameWords) alt() string {
	said := func(name string, row metrics.ShortGame) string {
		text := fmt.Sprintf("%s %s", name, madeOf(row.UpAndDowns, row.N))
		if row.N >= fewestSolid && !math.IsNaN(row.UpAndDownLo+row.UpAndDownHi) {
			text += fmt.Sprintf(" (%s to %s)", wholePercent(row.UpAndDownLo), wholePercent(row.UpAndDownHi))
		}
		if !math.IsNaN(row.BaselineShare) {
			text += ", benchmark " + Percent(row.BaselineShare)
		}
		return text
	}
	rows := []string{said("all lies", w.all)}
	for _, row := range w.drawn {
		rows = append(rows, said(printable(row.Lie), row))
	}
	for _, row := range w.distances {
		rows = append(rows, said(w.distance(row), row))
	}
	return fmt.Sprintf("Up and down, with 90 %% interval: %s. %s", strings.Join(rows, "; "), w.shortSided())
}
