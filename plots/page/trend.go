package page

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"roundmill/metrics"
	"roundmill/plots"
)

// rareByChance is the p below which a change is called shown, beside an interval
// that leaves out zero.
const rareByChance = 0.05

func (p *player) trend() section {
	s := section{ID: "trend", Heading: "Trend", Figures: p.charts("strokes-gained-trend")}
	if !slices.ContainsFunc(p.TrendChange, func(r metrics.TrendChange) bool { return !math.IsNaN(r.Change) }) {
		s.say("There are too few rounds to compare the first with the second part of the season.")
		return s
	}
	for _, row := range p.TrendChange {
		if row.Class == "all" {
			s.say(changeWords(row))
		}
	}
	s.say(partChangeWords(pick(p.TrendChange, func(r metrics.TrendChange) bool { return r.Class != "all" })))
	s.add(p.changeTable())
	s.Cautions = append(s.Cautions, "Other courses, weather and the time of year change a score as well as practice does; the comparison asks about chance alone.")
	return s
}

// changed says whether a change is shown: the interval leaves out zero and the
// test finds it too rare for chance.
func changed(change estimate, p float64) bool {
	return (change.above() || change.below()) && p < rareByChance
}

// changeWords compares the two parts of the season.
func changeWords(row metrics.TrendChange) string {
	change := estimate{row.Change, row.ChangeLo, row.ChangeHi}
	since := "In the second half of the rounds"
	if row.SplitBy == metrics.SplitByDate {
		since = "Since " + dayWords(row.SplitDate)
	}
	parts := fmt.Sprintf("%s against %s", plots.Counted(int(row.AfterRounds), "round", "rounds"), plots.Counted(int(row.BeforeRounds), "round", "rounds"))
	begins := since + ", " + parts + ","
	if !change.hasInterval() {
		return begins + " the change is not known: too few rounds."
	}
	better := "better"
	if change.value < 0 {
		better = "worse"
	}
	amount := fmt.Sprintf("%s by %s (%s) a round", better, plots.Strokes(change.size().number()), change.size().interval())
	chance := "rounds dealt at random would differ so much " + plots.Chance(row.P) + " of the time"
	switch {
	case changed(change, row.P):
		return fmt.Sprintf("%s the play was %s: %s.", begins, amount, chance)
	case change.above() || change.below():
		return fmt.Sprintf("%s the play looks %s, but %s, so a change is not shown.", begins, amount, chance)
	}
	return fmt.Sprintf("%s no change is shown: %s a round, with a 90 %% interval of %s.", begins, plots.Strokes(change.signed()), change.signedInterval())
}

// partChangeWords names the parts of the game that changed, allowing for the
// four that are looked at.
func partChangeWords(rows []metrics.TrendChange) string {
	var better, worse []string
	for _, row := range rows {
		if !changed(estimate{row.Change, row.ChangeLo, row.ChangeHi}, row.PCorrected) {
			continue
		}
		if row.Change > 0 {
			better = append(better, classWords[row.Class])
		} else {
			worse = append(worse, classWords[row.Class])
		}
	}
	var said []string
	if len(better) > 0 {
		said = append(said, "better in "+listed(better))
	}
	if len(worse) > 0 {
		said = append(said, "worse in "+listed(worse))
	}
	known := slices.ContainsFunc(rows, func(r metrics.TrendChange) bool { return !math.IsNaN(r.PCorrected) })
	switch {
	case !known:
		return ""
	case len(said) == 0:
		return "Of the single parts of the game none is shown to have changed."
	}
	return "By part of the game the play was " + strings.Join(said, " and ") + "."
}

// classWords are the classes of strokes inside a sentence.
var classWords = map[string]string{"tee shot": "tee shots", "approach": "approach play", "short game": "the short game", "putt": "putting", "all": "all strokes"}

// dayWords is a day inside a sentence.
func dayWords(day time.Time) string { return day.Format("2 January 2006") }

// dayCell is a day in a table, on one line.
func dayCell(day time.Time) string {
	return strings.ReplaceAll(day.Format("2 Jan 2006"), " ", plots.NoBreak)
}

// changeTable leaves out what has no interval: two parts of few rounds always
// differ.
func (p *player) changeTable() table {
	t := table{ID: "change", Caption: "Strokes gained a round, first against second part of the season", Columns: columns("Part of the game", "Before (90 %)", "After (90 %)", "Change (90 %)", "By chance"),
		Note: "By chance: how often rounds dealt at random into two such parts would differ as much; for the four parts corrected for looking at four."}
	for _, row := range p.TrendChange {
		if change := (estimate{row.Change, row.ChangeLo, row.ChangeHi}); !change.hasInterval() {
			continue
		}
		called := classWords[row.Class]
		t.Rows = append(t.Rows, []string{
			plots.Sentence(called), estimate{row.Before, row.BeforeLo, row.BeforeHi}.signedCell(), estimate{row.After, row.AfterLo, row.AfterHi}.signedCell(),
			estimate{row.Change, row.ChangeLo, row.ChangeHi}.signedCell(), plots.Chance(row.PCorrected),
		})
	}
	return t
}
