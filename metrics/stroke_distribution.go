package metrics

import "math"

// strokeDistribution is the distribution of a whole number of strokes over par:
// chances[i] is that of from + i.
type strokeDistribution struct {
	from    int
	chances []float64
}

// plus is the distribution of the sum of two independent numbers of strokes,
// the exact convolution of the two.
func (d strokeDistribution) plus(other strokeDistribution) strokeDistribution {
	sum := strokeDistribution{d.from + other.from, make([]float64, len(d.chances)+len(other.chances)-1)}
	for i, a := range d.chances {
		for j, b := range other.chances {
			sum.chances[i+j] += a * b
		}
	}
	return sum
}

func (d strokeDistribution) mean() (mean float64) {
	for i, chance := range d.chances {
		mean += float64(d.from+i) * chance
	}
	return mean
}

func (d strokeDistribution) standardDeviation() float64 {
	mean, variance := d.mean(), 0.0
	for i, chance := range d.chances {
		off := float64(d.from+i) - mean
		variance += off * off * chance
	}
	return math.Sqrt(variance)
}

// atMost is the chance of so many strokes or fewer after a gain on every one.
// A gain of 1.3 strokes is one of two strokes in three rounds of ten and of one
// in the other seven.
func (d strokeDistribution) atMost(strokes int, gain float64) float64 {
	whole := math.Floor(gain)
	two := gain - whole
	at := strokes + int(whole)
	return (1-two)*d.upTo(at) + two*d.upTo(at+1)
}

func (d strokeDistribution) upTo(strokes int) (chance float64) {
	for i := range d.chances {
		if d.from+i > strokes {
			break
		}
		chance += d.chances[i]
	}
	return min(chance, 1)
}
