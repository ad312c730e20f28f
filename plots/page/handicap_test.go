package page

import (
	"testing"

	"roundmill/metrics"
)

func TestHandicapWords(t *testing.T) {
	round := func(scores, counted int64, index float64) metrics.Handicap {
		return metrics.Handicap{Date: day("2026-10-24"), Scores: scores, Counted: counted, IndexAfter: index}
	}
	said(t, "index", handicapWords([]metrics.Handicap{round(3, 1, 8.1), round(44, 8, 0.3), round(44, 0, unknown)}), "Estimated index after the round of 24 October 2026: 0.3, from the lowest 8 of the last 20 scores.")
	said(t, "plus", handicapWords([]metrics.Handicap{round(5, 1, -1.2)}), "Estimated index after the round of 24 October 2026: +1.2, from the lowest of the last 5 scores.")
	said(t, "one round", handicapWords([]metrics.Handicap{round(1, 0, unknown)}), "1 round with a rating is too few: an index takes three.")
	said(t, "two rounds", handicapWords([]metrics.Handicap{round(1, 0, unknown), round(2, 0, unknown)}), "2 rounds with a rating are too few: an index takes three.")
	said(t, "none", handicapWords(nil), "No complete round of 18 holes has a Course Rating and a Slope Rating in the log, so no index can be estimated.")
}

func TestWithoutARatedRoundThereIsNoTableOfTheHandicap(t *testing.T) {
	for scores, tables := range map[int64]int{0: 0, 1: 1} {
		p := &player{report: &Report{}, Results: &metrics.Results{Handicap: []metrics.Handicap{{Date: day("2026-10-24"), Scores: scores, IndexAfter: unknown, Note: "left out"}}}}
		if s := p.handicap(); len(s.Tables) != tables || len(s.Cautions) != tables || len(s.Says) != 1 {
			t.Errorf("%d scores: %+v", scores, s)
		}
	}
}
