package plots

import (
	"fmt"
	"math"
)

// Percent prints a share between 0 and 1 in whole per cent, 71 %, and a thin
// dash for one that is unknown (NaN).
func Percent(share float64) string {
	if math.IsNaN(share) {
		return Number(share, 0)
	}
	return wholePercent(share) + NoBreak + "%"
}

// wholePercent is a share in whole per cent, without the sign.
func wholePercent(share float64) string { return Number(100*share, 0) }

// percentTick is a tick of a scale of shares.
func percentTick(share float64, _ int) string { return Percent(share) }

// Chance prints a chance in whole per cent, and never certainty.
func Chance(p float64) string {
	switch {
	case math.IsNaN(p):
		return Number(p, 0)
	case p > 0.99:
		return "over " + Percent(0.99)
	case p < 0.01:
		return "under " + Percent(0.01)
	}
	return Percent(p)
}

// sharePrinted is k of n in per cent, without the sign, or counted out where n
// is too small for that.
func sharePrinted(k, n int64) string {
	switch {
	case n == 0:
		return "–"
	case n < fewestSolid:
		return fmt.Sprintf("%d/%d", k, n)
	}
	return wholePercent(float64(k) / float64(n))
}

// shareKnown is a share of n shots as sharePrinted has it.
func shareKnown(share float64, n int64) string {
	if math.IsNaN(share) {
		n = 0
	}
	return sharePrinted(int64(math.Round(share*float64(n))), n)
}

func shareInterval(lo, hi float64, n int64) string {
	if n < fewestSolid || math.IsNaN(lo+hi) {
		return ""
	}
	return fmt.Sprintf("(%s–%s)", Number(100*lo, 0), Number(100*hi, 0))
}

// madeOf is a share with its count: 58 % of 1,415.
func madeOf(k, n int64) string {
	if n < fewestSolid {
		return fmt.Sprintf("%d of %d", k, n)
	}
	return fmt.Sprintf("%s of %s", Percent(float64(k)/float64(n)), Count(int(n)))
}
