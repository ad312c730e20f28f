package metrics

import (
	"math"

	"roundmill/metrics/estimate"
)

// A likeForLike compares two groups of strokes, in strata of strokes that are
// alike: each stratum holds the sums of the group to compare with and of the
// group compared, in order.
type likeForLike [][2]roundSums

// shared are the strata that hold both groups; the others say nothing about the
// difference.
func (l likeForLike) shared() (shared likeForLike) {
	for _, stratum := range l {
		if len(stratum[0]) > 0 && len(stratum[1]) > 0 {
			shared = append(shared, stratum)
		}
	}
	return shared
}

// n are the numbers of strokes of both groups.
func (l likeForLike) n() (n [2]int64) {
	for _, stratum := range l {
		for group, sums := range stratum {
			n[group] += sums.n()
		}
	}
	return n
}

// difference is the mean of the second group less that of the first, of the
// first (0) or second (1) sums, with its interval over rounds; NaN if no stratum
// holds both groups, or as many strokes only as there are means. Strata weigh by
// nm/(n+m) for n and m strokes. It is estimate.FitWithinStrata of the one
// predictor that is 1 in the second group, in closed form.
func (l likeForLike) difference(which int, draws playerDraws) (difference float64, interval estimate.Interval) {
	shared := l.shared()
	var apart, weights, strokes float64
	for _, groups := range shared {
		n, y := groups[0].total(which)
		m, z := groups[1].total(which)
		weight := n * m / (n + m)
		apart += weight * (z/m - y/n)
		weights += weight
		strokes += n + m
	}
	spare := strokes - float64(len(shared)+1)
	if spare <= 0 {
		return math.NaN(), estimate.None()
	}
	difference = apart / weights
	influences, scale := make([]float64, draws.rounds), math.Sqrt(strokes/spare)/weights
	var rounds [2][]roundSums
	for _, groups := range shared {
		n, y := groups[0].total(which)
		m, z := groups[1].total(which)
		mean := (y + z) / (n + m)
		for group, cell := range groups {
			rounds[group] = append(rounds[group], cell)
			x := float64(group) - m/(n+m)
			for i := range cell {
				influences[cell[i].round] += scale * x * (cell[i].sums[which] - float64(cell[i].n)*(mean+x*difference))
			}
		}
	}
	informative := min(roundsIn(rounds[0], draws.rounds), roundsIn(rounds[1], draws.rounds))
	return difference, draws.Linear(difference, influences, informative, Level)
}

// total is the number of strokes and their sum.
func (r roundSums) total(which int) (n, sum float64) {
	for i := range r {
		n += float64(r[i].n)
		sum += r[i].sums[which]
	}
	return n, sum
}

// roundsIn is how many of all rounds there are in sums that are in order.
func roundsIn(cells []roundSums, rounds int) (n int) {
	seen := make([]bool, rounds)
	for _, cell := range cells {
		for i := range cell {
			if round := cell[i].round; !seen[round] {
				seen[round] = true
				n++
			}
		}
	}
	return n
}
