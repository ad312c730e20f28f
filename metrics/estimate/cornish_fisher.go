package estimate

import "math"

const (
	// expansionRounds is the least number of rounds with something to divide by whose percentiles are expanded.
	expansionRounds = 10
	// mostKurtosis is the most excess kurtosis that a sum of drawn residuals may have.
	mostKurtosis = 0.2
	// leastResiduals is how many residuals must differ, each by leastApart standard deviations or more from the others.
	leastResiduals, leastApart = 5, 0.5
)

// expanded returns the interval that drawing sum(num)/sum(den) for ever would tend to, without a draw, and whether it
// can be had; of rounds that have something to divide by there must be 10.
//
// A resample has a ratio of r or less when the residuals num - r den of its rounds add up to zero or less. That is a
// sum of as many independent draws as there are rounds, so its percentiles follow from its mean, spread, skewness and
// kurtosis by the expansion of E. A. Cornish and R. A. Fisher (1937), "Moments and cumulants in the specification of
// distributions", Revue de l'Institut International de Statistique 5:307-320; for the bootstrap P. Hall (1992), The
// Bootstrap and Edgeworth Expansion, Springer; for turning a ratio into a sum A. C. Davison and D. V. Hinkley (1988),
// "Saddlepoint approximations in resampling methods", Biometrika 75:417-431 (citations from memory).
//
// It is refused where the terms left out could tell:
//   - Excess kurtosis of the sum past 0.2: a few rounds make the spread. Skewness is bounded with it (by 0.64), because
//     its square is at most the excess kurtosis plus 2/n (an inequality of K. Pearson's), and so bounded the percentiles
//     keep their order, to three standard deviations.
//   - Fewer than 5 residuals half a standard deviation or more apart: the sum goes in steps too wide, as of one try a
//     round, good or not, and no smooth curve says where a percentile falls.
//
// With 10 rounds to divide by, a resample without any has a chance under e⁻¹⁰.
//
// Measured against 200,000 resamples, in 12 seasons each of 10, 15, 20, 30, 46 and 80 rounds and of five kinds without
// steps, from normal sums to lognormal ones, where it was not refused: 0.011, 0.008, then 0.005 to 0.006 standard
// errors off (root mean square), of which the noise of so many resamples is 0.005, and 0.03 at worst; 2,000 resamples
// are 0.05 to 0.06 off. Where the sum goes in steps, what is computed lies within half a step of the percentile.
func expanded(num, den []float64, rounds int, level float64) (interval Interval, holds bool) {
	if rounds < expansionRounds {
		return None(), false
	}
	var above, below float64
	for i, d := range den {
		above += num[i]
		below += d
	}
	ratio, score := above/below, expandedScore(rounds, level)
	if !residualsDiffer(num, den, ratio) {
		return None(), false
	}
	lo, holdsBelow := expandedEnd(num, den, ratio, below, -score)
	hi, holdsAbove := expandedEnd(num, den, ratio, below, score)
	return Interval{lo, hi}, holdsBelow && holdsAbove
}

// expandedEnd is the r for which a sum of drawn residuals has the chance Φ(z) of being zero or less; total is sum(den).
func expandedEnd(num, den []float64, ratio, total, z float64) (end float64, holds bool) {
	end = ratio
	for range 20 {
		sum := drawnResiduals(num, den, end)
		if !(sum.kurtosis <= mostKurtosis) {
			return end, false
		}
		before := end
		end = ratio + sum.sd*sum.quantile(z)/total
		if math.Abs(end-before) <= 1e-10*sum.sd/total {
			return end, true
		}
	}
	return end, false
}

// drawnSum is the shape of a sum of as many draws with replacement as there are values.
type drawnSum struct{ sd, skewness, kurtosis float64 }

// drawnResiduals is that of the residuals num - ratio den.
func drawnResiduals(num, den []float64, ratio float64) drawnSum {
	n := float64(len(den))
	var mean, squares, cubes, fourths float64
	for i, d := range den {
		mean += (num[i] - ratio*d) / n
	}
	for i, d := range den {
		deviation := num[i] - ratio*d - mean
		square := deviation * deviation
		squares += square
		cubes += square * deviation
		fourths += square * square
	}
	sd := math.Sqrt(squares)
	return drawnSum{sd, cubes / (squares * sd), fourths/(squares*squares) - 3/n}
}

// quantile is how many standard deviations the Φ(z) quantile of the sum lies above its mean.
func (s drawnSum) quantile(z float64) float64 {
	return z + (z*z-1)*s.skewness/6 + z*(z*z-3)*s.kurtosis/24 - z*(2*z*z-5)*s.skewness*s.skewness/36
}

// residualsDiffer tells whether enough of the residuals num - ratio den do.
func residualsDiffer(num, den []float64, ratio float64) bool {
	apart := leastApart * drawnResiduals(num, den, ratio).sd / math.Sqrt(float64(len(den)))
	different := make([]float64, 0, leastResiduals)
next:
	for i, d := range den {
		residual := num[i] - ratio*d
		for _, other := range different {
			if math.Abs(residual-other) < apart {
				continue next
			}
		}
		if different = append(different, residual); len(different) == leastResiduals {
			return true
		}
	}
	return false
}
