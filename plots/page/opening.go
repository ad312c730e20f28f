package page

import (
	"fmt"
	"math"
	"strings"
	"time"

	"roundmill/metrics"
	"roundmill/plots"
)

// opening is the season in one sentence.
func (p *player) opening() []string {
	total, _ := first(p.StrokesGained, func(r metrics.StrokesGained) bool { return r.GroupKind == metrics.ByTotal })
	return []string{openingWords(p.season, total)}
}

func openingWords(season metrics.Season, total metrics.StrokesGained) string {
	said := plots.Counted(int(season.Rounds), "round", "rounds") + " " + days(season.From, season.To)
	if season.Holes == 0 {
		return said + ", and not one hole is complete: there is no score to tell of."
	}
	toPar := estimate{season.ToPar, season.ToParLo, season.ToParHi}
	said += fmt.Sprintf(": %s a round, %s", plots.Strokes(plots.Number(season.Score, toPar.decimals())), overPar(toPar))
	if holes := plots.HolesBehind(season); holes != "" {
		said += ", " + holes
	}
	gained := estimate{total.PerRound, total.PerRoundLo, total.PerRoundHi}
	if total.N == 0 || math.IsNaN(gained.value) {
		return said + "."
	}
	benchmark := "the benchmark, " + name(total.Baseline)
	switch {
	case !gained.hasInterval():
		said += fmt.Sprintf(", and %s a round against %s, in too few rounds to say how much of that will last", plots.Strokes(gained.signed()), benchmark)
	case gained.below():
		lost := gained.turned()
		said += fmt.Sprintf(", and %s (%s) a round behind %s", plots.Strokes(lost.number()), lost.interval(), benchmark)
	case gained.above():
		said += fmt.Sprintf(", and %s (%s) a round ahead of %s", plots.Strokes(gained.number()), gained.interval(), benchmark)
	default:
		said += fmt.Sprintf(", and no different from %s, as far as the rounds tell: %s (%s) a round", benchmark, plots.Strokes(gained.signed()), gained.signedInterval())
	}
	return said + "."
}

// overPar is a score over or under par with its interval.
func overPar(toPar estimate) string {
	direction := "over par"
	if toPar.value < 0 {
		toPar, direction = toPar.turned(), "under par"
	}
	if strings.Trim(toPar.number(), "0.") == "" {
		direction = "from par"
	}
	if !toPar.hasInterval() {
		return toPar.number() + " " + direction
	}
	return fmt.Sprintf("%s %s (90 %% interval %s)", toPar.number(), direction, toPar.interval())
}

// days is a span of days in words.
func days(from, to time.Time) string {
	const day, year = "2 January", "2 January 2006"
	var span string
	switch {
	case from.IsZero() || to.IsZero():
		return "on days that are not known"
	case from.Format(year) == to.Format(year):
		span = "on " + to.Format(year)
	case from.Year() == to.Year():
		span = "from " + from.Format(day) + " to " + to.Format(year)
	default:
		span = "from " + from.Format(year) + " to " + to.Format(year)
	}
	return span
}
