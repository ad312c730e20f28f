package estimate

import (
	"math"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

func TestIsotonicPoolsViolators(t *testing.T) {
	for _, row := range []struct{ values, weights, want []float64 }{
		{nil, nil, nil},
		{[]float64{1, 2, 3}, []float64{1, 1, 1}, []float64{1, 2, 3}},
		{[]float64{3, 2, 1}, []float64{1, 1, 1}, []float64{2, 2, 2}},
		{[]float64{1, 3, 2, 4, 3.5, 5}, []float64{1, 1, 1, 1, 1, 1}, []float64{1, 2.5, 2.5, 3.75, 3.75, 5}},
		{[]float64{1, 4, 2}, []float64{1, 1, 3}, []float64{1, 2.5, 2.5}},
	} {
		if diff := cmp.Diff(row.want, Isotonic(row.values, row.weights), cmpopts.EquateEmpty()); diff != "" {
			t.Errorf("isotonic %v weighted %v: %s", row.values, row.weights, diff)
		}
	}
	mustPanic(t, "a weight of zero", func() { Isotonic([]float64{1}, []float64{0}) })
}

// Mathematics, Barlow and others (1972), the max-min formula: fitted_i = max over s <= i of min over e >= i of the
// weighted mean of s to e.
func TestIsotonicAgreesWithTheMaxMinFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 25).Draw(t, "n")
		values := rapid.SliceOfN(rapid.Float64Range(0, 5), n, n).Draw(t, "values")
		weights := rapid.SliceOfN(rapid.Float64Range(0.1, 20), n, n).Draw(t, "weights")
		fitted := Isotonic(values, weights)

		if !slices.IsSorted(fitted) {
			t.Fatalf("falls: %v", fitted)
		}
		var sum, fittedSum float64
		for i := range values {
			sum += weights[i] * values[i]
			fittedSum += weights[i] * fitted[i]
		}
		if !near(sum, fittedSum, 1e-9) {
			t.Fatalf("weighted sum %v became %v", sum, fittedSum)
		}
		for i := range values {
			want := math.Inf(-1)
			for s := range i + 1 {
				least := math.Inf(1)
				var weighted, weight float64
				for e := s; e < n; e++ {
					weighted += weights[e] * values[e]
					weight += weights[e]
					if e >= i {
						least = min(least, weighted/weight)
					}
				}
				want = max(want, least)
			}
			if !near(fitted[i], want, 1e-10) {
				t.Fatalf("place %d: %v, want %v", i, fitted[i], want)
			}
		}
	})
}
