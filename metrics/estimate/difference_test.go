package estimate

import (
	"math"
	"slices"
	"testing"
)

// Mathematics: for two normal means the interval is the usual one, a - b ± z √(se² + se²).
func TestIndependentDifferenceOfNormalMeans(t *testing.T) {
	got := IndependentDifference(10, 4, Interval{7, 13}, Interval{0, 8})
	if !near(got.Lo, 1, 1e-12) || !near(got.Hi, 11, 1e-12) {
		t.Errorf("%v, want 6 ± 5", got)
	}
	if got := IndependentDifference(10, 4, None(), Interval{3, 5}); !got.IsNone() {
		t.Errorf("%v without an interval for one of them", got)
	}
}

// Published: R. G. Newcombe (1998), "Interval estimation for the difference between independent proportions", Statistics
// in Medicine 17:873-890, table II, method 10 (score, no continuity correction), which is this formula on Wilson's
// intervals at 95 %: 56/70 - 48/80 is 0.0524 to 0.3339, 9/10 - 3/10 is 0.1705 to 0.8090. From memory.
func TestIndependentDifferenceOfSharesAgreesWithNewcombe(t *testing.T) {
	for _, c := range []struct {
		k1, n1, k2, n2 int
		lo, hi         float64
	}{{56, 70, 48, 80, 0.0524, 0.3339}, {9, 10, 3, 10, 0.1705, 0.8090}} {
		p1, p2 := float64(c.k1)/float64(c.n1), float64(c.k2)/float64(c.n2)
		got := IndependentDifference(p1, p2, Wilson(c.k1, c.n1, 0.95), Wilson(c.k2, c.n2, 0.95))
		if !near(got.Lo, c.lo, 5e-5) || !near(got.Hi, c.hi, 5e-5) {
			t.Errorf("%d/%d - %d/%d: %.4f to %.4f, want %.4f to %.4f", c.k1, c.n1, c.k2, c.n2, got.Lo, got.Hi, c.lo, c.hi)
		}
	}
}

// A simulation with known truth: medians of skewed values, ln 2 and 2 ln 2.
func TestIndependentDifferenceOfMediansHoldsTheTruth(t *testing.T) {
	random := newRandom(8)
	const repeats = 2000
	held := 0
	for range repeats {
		a, b := make([]float64, 60), make([]float64, 25)
		for i := range a {
			a[i] = random.ExpFloat64()
		}
		for i := range b {
			b[i] = 2 * random.ExpFloat64()
		}
		slices.Sort(a)
		slices.Sort(b)
		if IndependentDifference(quantileOf(a, 0.5), quantileOf(b, 0.5), medianIntervalOf(a, 0.9), medianIntervalOf(b, 0.9)).Contains(-math.Ln2) {
			held++
		}
	}
	share := float64(held) / repeats
	t.Logf("holds the truth in %.1f %%", 100*share)
	if share < 0.87 || share > 0.93 {
		t.Errorf("the 90 %% interval holds the truth in %.1f %%", 100*share)
	}
}
