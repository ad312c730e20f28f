// Package estimate holds the statistical estimators behind the figures: intervals, quantiles, moments, the bootstrap
// over whole rounds, the permutation test, isotonic regression, shrinkage, least squares and the putting model.
//
// Everything here is a pure function of numbers, or an accumulator of them that gives the same bits for every order
// they come in. Seeds come in from outside. Nothing here knows a golf table, except the putting
// model. Missing values are the caller's affair: every number handed in is finite, and a broken precondition, which
// is a bug of the caller, panics. Too little data is not a bug: it gives [None] or NaN.
package estimate

import "math"

// Interval is a closed range of plausible values, in the unit of the estimate that it belongs to. The level is chosen
// where the interval is made; the program uses 90 % throughout.
type Interval struct{ Lo, Hi float64 }

// None is the interval of an estimate that has too little data for one: NaN at both ends.
func None() Interval { return Interval{math.NaN(), math.NaN()} }

// IsNone reports whether there is no interval.
func (i Interval) IsNone() bool { return math.IsNaN(i.Lo) || math.IsNaN(i.Hi) }

// Contains reports whether v lies in the interval, its ends included. None contains nothing.
func (i Interval) Contains(v float64) bool { return i.Lo <= v && v <= i.Hi }

// standardScore is the z with a probability of level within z standard deviations of the mean of a normal.
func standardScore(level float64) float64 {
	if !(level > 0 && level < 1) {
		panic("estimate: level of an interval outside (0, 1)")
	}
	return math.Sqrt2 * math.Erfinv(level)
}

// normalBelow is the chance that a standard normal value is below z.
func normalBelow(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
