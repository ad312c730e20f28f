package estimate

import (
	"math"
	"math/bits"
)

// Sum adds float64 values without rounding, so that neither their order nor their grouping into batches shows in the
// total. The zero value is an empty sum; two sums of the same values are equal under ==.
//
// It is a fixed-point number of 128 bits, 64 of them behind the point. Paid: totals must stay within ±2⁶³ (about
// 9.2e18), a value of 2⁶² or more panics, as NaN does; and what a value holds below 2⁻⁶⁴ (5e-20) is cut off, which
// touches values under 0.0005 only.
type Sum struct {
	whole int64
	part  uint64
}

const partUnit = 1 << 64

// Add adds one value.
func (s *Sum) Add(v float64) {
	size := math.Abs(v)
	if !(size < 1<<62) {
		panic("estimate: value of a sum is not a number or out of range")
	}
	whole, part := math.Modf(size)
	value := Sum{int64(whole), uint64(part * partUnit)}
	if v < 0 {
		value = value.negated()
	}
	s.Merge(value)
}

// addProduct adds x*y, both halves of the product: the rounded one and what the rounding lost.
func (s *Sum) addProduct(x, y float64) {
	product := x * y
	s.Add(product)
	s.Add(math.FMA(x, y, -product))
}

// Merge adds the total of another sum.
func (s *Sum) Merge(other Sum) {
	part, carry := bits.Add64(s.part, other.part, 0)
	s.part = part
	s.whole += other.whole + int64(carry)
}

// Value returns the total as the nearest float64, give or take one unit in the last place.
func (s Sum) Value() float64 {
	if s.whole < 0 {
		return -s.negated().Value()
	}
	return float64(s.whole) + float64(s.part)/partUnit
}

func (s Sum) negated() Sum {
	part, borrow := bits.Sub64(0, s.part, 0)
	return Sum{-s.whole - int64(borrow), part}
}
