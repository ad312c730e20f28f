package estimate

import "math"

// Quantile returns the p-quantile of values in rising order, 0 <= p <= 1; NaN when there are none.
//
// Definition 7 of R. J. Hyndman and Y. Fan (1996), "Sample quantiles in statistical packages", The American
// Statistician 50(4):361-365: with h = (n-1)p counted from the smallest value, straight between the two values that
// h falls between. Quantiles rise with p and never leave the range of the values.
func Quantile(sorted []float64, p float64) float64 {
	return quantile(int64(len(sorted)), p, func(rank int64) float64 { return sorted[rank] })
}

// CountQuantile returns the same quantile of whole numbers that are kept as counts: counts[v] values are v.
func CountQuantile(counts []int64, p float64) float64 {
	var n int64
	for _, count := range counts {
		n += count
	}
	return quantile(n, p, func(rank int64) float64 { return float64(countAt(counts, rank)) })
}

// quantile is definition 7 over n values, of which at(rank) is the one with rank smaller ones before it.
func quantile(n int64, p float64, at func(rank int64) float64) float64 {
	if !(p >= 0 && p <= 1) {
		panic("estimate: quantile outside [0, 1]")
	}
	if n == 0 {
		return math.NaN()
	}
	below, part := math.Modf(float64(n-1) * p)
	rank := int64(below)
	value := at(rank)
	if part == 0 {
		return value
	}
	next := at(rank + 1)
	// The product is rounded on its own, so that machines with a fused multiply-add give the same bits.
	return min(next, value+float64(part*(next-value)))
}

// countAt returns the whole number with rank smaller ones before it.
func countAt(counts []int64, rank int64) int {
	for v, count := range counts {
		if rank < count {
			return v
		}
		rank -= count
	}
	panic("estimate: rank beyond the counts")
}
