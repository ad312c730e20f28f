package metrics

import "roundmill/metrics/estimate"

// ratioOverRounds is sum(num)/sum(den), each a value a round, with its interval
// by the bootstrap over those rounds; NaN where there is nothing to divide by.
func ratioOverRounds(num, den []float64, draws *resamplers) (ratio float64, interval estimate.Interval) {
	var above, below estimate.Sum
	for i := range num {
		above.Add(num[i])
		below.Add(den[i])
	}
	return above.Value() / below.Value(), draws.of(len(num)).Ratio(num, den, Level)
}

// shareOverRounds is k of n with Wilson's interval, which is left out under
// leastRounds rounds.
func shareOverRounds(k, n int64, rounds int) (share float64, interval estimate.Interval) {
	if rounds < leastRounds {
		return float64(k) / float64(n), estimate.None()
	}
	return float64(k) / float64(n), estimate.Wilson(int(k), int(n), Level)
}

// withEnds is an estimate beside the two ends of its interval.
func withEnds(value float64, of estimate.Interval) (estimated, lo, hi float64) {
	return value, of.Lo, of.Hi
}
