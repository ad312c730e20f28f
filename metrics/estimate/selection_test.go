package estimate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestNthSmallestIsWhatSortingGives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-3, 3), 1, 60).Draw(t, "values")
		if rapid.Bool().Draw(t, "with ties") {
			for i := range values {
				values[i] = math.Round(values[i])
			}
		}
		sorted := slices.Sorted(slices.Values(values))
		n := rapid.IntRange(0, len(values)-1).Draw(t, "n")
		if got := nthSmallest(values, n); got != sorted[n] {
			t.Fatalf("%d-th smallest %v, want %v", n, got, sorted[n])
		}
	})
}

// Windows that are right, that miss, and that overflow with ties all give what sorting gives.
func TestASelectionIsWhatSortingGives(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		random := newRandom(rapid.Uint64().Draw(t, "seed"))
		values := make([]float64, rapid.IntRange(1, 3000).Draw(t, "n"))
		step := rapid.SampledFrom([]float64{0, 0.01, 0.5}).Draw(t, "step of ties")
		rising := rapid.Bool().Draw(t, "rising")
		for i := range values {
			values[i] = random.NormFloat64()
			if step > 0 {
				values[i] = math.Round(values[i]/step) * step
			}
		}
		sorted := slices.Sorted(slices.Values(values))
		if rising {
			copy(values, sorted)
		}
		ranked := selection{values: values}
		for range 6 {
			rank := rapid.IntRange(0, len(values)-1).Draw(t, "rank")
			for _, n := range []int{rank, min(rank+1, len(values)-1)} {
				if got := ranked.at(int64(n)); got != sorted[n] {
					t.Fatalf("%d-th smallest of %d: %v, want %v", n, len(values), got, sorted[n])
				}
			}
		}
	})
}

// Values in a row fill the window to the last place, and then one more, as their number grows.
func TestASelectionMindsTheEndOfItsWindow(t *testing.T) {
	for n := 2600; n < 2800; n++ {
		values := make([]float64, n)
		for i := range values {
			values[i] = float64(i)
		}
		for _, rank := range []int{0, n / 5, n / 2, n - 1} {
			ranked := selection{values: slices.Clone(values)}
			for _, near := range []int{rank, rank + 1, rank - 1, rank - 200, rank + 200} {
				near = min(max(near, 0), n-1)
				if got := ranked.at(int64(near)); got != float64(near) {
					t.Fatalf("%d-th smallest of %d is %v", near, n, got)
				}
			}
		}
	}
}

func BenchmarkPercentile(b *testing.B) {
	random := newRandom(1)
	values := make([]float64, 2000)
	for b.Loop() {
		for i := range values {
			values[i] = random.NormFloat64()
		}
		Percentile(values, 46, 0.90)
	}
}
