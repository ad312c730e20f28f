package estimate

import (
	"math"
	"testing"
)

// Mathematics: with one in every denominator the ratio is the mean and its standard error s/√n; the values 2, 4, 4, 4,
// 5, 5, 7, 9 have the mean 5 and Σ(x - 5)² = 32.
func TestRatioOfEqualRoundsIsTheMean(t *testing.T) {
	values := []float64{2, 4, 4, 4, 5, 5, 7, 9}
	ratio, standardError, rounds := RatioError(values, ones(len(values)))
	if ratio != 5 || rounds != 8 || !near(standardError, math.Sqrt(32.0/7/8), 1e-12) {
		t.Errorf("%v ± %v over %d rounds", ratio, standardError, rounds)
	}
}

func TestRatioNeedsRounds(t *testing.T) {
	if ratio, standardError, rounds := RatioError([]float64{0, 3}, []float64{0, 2}); ratio != 1.5 || !math.IsNaN(standardError) || rounds != 1 {
		t.Errorf("one round gives %v ± %v over %d", ratio, standardError, rounds)
	}
	if ratio, _, rounds := RatioError(nil, nil); !math.IsNaN(ratio) || rounds != 0 {
		t.Errorf("no round gives %v over %d", ratio, rounds)
	}
}

// The standard error is that of the bootstrap over the same rounds.
func TestRatioErrorAgreesWithTheBootstrap(t *testing.T) {
	random := newRandom(5)
	num, den := make([]float64, 46), make([]float64, 46)
	for i := range num {
		den[i] = float64(1 + random.IntN(6))
		num[i] = den[i]*0.2 + math.Sqrt(den[i])*random.NormFloat64()
	}
	_, standardError, rounds := RatioError(num, den)
	var replicates Moments
	for _, ratio := range NewResampler(len(num), 20000, 1).Replicates(num, den) {
		replicates.Add(ratio)
	}
	// The bootstrap divides by m where the standard error divides by m-1.
	bootstrap := replicates.StandardDeviation() * math.Sqrt(float64(rounds)/float64(rounds-1))
	if !near(standardError/bootstrap, 1, 0.05) {
		t.Errorf("standard error %v, of the bootstrap %v", standardError, bootstrap)
	}
}
