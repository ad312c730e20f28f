package plots

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// trendWords makes the sentences of the trend chart from its figures.
type trendWords struct {
	season Season
	panels []trendPanel
	all    *metrics.TrendChange
}

func trendMissing(rounds int) string {
	return fmt.Sprintf("A trend needs %d rounds with complete holes; the log has %d.", fewestTrendRounds, rounds)
}

func lastWindow(row metrics.Trend) string {
	return Signed(row.PerRound, IntervalDecimals(row.PerRound, row.PerRoundLo, row.PerRoundHi))
}

func windowInterval(row metrics.Trend) string {
	decimals := IntervalDecimals(row.PerRound, row.PerRoundLo, row.PerRoundHi)
	return fmt.Sprintf("(%s to %s)", Signed(row.PerRoundLo, decimals), Signed(row.PerRoundHi, decimals))
}

func changeDecimals(c metrics.TrendChange) int {
	return IntervalDecimals(c.Change, c.ChangeLo, c.ChangeHi)
}

func beforeAndAfter(c metrics.TrendChange) string {
	decimals := changeDecimals(c)
	return fmt.Sprintf("before %s, after %s", Signed(c.Before, decimals), Signed(c.After, decimals))
}

// changed is the change with its interval, if it has one.
func changed(c metrics.TrendChange) string {
	decimals := changeDecimals(c)
	text := Signed(c.Change, decimals)
	if !math.IsNaN(c.ChangeLo + c.ChangeHi) {
		text += fmt.Sprintf(" (%s to %s)", Signed(c.ChangeLo, decimals), Signed(c.ChangeHi, decimals))
	}
	return text
}

// byChance is the permutation test in words: how often chance alone does as much.
func byChance(c metrics.TrendChange) string {
	hundreds := fmt.Sprintf("%.0f", 100*c.PCorrected)
	switch {
	case math.IsNaN(c.PCorrected):
		return "too few rounds for a test"
	case c.PCorrected < 0.01:
		hundreds = "under 1"
	case c.PCorrected > 0.99:
		hundreds = "over 99"
	}
	return "by chance: " + hundreds + " in 100"
}

// sure says whether a change is neither chance nor within its own interval.
func sure(c *metrics.TrendChange) bool {
	return c != nil && c.PCorrected < 0.05 && (c.ChangeLo > 0 || c.ChangeHi < 0)
}

// title names a change only where the test and the interval both carry it:
// that of all strokes, else of the class that chance explains the least.
func (w trendWords) title() string {
	const question = "Has the game changed?"
	if sure(w.all) {
		return fmt.Sprintf("The game is %s %s", betterBy(*w.all), when(*w.all))
	}
	var changed []trendPanel
	tested := w.all != nil && !math.IsNaN(w.all.P)
	for _, panel := range w.panels {
		tested = tested || panel.change != nil && !math.IsNaN(panel.change.P)
		if sure(panel.change) {
			changed = append(changed, panel)
		}
	}
	if len(changed) > 0 {
		clearest := slices.MinFunc(changed, func(a, b trendPanel) int { return cmp.Compare(a.change.PCorrected, b.change.PCorrected) })
		return fmt.Sprintf("%s %s %s", clearest.part.does("is", "are"), betterBy(*clearest.change), when(*clearest.change))
	}
	if !tested {
		return question + " Too few rounds before or after to say"
	}
	return question + " These rounds do not tell it from chance"
}

func betterBy(c metrics.TrendChange) string {
	word := "better"
	if c.Change < 0 {
		word = "worse"
	}
	return fmt.Sprintf("%s by %s a round", word, Strokes(Number(math.Abs(c.Change), changeDecimals(c))))
}

func when(c metrics.TrendChange) string {
	if c.SplitBy == metrics.SplitByDate {
		return "since " + day(c.SplitDate)
	}
	return "in the second half of the rounds"
}

func (w trendWords) counted() []string {
	reading := fmt.Sprintf("Line: strokes gained a round over the last %d rounds; band: its 90"+NoBreak+"%% interval; dot: one round.", metrics.TrendWindow)
	lines := append(w.season.countedAgainst(), reading)
	if change := w.panels[0].change; change != nil {
		split := "the first half of the rounds against the second"
		if change.SplitBy == metrics.SplitByDate {
			split = "rounds before " + day(change.SplitDate) + " against those from then on"
		}
		lines = append(lines, fmt.Sprintf("Before and after: %s (%d and %d), the change with its 90"+NoBreak+"%% interval.", split, change.BeforeRounds, change.AfterRounds))
	}
	return lines
}

func (w trendWords) source(beyond int) []string {
	text := "Neighbouring points share nine rounds of ten: a run of rising values may be a few good rounds passing through."
	if w.panels[0].change != nil {
		text += " By chance: how often rounds dealt at random into two such parts differ at least as much, corrected for four classes (Holm). " +
			"Courses, weather and time of year make a change as well."
	}
	if beyond > 0 {
		text += " Hollow: a round beyond the scale."
	}
	return append([]string{text}, w.season.source("Only complete holes count; a round is 18 of them.")...)
}

// alt says what the picture shows, class by class.
func (w trendWords) alt() string {
	var rows []string
	for _, panel := range w.panels {
		row := strings.ToLower(panel.part.name)
		if last := panel.last(); !math.IsNaN(last.PerRound) {
			row += fmt.Sprintf(" %s %s over the last %d rounds", lastWindow(last), windowInterval(last), metrics.TrendWindow)
		}
		if panel.change != nil {
			row += fmt.Sprintf(", %s, change %s, %s", beforeAndAfter(*panel.change), changed(*panel.change), byChance(*panel.change))
		}
		rows = append(rows, row)
	}
	if w.all != nil {
		rows = append(rows, fmt.Sprintf("all strokes %s, change %s, %s", beforeAndAfter(*w.all), changed(*w.all), byChance(*w.all)))
	}
	return fmt.Sprintf("Rolling strokes gained a round by class: %s.", strings.Join(rows, "; "))
}
