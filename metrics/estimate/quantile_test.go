package estimate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Published: Hyndman and Fan (1996), definition 7. Of 1 to 10 the quartiles are 3.25, 5.5 and 7.75.
func TestQuantileIsDefinitionSeven(t *testing.T) {
	oneToTen := []float64{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}
	counts := []int64{0, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1}
	for p, want := range map[float64]float64{0: 1, 0.25: 3.25, 0.5: 5.5, 0.75: 7.75, 1: 10} {
		if got := Quantile(oneToTen, p); got != want {
			t.Errorf("quantile %v of 1 to 10: %v, want %v", p, got, want)
		}
		if got := CountQuantile(counts, p); got != want {
			t.Errorf("quantile %v of counts of 1 to 10: %v, want %v", p, got, want)
		}
	}
}

func TestQuantileOfLittle(t *testing.T) {
	if got := Quantile(nil, 0.5); !math.IsNaN(got) {
		t.Errorf("median of nothing: %v", got)
	}
	if got := CountQuantile([]int64{0, 0}, 0.5); !math.IsNaN(got) {
		t.Errorf("median of no counts: %v", got)
	}
	if got := Quantile([]float64{7}, 0.9); got != 7 {
		t.Errorf("quantile of one value: %v", got)
	}
	mustPanic(t, "a quantile in per cent", func() { Quantile([]float64{1}, 50) })
}

func TestQuantilesRiseAndStayInRange(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 50).Draw(t, "values")
		slices.Sort(values)
		low := rapid.Float64Range(0, 1).Draw(t, "low")
		high := rapid.Float64Range(low, 1).Draw(t, "high")
		atLow, atHigh := Quantile(values, low), Quantile(values, high)
		if atLow > atHigh || atLow < values[0] || atHigh > values[len(values)-1] {
			t.Fatalf("quantile %v is %v, quantile %v is %v", low, atLow, high, atHigh)
		}
	})
}

func TestCountsAndValuesHaveTheSameQuantiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		counts := rapid.SliceOfN(rapid.Int64Range(0, 4), 1, 30).Draw(t, "counts")
		var values []float64
		for v, count := range counts {
			for range count {
				values = append(values, float64(v))
			}
		}
		p := rapid.Float64Range(0, 1).Draw(t, "p")
		got, want := CountQuantile(counts, p), Quantile(values, p)
		if got != want && !(math.IsNaN(got) && math.IsNaN(want)) {
			t.Fatalf("counts %v, values %v", got, want)
		}
	})
}
