package estimate

// Isotonic returns the non-decreasing values that are nearest to the given ones in weighted least squares. values[i]
// and weights[i] are the mean and the weight at the i-th place, in rising order of places, each place once: values
// that share a place are to be averaged, with their weights added up, before. Weights are above zero.
//
// Pooled adjacent violators: M. Ayer, H. D. Brunk, G. M. Ewing, W. T. Reid and E. Silverman (1955), "An empirical
// distribution function for sampling with incomplete information", Annals of Mathematical Statistics 26:641-647;
// R. E. Barlow, D. J. Bartholomew, J. M. Bremner and H. D. Brunk (1972), Statistical Inference under Order
// Restrictions, Wiley. Takes time in proportion to the number of values.
//
// Paid: the result is a staircase, and near both ends it leans outwards, because a stray low value at the start or
// high value at the end has no neighbour to pool with.
func Isotonic(values, weights []float64) []float64 {
	if len(values) != len(weights) {
		panic("estimate: isotonic regression with another number of weights")
	}
	type pool struct {
		mean, weight float64
		size         int
	}
	var pools []pool
	for i, v := range values {
		if !(weights[i] > 0) {
			panic("estimate: isotonic regression with a weight that is not above zero")
		}
		last := pool{v, weights[i], 1}
		for len(pools) > 0 && pools[len(pools)-1].mean >= last.mean {
			before := pools[len(pools)-1]
			pools = pools[:len(pools)-1]
			weight := before.weight + last.weight
			// A mean taken from the earlier one by steps stays between the two.
			last = pool{before.mean - (before.mean-last.mean)*(last.weight/weight), weight, before.size + last.size}
		}
		pools = append(pools, last)
	}
	fitted := make([]float64, 0, len(values))
	for _, p := range pools {
		for range p.size {
			fitted = append(fitted, p.mean)
		}
	}
	return fitted
}
