package estimate

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// PuttingCovariance is the covariance of the logarithms of the two parameters of a [LineAndPacePutting] as estimated.
type PuttingCovariance struct{ Line, Pace, LinePace float64 }

// Covariance returns the inverse of the information that the putts hold at the model, the asymptotic covariance of a
// maximum likelihood estimate; false where they do not tell line from pace. It serves figures that hang on both: the
// two are anything but independent, because a shaky line and a shaky pace miss much the same putts.
func (m LineAndPacePutting) Covariance(putts []PuttCount) (PuttingCovariance, bool) {
	score, information := mat.NewVecDense(2, nil), mat.NewSymDense(2, nil)
	lineAndPace(putts)([]float64{math.Log(m.StartLineRad), math.Log(m.PaceError)}, score, information)
	inverse, ok := invert(information, []int{0, 1})
	if !ok {
		return PuttingCovariance{}, false
	}
	return PuttingCovariance{inverse.At(0, 0), inverse.At(1, 1), inverse.At(0, 1)}, true
}

// NormalReach returns how many standard errors an interval of a normal estimate reaches to either side: 1.645 at 90 %.
func NormalReach(level float64) float64 { return standardScore(level) }
