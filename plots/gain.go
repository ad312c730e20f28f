package plots

import (
	"fmt"
	"image/color"
	"math"

	"roundmill/metrics"
)

// gain is an estimate of strokes gained. The ends of its interval are NaN where
// there is none that may be drawn.
type gain struct{ value, lo, hi float64 }

// gainOf is a gain, without its interval where that stands on too little.
func gainOf(value, lo, hi float64, enough bool) gain {
	if !enough || math.IsNaN(lo+hi) {
		lo, hi = math.NaN(), math.NaN()
	}
	return gain{value, lo, hi}
}

func (g gain) hasInterval() bool { return !math.IsNaN(g.lo) }
func (g gain) loses() bool       { return g.hi < 0 }
func (g gain) gains() bool       { return g.lo > 0 }

// clear says whether the interval is clear of zero.
func (g gain) clear() bool { return g.loses() || g.gains() }

// decimals are those that the interval supports.
func (g gain) decimals() int { return IntervalDecimals(g.value, g.lo, g.hi) }

// printed is the gain, signed.
func (g gain) printed() string { return Signed(g.value, g.decimals()) }

// amount is printed without the sign, for sentences that say it in words.
func (g gain) amount() string { return Number(math.Abs(g.value), g.decimals()) }

// withInterval is printed with the interval in brackets, where there is one.
func (g gain) withInterval() string {
	if !g.hasInterval() {
		return g.printed()
	}
	return fmt.Sprintf("%s (%s to %s)", g.printed(), Signed(g.lo, g.decimals()), Signed(g.hi, g.decimals()))
}

// colours are those of the mark and of its figure: grey unless the interval is
// clear of zero.
func (g gain) colours() (fill, text color.RGBA) {
	switch {
	case g.loses():
		return vermilion, lossText
	case g.gains():
		return blue, gainText
	}
	return grey, grey
}

// drawn are the values that a scale has to hold.
func (g gain) drawn() []float64 {
	if !g.hasInterval() {
		return []float64{g.value}
	}
	return []float64{g.value, g.lo, g.hi}
}

// clearByChance is how many of so many intervals are clear of zero though
// nothing is behind it.
func clearByChance(intervals int) int {
	return int(math.Round(float64(intervals) * (1 - metrics.Level)))
}
