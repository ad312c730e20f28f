package estimate

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// curve is a chance of holing out as a function of distance and parameters, as [lineAndPaceCurve] is one. Two simpler
// ones have published fits, which hold the climb, what a putt weighs and the half of the line.
type curve func(distanceFt float64, theta, slope []float64) (made, missed float64)

// logisticCurve has log odds of theta[0] + theta[1] x feet.
func logisticCurve(distanceFt float64, theta, slope []float64) (made, missed float64) {
	logOdds := theta[0] + theta[1]*distanceFt
	made, missed = 1/(1+math.Exp(-logOdds)), 1/(1+math.Exp(logOdds))
	slope[0], slope[1] = made*missed, made*missed*distanceFt
	return made, missed
}

// startLineCurve is the half of the line alone, with the logarithm of the angle as its parameter.
func startLineCurve(distanceFt float64, theta, slope []float64) (made, missed float64) {
	line := onLine(distanceFt, math.Exp(theta[0]))
	slope[0] = line.slope
	return line.made, line.missed
}

// binomial is the likelihood of putts that are made, each on its own, by the chance of a curve.
func binomial(chance curve, putts []PuttCount) likelihood {
	return func(theta []float64, score *mat.VecDense, information *mat.SymDense) float64 {
		slope := make([]float64, len(theta))
		var height float64
		for _, putt := range putts {
			p, q := chance(putt.DistanceFt, theta, slope)
			height += putt.weigh(p, q, slope, score, information)
		}
		return height
	}
}

func fitLogistic(putts []PuttCount) (maximum, bool) {
	return maximise([]float64{0, 0}, binomial(logisticCurve, putts))
}

func fitStartLine(putts []PuttCount) (maximum, bool) {
	return maximise([]float64{math.Log(0.03)}, binomial(startLineCurve, putts).within(puttingStartLineRad))
}

// Published: A. Gelman (2019), a = 2.23 (0.06), b = -0.26 (0.01) on the data of D. Berry (1995); the maximum likelihood
// to more digits is from the project's outside checks.
func TestLogisticFitOfBerry(t *testing.T) {
	best, ok := fitLogistic(puttsIn(t, "putting-berry-1995.csv"))
	if !ok {
		t.Fatal("no fit")
	}
	mustAgree(t, "a", best.theta[0], 2.2312)
	mustAgree(t, "b", best.theta[1], -0.25569)
	if a, b := best.standardErrors[0], best.standardErrors[1]; !near(a, 0.06, 0.005) || !near(b, 0.01, 0.005) {
		t.Errorf("standard errors %.3f and %.3f, want 0.06 and 0.01", a, b)
	}
}

// Published: A. Gelman and D. Nolan (2002), "A probability model for golf putting", Teaching Statistics 24:93-95, and
// Gelman (2019), 1.53 degrees on the data of D. Berry (1995).
func TestStartLineFitOfBerry(t *testing.T) {
	best, ok := fitStartLine(puttsIn(t, "putting-berry-1995.csv"))
	if !ok {
		t.Fatal("no fit")
	}
	mustAgree(t, "start line", math.Exp(best.theta[0]), 0.026645)
	mustAgree(t, "start line in degrees", math.Exp(best.theta[0])*180/math.Pi, 1.5267)
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

// The memory of lineAndPace for its halves shows in nothing.
func TestLineAndPaceIsTheLikelihoodOfItsCurve(t *testing.T) {
	putts := puttsIn(t, "putting-broadie-2018.csv")
	remembering, plain := lineAndPace(putts), binomial(lineAndPaceCurve, putts)
	for _, theta := range [][]float64{{-4, -2.5}, {-4, -2}, {-3.5, -2}, {-4, -2.5}} {
		got, want := remembering.place(theta), plain.place(theta)
		if got.height != want.height || !mat.Equal(got.score, want.score) || !mat.Equal(got.information, want.information) {
			t.Errorf("at %v: %v, want %v", theta, got, want)
		}
	}
}
