package estimate

import (
	"math"
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func sumOf(values ...float64) Sum {
	var s Sum
	for _, v := range values {
		s.Add(v)
	}
	return s
}

func TestSumKeepsWhatFloatingPointLoses(t *testing.T) {
	for _, row := range []struct {
		values []float64
		want   float64
	}{
		{nil, 0},
		{[]float64{1e15, 0.1, -1e15}, 0.1},
		{[]float64{1e15, -1e-20, -1e15}, -1e-20},
		{[]float64{-1e-12}, -1e-12},
		{[]float64{0.1, -0.3}, -0.19999999999999998}, // what is left of the two nearest doubles
		{[]float64{-2.5, 2.5}, 0},
		{[]float64{1 << 61, 0x1p-124, -1 << 61}, 0x1p-124},
		{[]float64{1 << 61, 3 << 60, -1 << 61}, 3 << 60},
		{[]float64{-0x1p-130, 5e-324, 0}, 0}, // under the last place
		{[]float64{-7.25, -0.75}, -8},
	} {
		if got := sumOf(row.values...).Value(); got != row.want {
			t.Errorf("sum of %v: %v, want %v", row.values, got, row.want)
		}
	}
}

// Mathematics: the sum in rational numbers, rounded once.
func TestSumAgreesWithRationalNumbers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		exact := new(big.Rat)
		var s Sum
		for _, v := range rapid.SliceOf(rapid.Float64Range(-1e9, 1e9)).Draw(t, "values") {
			s.Add(v)
			exact.Add(exact, new(big.Rat).SetFloat64(v))
		}
		want, _ := exact.Float64()
		if !near(s.Value(), want, 3e-16*math.Abs(want)+1e-36) {
			t.Fatalf("sum %v, want %v", s.Value(), want)
		}
	})
}

func TestSumHasNoOrderAndNoGrouping(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOf(rapid.Float64Range(-1e6, 1e6)).Draw(t, "values")
		shuffled := rapid.Permutation(values).Draw(t, "shuffled")
		cut := rapid.IntRange(0, len(values)).Draw(t, "cut")
		merged := sumOf(shuffled[cut:]...)
		merged.Merge(sumOf(shuffled[:cut]...))
		if merged != sumOf(values...) {
			t.Fatalf("%v merged, %v in one", merged, sumOf(values...))
		}
	})
}

func TestSumRefusesWhatItCannotHold(t *testing.T) {
	var s Sum
	var zero float64
	mustPanic(t, "NaN", func() { s.Add(zero / zero) })
	mustPanic(t, "infinity", func() { s.Add(1 / zero) })
	mustPanic(t, "1e19", func() { s.Add(1e19) })
}
