package estimate

import (
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// Published: R. G. Newcombe (1998), Statistics in Medicine 17:857-872, table I, method 3, from memory.
func TestWilsonAgreesWithNewcombe(t *testing.T) {
	for _, row := range []struct {
		k, n   int
		lo, hi float64
	}{
		{81, 263, 0.2553, 0.3662},
		{15, 148, 0.0624, 0.1605},
		{0, 20, 0, 0.1611},
		{1, 29, 0.0061, 0.1718},
	} {
		got := Wilson(row.k, row.n, 0.95)
		if !near(got.Lo, row.lo, 5e-5) || !near(got.Hi, row.hi, 5e-5) {
			t.Errorf("Wilson(%d, %d) = %.4f to %.4f, want %.4f to %.4f", row.k, row.n, got.Lo, got.Hi, row.lo, row.hi)
		}
	}
}

func TestWilsonOfNoTriesIsNone(t *testing.T) {
	if !Wilson(0, 0, 0.9).IsNone() {
		t.Error("an interval from no tries")
	}
	mustPanic(t, "more successes than tries", func() { Wilson(3, 2, 0.9) })
	mustPanic(t, "a level in per cent", func() { Wilson(1, 2, 90) })
}

func TestWilsonStaysAmongSharesAndHoldsItsOwn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 1_000_000).Draw(t, "n")
		k := rapid.IntRange(0, n).Draw(t, "k")
		level := rapid.Float64Range(0.01, 0.999).Draw(t, "level")
		got := Wilson(k, n, level)
		if got.Lo < 0 || got.Hi > 1 || !got.Contains(float64(k)/float64(n)) {
			t.Fatalf("Wilson(%d, %d, %v) = %v", k, n, level, got)
		}
		mirror := Wilson(n-k, n, level)
		if !near(got.Lo, 1-mirror.Hi, 1e-12) || !near(got.Hi, 1-mirror.Lo, 1e-12) {
			t.Fatalf("failures give %v, successes %v", mirror, got)
		}
	})
}

// Score equation, mathematics: at each end p the share k/n lies z standard errors √(p(1-p)/n) away.
func TestWilsonEndsSolveTheScoreEquation(t *testing.T) {
	z := standardScore(0.9)
	got := Wilson(7, 40, 0.9)
	for _, end := range []float64{got.Lo, got.Hi} {
		if distance := math.Abs(7.0/40-end) / math.Sqrt(end*(1-end)/40); !near(distance, z, 1e-12) {
			t.Errorf("end %v is %v standard errors away, want %v", end, distance, z)
		}
	}
}

func TestWilsonCoversAtItsLevel(t *testing.T) {
	for _, chance := range []float64{0.1, 0.35, 0.62} {
		mustCover(t, coverage(t, 4000, func(random *rand.Rand) (Interval, float64) {
			made := 0
			for range 60 {
				if random.Float64() < chance {
					made++
				}
			}
			return Wilson(made, 60, 0.9), chance
		}), 0.87, 0.93)
	}
}
