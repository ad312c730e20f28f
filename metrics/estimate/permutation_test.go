package estimate

import (
	"math"
	"testing"
)

func permutationTest(num, den []float64, first []bool, permutations int, seed uint64) Permutation {
	return PermutationTests([][]float64{num}, den, first, permutations, seed)[0]
}

// Mathematics: of the 20 ways to choose 3 of 6, two differ as much as 1 2 3 against 4 5 6.
func TestPermutationTestEnumeratesSmallGroups(t *testing.T) {
	got := permutationTest([]float64{1, 2, 3, 4, 5, 6}, ones(6), []bool{true, true, true, false, false, false}, 999, 1)
	if want := (Permutation{-3, 0.1, 20, true}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Published: the mouse data of Efron and Tibshirani (1993), table 2.1: treated less control 30.63 days, achieved
// significance level of the permutation test 0.132 one-sided, by 1,000 draws (chapter 15; from memory). Two-sided it
// is about twice that.
func TestPermutationTestOfTheMouseData(t *testing.T) {
	days := []float64{94, 197, 16, 38, 99, 141, 23, 52, 104, 146, 10, 51, 30, 40, 27, 46}
	treated := make([]bool, len(days))
	for i := range 7 {
		treated[i] = true
	}
	got := permutationTest(days, ones(len(days)), treated, 999, 1)
	if !near(got.Difference, 30.63, 0.005) || !near(got.P, 2*0.132, 0.04) || !got.Exact || got.Splits != 11440 {
		t.Errorf("%+v", got)
	}
}

func TestPermutationTestDrawsWhereThereAreTooManySplits(t *testing.T) {
	random := newRandom(2)
	num, den := roundSums(random, 46)
	second := make([]bool, 46)
	for i := 23; i < 46; i++ {
		second[i] = true
		num[i] += 2 * den[i]
	}
	got := permutationTest(num, den, second, 999, 1)
	if got.Exact || got.Splits != 999 || got.P != 1.0/1000 {
		t.Errorf("groups that differ by far: %+v", got)
	}
	if got != permutationTest(num, den, second, 999, 1) {
		t.Error("the same seed gives another result")
	}
}

func TestPermutationTestAgreesWithItselfEitherWay(t *testing.T) {
	random := newRandom(6)
	num, den := roundSums(random, 16)
	first, second := make([]bool, 16), make([]bool, 16)
	for i := range first {
		first[i], second[i] = i < 8, i >= 8
	}
	one, other := permutationTest(num, den, first, 1, 1), permutationTest(num, den, second, 1, 1)
	if one.P != other.P || !near(one.Difference, -other.Difference, 1e-12) {
		t.Errorf("%+v, with the groups exchanged %+v", one, other)
	}
}

func TestPermutationTestsOfSeveralFiguresAreThoseOfEach(t *testing.T) {
	for _, rounds := range []int{12, 46} { // enumerated and drawn
		num, den := roundSums(newRandom(4), rounds)
		other, _ := roundSums(newRandom(5), rounds)
		first := make([]bool, rounds)
		for i := range rounds / 2 {
			first[i] = true
			other[i] += 0.3 * den[i]
		}
		got := PermutationTests([][]float64{num, other}, den, first, 999, 1)
		for figure, num := range [][]float64{num, other} {
			if want := permutationTest(num, den, first, 999, 1); got[figure] != want || want.P == 1 {
				t.Errorf("%d rounds, figure %d: %+v, alone %+v", rounds, figure, got[figure], want)
			}
		}
	}
}

func TestPermutationTestNeedsBothGroups(t *testing.T) {
	got := permutationTest([]float64{1, 2, 3}, []float64{1, 0, 1}, []bool{true, false, true}, 99, 1)
	if !math.IsNaN(got.P) || !math.IsNaN(got.Difference) {
		t.Errorf("a group without a denominator: %+v", got)
	}
	same := permutationTest(ones(8), ones(8), []bool{true, true, true, true, false, false, false, false}, 99, 1)
	if same.P != 1 || same.Difference != 0 {
		t.Errorf("rounds that are all the same: %+v", same)
	}
}

// Mathematics: without a difference P is uniform, so at most 5 % of repeats fall under 0.05, and so on.
func TestPermutationTestIsUniformWithoutADifference(t *testing.T) {
	for _, rounds := range []int{12, 30} { // enumerated and drawn
		random := newRandom(8)
		first := make([]bool, rounds)
		for i := range rounds / 3 {
			first[i] = true
		}
		const repeats = 1500
		var under [3]int
		limits := [3]float64{0.05, 0.2, 0.5}
		for repeat := range repeats {
			num, den := roundSums(random, rounds)
			p := permutationTest(num, den, first, 199, uint64(repeat)).P
			for i, limit := range limits {
				if p <= limit {
					under[i]++
				}
			}
		}
		for i, limit := range limits {
			share := float64(under[i]) / repeats
			if error := 3.5 * math.Sqrt(limit*(1-limit)/repeats); !near(share, limit, error) {
				t.Errorf("%d rounds: p at most %v in %.3f of repeats", rounds, limit, share)
			}
		}
	}
}
