package estimate

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// worstCondition is the condition number of the correlation-scaled normal equations past which predictors count as
// the same: about seven of sixteen digits of the coefficients are then left.
const worstCondition = 1e9

// RegressionSums are the sums that a least squares line of y on a few predictors needs, over the shots of a round or
// of any group: Xᵀ X and Xᵀ y, each entry exact ([Sum]), with the intercept as the first column of X. The zero value is
// ready and takes its number of predictors from the first row.
type RegressionSums struct {
	n      int
	width  int   // columns of X with y behind them
	square []Sum // upper triangle, row by row, of (X y)ᵀ (X y)
}

// Add adds one row; every row has as many predictors.
func (s *RegressionSums) Add(y float64, predictors ...float64) {
	if s.n == 0 {
		s.width = len(predictors) + 2
		s.square = make([]Sum, s.width*(s.width+1)/2)
	}
	if len(predictors)+2 != s.width {
		panic("estimate: regression with another number of predictors")
	}
	s.n++
	column := func(i int) float64 {
		switch i {
		case 0:
			return 1
		case s.width - 1:
			return y
		}
		return predictors[i-1]
	}
	at := 0
	for i := range s.width {
		for j := i; j < s.width; j++ {
			s.square[at].addProduct(column(i), column(j))
			at++
		}
	}
}

// Merge adds the rows of other sums.
func (s *RegressionSums) Merge(other RegressionSums) {
	switch {
	case other.n == 0:
		return
	case s.n == 0:
		*s = RegressionSums{other.n, other.width, slices.Clone(other.square)}
		return
	case s.width != other.width:
		panic("estimate: regression with another number of predictors")
	}
	s.n += other.n
	for i, sum := range other.square {
		s.square[i].Merge(sum)
	}
}

// N returns the number of rows.
func (s RegressionSums) N() int { return s.n }

// Coefficients returns the ordinary least squares coefficients of all rounds together, the intercept first, and false
// when they are not determined: fewer rows than coefficients and one more, or predictors that do not vary, or not
// apart from each other.
//
// The normal equations, scaled to a unit diagonal, are solved by Cholesky's method: Å. Björck (1996), Numerical
// Methods for Least Squares Problems, SIAM, chapter 2. Paid: twice the digits that an orthogonal factor of the rows
// would lose, in exchange for sums that stream, merge and can be drawn by round; with a few predictors of like size
// that leaves ten digits or so.
func Coefficients(rounds []RegressionSums) ([]float64, bool) {
	var total RegressionSums
	for _, round := range rounds {
		total.Merge(round)
	}
	return total.solve()
}

// Coefficients returns the interval of each coefficient by the bootstrap over rounds, the intercept first; rounds[i]
// are the sums of round i, empty where it has no row. A resample that does not determine them is left out. All are
// None when fewer than 5 rounds have rows; nil when the coefficients are not determined to begin with.
func (r *Resampler) Coefficients(rounds []RegressionSums, level float64) []Interval {
	if len(rounds) != r.rounds {
		panic("estimate: resampler made for another number of rounds")
	}
	whole, ok := Coefficients(rounds)
	if !ok {
		return nil
	}
	blocks := make([]RegressionSums, r.blocks)
	for round := range rounds {
		blocks[r.block(round)].Merge(rounds[round])
	}
	withRows := 0
	for _, block := range blocks {
		if block.n > 0 {
			withRows++
		}
	}
	replicates := make([][]float64, len(whole))
	for resample := range r.resamples {
		var total RegressionSums
		for _, block := range r.draw(resample) {
			total.Merge(blocks[block])
		}
		coefficients, ok := total.solve()
		for i := range coefficients {
			if ok {
				replicates[i] = append(replicates[i], coefficients[i])
			}
		}
	}
	intervals := make([]Interval, len(whole))
	for i := range intervals {
		intervals[i] = Percentile(replicates[i], withRows, level)
	}
	return intervals
}

// solve solves the normal equations.
func (s RegressionSums) solve() ([]float64, bool) {
	terms := s.width - 1
	if s.n == 0 || s.n <= terms {
		return nil, false
	}
	scale := make([]float64, terms)
	for i := range scale {
		scale[i] = math.Sqrt(s.at(i, i))
		if scale[i] == 0 {
			return nil, false
		}
	}
	normal := mat.NewSymDense(terms, nil)
	right := mat.NewVecDense(terms, nil)
	for i := range terms {
		for j := i; j < terms; j++ {
			normal.SetSym(i, j, s.at(i, j)/(scale[i]*scale[j]))
		}
		right.SetVec(i, s.at(i, terms)/scale[i])
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(normal) || cholesky.Cond() > worstCondition {
		return nil, false
	}
	var solution mat.VecDense
	if err := cholesky.SolveVecTo(&solution, right); err != nil {
		return nil, false
	}
	coefficients := make([]float64, terms)
	for i := range coefficients {
		coefficients[i] = solution.AtVec(i) / scale[i]
	}
	return coefficients, true
}

// at is the entry i, j of (X y)ᵀ (X y), i <= j.
func (s RegressionSums) at(i, j int) float64 {
	return s.square[i*s.width-i*(i-1)/2+j-i].Value()
}
