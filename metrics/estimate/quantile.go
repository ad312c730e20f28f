package estimate

import "math"

// quantile is that of [Distribution.Quantile] over n values, of which at(rank) is the one with rank smaller ones before it.
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
