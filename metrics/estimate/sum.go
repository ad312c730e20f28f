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
	if !(math.Abs(v) < 1<<62) {
		panic("estimate: value of a sum is not a number or out of range")
	}
	encoded := math.Float64bits(v)
	exponent, digits := int(encoded>>52&0x7ff), encoded&(1<<52-1)|1<<52
	// Where the last of the 53 digits belongs, counted from 2⁻¹²⁸; those of zero and its neighbours fall off the end.
	var whole, high, low uint64
	switch place := exponent - 1075 + 128; {
	case place >= 128:
		whole = digits << (place - 128)
	case place >= 64:
		whole, high = digits>>(128-place), digits<<(place-64)
	case place >= 0:
		high, low = digits>>(64-place), digits<<place
	default:
		low = digits >> -place
	}
	// A negative value is the complement and one more.
	negative := -(encoded >> 63)
	var carry uint64
	s.low, carry = bits.Add64(s.low, low^negative, negative&1)
	s.high, carry = bits.Add64(s.high, high^negative, carry)
	s.whole += int64(whole^negative) + int64(carry)
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
