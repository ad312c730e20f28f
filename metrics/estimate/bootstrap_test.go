package estimate

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// roundSums are per-round sums of a skewed figure: 3 to 8 exponential values a round, mean 1, and their number.
func roundSums(random *rand.Rand, rounds int) (num, den []float64) {
	num, den = make([]float64, rounds), make([]float64, rounds)
	for i := range num {
		den[i] = float64(3 + random.IntN(6))
		for range int(den[i]) {
			num[i] += random.ExpFloat64()
		}
	}
	return num, den
}

// Mathematics: the bootstrap standard deviation of a mean tends to √(Σ(x - mean)²)/n. Efron and Tibshirani (1993),
// table 2.1, give seven survival times of mice whose figure is 23.36 (equation 5.12 on chapter 2's data, from memory).
func TestReplicatesOfAMeanSpreadAsTheyShould(t *testing.T) {
	mice := []float64{94, 197, 16, 38, 99, 141, 23}
	replicates := NewResampler(7, 100_000, 1).Replicates(mice, ones(7))
	mean, sd := stat.MeanStdDev(replicates, nil)
	if !near(mean, 86.86, 0.3) || !near(sd, 23.36, 0.2) {
		t.Errorf("mean %.2f and standard deviation %.2f, want 86.86 and 23.36", mean, sd)
	}
}

// Mathematics: the percentile interval of a mean tends to mean ± t s/√n as n grows, for any shape; the expansion makes
// s²'s divisor n-1 and z Student's t.
func TestMeanIntervalTendsToStudents(t *testing.T) {
	random := newRandom(5)
	values := make([]float64, 200)
	for i := range values {
		values[i] = random.NormFloat64()
	}
	mean, sd := stat.MeanStdDev(values, nil)
	reach := 1.6525 * sd / math.Sqrt(200) // t of 199 degrees of freedom at 90 %
	got := NewResampler(200, 50_000, 1).Mean(values, 0.9)
	if !near(got.Lo, mean-reach, 0.03*reach) || !near(got.Hi, mean+reach, 0.03*reach) {
		t.Errorf("%v, want %v ± %v", got, mean, reach)
	}
}

func TestResamplerRepeatsItself(t *testing.T) {
	num, den := roundSums(newRandom(1), 9)
	first := NewResampler(9, 2000, 9)
	if first.Ratio(num, den, 0.9) != NewResampler(9, 2000, 9).Ratio(num, den, 0.9) {
		t.Error("the same seed gives another interval")
	}
	if first.Ratio(num, den, 0.9) == NewResampler(9, 2000, 10).Ratio(num, den, 0.9) {
		t.Error("another seed gives the same interval")
	}
}

func TestNothingIsDrawnUntilItIsNeeded(t *testing.T) {
	r := NewResampler(46, 2000, 9)
	if r.Ratio(make([]float64, 46), make([]float64, 46), 0.9); r.counts != nil {
		t.Errorf("%d counts for a figure that has no interval", len(r.counts))
	}
	shares := make([]float64, 46)
	for i := range shares {
		shares[i] = float64(i % 2)
	}
	if r.Mean(shares, 0.9); len(r.counts) != 2000*46 {
		t.Errorf("%d counts for a figure that has one", len(r.counts))
	}
}

func TestNoIntervalUnderFiveRounds(t *testing.T) {
	num, den := roundSums(newRandom(1), 12)
	for i := range 8 {
		num[i], den[i] = 0, 0
	}
	r := NewResampler(12, 2000, 1)
	if !r.Ratio(num, den, 0.9).IsNone() {
		t.Error("an interval from 4 rounds with something to divide by")
	}
	den[0] = 1
	if r.Ratio(num, den, 0.9).IsNone() {
		t.Error("no interval from 5 rounds")
	}
	if !NewResampler(4, 2000, 1).Mean(ones(4), 0.9).IsNone() || !NewResampler(0, 2000, 1).Mean(nil, 0.9).IsNone() {
		t.Error("an interval of a mean from 4 rounds or none")
	}
	mustPanic(t, "another number of rounds", func() { r.Ratio(num[:5], den[:5], 0.9) })
}

// Rounds that agree would give an interval of no width, as if the next round were known.
func TestNoIntervalFromRoundsThatAgree(t *testing.T) {
	_, tries := roundSums(newRandom(1), 12)
	same := make([]float64, 12)
	for i, n := range tries {
		same[i] = 0.3 * n
	}
	r := NewResampler(12, 2000, 1)
	if !r.Ratio(same, tries, 0.9).IsNone() || !r.Mean(make([]float64, 12), 0.9).IsNone() || !r.Linear(2, make([]float64, 12), 12, 0.9).IsNone() {
		t.Error("an interval of no width")
	}
	same[3] += 0.1
	if r.Ratio(same, tries, 0.9).IsNone() {
		t.Error("no interval where one round differs")
	}
}

func TestResamplesWithNothingToDivideByAreLeftOut(t *testing.T) {
	den := make([]float64, 10)
	den[3] = 2
	num := make([]float64, 10)
	num[3] = 8
	missing := 0
	for _, ratio := range NewResampler(10, 2000, 1).Replicates(num, den) {
		if math.IsNaN(ratio) {
			missing++
		} else if ratio != 4 {
			t.Fatalf("ratio %v", ratio)
		}
	}
	// A round is missed by ten draws with chance 0.9^10.
	if !near(float64(missing)/2000, math.Pow(0.9, 10), 0.04) {
		t.Errorf("%d of 2000 resamples left out", missing)
	}
}

func TestReplicatesArePaired(t *testing.T) {
	num, den := roundSums(newRandom(1), 46)
	shifted := slices.Clone(num)
	for i := range shifted {
		shifted[i] += 0.5 * den[i]
	}
	r := NewResampler(46, 2000, 1)
	plain := r.Replicates(num, den)
	for i, ratio := range r.Replicates(shifted, den) {
		if !near(ratio-plain[i], 0.5, 1e-12) {
			t.Fatalf("a difference of 0.5 in every round is %v in a resample", ratio-plain[i])
		}
	}
}

func TestBlocksOfManyRoundsGiveTheSameInterval(t *testing.T) {
	random := newRandom(4)
	num, den := roundSums(random, 5003)
	r := NewResampler(5003, 2000, 1)
	if r.draw(); len(r.counts) != 2000*blockLimit {
		t.Fatalf("%d counts kept", len(r.counts))
	}
	got := r.Ratio(num, den, 0.9)
	// About 27,500 exponential values: standard error 1/√27,500 of their mean.
	reach := 1.645 / math.Sqrt(27_500)
	if !near((got.Hi-got.Lo)/2, reach, 0.08*reach) || !got.Contains(1) {
		t.Errorf("interval %v, want half a width of %v", got, reach)
	}
}

func TestRatioCoversAtItsLevel(t *testing.T) {
	for _, row := range []struct {
		rounds    int
		low, high float64
	}{{5, 0.84, 0.92}, {10, 0.86, 0.92}, {20, 0.86, 0.92}, {46, 0.87, 0.93}, {150, 0.87, 0.93}} {
		r := NewResampler(row.rounds, 2000, 1)
		share := coverage(t, 1000, func(random *rand.Rand) (Interval, float64) {
			num, den := roundSums(random, row.rounds)
			return r.Ratio(num, den, 0.9), 1
		})
		t.Logf("%d rounds: %.1f %%", row.rounds, 100*share)
		mustCover(t, share, row.low, row.high)
	}
}

// Rounds that have a level of their own, which an interval over shots would not see.
func TestRatioCoversRoundsThatDiffer(t *testing.T) {
	r := NewResampler(46, 2000, 1)
	mustCover(t, coverage(t, 1000, func(random *rand.Rand) (Interval, float64) {
		num, den := roundSums(random, 46)
		for i := range num {
			num[i] += den[i] * 0.6 * random.NormFloat64()
		}
		return r.Ratio(num, den, 0.9), 1
	}), 0.86, 0.93)
}

func BenchmarkDraw(b *testing.B) {
	for b.Loop() {
		NewResampler(46, 2000, 1).draw()
	}
}

// BenchmarkRatio draws the intervals of 40 figures of a player with 46 rounds.
func BenchmarkRatio(b *testing.B) {
	num, den := roundSums(newRandom(1), 46)
	r := NewResampler(46, 2000, 1)
	b.ReportAllocs()
	for b.Loop() {
		for range 40 {
			r.Ratio(num, den, 0.9)
		}
	}
}
