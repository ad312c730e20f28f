package metrics

import (
	"cmp"
	"maps"
	"math"
	"slices"

	"roundmill/metrics/estimate"
)

// distances are how far a club goes. A stroke that ended farther from the hole
// counts as no distance in the quantiles.
type distances struct {
	quantiles estimate.Distribution
	moments   estimate.Moments
	rounds    roundCount
}

func (d *distances) add(round int32, yards float64) {
	d.rounds.add(round)
	d.quantiles.Add(max(0, yards))
	d.moments.Add(yards)
}

// median is the median distance with its interval, which under five rounds is
// none.
func (d *distances) median() (yards float64, interval estimate.Interval) {
	if d.rounds.n < leastRounds {
		return d.quantiles.Quantile(0.5), estimate.None()
	}
	return d.quantiles.Quantile(0.5), d.quantiles.MedianInterval(Level)
}

// longestFirst are the names of clubs in falling order of their median
// distance, those without one last.
func longestFirst[C any](clubs map[string]C, of func(C) *distances) []string {
	medians := make(map[string]float64, len(clubs))
	for name, club := range clubs {
		medians[name] = of(club).quantiles.Quantile(0.5)
		if math.IsNaN(medians[name]) {
			medians[name] = -1
		}
	}
	return slices.SortedFunc(maps.Keys(clubs), func(a, b string) int {
		return cmp.Or(cmp.Compare(medians[b], medians[a]), cmp.Compare(a, b))
	})
}
