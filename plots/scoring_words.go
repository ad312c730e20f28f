package plots

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roundmill/metrics"
)

// scoringWords makes the sentences of the scoring chart.
type scoringWords struct {
	season            Season
	all               metrics.Scoring
	pars              []metrics.Scoring
	causes, penalties []doubleCause // of doubles; none where they are not known
}

func holesMissing(n int) string {
	if n == 0 {
		return "No hole is complete, so there is no score to draw."
	}
	return fmt.Sprintf("%s %s too few to draw; it takes %d.", Sentence(Counted(n, "complete hole", "complete holes")), IsOrAre(n), fewestHoles)
}

func (g scoringGroup) few() bool { return g.N < fewestSolid }

func (g scoringGroup) hasInterval() bool {
	return !g.few() && g.Rounds >= fewestRounds && !math.IsNaN(g.ToParLo+g.ToParHi)
}

// toPar is the average score above par a hole.
func (g scoringGroup) toPar() string { return Signed(g.ToPar/18, g.decimals()) }

func (g scoringGroup) decimals() int {
	if !g.hasInterval() {
		return 1
	}
	return max(1, IntervalDecimals(g.ToPar/18, g.ToParLo/18, g.ToParHi/18))
}

func (g scoringGroup) toParInterval() string {
	if !g.hasInterval() {
		return "–"
	}
	return Signed(g.ToParLo/18, g.decimals()) + " to " + Signed(g.ToParHi/18, g.decimals())
}

// doubles is the share of doubles or worse with its interval, or the count
// where there is none.
func (g scoringGroup) doubles() string {
	n := g.Doubles + g.Worse
	if !g.hasInterval() || math.IsNaN(g.DoubleOrWorseLo+g.DoubleOrWorseHi) {
		return compact(int(n), 4) + " of " + compact(int(g.N), 4)
	}
	return fmt.Sprintf("%s (%s to %s)", Percent(g.DoubleOrWorseShare), wholePercent(g.DoubleOrWorseLo), wholePercent(g.DoubleOrWorseHi))
}

// scoreShare is the share of holes with one score, counted out where holes are
// few.
func scoreShare(n, of int64) string {
	share := float64(n) / float64(of)
	switch {
	case of < fewestSolid:
		return fmt.Sprintf("%d/%d", n, of)
	case n > 0 && share < 0.01:
		return "<1" + NoBreak + "%"
	}
	return Percent(share)
}

// lossDecimals is how many decimals of strokes lost a round all of the intervals
// support, so that the column has one place.
func lossDecimals(causes []doubleCause) int {
	decimals := mostDecimals
	for _, cause := range causes {
		switch unknown := math.IsNaN(cause.LostPerRoundLo + cause.LostPerRoundHi); {
		case !cause.hasInterval():
			return 1
		case !unknown:
			decimals = min(decimals, Decimals(cause.LostPerRound, cause.LostPerRoundHi-cause.LostPerRoundLo))
		}
	}
	return max(1, decimals)
}

// title says which part of the game started the most doubles, and which others
// the intervals do not tell from it.
func (w scoringWords) title() string {
	const question = "Where do doubles start?"
	doubles := int(w.all.Doubles + w.all.Worse)
	switch {
	case w.season.fewRounds():
		return question + " " + tooFewRounds(w.season.Rounds)
	case doubles == 0:
		return fmt.Sprintf("No double bogey or worse on %s", Counted(int(w.all.N), "hole", "holes"))
	case doubles < fewestSolid || len(w.causes) > 0 && w.causes[0].N < fewestSolid:
		return fmt.Sprintf("%s or worse on %s: too few to say where they start",
			Counted(doubles, "double", "doubles"), Counted(int(w.all.N), "hole", "holes"))
	case len(w.causes) == 0:
		return question + " Their strokes are not all known to the benchmark"
	}
	most := slices.MaxFunc(w.causes, func(a, b doubleCause) int { return int(a.Started - b.Started) })
	var level []string
	for _, other := range w.causes {
		if other.Group != most.Group && !(other.StartedHi < most.StartedLo) {
			level = append(level, strings.ToLower(other.part.name))
		}
	}
	started := fmt.Sprintf("%s started %d of %d doubles or worse", most.part.name, most.Started, most.N)
	switch len(level) {
	case 0:
		return started + ", clearly the most"
	case 1, 2:
		return fmt.Sprintf("%s; %s may start as many", started, strings.Join(level, " and "))
	}
	return started + ", but no part of the game stands clear"
}

func (w scoringWords) counted() []string {
	reading := "Bar: share of holes with that score."
	if len(w.causes) > 0 {
		reading += " Below: what started the doubles, and what they lost."
		switch {
		case w.causes[0].hasInterval():
			reading += " Line: 90" + NoBreak + "% interval."
		case w.causes[0].N < fewestSolid:
			reading += hollowUnder("doubles")
		}
	}
	return []string{w.season.counted(Counted(int(w.all.N), "complete hole", "complete holes")), reading}
}

func (w scoringWords) source() []string {
	text := "To par is the mean score above par a hole."
	if len(w.causes) > 0 {
		text += " The strokes that make a double are those that lost most, until without them it is a bogey or better; the first of them in order of play started it." +
			" A stroke with a penalty counts in its part of the game as well."
	} else if w.all.Doubles+w.all.Worse > 0 {
		text += " What starts doubles needs holes whose every stroke the benchmark knows."
	}
	return []string{text + " " + drawnFrom}
}

// alt says what the picture shows, par by par.
func (w scoringWords) alt() string {
	groups := make([]string, 0, len(w.pars)+1)
	for _, row := range append(slices.Clone(w.pars), w.all) {
		group := scoringGroup{row, "par " + row.Group}
		if row.GroupKind == metrics.ByTotal {
			group.name = "all holes"
		}
		said := fmt.Sprintf("%s, %s: %s a hole", group.name, Counted(int(row.N), "hole", "holes"), group.toPar())
		if group.hasInterval() {
			said += fmt.Sprintf(" (%s)", group.toParInterval())
		}
		for i, n := range group.scores() {
			said += fmt.Sprintf(", %s %s", strings.ToLower(scoreNames[i]), scoreShare(n, row.N))
		}
		groups = append(groups, said)
	}
	text := fmt.Sprintf("Scores by par, to par with 90 %% interval: %s.", strings.Join(groups, "; "))
	if len(w.causes) > 0 {
		var causes []string
		for _, cause := range append(slices.Clone(w.causes), w.penalties...) {
			causes = append(causes, fmt.Sprintf("%s %d of %d", strings.ToLower(cause.part.name), cause.Started, cause.N))
		}
		text += " Doubles or worse started: " + strings.Join(causes, ", ") + "."
	}
	return text
}
