package estimate

import (
	"math"
	"slices"
)

const (
	windowSize = 512
	sampled    = 64 // values that say where a window lies
	margin     = 6  // places of the sample either side of a rank: three standard errors and more
)

// selection finds order statistics of values, which it may reorder. An interval needs two neighbours at either end of
// 2,000: what a sample says lies about them is copied into a window, and only that is searched. R. W. Floyd and R. L.
// Rivest (1975), "Expected time bounds for selection", Communications of the ACM 18(3):165-172. A window that missed
// costs time only: the values are then searched whole.
type selection struct {
	values []float64
	window [windowSize]float64
	held   int // values in the window
	below  int // values less than all of those
	found  int // place in the window of the last value found; -1: none
}

// begin starts on other values.
func (s *selection) begin(values []float64) { s.values, s.held, s.below, s.found = values, 0, 0, -1 }

// at is the value with rank smaller ones before it.
func (s *selection) at(rank int64) float64 {
	n := int(rank)
	if !s.holds(n) {
		s.look(n)
	}
	if !s.holds(n) {
		return nthSmallest(s.values, n)
	}
	window, place := s.window[:s.held], n-s.below
	if place == s.found+1 && place > 0 {
		return slices.Min(window[place:]) // what is no greater lies before it
	}
	s.found = place
	return nthSmallest(window, place)
}

func (s *selection) holds(n int) bool { return n >= s.below && n < s.below+s.held }

// look fills the window with the values about rank n; it is left empty where they are too few for a sample, or too
// many for it.
func (s *selection) look(n int) {
	s.begin(s.values)
	if len(s.values) < 4*sampled {
		return
	}
	var sample [sampled]float64
	for i := range sample {
		sample[i] = s.values[i*len(s.values)/sampled]
	}
	slices.Sort(sample[:])
	least, greatest := math.Inf(-1), math.Inf(1)
	place := n * sampled / len(s.values)
	if place >= margin {
		least = sample[place-margin]
	}
	if place+margin < sampled {
		greatest = sample[place+margin]
	}
	held, below := 0, 0
	for _, v := range s.values {
		s.window[held%windowSize] = v
		within := 0
		if v >= least {
			within = 1
		}
		below += 1 - within
		if v > greatest {
			within = 0
		}
		held += within
	}
	if held < windowSize { // one that is full was written over
		s.held, s.below = held, below
	}
}

// nthSmallest returns the value with n smaller ones before it, and reorders the values on its way to it: C. A. R.
// Hoare (1961), "Algorithm 65: find", Communications of the ACM 4(7):321-322.
func nthSmallest(values []float64, n int) float64 {
	low, high := 0, len(values)-1
	for low < high {
		pivot := values[low+(high-low)/2]
		i, j := low, high
		for i <= j {
			for values[i] < pivot {
				i++
			}
			for values[j] > pivot {
				j--
			}
			if i <= j {
				values[i], values[j] = values[j], values[i]
				i++
				j--
			}
		}
		switch {
		case n <= j:
			high = j
		case n >= i:
			low = i
		default:
			return values[n]
		}
	}
	return values[n]
}
