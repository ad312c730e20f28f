package estimate

import (
	"math"
	"testing"
)

// Mathematics: with many putts the profile interval of a parameter tends to the estimate times e to the ± 1.645 standard
// errors of its logarithm, and line and pace pull against each other.
func TestCovarianceAgreesWithProfileIntervals(t *testing.T) {
	truth := LineAndPacePutting{0.02, 0.09}
	var putts []PuttCount
	for feet := 2; feet <= 50; feet++ {
		const tries = 20_000
		made := int(math.Round(tries * truth.ShareMade(float64(feet))))
		putts = append(putts, PuttCount{float64(feet), tries, made})
	}
	fit, ok := FitLineAndPace(putts, 0.9)
	covariance, known := fit.Covariance(putts)
	if !ok || !known {
		t.Fatal("no fit")
	}
	for name, c := range map[string]struct {
		interval Interval
		variance float64
	}{"line": {fit.StartLineInterval, covariance.Line}, "pace": {fit.PaceInterval, covariance.Pace}} {
		profile, normal := math.Log(c.interval.Hi/c.interval.Lo), 2*NormalReach(0.9)*math.Sqrt(c.variance)
		if !near(profile, normal, 0.01*normal) {
			t.Errorf("%s: the profile is %.5f wide, the covariance says %.5f", name, profile, normal)
		}
	}
	if correlation := covariance.LinePace / math.Sqrt(covariance.Line*covariance.Pace); correlation > -0.5 || correlation < -1 {
		t.Errorf("line and pace have a correlation of %v", correlation)
	}
	if !near(NormalReach(0.9), 1.6449, 5e-5) {
		t.Errorf("reach %v", NormalReach(0.9))
	}
	if _, known := truth.Covariance([]PuttCount{{10, 5, 2}}); known {
		t.Error("a covariance from one distance")
	}
}
