package page

import (
	"testing"

	"roundmill/metrics"
)

func TestShortGameWords(t *testing.T) {
	row := func(n, made int64, share, lo, hi, implied float64) metrics.ShortGame {
		return metrics.ShortGame{N: n, UpAndDowns: made, UpAndDown: share, UpAndDownLo: lo, UpAndDownHi: hi, BaselineShare: implied}
	}
	const places = "; from the same places the benchmark implies about "
	said(t, "level", upAndDownWords(row(329, 186, 0.57, 0.52, 0.61, 0.54)), "Up and down 57 % (52 to 61 %) of 329 times"+places+"54 %, which is no different as far as the figures tell.")
	said(t, "better", upAndDownWords(row(329, 186, 0.57, 0.52, 0.61, 0.5)), "Up and down 57 % (52 to 61 %) of 329 times"+places+"50 %, which is less.")
	said(t, "worse", upAndDownWords(row(329, 186, 0.57, 0.52, 0.61, 0.7)), "Up and down 57 % (52 to 61 %) of 329 times"+places+"70 %, which is more.")
	said(t, "few", upAndDownWords(row(1, 0, 0, 0, 0.7, 0.7)), "Up and down 0 of 1 time.")
	lie := func(lie string, lo, hi, expected float64) metrics.ShortGame {
		return metrics.ShortGame{Lie: lie, N: 30, StrokesLo: lo, StrokesHi: hi, BaselineStrokes: expected}
	}
	said(t, "both", lieWords([]metrics.ShortGame{lie("bunker", 2.6, 2.8, 2.5), lie("rough", 2.2, 2.4, 2.5), lie("fringe", 2.3, 2.6, 2.5)}),
		"It takes more strokes than the benchmark expects from the bunker, fewer from the rough; of 3 lies one may stand out by chance.")
	said(t, "fewer", lieWords([]metrics.ShortGame{lie("rough", 2.2, 2.4, 2.5)}), "It takes fewer strokes than the benchmark expects from the rough.")
	said(t, "open", lieWords([]metrics.ShortGame{lie("rough", 2.4, 2.6, 2.5)}), "From no lie with 30 holes or more are the strokes to hole out shown to differ from what the benchmark expects.")
	said(t, "none", lieWords(nil), "")
	tooFew := lie("bunker", 2.6, 2.8, 2.5)
	tooFew.N = 29
	said(t, "as few as the chart keeps silent on", lieWords([]metrics.ShortGame{tooFew}), "")
	sided := func(cost, lo, hi float64) string {
		return shortSidedWords(metrics.ShortSided{Cost: cost, CostLo: lo, CostHi: hi})
	}
	said(t, "costs", sided(0.3, 0.1, 0.5), "Short-sided, it takes 0.3 strokes more (0.1 to 0.5) to hole out than after other misses from like distance.")
	said(t, "costs less", sided(-0.3, -0.5, -0.1), "Short-sided, it takes 0.3 strokes fewer (0.1 to 0.5) to hole out than after other misses from like distance.")
	said(t, "open", sided(-0.1, -0.2, 0.1), "That being short-sided costs anything is not shown: −0.1 strokes at like distance, with a 90 % interval of −0.2 to +0.1.")
	said(t, "unknown", sided(0.1, unknown, unknown), "")
}
