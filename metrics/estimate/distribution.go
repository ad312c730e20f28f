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
// them, and the mean stays exact. What is kept depends on the number of values only, so that adding and merging in
// any order or grouping gives the same figures.
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

// Merge adds the values of another distribution, which it leaves as it was.
func (d *Distribution) Merge(other *Distribution) {
	d.sum.Merge(other.sum)
	d.n += other.n
	if d.n <= foldLimit {
		d.values = append(d.values, other.values...)
		return
	}
	d.fold()
	for _, v := range other.values {
		d.count(v)
	}
	d.reserve(len(other.tenths))
	for tenth, count := range other.tenths {
		d.tenths[tenth] += count
	}
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
	d.reserve(tenth + 1)
	d.tenths[tenth]++
}

// reserve makes room for the counts of the first n tenths.
func (d *Distribution) reserve(n int) {
	if n > len(d.tenths) {
		d.tenths = append(d.tenths, make([]int64, n-len(d.tenths))...)
	}
}

// N returns the number of values.
func (d *Distribution) N() int { return int(d.n) }

// Mean returns the arithmetic mean; NaN when there are no values.
func (d *Distribution) Mean() float64 { return d.sum.Value() / float64(d.n) }

// Quantile returns the p-quantile by definition 7 (see [Quantile]); NaN when there are no values.
func (d *Distribution) Quantile(p float64) float64 {
	d.sort()
	return quantile(d.n, p, d.at)
}

// MedianInterval returns the interval of the median (see [MedianInterval]).
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
	return float64(countAt(d.tenths, rank)) / 10
}

func (d *Distribution) sort() {
	if !slices.IsSorted(d.values) {
		slices.Sort(d.values)
	}
}
