package estimate

import (
	"math"
	"math/big"
)

// Moments accumulates the mean and standard deviation of a stream of values. The zero value is ready.
//
// It keeps the exact sums of the values and of their squares ([Sum]) and forms n Σx² - (Σx)² in whole numbers, so the
// cancellation that ruins this textbook formula in floating point does not arise: equal values have a standard
// deviation of 0, and merging in any order or grouping gives the same bits. The usual updating formulas (Welford 1962;
// Chan, Golub and LeVeque 1983) give neither. Paid: values of 2³¹ or more panic, what a value holds below 2⁻⁶⁴ (5e-20)
// is cut off, and a finish costs a microsecond or so.
type Moments struct {
	n       int64
	sum     Sum
	squares Sum
}

// Add adds one value.
func (m *Moments) Add(v float64) {
	v = cut(v)
	m.n++
	m.sum.Add(v)
	m.squares.addProduct(v, v)
}

// Merge adds the values of another accumulator.
func (m *Moments) Merge(other Moments) {
	m.n += other.n
	m.sum.Merge(other.sum)
	m.squares.Merge(other.squares)
}

// N returns the number of values.
func (m Moments) N() int { return int(m.n) }

// Mean returns the arithmetic mean; NaN when there are no values.
func (m Moments) Mean() float64 { return m.sum.Value() / float64(m.n) }

// StandardDeviation returns the root of Σ(x - mean)²/(n-1); NaN under two values.
func (m Moments) StandardDeviation() float64 {
	return math.Sqrt(covariance(m.n, m.squares, m.sum, m.sum))
}

// PairMoments accumulates the means, standard deviations and covariance of pairs, such as the miss along and across
// the line of play. The zero value is ready. The method and its price are those of [Moments].
type PairMoments struct {
	n                      int64
	sumX, sumY             Sum
	sumXX, sumYY, crossSum Sum
}

// Add adds one pair.
func (m *PairMoments) Add(x, y float64) {
	x, y = cut(x), cut(y)
	m.n++
	m.sumX.Add(x)
	m.sumY.Add(y)
	m.sumXX.addProduct(x, x)
	m.sumYY.addProduct(y, y)
	m.crossSum.addProduct(x, y)
}

// Mean returns the mean of each member; NaN when there are no pairs.
func (m PairMoments) Mean() (x, y float64) {
	n := float64(m.n)
	return m.sumX.Value() / n, m.sumY.Value() / n
}

// Covariance returns the variances and the covariance, with divisor n-1; NaN under two pairs.
func (m PairMoments) Covariance() (xx, yy, xy float64) {
	return covariance(m.n, m.sumXX, m.sumX, m.sumX),
		covariance(m.n, m.sumYY, m.sumY, m.sumY),
		covariance(m.n, m.crossSum, m.sumX, m.sumY)
}

// StandardDeviations returns the standard deviation of each member; NaN under two pairs.
func (m PairMoments) StandardDeviations() (x, y float64) {
	xx, yy, _ := m.Covariance()
	return math.Sqrt(xx), math.Sqrt(yy)
}

// cut drops what a value holds below 2⁻⁶⁴, so that a product of two has nothing below the 2⁻¹²⁸ that a Sum keeps.
func cut(v float64) float64 { return math.Trunc(v*two64) / two64 }

// covariance is (n Σxy - Σx Σy) / (n (n-1)), its numerator formed exactly.
func covariance(n int64, products, x, y Sum) float64 {
	if n < 2 {
		return math.NaN()
	}
	numerator := products.units()
	numerator.Mul(numerator, big.NewInt(n)).Lsh(numerator, 128)
	numerator.Sub(numerator, new(big.Int).Mul(x.units(), y.units()))
	value, _ := new(big.Float).SetInt(numerator).Float64()
	return math.Ldexp(value, -256) / (float64(n) * float64(n-1))
}

// units is the sum in its own smallest unit of 2⁻¹²⁸.
func (s Sum) units() *big.Int {
	units := big.NewInt(s.whole)
	units.Lsh(units, 64).Add(units, new(big.Int).SetUint64(s.high))
	return units.Lsh(units, 64).Add(units, new(big.Int).SetUint64(s.low))
}
