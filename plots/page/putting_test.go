package page

import (
	"testing"

	"roundmill/metrics"
	"roundmill/plots"
)

func TestPuttingWords(t *testing.T) {
	putts := func(n int64, from, to, lo, hi, benchmark float64) metrics.Putting {
		return metrics.Putting{N: n, FromFt: from, ToFt: to, MadeLo: lo, MadeHi: hi, BaselineMade: benchmark}
	}
	said(t, "both", madeWords([]metrics.Putting{putts(50, 4, 5, 0.6, 0.7, 0.8), putts(50, 50, unknown, 0.1, 0.2, 0.05)}, plots.Yards),
		"Against the benchmark fewer putts are made from 4–5 feet, and more from 50 feet and more; of 2 distances one may stand out by chance.")
	said(t, "metres", madeWords([]metrics.Putting{putts(50, 4, 5, 0.6, 0.7, 0.8)}, plots.Metres), "Against the benchmark fewer putts are made from 1.2–1.5 metres.")
	said(t, "more", madeWords([]metrics.Putting{putts(50, 4, 5, 0.85, 0.9, 0.8)}, plots.Yards), "Against the benchmark more putts are made from 4–5 feet.")
	said(t, "open", madeWords([]metrics.Putting{putts(50, 4, 5, 0.6, 0.9, 0.8)}, plots.Yards), "From no distance with ten putts or more are more or fewer shown to be made than the benchmark makes.")
	said(t, "few", madeWords([]metrics.Putting{putts(9, 4, 5, 0.1, 0.2, 0.8)}, plots.Yards), "")
	said(t, "three putts", threePuttWords(metrics.Putting{NFirst: 823, ThreePutt: 0.052, ThreePuttLo: 0.04, ThreePuttHi: 0.066}), "Three putts or more on 5 % (4 to 7 %) of 823 greens.")
	said(t, "one green", threePuttWords(metrics.Putting{NFirst: 1, NThreePutt: 1, ThreePutt: 1}), "Three putts or more on 1 of 1 green.")
	slope := func(made, lo, hi float64) string {
		return slopeWords(metrics.PuttingGroundDifference{Made: made, MadeLo: lo, MadeHi: hi})
	}
	said(t, "downhill", slope(-0.086, -0.127, -0.046), "At like distance 9 fewer of a hundred putts go in downhill than uphill (5 to 13).")
	said(t, "uphill", slope(0.086, 0.044, 0.127), "At like distance 9 more of a hundred putts go in downhill than uphill (4 to 13).")
	said(t, "open", slope(0.01, -0.045, 0.127), "At like distance downhill and uphill putts are not shown to differ.")
	model := func(line, pace, both estimate) string {
		return lineOrPaceWords(metrics.PuttingModel{LineGain: line.value, LineGainLo: line.lo, LineGainHi: line.hi, PaceGain: pace.value, PaceGainLo: pace.lo, PaceGainHi: pace.hi, BothGain: both.value, BothGainLo: both.lo, BothGainHi: both.hi})
	}
	shown, open := estimate{0.5, 0.2, 0.8}, estimate{0.1, -0.2, 0.4}
	const by = "By a model of start line and pace, the benchmark's "
	said(t, "line", model(shown, open, shown), by+"start line would save 0.5 strokes (0.2 to 0.8) a round; that pace costs anything is not shown.")
	said(t, "pace", model(open, shown, shown), by+"pace would save 0.5 strokes (0.2 to 0.8) a round; that start line costs anything is not shown.")
	said(t, "each", model(shown, shown, shown), by+"start line would save 0.5 strokes (0.2 to 0.8) a round and its pace 0.5 (0.2 to 0.8).")
	said(t, "together", model(open, open, shown), by+"start line and pace together would save 0.5 strokes (0.2 to 0.8) a round, but the putts do not tell which of the two.")
	said(t, "neither", model(open, open, open), "Whether start line or pace costs strokes the putts of this season do not tell.")
}
