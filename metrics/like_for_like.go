package metrics

import "roundmill/metrics/estimate"

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
// first (0) or second (1) sums, with its interval over rounds. Strata weigh by
// nm/(n+m) for n and m strokes (estimate.FitWithinStrata).
func (l likeForLike) difference(which int, draws playerDraws) (difference float64, interval estimate.Interval) {
	cells := 0
	for _, groups := range l {
		cells += len(groups[0]) + len(groups[1])
	}
	sums, values := make([]estimate.StratumSums, 0, cells), make([]float64, 0, 2*cells)
	var rounds [2][]roundSums
	for stratum, groups := range l {
		for group, cell := range groups {
			rounds[group] = append(rounds[group], cell)
			for _, sum := range cell {
				n, y := float64(sum.n), sum.sums[which]
				at := len(values)
				values = append(values, n*float64(group), y*float64(group))
				x, xy := values[at:at+1], values[at+1:at+2]
				sums = append(sums, estimate.StratumSums{Stratum: stratum, Round: int(sum.round), N: n, Y: y, X: x, XX: x, XY: xy})
			}
		}
	}
	fit := estimate.FitWithinStrata(sums, 1, draws.rounds)
	informative := min(roundsIn(rounds[0], draws.rounds), roundsIn(rounds[1], draws.rounds))
	return fit.Coefficients[0], draws.Linear(fit.Coefficients[0], fit.Influences[0], informative, Level)
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
