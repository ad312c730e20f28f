package estimate

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// worstCondition is the condition number of the correlation-scaled normal equations past which predictors count as
// the same: about seven of sixteen digits of the coefficients are then left.
const worstCondition = 1e9

// StratumSums are what the rows of one round add to a regression within strata, in one stratum: how many rows, and
// over them Σy, Σx, Σxy for each predictor, and Σxx' for each pair of predictors (upper triangle, row by row).
// Strata and rounds are numbered from 0.
type StratumSums struct {
	Stratum, Round int
	N, Y           float64
	X, XY, XX      []float64
}

// WithinFit is a least squares line of y on a few predictors, with an intercept of its own for every stratum.
type WithinFit struct {
	// Coefficients, one for each predictor; NaN for a predictor that does not vary within any stratum, and for all
	// when the strata do not tell them apart.
	Coefficients []float64
	// Influences, by predictor and round, are how far each round pulls the coefficient; they add up to zero. See
	// [Resampler.Linear].
	Influences [][]float64
}

// FitWithinStrata fits by ordinary least squares. With one predictor that is 1 in one group and 0 in another, the
// coefficient is the difference of the two means within strata, weighted by nm/(n+m) for n and m rows: a stratum
// counts as far as it has both.
//
// Intercepts are taken out by centring at the mean of each stratum. The influence of a round is (X'X)⁻¹ Σ x e over its
// rows, x centred and e the residual, times √(N/(N-K)) for the K intercepts and slopes that were fitted to the N rows:
// A. C. Cameron and D. L. Miller (2015), "A practitioner's guide to cluster-robust inference", Journal of Human
// Resources 50(2):317-372, sections II and VI.
func FitWithinStrata(sums []StratumSums, predictors, rounds int) WithinFit {
	means := stratumMeans(sums, predictors)
	square, right := mat.NewSymDense(predictors, nil), make([]float64, predictors)
	xx, xy := mat.NewSymDense(predictors, nil), make([]float64, predictors)
	for i := range sums {
		s := &sums[i]
		s.centred(&means[s.Stratum], xx, xy)
		for j := range predictors {
			right[j] += xy[j]
			for k := j; k < predictors; k++ {
				square.SetSym(j, k, square.At(j, k)+xx.At(j, k))
			}
		}
	}
	fit := WithinFit{Coefficients: make([]float64, predictors), Influences: make([][]float64, predictors)}
	var varying []int
	for j := range predictors {
		fit.Coefficients[j], fit.Influences[j] = math.NaN(), make([]float64, rounds)
		raw := 0.0
		for _, m := range means {
			raw += m.squares[j]
		}
		if square.At(j, j) > raw/worstCondition {
			varying = append(varying, j)
		}
	}
	rows, intercepts := freedom(means)
	spare := rows - intercepts - float64(len(varying))
	inverse, ok := invert(square, varying)
	if !ok || spare <= 0 {
		return fit
	}
	for i, j := range varying {
		fit.Coefficients[j] = 0
		for k, l := range varying {
			fit.Coefficients[j] += inverse.At(i, k) * right[l]
		}
	}
	correction := math.Sqrt(rows / spare)
	for i := range sums {
		s, pull := &sums[i], xy
		s.centred(&means[s.Stratum], xx, pull)
		for _, j := range varying {
			for _, k := range varying {
				pull[j] -= xx.At(j, k) * fit.Coefficients[k]
			}
		}
		for i, j := range varying {
			for k, l := range varying {
				fit.Influences[j][s.Round] += inverse.At(i, k) * pull[l] * correction
			}
		}
	}
	return fit
}

// Linear returns the interval of an estimate by the bootstrap over rounds, to first order: the influences of the rounds
// that are drawn are added to it (A. C. Davison and D. V. Hinkley 1997, Bootstrap Methods and their Application,
// Cambridge University Press, section 2.7). It stands in for computing the estimate anew from every resample where
// that is dear, or, as with strata of a shot or two, not possible. informative is the number of rounds that the
// estimate rests on. It is None when that is under 5, or when no round pulls.
func (r *Resampler) Linear(estimate float64, influences []float64, informative int, level float64) Interval {
	scaled := make([]float64, len(influences))
	for i, influence := range influences {
		scaled[i] = influence * float64(len(influences))
	}
	each := ones(len(scaled))
	r.mustFit(scaled)
	interval := r.interval(scaled, each, informative, level)
	return Interval{estimate + interval.Lo, estimate + interval.Hi}
}

// stratumMean is the means of one stratum, and the squares of its predictors.
type stratumMean struct {
	n, y       float64
	x, squares []float64
}

func stratumMeans(sums []StratumSums, predictors int) []stratumMean {
	strata := 0
	for _, s := range sums {
		strata = max(strata, s.Stratum+1)
	}
	means := make([]stratumMean, strata)
	for i := range means {
		means[i].x, means[i].squares = make([]float64, predictors), make([]float64, predictors)
	}
	for _, s := range sums {
		m := &means[s.Stratum]
		m.n += s.N
		m.y += s.Y
		for j, x := range s.X {
			m.x[j] += x
			m.squares[j] += s.XX[diagonal(j, predictors)]
		}
	}
	for i := range means {
		m := &means[i]
		m.y /= m.n
		for j := range m.x {
			m.x[j] /= m.n
		}
	}
	return means
}

// varies reports whether any predictor does in this stratum, beyond rounding.
func (m *stratumMean) varies() bool {
	for j, square := range m.squares {
		if square-m.n*m.x[j]*m.x[j] > square/worstCondition {
			return true
		}
	}
	return false
}

// centred puts Σxx' and Σxy of a round about the means of its stratum into xx and xy.
func (s *StratumSums) centred(m *stratumMean, xx *mat.SymDense, xy []float64) {
	k := len(s.X)
	at := 0
	for i := range k {
		xy[i] = s.XY[i] - m.x[i]*s.Y - m.y*s.X[i] + s.N*m.x[i]*m.y
		for j := i; j < k; j++ {
			xx.SetSym(i, j, s.XX[at]-m.x[i]*s.X[j]-m.x[j]*s.X[i]+s.N*m.x[i]*m.x[j])
			at++
		}
	}
}

// diagonal is the place of the square of predictor j in an upper triangle.
func diagonal(j, predictors int) int { return j*predictors - j*(j-1)/2 }

// freedom counts the rows and the intercepts of the strata that say something.
func freedom(means []stratumMean) (rows, intercepts float64) {
	for _, m := range means {
		if m.varies() {
			rows += m.n
			intercepts++
		}
	}
	return rows, intercepts
}

// invert inverts the part of a symmetric matrix that belongs to these places, scaled to a unit diagonal on the way; false
// when it is singular, or nearly.
func invert(square *mat.SymDense, places []int) (*mat.SymDense, bool) {
	k := len(places)
	if k == 0 {
		return nil, false
	}
	scaled := mat.NewSymDense(k, nil)
	scale := func(i int) float64 { return math.Sqrt(square.At(places[i], places[i])) }
	for i := range k {
		for j := i; j < k; j++ {
			scaled.SetSym(i, j, square.At(places[i], places[j])/(scale(i)*scale(j)))
		}
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(scaled) || cholesky.Cond() > worstCondition {
		return nil, false
	}
	inverse := mat.NewSymDense(k, nil)
	if err := cholesky.InverseTo(inverse); err != nil {
		return nil, false
	}
	for i := range k {
		for j := i; j < k; j++ {
			inverse.SetSym(i, j, inverse.At(i, j)/(scale(i)*scale(j)))
		}
	}
	return inverse, true
}
