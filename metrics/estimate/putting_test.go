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

// Published: A. Gelman (2019), a = 2.23 (0.06), b = -0.26 (0.01) on the data of D. Berry (1995); the maximum likelihood
// to more digits is from the project's outside checks.
func TestLogisticFitOfBerry(t *testing.T) {
	putts := puttsIn(t, "putting-berry-1995.csv")
	got, ok := FitLogistic(putts)
	if !ok {
		t.Fatal("no fit")
	}
	mustAgree(t, "a", got.A, 2.2312)
	mustAgree(t, "b", got.B, -0.25569)
	best, _ := fitLogistic(putts)
	if a, b := best.standardErrors[0], best.standardErrors[1]; !near(a, 0.06, 0.005) || !near(b, 0.01, 0.005) {
		t.Errorf("standard errors %.3f and %.3f, want 0.06 and 0.01", a, b)
	}
}

// Published: A. Gelman and D. Nolan (2002) and Gelman (2019), 1.53 degrees on the data of D. Berry (1995).
func TestStartLineFitOfBerry(t *testing.T) {
	got, ok := FitStartLine(puttsIn(t, "putting-berry-1995.csv"))
	if !ok {
		t.Fatal("no fit")
	}
	mustAgree(t, "start line", got.StartLineRad, 0.026645)
	mustAgree(t, "start line in degrees", got.StartLineRad*180/math.Pi, 1.5267)
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

// Mathematics: the slope of each curve is its derivative, and a chance and its complement add up to one.
func TestPuttingCurvesAndTheirSlopes(t *testing.T) {
	for name, c := range map[string]struct {
		chance curve
		theta  []float64
	}{
		"logistic":      {logisticCurve, []float64{2.2, -0.26}},
		"start line":    {startLineCurve, []float64{math.Log(0.027)}},
		"line and pace": {lineAndPaceCurve, []float64{math.Log(0.018), math.Log(0.08)}},
	} {
		for _, distanceFt := range []float64{0.05, 0.3, 1, 3, 8, 20, 60} {
			slope, ignored := make([]float64, len(c.theta)), make([]float64, len(c.theta))
			made, missed := c.chance(distanceFt, c.theta, slope)
			if !near(made+missed, 1, 1e-14) || made < 0 || missed < 0 {
				t.Errorf("%s at %v ft: made %v, missed %v", name, distanceFt, made, missed)
			}
			for i := range c.theta {
				const step = 1e-5
				theta := append([]float64(nil), c.theta...)
				theta[i] += step
				above, _ := c.chance(distanceFt, theta, ignored)
				theta[i] -= 2 * step
				below, _ := c.chance(distanceFt, theta, ignored)
				if numeric := (above - below) / (2 * step); !near(slope[i], numeric, 1e-8*max(1, distanceFt)) {
					t.Errorf("%s at %v ft: slope %d is %v, by differences %v", name, distanceFt, i, slope[i], numeric)
				}
			}
		}
	}
}

func TestShareMadeFallsWithDistance(t *testing.T) {
	for name, made := range map[string]func(float64) float64{
		"logistic":      LogisticPutting{2.2312, -0.25569}.ShareMade,
		"start line":    StartLinePutting{0.026645}.ShareMade,
		"line and pace": LineAndPacePutting{0.017802, 0.080067}.ShareMade,
	} {
		for distanceFt := 0.0; distanceFt < 100; distanceFt += 0.25 {
			if here, on := made(distanceFt), made(distanceFt+0.25); on > here || on < 0 || here > 1 {
				t.Fatalf("%s: %v at %v ft, %v a little on", name, here, distanceFt, on)
			}
		}
	}
}

func TestFitsOfTooLittle(t *testing.T) {
	allMade := []PuttCount{{2, 20, 20}, {5, 9, 9}}
	noneMade := []PuttCount{{2, 20, 0}, {5, 9, 0}}
	for name, putts := range map[string][]PuttCount{"no putts": nil, "all made": allMade, "none made": noneMade} {
		if got, ok := FitLogistic(putts); ok {
			t.Errorf("%s: logistic %v", name, got)
		}
		if got, ok := FitStartLine(putts); ok {
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
