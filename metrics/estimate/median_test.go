package estimate

import (
	"math"
	"math/big"
	"math/rand/v2"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// medianIntervalOf is that of values in rising order.
func medianIntervalOf(sorted []float64, level float64) Interval {
	return medianInterval(int64(len(sorted)), level, func(rank int64) float64 { return sorted[rank] })
}

func oneTo(n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = float64(i + 1)
	}
	return values
}

// Mathematics: binomial sums in whole numbers.
func TestMedianCoverageIsTheBinomialSum(t *testing.T) {
	for _, n := range []int64{5, 10, 20, 46, 101, 1000} {
		outside := new(big.Int)
		for k := int64(1); k <= n/2; k++ {
			outside.Add(outside, new(big.Int).Binomial(n, k-1))
			share, _ := new(big.Rat).SetFrac(outside, new(big.Int).Lsh(big.NewInt(1), uint(n-1))).Float64()
			if got := medianCoverage(n, k); !near(got, 1-share, 1e-12) {
				t.Errorf("k = %d of %d: %v, want %v", k, n, got, 1-share)
			}
		}
	}
}

// Published: the ranks for a median at 95 %, 2 and 9 of 10, 6 and 15 of 20, in any table of the sign test; the
// interpolated interval lies just inside them.
func TestMedianIntervalLiesBetweenTheTabledRanksAndTheNext(t *testing.T) {
	for _, row := range []struct {
		n      int
		level  float64
		lo, hi float64
	}{{10, 0.95, 2, 9}, {20, 0.95, 6, 15}, {5, 0.90, 1, 5}, {6, 0.95, 1, 6}} {
		got := medianIntervalOf(oneTo(row.n), row.level)
		if got.Lo < row.lo || got.Lo >= row.lo+1 || got.Hi > row.hi || got.Hi <= row.hi-1 {
			t.Errorf("%d values at %v: %v, want just inside %v to %v", row.n, row.level, got, row.lo, row.hi)
		}
	}
}

// Mathematics: at a level that two ranks reach exactly there is nothing to interpolate.
func TestMedianIntervalEndsOnValuesWhereTheLevelIsTheirs(t *testing.T) {
	level := 1 - 22.0/1024 // 2 P(B <= 1) of 10
	got := medianIntervalOf(oneTo(10), level)
	if !near(got.Lo, 2, 1e-9) || !near(got.Hi, 9, 1e-9) {
		t.Errorf("%v, want 2 to 9", got)
	}
}

// Mathematics: de Moivre and Laplace, the ends lie 1.6449 √n/2 ranks from the middle.
func TestMedianIntervalOfAMillionValues(t *testing.T) {
	got := medianIntervalOf(oneTo(1_000_000), 0.9)
	if !near(got.Lo, 500_000.5-1.6449*500, 1) || !near(got.Hi, 500_000.5+1.6449*500, 1) {
		t.Errorf("%v", got)
	}
}

func TestMedianIntervalOfLittleIsNone(t *testing.T) {
	for n := range 5 {
		if !medianIntervalOf(oneTo(n), 0.9).IsNone() {
			t.Errorf("an interval from %d values", n)
		}
	}
}

func TestMedianIntervalHoldsTheMedianOfItsValues(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(0, 300), 5, 200).Draw(t, "values")
		slices.Sort(values)
		wide, narrow := medianIntervalOf(values, 0.9), medianIntervalOf(values, 0.6)
		if !wide.Contains(quantileOf(values, 0.5)) || !wide.Contains(narrow.Lo) || !wide.Contains(narrow.Hi) {
			t.Fatalf("90 %% %v, 60 %% %v, median %v", wide, narrow, quantileOf(values, 0.5))
		}
	})
}

func TestMedianIntervalCoversSkewedValuesAtItsLevel(t *testing.T) {
	for _, n := range []int{5, 6, 10, 20, 46} {
		share := coverage(t, 20_000, func(random *rand.Rand) (Interval, float64) {
			values := make([]float64, n)
			for i := range values {
				values[i] = random.ExpFloat64()
			}
			slices.Sort(values)
			return medianIntervalOf(values, 0.9), math.Ln2
		})
		t.Logf("%d values: %.1f %%", n, 100*share)
		mustCover(t, share, 0.88, 0.92)
	}
}
