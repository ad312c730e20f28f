package estimate

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func distributionOf(values ...float64) *Distribution {
	var d Distribution
	for _, v := range values {
		d.Add(v)
	}
	return &d
}

// proximities are seeded, skewed, whole tenths of a foot and finer.
func proximities(n int) []float64 {
	random := newRandom(11)
	values := make([]float64, n)
	for i := range values {
		values[i] = 25 * random.ExpFloat64()
		if i%2 == 0 {
			values[i] = math.Round(values[i]*10) / 10
		}
	}
	return values
}

func TestDistributionOfNothing(t *testing.T) {
	var d Distribution
	if d.N() != 0 || !math.IsNaN(d.Mean()) || !math.IsNaN(d.Quantile(0.5)) || !math.IsNaN(d.ShareWithin(3)) {
		t.Error("an empty distribution has figures")
	}
	if !d.MedianInterval(0.9).IsNone() || len(d.Values()) != 0 {
		t.Error("an empty distribution has values")
	}
}

func TestDistributionIsExactForACareer(t *testing.T) {
	values := proximities(foldLimit)
	d := distributionOf(values...)
	sorted := slices.Sorted(slices.Values(values))
	for _, p := range []float64{0, 0.1, 0.25, 0.5, 0.75, 0.9, 1} {
		if got := d.Quantile(p); got != quantileOf(sorted, p) {
			t.Errorf("quantile %v: %v, want %v", p, got, quantileOf(sorted, p))
		}
	}
	if got := d.MedianInterval(0.9); got != medianIntervalOf(sorted, 0.9) {
		t.Errorf("interval of the median: %v", got)
	}
	if !slices.Equal(d.Values(), sorted) {
		t.Error("values are not the values")
	}
	if got := distributionOf(15, 15.01, 3, 30).ShareWithin(15); got != 0.5 {
		t.Errorf("share within 15: %v", got)
	}
}

func TestDistributionIsGoodToATenthBeyond(t *testing.T) {
	values := proximities(3 * foldLimit)
	d := distributionOf(values...)
	sorted := slices.Sorted(slices.Values(values))
	for _, p := range []float64{0, 0.1, 0.25, 0.5, 0.75, 0.9, 1} {
		if got := d.Quantile(p); !near(got, quantileOf(sorted, p), 0.05+1e-12) {
			t.Errorf("quantile %v: %v, want %v", p, got, quantileOf(sorted, p))
		}
	}
	if got, want := d.Mean(), sumOf(values...).Value()/float64(len(values)); got != want {
		t.Errorf("mean %v, want %v", got, want)
	}
	within := func(limit float64) float64 {
		at, _ := slices.BinarySearch(sorted, math.Nextafter(limit, math.Inf(1)))
		return float64(at) / float64(len(sorted))
	}
	if got := d.ShareWithin(15); got < within(14.95) || got > within(15.05) {
		t.Errorf("share within 15: %v, want about %v", got, within(15))
	}
	shape := d.Values()
	if len(shape) != foldLimit || !slices.IsSorted(shape) {
		t.Fatalf("%d values", len(shape))
	}
	for _, p := range []float64{0.1, 0.5, 0.9} {
		if got := quantileOf(shape, p); !near(got, quantileOf(sorted, p), 0.2) {
			t.Errorf("quantile %v of the values: %v, want %v", p, got, quantileOf(sorted, p))
		}
	}
}

func TestDistributionStaysBounded(t *testing.T) {
	values := proximities(2 * foldLimit)
	values[7] = 1e12
	d := distributionOf(values...)
	if len(d.tenths) != foldedLargest+1 || d.values != nil {
		t.Errorf("%d counts and %d values kept", len(d.tenths), len(d.values))
	}
	if got := d.Quantile(1); got != 10_000 {
		t.Errorf("largest value %v", got)
	}
	if d.Mean() < 1e12/float64(len(values)) {
		t.Error("the mean lost the largest value")
	}
}

func TestDistributionHasNoOrder(t *testing.T) {
	all := proximities(foldLimit + 200)
	rapid.Check(t, func(t *rapid.T) {
		// Around the fold, and well below it.
		n := rapid.OneOf(rapid.IntRange(0, 60), rapid.IntRange(foldLimit-5, len(all))).Draw(t, "n")
		values := slices.Clone(all[:n])
		newRandom(rapid.Uint64().Draw(t, "order")).Shuffle(n, func(i, j int) { values[i], values[j] = values[j], values[i] })
		shuffled, whole := distributionOf(values...), distributionOf(all[:n]...)
		if shuffled.N() != n || shuffled.sum != whole.sum || !slices.Equal(shuffled.Values(), whole.Values()) ||
			!slices.Equal(shuffled.tenths, whole.tenths) {
			t.Fatal("another order gives another distribution")
		}
	})
}

func TestDistributionRefusesNegativeValues(t *testing.T) {
	var d Distribution
	mustPanic(t, "a negative value", func() { d.Add(-0.1) })
	mustPanic(t, "NaN", func() { d.Add(math.NaN()) })
}
