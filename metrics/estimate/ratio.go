package estimate

import "math"

// RatioError returns sum(num)/sum(den), where num[i] and den[i] are the sums of round i and den is not negative, its
// standard error, and the number of rounds with a denominator above zero, which both rest on. The ratio is NaN without
// such a round, the standard error under two.
//
//	r = Σ num / Σ den,  standard error = √( m/(m-1) Σ (num - r den)² ) / Σ den
//
// The linearised variance of a ratio of cluster totals: W. G. Cochran (1977), Sampling Techniques, 3rd edition, Wiley,
// sections 2.11 and 6.4. Where a tail far beyond the percentiles of a bootstrap is needed, this and Student's t with
// m-1 degrees of freedom reach it.
//
// Paid: rounds with many strokes in the cell weigh more, so that few and uneven rounds give a standard error that is
// somewhat low.
func RatioError(num, den []float64) (ratio, standardError float64, rounds int) {
	if len(num) != len(den) {
		panic("estimate: ratio with another number of denominators")
	}
	var above, below Sum
	for i, d := range den {
		above.Add(num[i])
		below.Add(d)
		if d > 0 {
			rounds++
		}
	}
	total := below.Value()
	if rounds == 0 {
		return math.NaN(), math.NaN(), 0
	}
	ratio = above.Value() / total
	if rounds < 2 {
		return ratio, math.NaN(), rounds
	}
	var squares float64
	for i, d := range den {
		residual := num[i] - ratio*d
		squares += residual * residual
	}
	m := float64(rounds)
	return ratio, math.Sqrt(squares*m/(m-1)) / total, rounds
}
