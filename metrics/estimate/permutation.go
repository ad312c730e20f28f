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

// PermutationTests asks of several figures of the same rounds how often a difference as large as that between two groups
// of them, either way, would come about if the split did not matter. A figure of a group is sum(nums[f])/sum(den) over
// its rounds; first[i] puts round i into the first group. Rounds with nothing to divide by are left out. Without a round
// in each group, Difference and P are NaN.
//
// Up to 20,000 ways to choose the first group are all tried, and P is the share of them that differ at least as much,
// the observed one among them. Beyond that, permutations of them are drawn by the seed, the same for all figures, and P
// is (1 + as many) / (1 + permutations): B. Phipson and G. K. Smyth (2010), "Permutation p-values should never be zero:
// calculating exact p-values when permutations are randomly drawn", Statistical Applications in Genetics and Molecular
// Biology 9(1):39.
//
// Paid: rounds must be exchangeable when nothing has changed. A season that drifts makes P small, as it should; rounds
// that follow each other in form make it too small.
func PermutationTests(nums [][]float64, den []float64, first []bool, permutations int, seed uint64) []Permutation {
	split := newSplit(nums, den, first)
	tests := make([]Permutation, len(nums))
	n, size := len(split.den), split.sizeFirst
	if size == 0 || size == n {
		for figure := range tests {
			tests[figure] = Permutation{Difference: math.NaN(), P: math.NaN()}
		}
		return tests
	}
	rounds := make([]int, n) // those of the first group in front
	for i := range rounds {
		rounds[i] = i
	}
	differences, thresholds, counts := make([]float64, len(nums)), make([]float64, len(nums)), make([]int, len(nums))
	split.differences(rounds[:size], differences)
	for figure, observed := range differences {
		tests[figure].Difference = observed
		// Splits that tie with the observed one may differ from it by rounding.
		thresholds[figure] = math.Abs(observed) - 1e-12*split.scale(figure)
	}
	try := func(firstRounds []int) {
		split.differences(firstRounds, differences)
		for figure, difference := range differences {
			if math.Abs(difference) >= thresholds[figure] {
				counts[figure]++
			}
		}
	}

	tried, unseen := 0, 1
	ways := combin.GeneralizedBinomial(float64(n), float64(size))
	exact := ways < enumerationLimit+0.5
	if exact {
		unseen = 0
		for generator := combin.NewCombinationGenerator(n, size); generator.Next(); tried++ {
			try(generator.Combination(rounds[:size]))
		}
	} else {
		for random := newRandom(seed); tried < permutations; tried++ {
			for i := range size {
				j := i + random.IntN(n-i)
				rounds[i], rounds[j] = rounds[j], rounds[i]
			}
			try(rounds[:size])
		}
	}
	for figure, count := range counts {
		tests[figure].P = float64(count+unseen) / float64(tried+unseen)
		tests[figure].Splits, tests[figure].Exact = tried, exact
	}
	return tests
}

// split holds the rounds with something to divide by, those of the first group in front.
type split struct {
	nums      [][]float64 // by figure
	den       []float64
	sizeFirst int
	totalNums []float64
	totalDen  float64
}

func newSplit(nums [][]float64, den []float64, first []bool) split {
	s := split{nums: make([][]float64, len(nums)), totalNums: make([]float64, len(nums))}
	for _, group := range []bool{true, false} {
		for i := range den {
			if first[i] != group || den[i] <= 0 {
				continue
			}
			for figure, num := range nums {
				s.nums[figure] = append(s.nums[figure], num[i])
				s.totalNums[figure] += num[i]
			}
			s.den = append(s.den, den[i])
			s.totalDen += den[i]
		}
		if group {
			s.sizeFirst = len(s.den)
		}
	}
	return s
}

// differences are those of the ratios when these rounds are the first group.
func (s *split) differences(firstRounds []int, into []float64) {
	var den float64
	for _, i := range firstRounds {
		den += s.den[i]
	}
	for figure, nums := range s.nums {
		var num float64
		for _, i := range firstRounds {
			num += nums[i]
		}
		into[figure] = num/den - (s.totalNums[figure]-num)/(s.totalDen-den)
	}
}

// scale is the size of the ratios of a figure, for judging what is rounding.
func (s *split) scale(figure int) float64 {
	var size float64
	for i, num := range s.nums[figure] {
		size = max(size, math.Abs(num)/s.den[i])
	}
	return size
}
