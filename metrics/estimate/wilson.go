package estimate

import "math"

// Wilson returns the score interval of a share: k of n tries succeeded. It is None when n is 0.
//
// With p = k/n and z the standard score of the level, its ends are
//
//	(p + z²/2n ± z √(p(1-p)/n + z²/4n²)) / (1 + z²/n)
//
// E. B. Wilson (1927), "Probable inference, the law of succession, and statistical inference", Journal of the American
// Statistical Association 22:209-212; method 3 (no continuity correction) of R. G. Newcombe (1998), "Two-sided
// confidence intervals for the single proportion: comparison of seven methods", Statistics in Medicine 17:857-872.
//
// Paid: the tries are taken as independent with one common chance. The level holds on average over chances, not for
// each; for a rare event and a small n the true coverage can be some points lower.
func Wilson(k, n int, level float64) Interval {
	if k < 0 || k > n {
		panic("estimate: successes outside 0 to tries")
	}
	if n == 0 {
		return None()
	}
	z := standardScore(level)
	tries := float64(n)
	share := float64(k) / tries
	centre := share + z*z/(2*tries)
	reach := z * math.Sqrt(share*(1-share)/tries+z*z/(4*tries*tries))
	scale := 1 + z*z/tries
	interval := Interval{(centre - reach) / scale, (centre + reach) / scale}
	// With no success, or nothing else, that end is the share itself; rounding would put it a hair beyond.
	if k == 0 {
		interval.Lo = 0
	}
	if k == n {
		interval.Hi = 1
	}
	return interval
}
