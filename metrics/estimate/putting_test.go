package estimate

import (
	"math"
	"math/rand/v2"
	"testing"

	"roundmill/testdata/reference"
)

// puttsIn reads a reference file: distance in feet, tries, made.
func puttsIn(t *testing.T, name string) []PuttCount {
	t.Helper()
	var putts []PuttCount
	for _, row := range reference.Numbers(t, name) {
		putts = append(putts, PuttCount{row[0], int(row[1]), int(row[2])})
	}
	return putts
}

// mustAgree holds a figure against one that is given to three significant digits or more.
func mustAgree(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !near(got, want, 5e-4*math.Abs(want)) {
		t.Errorf("%s = %.6g, want %.6g", what, got, want)
	}
}

// Published: A. Gelman (2019), 1.0 degree, 0.08 and 0.003 on the data of M. Broadie (2018); the maximum likelihood to
// more digits is from the project's outside checks.
func TestBinnedLineAndPaceFitOfBroadie(t *testing.T) {
	got, binSpread, ok := FitLineAndPaceBinned(puttsIn(t, "putting-broadie-2018.csv"))
	if !ok {
		t.Fatal("no fit")
	}
	mustAgree(t, "start line", got.StartLineRad, 0.017802)
	mustAgree(t, "pace error", got.PaceError, 0.080067)
	mustAgree(t, "bin spread", binSpread, 0.0027743)
}

// The plain binomial likelihood on the same data, from the project's outside checks: 0.01329 and 0.1372.
func TestBinomialLineAndPaceFitOfBroadie(t *testing.T) {
	got, ok := FitLineAndPace(puttsIn(t, "putting-broadie-2018.csv"), 0.9)
	if !ok {
		t.Fatal("no fit")
	}
	mustAgree(t, "start line", got.StartLineRad, 0.01329)
	mustAgree(t, "pace error", got.PaceError, 0.1372)
}

func TestShareMadeFallsWithDistance(t *testing.T) {
	made := LineAndPacePutting{0.017802, 0.080067}.ShareMade
	for distanceFt := 0.0; distanceFt < 100; distanceFt += 0.25 {
		if here, on := made(distanceFt), made(distanceFt+0.25); on > here || on < 0 || here > 1 {
			t.Fatalf("%v at %v ft, %v a little on", here, distanceFt, on)
		}
	}
}

func TestFitsOfTooLittle(t *testing.T) {
	allMade := []PuttCount{{2, 20, 20}, {5, 9, 9}}
	noneMade := []PuttCount{{2, 20, 0}, {5, 9, 0}}
	for name, putts := range map[string][]PuttCount{"no putts": nil, "all made": allMade, "none made": noneMade} {
		if got, ok := fitLogistic(putts); ok {
			t.Errorf("%s: logistic %v", name, got)
		}
		if got, ok := fitStartLine(putts); ok {
			t.Errorf("%s: start line %v", name, got)
		}
		if got, ok := FitLineAndPace(putts, 0.9); ok {
			t.Errorf("%s: line and pace %v", name, got)
		}
		if got, _, ok := FitLineAndPaceBinned(putts); ok {
			t.Errorf("%s: binned line and pace %v", name, got)
		}
	}
	// Without a putt past five feet, pace hardly shows.
	if got, ok := FitLineAndPace([]PuttCount{{2, 40, 39}, {3, 30, 25}, {4, 30, 21}}, 0.9); ok {
		t.Errorf("short putts only: %v", got)
	}
}

var amateurPutting = LineAndPacePutting{0.027, 0.11}

// puttingSeason draws the putts of rounds of 18 holes: first putts from 3 to 60 ft, and those they leave, counted by
// tenths of a foot. Rounds share nothing.
func puttingSeason(random *rand.Rand, rounds int) []PuttCount {
	var tries, made [601]int
	for range 18 * rounds {
		distanceFt := math.Min(60, 3+16*random.ExpFloat64())
		for holed := false; !holed; distanceFt = math.Max(0.5, math.Abs(1+0.11*distanceFt*random.NormFloat64())) {
			tenths := int(math.Round(10 * distanceFt))
			tries[tenths]++
			if random.Float64() < amateurPutting.ShareMade(float64(tenths)/10) {
				holed = true
				made[tenths]++
			}
		}
	}
	var putts []PuttCount
	for tenths, n := range tries {
		if n > 0 {
			putts = append(putts, PuttCount{float64(tenths) / 10, n, made[tenths]})
		}
	}
	return putts
}

func TestLineAndPaceCoverAtTheirLevel(t *testing.T) {
	for _, row := range []struct {
		rounds int
		high   float64
	}{
		{10, 0.98}, // few putts leave the lower end of the pace open, which errs on the safe side
		{46, 0.94},
	} {
		const repeats = 250
		random := newRandom(20)
		var fitted, startLine, pace float64
		for range repeats {
			fit, ok := FitLineAndPace(puttingSeason(random, row.rounds), 0.9)
			if !ok {
				continue
			}
			fitted++
			if fit.StartLineInterval.Contains(amateurPutting.StartLineRad) {
				startLine++
			}
			if fit.PaceInterval.Contains(amateurPutting.PaceError) {
				pace++
			}
		}
		t.Logf("%d rounds: start line %.1f %%, pace %.1f %%, %v of %d fitted",
			row.rounds, 100*startLine/fitted, 100*pace/fitted, fitted, repeats)
		if fitted < 0.95*repeats {
			t.Errorf("%d rounds: only %v of %d fitted", row.rounds, fitted, repeats)
		}
		mustCover(t, startLine/fitted, 0.86, row.high)
		mustCover(t, pace/fitted, 0.86, row.high)
	}
}

// Mathematics: at each end of a profile interval the likelihood, the other parameter free, is z²/2 below its maximum.
func TestProfileIntervalEndsWhereTheLikelihoodHasDropped(t *testing.T) {
	putts := puttingSeason(newRandom(3), 46)
	fit, ok := FitLineAndPace(putts, 0.9)
	if !ok {
		t.Fatal("no fit")
	}
	height := func(model LineAndPacePutting) (sum float64) {
		for _, putt := range putts {
			p := model.ShareMade(putt.DistanceFt)
			if putt.Made > 0 {
				sum += float64(putt.Made) * math.Log(p)
			}
			if putt.Made < putt.Tries {
				sum += float64(putt.Tries-putt.Made) * math.Log(1-p)
			}
		}
		return sum
	}
	// The other parameter by a search over a grid, two in a thousand apart.
	bestHeight := func(model func(factor float64) LineAndPacePutting) float64 {
		best := math.Inf(-1)
		for factor := 0.5; factor < 2; factor += 2e-3 {
			best = max(best, height(model(factor)))
		}
		return best
	}
	drop := standardScore(0.9) * standardScore(0.9) / 2
	for _, end := range []float64{fit.StartLineInterval.Lo, fit.StartLineInterval.Hi} {
		got := height(fit.LineAndPacePutting) - bestHeight(func(factor float64) LineAndPacePutting {
			return LineAndPacePutting{end, factor * fit.PaceError}
		})
		if !near(got, drop, 1e-3) {
			t.Errorf("start line %v: dropped by %v, want %v", end, got, drop)
		}
	}
	for _, end := range []float64{fit.PaceInterval.Lo, fit.PaceInterval.Hi} {
		got := height(fit.LineAndPacePutting) - bestHeight(func(factor float64) LineAndPacePutting {
			return LineAndPacePutting{factor * fit.StartLineRad, end}
		})
		if !near(got, drop, 1e-3) {
			t.Errorf("pace error %v: dropped by %v, want %v", end, got, drop)
		}
	}
}

func BenchmarkFitLineAndPace(b *testing.B) {
	putts := puttingSeason(newRandom(1), 46)
	b.ReportAllocs()
	for b.Loop() {
		FitLineAndPace(putts, 0.9)
	}
}
