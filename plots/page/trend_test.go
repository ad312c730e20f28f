package page

import (
	"testing"

	"roundmill/metrics"
)

func TestTrendWordsAskBothTheIntervalAndChance(t *testing.T) {
	row := func(change, lo, hi, p float64) metrics.TrendChange {
		return metrics.TrendChange{Class: "putt", SplitBy: metrics.SplitHalves, BeforeRounds: 22, AfterRounds: 23, Change: change, ChangeLo: lo, ChangeHi: hi, P: p, PCorrected: p}
	}
	const halves = "In the second half of the rounds, 23 rounds against 22 rounds, "
	said(t, "better", changeWords(row(1.2, 0.2, 2.1, 0.02)), halves+"the play was better by 1.2 strokes (0.2 to 2.1) a round: rounds dealt at random would differ so much 2 % of the time.")
	said(t, "worse", changeWords(row(-1.2, -2.1, -0.2, 0.001)), halves+"the play was worse by 1.2 strokes (0.2 to 2.1) a round: rounds dealt at random would differ so much under 1 % of the time.")
	said(t, "spans zero", changeWords(row(0.5, -0.2, 1.2, 0.01)), halves+"no change is shown: +0.5 strokes a round, with a 90 % interval of −0.2 to +1.2.")
	said(t, "could be chance", changeWords(row(0.7, 0.1, 1.3, 0.2)), halves+"the play looks better by 0.7 strokes (0.1 to 1.3) a round, but rounds dealt at random would differ so much 20 % of the time, so a change is not shown.")
	byDate := row(unknown, unknown, unknown, unknown)
	byDate.SplitBy, byDate.SplitDate, byDate.AfterRounds = metrics.SplitByDate, day("2026-05-01"), 1
	said(t, "too few", changeWords(byDate), "Since 1 May 2026, 1 round against 22 rounds, the change is not known: too few rounds.")
	said(t, "parts", partChangeWords([]metrics.TrendChange{row(1, 0.5, 1.5, 0.01), row(-1, -1.5, -0.5, 0.5)}), "By part of the game the play was better in putting.")
	said(t, "no parts", partChangeWords([]metrics.TrendChange{row(1, 0.5, 1.5, 0.3)}), "Of the single parts of the game none is shown to have changed.")
	said(t, "parts not known", partChangeWords([]metrics.TrendChange{byDate}), "")
	said(t, "none", partChangeWords(nil), "")
}

func TestAChangeWithoutAnIntervalHasNoRow(t *testing.T) {
	row := func(class string, lo, hi float64) metrics.TrendChange {
		return metrics.TrendChange{Class: class, Before: -6, After: -0.2, Change: 5.8, ChangeLo: lo, ChangeHi: hi}
	}
	p := &player{Results: &metrics.Results{TrendChange: []metrics.TrendChange{row("all", unknown, unknown), row("putt", 4, 7)}}}
	if rows := p.changeTable().Rows; len(rows) != 1 || rows[0][0] != "Putting" {
		t.Errorf("%q", rows)
	}
}
