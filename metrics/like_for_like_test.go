package metrics

import (
	"math"
	"math/rand/v2"
	"testing"

	"roundmill/metrics/estimate"
)

// The difference is that of the regression within strata, which is held against
// published fits; strata that hold one group only say nothing in either.
func TestADifferenceLikeForLikeIsTheRegressionWithinStrata(t *testing.T) {
	const strata, rounds = 7, 12
	for seed := range uint64(300) {
		random := rand.New(rand.NewPCG(seed, 0))
		compared := make(likeForLike, strata)
		for round := range int32(rounds) {
			for range random.IntN(1 + int(seed%4)) {
				compared[random.IntN(strata)][random.IntN(2)].add(round, random.NormFloat64(), random.ExpFloat64())
			}
		}
		resampled := resamplers{seed: 1}
		draws := resampled.ofPlayer(make(roundList, rounds))
		for which := range 2 {
			fit := estimate.FitWithinStrata(asStratumSums(compared, which), 1, rounds)
			informative := func(group int) int {
				var cells []roundSums
				for _, groups := range compared.shared() {
					cells = append(cells, groups[group])
				}
				return roundsIn(cells, rounds)
			}
			want := draws.Linear(fit.Coefficients[0], fit.Influences[0], min(informative(0), informative(1)), Level)
			got, interval := compared.difference(which, draws)
			if !almost(got, fit.Coefficients[0]) || !almost(interval.Lo, want.Lo) || !almost(interval.Hi, want.Hi) {
				t.Errorf("seed %d: %v in %v, expected %v in %v", seed, got, interval, fit.Coefficients[0], want)
			}
		}
	}
}

func asStratumSums(compared likeForLike, which int) (sums []estimate.StratumSums) {
	for stratum, groups := range compared {
		for group, cell := range groups {
			for _, sum := range cell {
				n, y := float64(sum.n), sum.sums[which]
				x := []float64{n * float64(group)}
				sums = append(sums, estimate.StratumSums{Stratum: stratum, Round: int(sum.round), N: n, Y: y, X: x, XX: x, XY: []float64{y * float64(group)}})
			}
		}
	}
	return sums
}

func almost(a, b float64) bool {
	return math.IsNaN(a) && math.IsNaN(b) || math.Abs(a-b) <= 1e-10*max(1, math.Abs(b))
}
