package estimate

import (
	"math"

	"gonum.org/v1/gonum/stat/combin"
)

// enumerationLimit is the largest number of ways to split the rounds that are all tried.
const enumerationLimit = 20_000

// Permutation is the outcome of a permutation test.
type Permutation struct {
	Difference float64 // ratio of the first group minus ratio of the second
	P          float64 // two-sided
	Splits     int     // how many ways to split the rounds were tried
	Exact      bool    // whether those were all the ways there are
}

// PermutationTest asks how often a difference as large as that between two groups of rounds, either way, would come
// about if the split did not matter. The figure of a group is sum(num)/sum(den) over its rounds; first[i] puts round i
// into the first group. Rounds with nothing to divide by are left out. Without a round in each group, Difference and P
// are NaN.
//
// Up to 20,000 ways to choose the first group are all tried, and P is the share of them that differ at least as much,
// the observed one among them. Beyond that, permutations of them are drawn by the seed and P is (1 + as many) /
// (1 + permutations): B. Phipson and G. K. Smyth (2010), "Permutation p-values should never be zero: calculating exact
// p-values when permutations are randomly drawn", Statistical Applications in Genetics and Molecular Biology 9(1):39.
//
// Paid: rounds must be exchangeable when nothing has changed. A season that drifts makes P small, as it should; rounds
// that follow each other in form make it too small.
func PermutationTest(num, den []float64, first []bool, permutations int, seed uint64) Permutation {
	split := newSplit(num, den, first)
	n, size := len(split.num), split.sizeFirst
	if size == 0 || size == n {
		return Permutation{Difference: math.NaN(), P: math.NaN()}
	}
	firstRounds := make([]int, size)
	for i := range firstRounds {
		firstRounds[i] = i
	}
	observed := split.difference(firstRounds)
	// Splits that tie with the observed one may differ from it by rounding.
	threshold := math.Abs(observed) - 1e-12*split.scale()
	extreme := func() int {
		if math.Abs(split.difference(firstRounds)) >= threshold {
			return 1
		}
		return 0
	}

	if ways := combin.GeneralizedBinomial(float64(n), float64(size)); ways < enumerationLimit+0.5 {
		count, splits := 0, 0
		for generator := combin.NewCombinationGenerator(n, size); generator.Next(); splits++ {
			generator.Combination(firstRounds)
			count += extreme()
		}
		return Permutation{observed, float64(count) / float64(splits), splits, true}
	}

	random := newRandom(seed)
	count := 1
	for range permutations {
		for i := range firstRounds {
			j := i + random.IntN(n-i)
			split.num[i], split.num[j] = split.num[j], split.num[i]
			split.den[i], split.den[j] = split.den[j], split.den[i]
		}
		count += extreme()
	}
	return Permutation{observed, float64(count) / float64(permutations+1), permutations, false}
}

// split holds the rounds with something to divide by, those of the first group in front.
type split struct {
	num, den           []float64
	sizeFirst          int
	totalNum, totalDen float64
}

func newSplit(num, den []float64, first []bool) split {
	var s split
	if len(num) != len(den) || len(num) != len(first) {
		panic("estimate: permutation test of lists that differ in length")
	}
	for _, group := range []bool{true, false} {
		for i := range num {
			if first[i] == group && den[i] > 0 {
				s.num = append(s.num, num[i])
				s.den = append(s.den, den[i])
				s.totalNum += num[i]
				s.totalDen += den[i]
			}
		}
		if group {
			s.sizeFirst = len(s.num)
		}
	}
	return s
}

// difference is the difference of the ratios when these rounds are the first group.
func (s split) difference(firstRounds []int) float64 {
	var num, den float64
	for _, i := range firstRounds {
		num += s.num[i]
		den += s.den[i]
	}
	return num/den - (s.totalNum-num)/(s.totalDen-den)
}

// scale is the size of the ratios, for judging what is rounding.
func (s split) scale() float64 {
	var size float64
	for i := range s.num {
		size = max(size, math.Abs(s.num[i])/s.den[i])
	}
	return size
}
