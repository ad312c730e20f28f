package estimate

import (
	"math"
	"math/bits"
)

// Sum adds float64 values without rounding, so that neither their order nor their grouping into batches shows in the
// total. The zero value is an empty sum; two sums of the same values are equal under ==.
//
// It is a fixed-point number of 192 bits, 128 of them behind the point. Paid: totals must stay within ±2⁶³ (about
// 9.2e18), a value of 2⁶² or more panics, as NaN does; and what a value holds below 2⁻¹²⁸ (3e-39) is cut off.
type Sum struct {
	whole     int64
	high, low uint64 // the part behind the point, always counted upwards from whole
}

const two64 = 1 << 64

// Add adds one value.
func (s *Sum) Add(v float64) {
	size := math.Abs(v)
	if !(size < 1<<62) {
		panic("estimate: value of a sum is not a number or out of range")
	}
	whole, part := math.Modf(size)
	high, rest := math.Modf(part * two64)
	value := Sum{int64(whole), uint64(high), uint64(rest * two64)}
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
	var carry uint64
	s.low, carry = bits.Add64(s.low, other.low, 0)
	s.high, carry = bits.Add64(s.high, other.high, carry)
	s.whole += other.whole + int64(carry)
}

// Value returns the total as the nearest float64, give or take one unit in the last place.
func (s Sum) Value() float64 {
	if s.whole < 0 {
		return -s.negated().Value()
	}
	return float64(s.whole) + (float64(s.high)+float64(s.low)/two64)/two64
}

func (s Sum) negated() Sum {
	low, borrow := bits.Sub64(0, s.low, 0)
	high, borrow := bits.Sub64(0, s.high, borrow)
	return Sum{-s.whole - int64(borrow), high, low}
}
