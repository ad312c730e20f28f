package estimate

import (
	"math"
	"math/bits"
	"math/rand/v2"
	"slices"
	"sort"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// longSeasons are sums round by round of the kinds that golf gives.
var longSeasons = []struct {
	kind  string
	round func(random *rand.Rand) (num, den float64)
	step  float64 // of the sum, where it goes in steps
}{
	{"strokes gained of 3 to 8 shots", func(random *rand.Rand) (num, den float64) {
		den = float64(3 + random.IntN(6))
		return math.Sqrt(den) * random.NormFloat64(), den
	}, 0},
	{"strokes gained in a cell that every other round lacks", func(random *rand.Rand) (num, den float64) {
		for range max(0, random.IntN(7)-3) {
			num, den = num+1-random.ExpFloat64(), den+1
		}
		return num, den
	}, 0},
	{"score to par by the round, of 9 or 18 holes", func(random *rand.Rand) (num, den float64) {
		den = 0.5 * float64(1+random.IntN(2))
		return math.Round(18*den + 4*math.Sqrt(den)*random.NormFloat64()), den
	}, 0},
	{"putts made, one in twenty, of 10 to 20", func(random *rand.Rand) (num, den float64) {
		den = float64(10 + random.IntN(11))
		for range int(den) {
			num += event(random, 0.05)
		}
		return num, den
	}, 0},
	{"strokes of chips, one in fifteen not finished in two", func(random *rand.Rand) (num, den float64) {
		den = float64(random.IntN(5))
		return 2*den + event(random, den/15), den
	}, 1},
	{"strokes of penalty, seldom and by twos", func(random *rand.Rand) (num, den float64) {
		return 2 * event(random, 0.1) * math.Ceil(random.ExpFloat64()), 1
	}, 2},
	{"lognormal values, one to six a round", func(random *rand.Rand) (num, den float64) {
		return math.Exp(0.8 * random.NormFloat64()), float64(1 + random.IntN(6))
	}, 0},
}

func event(random *rand.Rand, chance float64) float64 {
	if random.Float64() < chance {
		return 1
	}
	return 0
}

func season(random *rand.Rand, rounds int, round func(*rand.Rand) (num, den float64)) (num, den []float64) {
	num, den = make([]float64, rounds), make([]float64, rounds)
	for i := range num {
		num[i], den[i] = round(random)
	}
	return num, den
}

// Brute force: percentiles of 100,000 resamples, of which those of 2,000 are a blurred copy. Errors are in standard
// errors; 0.007 of them is the noise of brute force itself. Where sums go in steps, percentiles do too, and what is
// computed may lie anywhere within half a step of them.
func TestExpandedPercentilesAreNearerToBruteForceThanTwoThousandDraws(t *testing.T) {
	const most = 0.04
	for _, of := range longSeasons {
		random := newRandom(30)
		var expandedErrors, drawnErrors []float64
		tried, worst := 0, 0.0
		for _, length := range []struct{ rounds, seasons int }{{10, 12}, {15, 8}, {20, 6}, {46, 6}, {150, 3}, {400, 1}} {
			bruteForce := NewResampler(length.rounds, 100_000, 31)
			for range length.seasons {
				num, den := season(random, length.rounds, of.round)
				with := bruteForce.with(den)
				tried++
				got, holds := expanded(num, den, with, 0.9)
				if !holds {
					continue
				}
				truth := Percentile(bruteForce.Replicates(num, den), with, 0.9)
				drawn := Percentile(NewResampler(length.rounds, 2000, random.Uint64()).Replicates(num, den), with, 0.9)
				_, standardError, _ := RatioError(num, den)
				expandedErrors = append(expandedErrors, (got.Lo-truth.Lo)/standardError, (got.Hi-truth.Hi)/standardError)
				worst = max(worst, max(math.Abs(got.Lo-truth.Lo), math.Abs(got.Hi-truth.Hi))/(standardError*most+of.step/2/total(den)))
				drawnErrors = append(drawnErrors, (drawn.Lo-truth.Lo)/standardError, (drawn.Hi-truth.Hi)/standardError)
			}
		}
		expandedError, drawnError := rootMeanSquare(expandedErrors), rootMeanSquare(drawnErrors)
		t.Logf("%s: %d of %d expanded, error %.4f, of draws %.4f", of.kind, len(expandedErrors)/2, tried, expandedError, drawnError)
		if len(expandedErrors) == 0 || of.step == 0 && expandedError > drawnError/2 {
			t.Errorf("%s: off by %.4f standard errors, draws by %.4f", of.kind, expandedError, drawnError)
		}
		if worst > 1 {
			t.Errorf("%s: an end is off by %.2f of what it may", of.kind, worst)
		}
	}
}

func total(values []float64) (sum float64) {
	for _, v := range values {
		sum += v
	}
	return sum
}

func rootMeanSquare(values []float64) float64 {
	var squares float64
	for _, v := range values {
		squares += v * v
	}
	return math.Sqrt(squares / float64(len(values)))
}

// Outside: gonum's binomial distribution. Of rounds of two kinds, the number of the first kind in a resample is
// binomial, and the ratio goes up and down with it.
func TestExpandedPercentilesAgreeWithTheBinomialDistribution(t *testing.T) {
	const rounds, firstKind = 200, 40
	ratioWith := func(first float64) float64 { return (3*first + 0.5*(rounds-first)) / (4*first + (rounds - first)) }
	num, den := make([]float64, rounds), make([]float64, rounds)
	for i := range num {
		num[i], den[i] = 0.5, 1
		if i < firstKind {
			num[i], den[i] = 3, 4
		}
	}
	exact := distuv.Binomial{N: rounds, P: float64(firstKind) / rounds}
	standardError := (ratioWith(firstKind+1) - ratioWith(firstKind)) * exact.StdDev()
	tried := 0
	for first := range rounds {
		below := exact.CDF(float64(first))
		if below < 0.01 || below > 0.99 {
			continue
		}
		tried++
		z := distuv.UnitNormal.Quantile(below)
		got, holds := expandedEnd(num, den, ratioWith(firstKind), 4*firstKind+rounds-firstKind, z)
		// A step of the distribution is a smooth one's half way up.
		if want := ratioWith(float64(first) + 0.5); !holds || !near(got, want, 0.01*standardError) {
			t.Errorf("%d or fewer, chance %.3f: ratio %.6f (%v), want %.6f", first, below, got, holds, want)
		}
	}
	if tried < 20 {
		t.Errorf("%d numbers of rounds tried", tried)
	}
}

// Outside: gonum's binomial distribution. Rounds whose values are spread like the heads of eleven coins have sums like
// the heads of eleven coins a round. They are more than are drawn one by one.
func TestMeanIntervalOfManyRoundsIsTheBinomialOne(t *testing.T) {
	var values []float64
	for coins := range 1 << 11 {
		values = append(values, float64(bits.OnesCount(uint(coins))))
	}
	r := NewResampler(len(values), 2000, 1)
	got := r.Mean(values, 0.9)
	if r.counts != nil {
		t.Error("the interval was drawn")
	}
	exact := distuv.Binomial{N: float64(11 * len(values)), P: 0.5}
	n, below := float64(len(values)), expandedTail(blockLimit, 0.9)
	quantile := func(p float64) float64 {
		return float64(sort.Search(int(exact.N), func(heads int) bool { return exact.CDF(float64(heads)) >= p }))
	}
	lo, hi := quantile(below)/n, quantile(1-below)/n
	if !near(got.Lo, lo, 0.5/n) || !near(got.Hi, hi, 0.5/n) {
		t.Errorf("%v, want %v to %v within half a step", got, lo, hi)
	}
}

func TestExpandedIntervalsScaleAndShiftWithTheFigure(t *testing.T) {
	num, den := season(newRandom(3), 150, longSeasons[0].round)
	r := NewResampler(150, 2000, 1)
	interval := r.Ratio(num, den, 0.9)
	changed, longer := make([]float64, 150), make([]float64, 150)
	for i := range num {
		changed[i] = 1000*num[i] + 7*den[i]
		longer[i] = 3 * den[i]
	}
	got := r.Ratio(changed, den, 0.9)
	if !near(got.Lo, 1000*interval.Lo+7, 1e-9) || !near(got.Hi, 1000*interval.Hi+7, 1e-9) {
		t.Errorf("a thousand times and seven more: %v from %v", got, interval)
	}
	got = r.Ratio(num, longer, 0.9)
	if !near(got.Lo, interval.Lo/3, 1e-12) || !near(got.Hi, interval.Hi/3, 1e-12) {
		t.Errorf("over three times as much: %v from %v", got, interval)
	}
	for i := range num {
		changed[i] = -num[i]
	}
	got = r.Ratio(changed, den, 0.9)
	if !near(got.Lo, -interval.Hi, 1e-12) || !near(got.Hi, -interval.Lo, 1e-12) {
		t.Errorf("of the other sign: %v from %v", got, interval)
	}
	if r.counts != nil {
		t.Error("an interval was drawn")
	}
}

func TestLinearIntervalsOfManyRoundsAreThoseOfTheMean(t *testing.T) {
	influences, _ := season(newRandom(3), 150, longSeasons[0].round)
	mean := total(influences) / 150
	for i := range influences {
		influences[i] = (influences[i] - mean) / 150
	}
	r := NewResampler(150, 2000, 1)
	got := r.Linear(5, influences, 150, 0.9)
	if r.counts != nil {
		t.Error("the interval was drawn")
	}
	for i := range influences {
		influences[i] = 5 + 150*influences[i]
	}
	if want := r.Mean(influences, 0.9); !near(got.Lo, want.Lo, 1e-12) || !near(got.Hi, want.Hi, 1e-12) {
		t.Errorf("%v, want %v", got, want)
	}
}

func TestFewRoundsOutliersAndStepsAreDrawn(t *testing.T) {
	num, den := season(newRandom(3), 150, longSeasons[0].round)
	outlier, few, steps, coins := slices.Clone(num), slices.Clone(den), slices.Clone(num), slices.Clone(num)
	outlier[70] += 60
	clear(few[9:])
	for i := range steps {
		steps[i], coins[i] = float64(i%4), float64(i%2)
	}
	for _, of := range []struct {
		what     string
		num, den []float64
		drawn    bool
	}{
		{"150 rounds", num, den, false},
		{"one round far out", outlier, den, true},
		{"9 rounds", num, few, true},
		{"a mean of 4 different values", steps, ones(150), true},
		{"a share, half of one try a round", coins, ones(150), true},
	} {
		r := NewResampler(150, 2000, 1)
		if interval := r.Ratio(of.num, of.den, 0.9); interval.IsNone() || (r.counts != nil) != of.drawn {
			t.Errorf("%s: %v, of %d draws", of.what, interval, len(r.counts))
		}
	}
}
