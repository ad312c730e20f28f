package estimate

import (
	"math"
	"math/rand/v2"
	"testing"
)

func TestIntervalContainsItsEnds(t *testing.T) {
	interval := Interval{-1, 2}
	for v, want := range map[float64]bool{-1.001: false, -1: true, 0: true, 2: true, 2.001: false} {
		if got := interval.Contains(v); got != want {
			t.Errorf("%v contains %v: %v", interval, v, got)
		}
	}
}

func TestNoneIsNoIntervalAndContainsNothing(t *testing.T) {
	if !None().IsNone() || (Interval{0, 1}).IsNone() {
		t.Error("IsNone does not tell None from an interval")
	}
	if None().Contains(0) {
		t.Error("None contains zero")
	}
}

// Mathematics, any table of the standard normal: 1.6449 at 90 %, 1.9600 at 95 %.
func TestStandardScore(t *testing.T) {
	for level, want := range map[float64]float64{0.90: 1.6449, 0.95: 1.9600} {
		if got := standardScore(level); math.Abs(got-want) > 5e-5 {
			t.Errorf("standard score at %v: %v, want %v", level, got, want)
		}
		if got := normalBelow(standardScore(level)); math.Abs(got-(1+level)/2) > 1e-15 {
			t.Errorf("chance below the standard score at %v: %v", level, got)
		}
	}
}

// coverage returns the share of seeded repeats in which the interval held the truth; repeats without an interval are
// not counted.
func coverage(t *testing.T, repeats int, draw func(random *rand.Rand) (interval Interval, truth float64)) float64 {
	t.Helper()
	random := newRandom(20)
	held, drawn := 0, 0
	for range repeats {
		interval, truth := draw(random)
		if interval.IsNone() {
			continue
		}
		drawn++
		if interval.Contains(truth) {
			held++
		}
	}
	if drawn < repeats/2 {
		t.Fatalf("only %d of %d repeats gave an interval", drawn, repeats)
	}
	return float64(held) / float64(drawn)
}

func mustCover(t *testing.T, share, low, high float64) {
	t.Helper()
	if !(low <= share && share <= high) {
		t.Errorf("interval held the truth in %.1f %% of repeats, want %.1f to %.1f", 100*share, 100*low, 100*high)
	}
}

func mustPanic(t *testing.T, what string, f func()) {
	t.Helper()
	defer func() {
		if recover() == nil {
			t.Errorf("%s did not panic", what)
		}
	}()
	f()
}

func near(got, want, tolerance float64) bool { return math.Abs(got-want) <= tolerance }
