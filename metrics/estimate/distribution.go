package estimate

import (
	"math"
	"slices"
)

const (
	// foldLimit is the number of values that a Distribution keeps as they are.
	foldLimit = 10_000
	// foldedLargest is the largest value that the counts tell apart, in tenths: 10,000 units.
	foldedLargest = 100_000
)

// Distribution accumulates values that are not negative, such as distances from the hole. The zero value is ready.
//
// Up to 10,000 values are kept as they are, and every figure is exact: no person's career has more in one cell. Beyond
// that they are kept as counts per tenth, each value rounded to the nearest, so that memory stays bounded at 800 kB
// for any number of values: quantiles and shares are then good to a tenth, values over 10,000 count as 10,000 in
// them, and the mean stays exact. What is kept depends on the number of values only, so that adding them in any order
// gives the same figures.
//
// Figures may sort the values in place: a Distribution is for one goroutine at a time.
type Distribution struct {
	sum    Sum
	n      int64
	values []float64 // all of them, or nil once folded
	tenths []int64   // tenths[t] values are nearest to t/10, once folded
}

// Add adds one value.
func (d *Distribution) Add(v float64) {
	if !(v >= 0) {
		panic("estimate: value of a distribution is negative or not a number")
	}
	d.sum.Add(v)
	d.n++
	if d.n > foldLimit {
		d.fold()
		d.count(v)
		return
	}
	d.values = append(d.values, v)
}

// fold turns the values into counts, if that has not been done.
func (d *Distribution) fold() {
	for _, v := range d.values {
		d.count(v)
	}
	d.values = nil
}

func (d *Distribution) count(v float64) {
	tenth := int(min(math.Round(v*10), foldedLargest))
	if missing := tenth + 1 - len(d.tenths); missing > 0 {
		d.tenths = append(d.tenths, make([]int64, missing)...)
	}
	d.tenths[tenth]++
}

// N returns the number of values.
func (d *Distribution) N() int { return int(d.n) }

// Mean returns the arithmetic mean; NaN when there are no values.
func (d *Distribution) Mean() float64 { return d.sum.Value() / float64(d.n) }

// Quantile returns the p-quantile, 0 <= p <= 1; NaN when there are no values.
//
// Definition 7 of R. J. Hyndman and Y. Fan (1996), "Sample quantiles in statistical packages", The American
// Statistician 50(4):361-365: with h = (n-1)p counted from the smallest value, straight between the two values that
// h falls between. Quantiles rise with p and never leave the range of the values.
func (d *Distribution) Quantile(p float64) float64 {
	d.sort()
	return quantile(d.n, p, d.at)
}

// MedianInterval returns an interval of the median of what the values were drawn from, whatever its shape, by two order
// statistics either side, interpolated as T. P. Hettmansperger and S. J. Sheather (1986) do (see [medianInterval]). It is
// None when even the smallest and the largest value do not reach the level: under 5 values at 90 %, under 6 at 95 %.
func (d *Distribution) MedianInterval(level float64) Interval {
	d.sort()
	return medianInterval(d.n, level, d.at)
}

// ShareWithin returns the share of values that are at most the limit; NaN when there are no values.
func (d *Distribution) ShareWithin(limit float64) float64 {
	var within int64
	for _, v := range d.values {
		if v <= limit {
			within++
		}
	}
	for tenth, count := range d.tenths {
		if float64(tenth)/10 <= limit {
			within += count
		}
	}
	return float64(within) / float64(d.n)
}

// Values returns a copy of the values in rising order, for drawing their shape: all of them, or, past 10,000, as many
// as that at evenly spaced ranks.
func (d *Distribution) Values() []float64 {
	if d.tenths == nil {
		d.sort()
		return slices.Clone(d.values)
	}
	values := make([]float64, 0, foldLimit)
	var passed int64
	for tenth, count := range d.tenths {
		passed += count
		for int64(len(values)) < foldLimit && d.spacedRank(len(values)) < passed {
			values = append(values, float64(tenth)/10)
		}
	}
	return values
}

// spacedRank is the rank in the middle of the i-th of foldLimit equal parts.
func (d *Distribution) spacedRank(i int) int64 {
	return int64((float64(i) + 0.5) / foldLimit * float64(d.n))
}

// at returns the value with rank smaller ones before it; the values have been sorted.
func (d *Distribution) at(rank int64) float64 {
	if d.tenths == nil {
		return d.values[rank]
	}
	for tenth, count := range d.tenths {
		if rank < count {
			return float64(tenth) / 10
		}
		rank -= count
	}
	panic("estimate: rank beyond the counts")
}

func (d *Distribution) sort() {
	if !slices.IsSorted(d.values) {
		slices.Sort(d.values)
	}
}
