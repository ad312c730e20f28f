package estimate

import "math"

// Hole and ball, from the Equipment Rules and the Rules of Golf (R&A and USGA): a hole of 4.25 in, a ball of 1.68 in.
const (
	holeRadiusFt = 2.125 / 12
	ballRadiusFt = 0.84 / 12
)

// How a putt is paced in the two-parameter model: it is meant to run overshootFt past the hole, and drops when it would
// have run 0 to captureFt past. Constants of Broadie (2018).
const (
	overshootFt = 1.0
	captureFt   = 3.0
)

// LineAndPacePutting is the two-parameter geometry model. A putt starts off line by a normal angle with standard
// deviation σ, and drops when the angle is below the one that the hole leaves open, and its length errs by a share of
// the way to go with standard deviation PaceError, so that
//
//	p = (2 Φ(asin((R-r)/x)/σ) - 1) (Φ(2/((x+1) PaceError)) - Φ(-1/((x+1) PaceError)))
//
// M. Broadie (2018), "Two simple putting models in golf", in the form of A. Gelman (2019), "Model building and
// expansion for golf putting", a Stan case study; the first factor by A. Gelman and D. Nolan (2002), "A probability
// model for golf putting", Teaching Statistics 24:93-95.
//
// Paid: no slope, break or green speed, and line and pace do not depend on each other; misreading a green counts as
// start line.
type LineAndPacePutting struct {
	StartLineRad float64
	PaceError    float64
}

// ShareMade returns the chance of holing a putt of this length.
func (m LineAndPacePutting) ShareMade(distanceFt float64) float64 {
	made, _, _, _ := bothHalves(onLine(distanceFt, m.StartLineRad), onPace(distanceFt, m.PaceError))
	return made
}

// lineAndPaceCurve is the chance of holing a putt, with the logarithms of both parameters as theta, and its complement,
// which stays precise where putts are all but certain. It fills in the slope of the chance in each of theta.
func lineAndPaceCurve(distanceFt float64, theta, slope []float64) (made, missed float64) {
	made, missed, slope[0], slope[1] = bothHalves(onLine(distanceFt, math.Exp(theta[0])), onPace(distanceFt, math.Exp(theta[1])))
	return made, missed
}

// halfChance is the chance that one half of the model leaves a putt, line or pace alone, its complement, and its slope
// in the logarithm of the parameter.
type halfChance struct{ made, missed, slope float64 }

func onLine(distanceFt, startLineRad float64) halfChance {
	if distanceFt <= holeRadiusFt-ballRadiusFt {
		return halfChance{1, 0, 0}
	}
	open := math.Asin((holeRadiusFt-ballRadiusFt)/distanceFt) / startLineRad
	missed := math.Erfc(open / math.Sqrt2)
	return halfChance{1 - missed, missed, -2 * open * normalDensity(open)}
}

func onPace(distanceFt, paceError float64) halfChance {
	spreadFt := (distanceFt + overshootFt) * paceError
	short, long := overshootFt/spreadFt, (captureFt-overshootFt)/spreadFt
	missed := (math.Erfc(long/math.Sqrt2) + math.Erfc(short/math.Sqrt2)) / 2
	return halfChance{1 - missed, missed, -short*normalDensity(short) - long*normalDensity(long)}
}

// bothHalves are the chances of a putt that needs line and pace, and the slope of the first in the parameter of each.
func bothHalves(line, pace halfChance) (made, missed, slopeLine, slopePace float64) {
	return line.made * pace.made, line.missed + line.made*pace.missed, line.slope * pace.made, pace.slope * line.made
}

func normalDensity(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
