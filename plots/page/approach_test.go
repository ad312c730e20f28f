package page

import (
	"testing"

	"roundmill/metrics"
	"roundmill/plots"
)

func TestApproachWords(t *testing.T) {
	cell := func(from, gain, lo, hi float64) metrics.Priority {
		return metrics.Priority{Class: "approach", LieGroup: "fairway", FromYd: from, ToYd: from + 25, StrokesToGain: gain, StrokesLo: lo, StrokesHi: hi}
	}
	said(t, "alone", bandWords([]metrics.Priority{cell(150, 0.5, 0.4, 0.6), cell(175, 0.2, 0.1, 0.3)}, plots.Yards), "Approaches from the fairway, 150–175 yards, lose the most: 0.5 strokes (0.4 to 0.6) a round.")
	said(t, "not clear", bandWords([]metrics.Priority{cell(150, 0.5, 0.4, 0.6), cell(175, 0.4, 0.3, 0.5)}, plots.Yards),
		"Approaches from the fairway, 150–175 yards, lose 0.5 strokes (0.4 to 0.6) a round, the largest figure of any distance and lie, though not clear of the next.")
	endless := cell(225, 0.5, 0.4, 0.6)
	endless.ToYd = unknown
	said(t, "alone, without end", bandWords([]metrics.Priority{endless, cell(175, 0.2, 0.1, 0.3)}, plots.Yards), "Approaches from the fairway, 225 yards and more, lose the most: 0.5 strokes (0.4 to 0.6) a round.")
	said(t, "no loss", bandWords([]metrics.Priority{cell(150, 0.1, -0.1, 0.3)}, plots.Yards), "From no distance and lie is a loss shown.")
	said(t, "none", bandWords(nil, plots.Yards), "")
	step := func(n int64, from, miss, lo, hi float64) metrics.DistanceControl {
		return metrics.DistanceControl{N: n, FromYd: from, ToYd: from + 10, LongMeanYd: miss, LongLoYd: lo, LongHiYd: hi}
	}
	said(t, "short", controlWords([]metrics.DistanceControl{step(40, 110, -2, -3.8, -0.2), step(40, 100, -1, -2.6, 0.1)}, plots.Yards),
		"Inside 120 yards from clean lies shots finish short on average from 110–120 yards (2.0 yards); of 2 steps one may stand out by chance.")
	said(t, "long, metres", controlWords([]metrics.DistanceControl{step(40, 110, 4.4, 2.1, 6.6)}, plots.Metres), "Inside 110 metres from clean lies shots finish long on average from 101–110 metres (4 metres).")
	said(t, "open", controlWords([]metrics.DistanceControl{step(40, 110, -2, -3.8, 0.2)}, plots.Yards), "Inside 120 yards from clean lies shots are neither short nor long on average, as far as they tell.")
	said(t, "few", controlWords([]metrics.DistanceControl{step(9, 110, -2, -3.8, -0.2)}, plots.Yards), "")
	wind := func(pct, lo, hi float64) metrics.WindSlopeEffect {
		return metrics.WindSlopeEffect{IntoPct: pct, IntoLoPct: lo, IntoHiPct: hi, IntoRule: 1}
	}
	said(t, "as the rule", windWords(wind(1.1, 0.9, 1.3)), "Into the wind a shot plays 1.1 % longer per mph (0.9 to 1.3), which the rule of thumb of 1 % agrees with.")
	said(t, "more", windWords(wind(1.5, 1.3, 1.7)), "Into the wind a shot plays 1.5 % longer per mph (1.3 to 1.7), more than the 1 % of the rule of thumb.")
	said(t, "less", windWords(wind(0.5, 0.3, 0.7)), "Into the wind a shot plays 0.5 % longer per mph (0.3 to 0.7), less than the 1 % of the rule of thumb.")
	said(t, "no wind", windWords(wind(unknown, unknown, unknown)), "")
}
