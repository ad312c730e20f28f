package estimate

import "math"

// IndependentDifference returns the interval of a - b from the intervals of two estimates that do not depend on each
// other, of whatever kind: each end of it lies as far from a - b as the two distances to the ends concerned, put
// together like standard errors. It is None when either is.
//
//	a - b - √((a - lo(a))² + (hi(b) - b)²) to a - b + √((hi(a) - a)² + (b - lo(b))²)
//
// G. Y. Zou and A. Donner (2008), "Construction of confidence limits about effect measures: a general approach",
// Statistics in Medicine 27:1693-1702.
func IndependentDifference(a, b float64, ofA, ofB Interval) Interval {
	return Interval{
		a - b - math.Hypot(a-ofA.Lo, ofB.Hi-b),
		a - b + math.Hypot(ofA.Hi-a, b-ofB.Lo),
	}
}
