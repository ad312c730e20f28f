package plots

import "math"

// density is a smooth outline of a distribution over a scale that starts at
// zero: shares per unit of value, at evenly spaced values from end to end.
type density []float64

const densitySteps = 240

// smoothed is the Gaussian kernel estimate of the density of sorted values,
// with Silverman's bandwidth (1986, Density Estimation, equation 3.31) and the
// part that would leak below zero folded back. Values beyond the scale count
// in the whole and are not drawn.
func smoothed(values []float64, to float64) density {
	step := to / densitySteps
	counts := make([]float64, densitySteps+1)
	for _, v := range values {
		if v > to {
			break
		}
		counts[int(math.Round(v/step))]++
	}
	n := float64(len(values))
	bandwidth := max(step, 0.9*spread(values)*math.Pow(n, -0.2))
	kernel := func(distance float64) float64 {
		z := distance / bandwidth
		return math.Exp(-z*z/2) / (bandwidth * math.Sqrt(2*math.Pi))
	}
	outline := make(density, densitySteps+1)
	for i := range outline {
		for j, count := range counts {
			if count > 0 {
				apart, folded := float64(i-j)*step, float64(i+j)*step
				outline[i] += count / n * (kernel(apart) + kernel(folded))
			}
		}
	}
	return outline
}

// spread is the smaller of the standard deviation and the interquartile range
// over 1.34, as Silverman's rule has it.
func spread(sorted []float64) float64 {
	var sum, squares float64
	for _, v := range sorted {
		sum += v
	}
	mean := sum / float64(len(sorted))
	for _, v := range sorted {
		squares += (v - mean) * (v - mean)
	}
	deviation := math.Sqrt(squares / float64(len(sorted)))
	middleHalf := sorted[len(sorted)*3/4] - sorted[len(sorted)/4]
	if middleHalf > 0 {
		return min(deviation, middleHalf/1.34)
	}
	return deviation
}
