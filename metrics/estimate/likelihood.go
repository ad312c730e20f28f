package estimate

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// likelihood adds the score and the expected information of the data at theta to the two that it is given, and
// returns the log-likelihood, or -Inf where theta makes no sense.
type likelihood func(theta []float64, score *mat.VecDense, information *mat.SymDense) float64

// place is a likelihood looked at from one theta.
type place struct {
	theta       []float64
	height      float64
	score       *mat.VecDense
	information *mat.SymDense
}

func (at likelihood) place(theta []float64) place {
	size := len(theta)
	p := place{theta: theta, score: mat.NewVecDense(size, nil), information: mat.NewSymDense(size, nil)}
	p.height = at(theta, p.score, p.information)
	return p
}

// maximum is where a likelihood is largest.
type maximum struct {
	theta          []float64
	height         float64
	standardErrors []float64
}

// maximise climbs from start by Fisher's method of scoring, theta += information⁻¹ score, a step being halved until it
// leads upwards: P. McCullagh and J. A. Nelder (1989), Generalized Linear Models, 2nd edition, Chapman & Hall, section
// 2.5. It reports false when the data do not determine theta: information that is singular, no maximum within 200
// steps, or a standard error over 1. Parameters are logarithms and log odds, so one known no better than that is known
// to no better than a factor of five either way at 90 %; data that want it to be infinite end up there too.
func maximise(start []float64, at likelihood) (maximum, bool) {
	const (
		settled      = 1e-8 // squared length of a step in standard errors; the next one would be far shorter still
		undetermined = 1.0
	)
	here := at.place(start)
	for range 200 {
		var cholesky mat.Cholesky
		var step mat.VecDense
		if !cholesky.Factorize(here.information) || cholesky.SolveVecTo(&step, here.score) != nil {
			return maximum{}, false
		}
		if mat.Dot(&step, here.score) < settled {
			var covariance mat.SymDense
			if cholesky.InverseTo(&covariance) != nil {
				return maximum{}, false
			}
			best := maximum{height: here.height}
			for i, v := range here.theta {
				best.theta = append(best.theta, v+step.AtVec(i))
				best.standardErrors = append(best.standardErrors, math.Sqrt(covariance.At(i, i)))
			}
			return best, slices.Max(best.standardErrors) <= undetermined
		}
		next, ok := uphill(here, &step, at)
		if !ok {
			return maximum{}, false
		}
		here = next
	}
	return maximum{}, false
}

// uphill goes along the step, no parameter by more than 1, halving it until it leads above here.
func uphill(here place, step *mat.VecDense, at likelihood) (place, bool) {
	length := 1 / max(1, mat.Norm(step, math.Inf(1)))
	for range 40 {
		theta := make([]float64, len(here.theta))
		for i, v := range here.theta {
			theta[i] = v + length*step.AtVec(i)
		}
		if next := at.place(theta); next.height > here.height {
			return next, true
		}
		length /= 2
	}
	return place{}, false
}

// profileInterval returns the interval of one parameter by the profile likelihood: the values at which the likelihood,
// the other parameters at their best, is within z²/2 of its maximum. An end that the data leave open is the limit. The
// likelihood has two parameters or more. D. J. Venzon and S. H. Moolgavkar (1988), "A method for computing
// profile-likelihood-based confidence intervals", Applied Statistics 37:87-94.
func profileInterval(best maximum, parameter int, limits Interval, level float64, at likelihood) Interval {
	return Interval{
		profileEnd(best, parameter, limits.Lo, level, at),
		profileEnd(best, parameter, limits.Hi, level, at),
	}
}

// profileEnd goes from the maximum towards the limit in steps of z standard errors until the end is passed, and then
// closes in on it by interpolating the root of twice the drop, which is almost straight.
func profileEnd(best maximum, parameter int, limit, level float64, at likelihood) float64 {
	z := standardScore(level)
	others := slices.Delete(slices.Clone(best.theta), parameter, parameter+1)
	beyond := func(value float64) float64 {
		profile, ok := maximise(others, at.holding(parameter, value))
		if !ok {
			return math.Inf(1)
		}
		others = profile.theta
		return math.Sqrt(max(0, 2*(best.height-profile.height))) - z
	}

	inside, excessInside := best.theta[parameter], -z
	stride := math.Copysign(z*best.standardErrors[parameter], limit-inside)
	outside := inside
	var excessOutside float64
	for {
		outside += stride
		if (limit-outside)*stride <= 0 {
			outside = limit
		}
		excessOutside = beyond(outside)
		if excessOutside >= 0 {
			break
		}
		if outside == limit {
			return limit
		}
		inside, excessInside = outside, excessOutside
	}
	for range 100 {
		share := 0.5
		if !math.IsInf(excessOutside, 1) {
			share = excessInside / (excessInside - excessOutside)
		}
		middle := inside + share*(outside-inside)
		excess := beyond(middle)
		if math.Abs(excess) < 1e-4*z {
			return middle
		}
		if excess < 0 {
			inside, excessInside = middle, excess
		} else {
			outside, excessOutside = middle, excess
		}
	}
	return inside
}

// holding is the likelihood of the other parameters with one held at a value.
func (at likelihood) holding(parameter int, value float64) likelihood {
	return func(others []float64, score *mat.VecDense, information *mat.SymDense) float64 {
		whole := at.place(slices.Insert(slices.Clone(others), parameter, value))
		from := func(i int) int {
			if i < parameter {
				return i
			}
			return i + 1
		}
		for i := range others {
			score.SetVec(i, score.AtVec(i)+whole.score.AtVec(from(i)))
			for j := i; j < len(others); j++ {
				information.SetSym(i, j, information.At(i, j)+whole.information.At(from(i), from(j)))
			}
		}
		return whole.height
	}
}
