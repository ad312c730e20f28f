package page

import (
	"testing"

	"roundmill/metrics"
	"roundmill/plots"
)

func TestDecisionWords(t *testing.T) {
	aim := func(offset, saved, lo, hi float64) metrics.Aim {
		return metrics.Aim{BandFromYd: 100, BandToYd: 125, Side: metrics.RightSide, CutYd: 5, OffsetYd: offset, OffsetLoYd: offset - 1, OffsetHiYd: offset + 1, Saved: saved, SavedLo: lo, SavedHi: hi}
	}
	said(t, "yards", aimWords([]metrics.Aim{aim(3, 0.02, 0.01, 0.03), aim(6, 0.06, 0.04, 0.08)}, plots.Yards),
		"Aim matters most from 100–125 yards, with the hole cut 5 yards from the right edge: a target 6 yards (5 to 7) towards the middle of the green saves 6.0 strokes (4.0 to 8.0) in 100 shots, by a model of the player's own misses.")
	said(t, "metres", aimWords([]metrics.Aim{aim(6, 0.06, 0.04, 0.08)}, plots.Metres),
		"Aim matters most from 91–114 metres, with the hole cut 4.6 metres from the right edge: a target 5.5 metres (4.6 to 6.4) towards the middle of the green saves 6.0 strokes (4.0 to 8.0) in 100 shots, by a model of the player's own misses.")
	said(t, "open", aimWords([]metrics.Aim{aim(6, 0.01, -0.01, 0.03)}, plots.Yards), "From no distance is aiming away from the flag shown to save strokes, more than chance would show.")
	another := aim(6, 0.06, 0.04, 0.08)
	another.CutYd = 3 // than the chart shows
	said(t, "another cut", aimWords([]metrics.Aim{another}, plots.Yards), "From no distance is aiming away from the flag shown to save strokes, more than chance would show.")
	said(t, "none", aimWords(nil, plots.Yards), "No distance has twenty logged misses in five rounds, which aim needs.")
	fault := func(group string, value, lo, hi float64) metrics.Verdict {
		return metrics.Verdict{Group: group, N: 9, PerRound: value, PerRoundLo: lo, PerRoundHi: hi}
	}
	const beside = " Faults are written beside bad strokes, so they split the loss and do not measure a skill."
	said(t, "faults", faultWords([]metrics.Verdict{fault("decision", -0.3, -0.4, -0.2), fault("execution", -1, unknown, unknown), fault(metrics.NotNoted, -3, -4, -2)}),
		"Of the strokes that the player put down to a fault: 0.3 strokes a round by decision (0.2 to 0.4) and 1.0 strokes a round by execution."+beside)
	said(t, "no faults", faultWords([]metrics.Verdict{fault(metrics.NotNoted, -3, -4, -2)}), "")
	cause := func(kind, group string, n, started int64, share, lo, hi float64) metrics.DoubleCause {
		return metrics.DoubleCause{GroupKind: kind, Group: group, N: n, Started: started, Doubles: started, StartedShare: share, StartedLo: lo, StartedHi: hi}
	}
	said(t, "clear", doubleWords([]metrics.DoubleCause{cause(metrics.ByClass, "approach", 50, 40, 0.8, 0.7, 0.9), cause(metrics.ByClass, "putt", 50, 10, 0.2, 0.1, 0.3), cause(metrics.ByPenalty, "penalty", 50, 8, 0.1, 0.1, 0.2)}),
		"Of 50 double bogeys or worse, 40 began with an approach; 8 had a penalty stroke in them.")
	said(t, "not clear", doubleWords([]metrics.DoubleCause{cause(metrics.ByClass, "approach", 12, 7, 0.6, 0.3, 0.8), cause(metrics.ByClass, "putt", 12, 5, 0.4, 0.2, 0.7), cause(metrics.ByPenalty, "penalty", 12, 1, 0.1, 0.1, 0.2)}),
		"Of 12 double bogeys or worse, 7 began with an approach, which is too few to set it apart from the other parts; 1 had a penalty stroke in it.")
	said(t, "few", doubleWords([]metrics.DoubleCause{cause(metrics.ByClass, "approach", 5, 5, 1, 0.6, 1)}), "5 double bogeys or worse are too few to say where they start.")
	said(t, "one", doubleWords([]metrics.DoubleCause{cause(metrics.ByClass, "approach", 1, 1, 1, 0.3, 1)}), "1 double bogey or worse is too few to say where they start.")
	said(t, "none", doubleWords(nil), "")
}
