package metrics

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// studentIntervals remembers Student's t by number of plays: a quantile takes
// longer than all else about a hole.
type studentIntervals struct{ t map[int]float64 }

// mean is a mean over plays, one a round, with Student's interval, mean ± t s/√n
// with n - 1 degrees of freedom, which is left out under leastRounds plays, and
// where all plays are the same: they do not say how far another would be off.
func (s *studentIntervals) mean(plays interface {
	N() int
	Mean() float64
	StandardDeviation() float64
}) (mean, lo, hi float64) {
	mean = plays.Mean()
	n := plays.N()
	spread := plays.StandardDeviation()
	if n < leastRounds || spread == 0 {
		return mean, math.NaN(), math.NaN()
	}
	if s.t == nil {
		s.t = map[int]float64{}
	}
	if s.t[n] == 0 {
		s.t[n] = distuv.StudentsT{Sigma: 1, Nu: float64(n - 1)}.Quantile((1 + Level) / 2)
	}
	reach := s.t[n] * spread / math.Sqrt(float64(n))
	return mean, mean - reach, mean + reach
}
