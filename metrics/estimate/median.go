package estimate

import (
	"sort"

	"gonum.org/v1/gonum/mathext"
)

// medianInterval is the interval of the median of the distribution that n values were drawn from, of which at(rank) is
// the one with rank smaller ones before it.
//
// From the k-th smallest to the k-th largest value the coverage is 1 - 2 P(B < k), B being the heads in n throws of a
// coin: W. R. Thompson (1936), "On confidence ranges for the median and other expectation distributions for
// populations of unknown distribution form", Annals of Mathematical Statistics 7:122-128. Of the two k whose coverages
// c(k) and c(k+1) enclose the level, each end is taken between the two values with weight λ on the inner one,
//
//	λ = (n-k) I / (k + (n-2k) I), I = (c(k) - level) / (c(k) - c(k+1))
//
// T. P. Hettmansperger and S. J. Sheather (1986), "Confidence intervals based on interpolated order statistics",
// Statistics & Probability Letters 4:75-79. Taking the k-th values alone would cover 97.9 % for 10 values and 94.6 %
// for 46 where 90 % is asked for.
//
// Paid: the coverage is no longer exact (measured at 90 %, exponential values, 20,000 repeats: 90.4 % for 5 values, 88.9
// for 6, 90.1 for 10, 90.3 for 20, 90.4 for 46), and the values are taken as independent.
func medianInterval(n int64, level float64, at func(rank int64) float64) Interval {
	if !(level > 0 && level < 1) {
		panic("estimate: level of an interval outside (0, 1)")
	}
	// The coverage falls with k.
	k := int64(sort.Search(int(n/2), func(i int) bool { return medianCoverage(n, int64(i+1)) < level }))
	if k == 0 {
		return None()
	}
	outer := Interval{at(k - 1), at(n - k)}
	if 2*k == n {
		return outer
	}
	excess := (medianCoverage(n, k) - level) / (medianCoverage(n, k) - medianCoverage(n, k+1))
	inward := float64(n-k) * excess / (float64(k) + float64(n-2*k)*excess)
	return Interval{
		outer.Lo + float64(inward*(at(k)-outer.Lo)),
		outer.Hi - float64(inward*(outer.Hi-at(n-k-1))),
	}
}

// medianCoverage is the chance that the median lies between the k-th smallest and the k-th largest of n values.
func medianCoverage(n, k int64) float64 {
	return 1 - 2*mathext.RegIncBeta(float64(n-k+1), float64(k), 0.5)
}
