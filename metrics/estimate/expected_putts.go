package estimate

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// ExpectedPutts is the mean number of putts to hole out from any distance.
type ExpectedPutts struct {
	putts [puttGrid]float64 // at the distances of gridFt
}

// The distances that are computed: 0.25 to 128 ft, four to a doubling. In between the mean is taken as straight in the
// logarithm of the distance; nearer it is that from the nearest, farther that from the farthest.
const (
	puttGrid      = 37
	nearestPuttFt = 0.25
	perDoubling   = 4
	puttStarts    = 16 // start lines, and as many paces, each as likely as another
)

func gridFt(i int) float64 { return nearestPuttFt * math.Exp2(float64(i)/perDoubling) }

// ExpectedPutts follows the model to the bottom of the hole: a putt that the model misses stops where its angle and its
// length take it, and the next one is played from there, by the same model,
//
//	V(x) = 1 + ∫ V(distance left) over the angles and lengths that miss.
//
// The integral is the chance of a miss times the mean of V over those of 16 x 16 equally likely pairs of angle and
// length that miss; V on a grid of distances then solves a set of linear equations.
//
// Paid: what the model pays ([LineAndPacePutting]): a flat green, on which nobody misreads a second putt.
func (m LineAndPacePutting) ExpectedPutts() ExpectedPutts {
	var z [puttStarts]float64
	for i := range z {
		z[i] = -math.Sqrt2 * math.Erfcinv(2*(float64(i)+0.5)/puttStarts)
	}
	var sin, cos [puttStarts / 2]float64 // of start lines to the right, each with its like to the left
	for i, right := range z[puttStarts/2:] {
		sin[i], cos[i] = math.Sincos(m.StartLineRad * right)
	}
	// Row i of the equations: V(i) - Σ chance(i to j) V(j) = 1.
	equations, right := mat.NewDense(puttGrid, puttGrid, nil), mat.NewVecDense(puttGrid, nil)
	for i := range puttGrid {
		distanceFt := gridFt(i)
		var left [puttGrid]float64
		misses := 0.0
		for p := range z {
			rollFt := max(0, (distanceFt+overshootFt)*(1+m.PaceError*z[p]))
			pastFt := rollFt - distanceFt
			for l := range sin {
				if pastFt >= 0 && pastFt <= captureFt && distanceFt*sin[l] < holeRadiusFt-ballRadiusFt && cos[l] > 0 {
					continue
				}
				misses++
				onFt, offFt := distanceFt-rollFt*cos[l], rollFt*sin[l]
				lower, weight := gridPlace(math.Sqrt(onFt*onFt + offFt*offFt))
				left[lower] += 1 - weight
				left[min(lower+1, puttGrid-1)] += weight
			}
		}
		if misses == 0 { // none of the pairs, though the model allows it: the next one is a tap-in
			left[0], misses = 1, 1
		}
		missed := 1 - m.ShareMade(distanceFt)
		for j := range left {
			equations.Set(i, j, -missed*left[j]/misses)
		}
		equations.Set(i, i, 1+equations.At(i, i))
		right.SetVec(i, 1)
	}
	var solution mat.VecDense
	var result ExpectedPutts
	if err := solution.SolveVec(equations, right); err != nil {
		if _, close := err.(mat.Condition); !close {
			panic(err) // the chances in a row add up to less than one
		}
	}
	for i := range result.putts {
		result.putts[i] = solution.AtVec(i)
	}
	return result
}

// From returns the mean number of putts from a distance.
func (e *ExpectedPutts) From(distanceFt float64) float64 {
	lower, weight := gridPlace(distanceFt)
	upper := min(lower+1, puttGrid-1)
	return e.putts[lower] + weight*(e.putts[upper]-e.putts[lower])
}

// gridPlace finds the distance of the grid at or below one, and how far on towards the next it lies.
func gridPlace(distanceFt float64) (lower int, weight float64) {
	place := perDoubling * math.Log2(max(distanceFt, nearestPuttFt)/nearestPuttFt)
	lower = min(int(place), puttGrid-1)
	if lower == puttGrid-1 {
		return lower, 0
	}
	return lower, place - float64(lower)
}
