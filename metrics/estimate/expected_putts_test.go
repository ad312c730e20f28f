package estimate

import (
	"math"
	"testing"
)

// Brute force: putts played one by one by the same two errors.
func TestExpectedPuttsAgreeWithPuttsPlayedOneByOne(t *testing.T) {
	for _, model := range []LineAndPacePutting{{0.0178, 0.080}, {0.030, 0.15}} {
		expected := model.ExpectedPutts()
		random := newRandom(2)
		for _, distanceFt := range []float64{2, 6, 15, 40, 80} {
			const repeats = 100_000
			putts := 0
			for range repeats {
				for left := distanceFt; left > 0; putts++ {
					angle := model.StartLineRad * random.NormFloat64()
					roll := max(0, (left+overshootFt)*(1+model.PaceError*random.NormFloat64()))
					past := roll - left
					if math.Abs(angle) < math.Asin(min(1, (holeRadiusFt-ballRadiusFt)/left)) && past >= 0 && past <= captureFt {
						left = 0
						continue
					}
					left = math.Hypot(left-roll*math.Cos(angle), roll*math.Sin(angle))
				}
			}
			mean := float64(putts) / repeats
			t.Logf("%v from %v ft: %.3f, one by one %.3f", model, distanceFt, expected.From(distanceFt), mean)
			if !near(expected.From(distanceFt), mean, 0.012*mean) {
				t.Errorf("%v from %v ft: %.3f, one by one %.3f", model, distanceFt, expected.From(distanceFt), mean)
			}
		}
	}
}

// Published: M. Broadie (2014), Every Shot Counts: the tour holes half of its putts from 8 ft (1.50 putts) and takes two
// on average from a little past 30 ft. His own fit to the tour (2018), as in the project's outside checks, should come near.
func TestExpectedPuttsOfTheTour(t *testing.T) {
	expected := LineAndPacePutting{0.017802, 0.080067}.ExpectedPutts()
	for distanceFt, want := range map[float64]float64{8: 1.50, 33: 2.00, 60: 2.21} {
		t.Logf("from %v ft: %.3f putts, published %.2f", distanceFt, expected.From(distanceFt), want)
		if got := expected.From(distanceFt); !near(got, want, 0.05) {
			t.Errorf("from %v ft: %.3f putts, published %.2f", distanceFt, got, want)
		}
	}
}

func TestExpectedPuttsAtTheLimits(t *testing.T) {
	perfect := LineAndPacePutting{1e-3, 2e-3}.ExpectedPutts()
	if got := perfect.From(10); !near(got, 1, 1e-6) {
		t.Errorf("no error: %v putts from 10 ft", got)
	}
	hopeless := LineAndPacePutting{0.5, 2}.ExpectedPutts()
	if short, long := hopeless.From(1), hopeless.From(300); !(short > 1) || !(long > short) || math.IsInf(long, 0) {
		t.Errorf("errors at the limit: %v putts from 1 ft, %v from 300 ft", short, long)
	}
	tour := LineAndPacePutting{0.0178, 0.08}.ExpectedPutts()
	for i := 1; i < puttGrid; i++ {
		if tour.putts[i] < tour.putts[i-1] {
			t.Errorf("%v putts from %v ft, %v from %v ft", tour.putts[i], gridFt(i), tour.putts[i-1], gridFt(i-1))
		}
	}
}

func BenchmarkExpectedPutts(b *testing.B) {
	for range b.N {
		LineAndPacePutting{0.0178, 0.08}.ExpectedPutts()
	}
}
