package page

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
	"roundmill/plots"
)

// mostFirst is how many things a session can work on.
const mostFirst = 3

// firstThings are what to work on first.
type firstThings struct {
	Heading  string
	Says     []string
	Things   []thing
	Cautions []string
	Figures  []figure
}

type thing struct {
	Heading           string
	Figure, Unit      string
	Certainty         string
	Counted           string
	Chart, ChartWords string // the chart that shows it
}

func (p *player) firstThings() *firstThings {
	ranked := pick(p.Priorities, func(r metrics.Priority) bool { return r.Rank > 0 })
	behind := pick(ranked, func(r metrics.Priority) bool { return r.StrokesToGain > 0 && r.Rank <= mostFirst })
	f := &firstThings{
		Heading: firstHeading(len(behind)), Says: firstSays(ranked, behind), Figures: p.charts("priorities"),
		Cautions: []string{"A gap to the benchmark says where strokes go, not how many of them practice can win back, and a chance near certainty says that the gap is real, not that it is the one to close. What to practise, and how, is for the player and a coach to decide together. About pain or injury, ask a doctor first."},
	}
	for _, row := range behind {
		f.Things = append(f.Things, p.thing(row, len(ranked)))
	}
	return f
}

func firstHeading(n int) string {
	switch n {
	case 0:
		return "What to work on"
	case 1:
		return "One thing to work on, with a coach"
	}
	return plots.InWords(n) + " things to work on, with a coach"
}

// firstSays tells how far the order of the first can be trusted, or why there
// is none.
func firstSays(ranked, behind []metrics.Priority) []string {
	switch {
	case len(ranked) == 0:
		return []string{"No part of the game has ten strokes in five rounds yet, which is the least that can be ranked. Keep the log going."}
	case len(behind) == 0:
		return []string{"No part of the game that has shots enough is behind the benchmark. A closer benchmark, such as the player's own rounds (--baseline self), tells the parts apart."}
	case len(behind) == 1:
		return nil
	}
	order := "The first stands clear of the last of them; between neighbours the order could change in another season."
	if toGain(behind[0]).overlaps(toGain(behind[len(behind)-1])) {
		order = "Their intervals overlap, so another season could put them in another order."
	}
	said := []string{strings.TrimSpace(sharedClass(behind) + " " + order)}
	if others := alsoBehind(ranked, behind); others > 0 {
		said = append(said, fmt.Sprintf("%s of the game may give as much as the last of them.", plots.InWords(others)+" "+plots.PluralOf(others, "other part", "other parts")))
	}
	return said
}

// alsoBehind is how many parts that are not among the first cannot be told from
// the last of them, by the rule of the chart's title: their intervals overlap.
func alsoBehind(ranked, behind []metrics.Priority) (others int) {
	last := behind[len(behind)-1]
	for _, row := range ranked {
		if row.Rank > last.Rank && row.StrokesToGain > 0 && row.StrokesHi >= last.StrokesLo {
			others++
		}
	}
	return others
}

// sharedClass names the part of the game that most of the first belong to.
func sharedClass(behind []metrics.Priority) string {
	counts := map[string]int{}
	for _, row := range behind {
		counts[row.Class]++
	}
	called := map[string]string{"tee shot": "tee shots", "approach": "approaches", "short game": "short game", "putt": "putts"}
	for _, row := range behind {
		switch n := counts[row.Class]; {
		case n == len(behind):
			return "All of them are " + called[row.Class] + "."
		case n > 1:
			return plots.InWords(n) + " of them are " + called[row.Class] + "."
		}
	}
	return ""
}

func toGain(row metrics.Priority) estimate {
	return estimate{row.StrokesToGain, row.StrokesLo, row.StrokesHi}
}

func (p *player) thing(row metrics.Priority, parts int) thing {
	figure := gainCell(row)
	t := thing{
		Heading: cellWords(row, p.units), Figure: figure, Unit: strings.TrimPrefix(plots.Strokes(figure), figure+plots.NoBreak) + " a round behind the benchmark",
		Certainty: certainty(row, parts),
		Counted: fmt.Sprintf("%s in %s, %s a round; %s.", plots.Counted(int(row.N), "stroke", "strokes"),
			plots.Counted(int(row.Rounds), "round", "rounds"), plots.Number(row.CountPerRound, 1), eachWords(row)),
	}
	t.Chart, t.ChartWords = p.chartOf(row)
	return t
}

// gainCell is what a part would give, in strokes a round.
func gainCell(row metrics.Priority) string {
	return plots.Number(row.StrokesToGain, plots.ToGainDecimals(row))
}

// certainty says how sure a gap is, of so many parts that were looked at: its
// interval and the chance that it is one.
func certainty(row metrics.Priority, parts int) string {
	decimals, chance := plots.ToGainDecimals(row), row.ChanceBelow
	interval := span(plots.Number(row.StrokesLo, decimals), plots.Number(row.StrokesHi, decimals))
	if row.StrokesLo < 0 {
		interval = span(plots.Signed(row.StrokesLo, decimals), plots.Signed(row.StrokesHi, decimals)) + ", where below zero is ahead"
	}
	said := fmt.Sprintf("90 %% interval %s. Chance that it is really behind: %s.", interval, plots.Chance(chance))
	switch {
	case plots.Certain(row, parts):
		return said + " The season shows this well."
	case chance >= 0.95: // which one of so many parts passes by chance in a third of seasons (metrics.Priority)
		return said + " Likely, though of many parts one looks so by chance now and then."
	case chance >= 0.8:
		return said + " Likely, but not settled."
	}
	return said + " This may be chance."
}

// eachWords is what one stroke loses or gains, as played and, where that is
// another figure in print, drawn towards its class.
func eachWords(row metrics.Priority) string {
	each := estimate{row.PerShot, row.PerShotLo, row.PerShotHi}
	played := plots.Signed(row.PerShotRaw, each.decimals())
	if math.IsNaN(row.PerShotRaw) || played == each.signed() {
		return plots.Strokes(each.signed()) + " each"
	}
	return fmt.Sprintf("%s each as played, %s drawn towards its class", plots.Strokes(played), each.signed())
}

// chartOf is where a part of the game is drawn: approaches by distance and lie
// have a chart of their own.
func (p *player) chartOf(row metrics.Priority) (anchor, words string) {
	charts := []string{"priorities", "strokes-gained"}
	if row.Class == "approach" && slices.Contains([]string{metrics.FromFairway, metrics.FromRough, metrics.FromSand}, row.LieGroup) {
		charts = slices.Insert(charts, 0, "approach-value")
	}
	for _, chart := range charts {
		if p.pictures[chart] != nil {
			return "chart-" + chart, "Its chart: " + chartWords[chart]
		}
	}
	return "", ""
}

// chartWords are charts as a link calls them.
var chartWords = map[string]string{
	"priorities": "what each part would give", "approach-value": "what approaches gain and lose", "strokes-gained": "strokes gained by part of the game",
}

// cellWords is a part of the game in words, in the units seen.
func cellWords(row metrics.Priority, units plots.Units) string {
	span := spanWords(row.FromYd, row.ToYd, units)
	switch row.Class {
	case "tee shot":
		return "Tee shots on holes " + ofSpan(span)
	case "putt":
		return "Putts " + ofSpan(feetWords(row.FromYd*3, row.ToYd*3, units))
	}
	subject := "Approaches"
	if row.Class == "short game" {
		subject = "Short game"
	}
	switch row.LieGroup {
	case metrics.OutOfReach:
		return "Approaches laid up or from out of reach"
	case metrics.FromRecovery:
		if row.Class == "approach" {
			return "Approaches from recovery lies"
		}
		return subject + " from recovery lies, " + span
	case metrics.FromSand:
		return subject + " from sand, " + span
	}
	return subject + " from the " + row.LieGroup + ", " + span
}

// ofSpan joins a noun and a span: "of 10–15 feet", but "under 3 feet".
func ofSpan(span string) string {
	if strings.HasPrefix(span, "under") {
		return span
	}
	return "of " + span
}

// spanWords is a range of yards in words: 150–175 yards, under 10 yards, 30
// yards and more.
func spanWords(fromYd, toYd float64, units plots.Units) string {
	switch {
	case math.IsNaN(toYd) && fromYd == 0:
		return "any distance"
	case math.IsNaN(toYd):
		return plots.Number(units.FromYards(fromYd), 0) + " " + units.Long() + " and more"
	case fromYd == 0:
		return "under " + plots.Number(units.FromYards(toYd), 0) + " " + units.Long()
	}
	return units.Band(fromYd, toYd) + " " + units.Long()
}

// feetWords is spanWords for putts: feet, or metres to the tenth.
func feetWords(fromFt, toFt float64, units plots.Units) string {
	switch {
	case math.IsNaN(toFt) && (math.IsNaN(fromFt) || fromFt == 0):
		return "any distance"
	case math.IsNaN(toFt):
		return feet(fromFt, units) + " " + units.Short() + " and more"
	case fromFt == 0:
		return "under " + feet(toFt, units) + " " + units.Short()
	}
	return feet(fromFt, units) + "–" + feet(toFt, units) + " " + units.Short()
}

// feet is a length that is exact: whole feet, or metres to the tenth.
func feet(ft float64, units plots.Units) string {
	if units == plots.Metres {
		return plots.Number(units.FromFeet(ft), 1)
	}
	return plots.Number(ft, 0)
}
