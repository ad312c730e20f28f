package estimate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// quantileOf is that of values in rising order.
func quantileOf(sorted []float64, p float64) float64 {
	return quantile(int64(len(sorted)), p, func(rank int64) float64 { return sorted[rank] })
}

// Published: Hyndman and Fan (1996), definition 7. Of 1 to 10 the quartiles are 3.25, 5.5 and 7.75.
func TestQuantileIsDefinitionSeven(t *testing.T) {
	oneToTen := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	for p, want := range map[float64]float64{0: 1, 0.25: 3.25, 0.5: 5.5, 0.75: 7.75, 1: 10} {
		if got := quantileOf(oneToTen, p); got != want {
			t.Errorf("quantile %v of 1 to 10: %v, want %v", p, got, want)
		}
	}
}

func TestQuantileOfLittle(t *testing.T) {
	if got := quantileOf(nil, 0.5); !math.IsNaN(got) {
		t.Errorf("median of nothing: %v", got)
	}
	if got := quantileOf([]float64{7}, 0.9); got != 7 {
		t.Errorf("quantile of one value: %v", got)
	}
	mustPanic(t, "a quantile in per cent", func() { quantileOf([]float64{1}, 50) })
}

func TestQuantilesRiseAndStayInRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 50).Draw(t, "values")
		slices.Sort(values)
		low := rapid.Float64Range(0, 1).Draw(t, "low")
		high := rapid.Float64Range(low, 1).Draw(t, "high")
		atLow, atHigh := quantileOf(values, low), quantileOf(values, high)
		if atLow > atHigh || atLow < values[0] || atHigh > values[len(values)-1] {
			t.Fatalf("quantile %v is %v, quantile %v is %v", low, atLow, high, atHigh)
		}
	})
}
