package page

import (
	"testing"

	"roundmill/metrics"
)

func TestOpeningSaysTheSeasonInOneSentence(t *testing.T) {
	season := func(rounds int64, score, toPar, lo, hi float64) metrics.Season {
		return metrics.Season{Rounds: rounds, Holes: 18 * rounds, From: day("2026-03-07"), To: day("2026-10-24"), Score: score, ToPar: toPar, ToParLo: lo, ToParHi: hi}
	}
	gained := func(value, lo, hi float64) metrics.StrokesGained {
		return metrics.StrokesGained{N: 9, PerRound: value, PerRoundLo: lo, PerRoundHi: hi, Baseline: "tour"}
	}
	one := season(1, 88, 16, unknown, unknown)
	one.From = one.To
	acrossYears := season(20, 71.2, -0.8, -1.3, -0.3)
	acrossYears.From = day("2025-11-01")
	for _, c := range []struct {
		name   string
		season metrics.Season
		total  metrics.StrokesGained
		want   string
	}{
		{"behind", season(46, 74.1, 2.5, 1.9, 3.1), gained(-4.4, -5, -3.8),
			"46 rounds from 7 March to 24 October 2026: 74.1 strokes a round, 2.5 over par (90 % interval 1.9 to 3.1), and 4.4 strokes (3.8 to 5.0) a round behind the benchmark, tour."},
		{"ahead and under par, over two years", acrossYears, gained(1.24, 0.8, 1.7),
			"20 rounds from 1 November 2025 to 24 October 2026: 71.2 strokes a round, 0.8 under par (90 % interval 0.3 to 1.3), and 1.2 strokes (0.8 to 1.7) a round ahead of the benchmark, tour."},
		{"open", season(9, 73, 0.4, -0.5, 1.3), gained(0.2, -0.5, 0.9),
			"9 rounds from 7 March to 24 October 2026: 73.0 strokes a round, 0.4 over par (90 % interval −0.5 to 1.3), and no different from the benchmark, tour, as far as the rounds tell: +0.2 strokes (−0.5 to +0.9) a round."},
		{"one round", one, gained(-15.2, unknown, unknown),
			"1 round on 24 October 2026: 88.0 strokes a round, 16.0 over par, and −15.2 strokes a round against the benchmark, tour, in too few rounds to say how much of that will last."},
		{"few holes", metrics.Season{Rounds: 1, Holes: 3, From: one.From, To: one.To, Score: 84, ToPar: 12, ToParLo: unknown, ToParHi: unknown}, metrics.StrokesGained{},
			"1 round on 24 October 2026: 84.0 strokes a round, 12.0 over par, from 3 complete holes."},
		{"no benchmark", season(8, 80, 8, 6.6, 9.4), metrics.StrokesGained{}, "8 rounds from 7 March to 24 October 2026: 80 strokes a round, 8 over par (90 % interval 7 to 9)."},
		{"nothing complete", metrics.Season{Rounds: 2, From: day("2026-03-07"), To: day("2026-03-07")}, gained(1, 0, 2),
			"2 rounds on 7 March 2026, and not one hole is complete: there is no score to tell of."},
	} {
		said(t, c.name, openingWords(c.season, c.total), c.want)
	}
}
