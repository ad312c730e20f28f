package metrics

import (
	"cmp"
	"slices"

	"roundmill/metrics/estimate"
)

// A roundList is the rounds of one player in the order in which they came in.
type roundList []roundKey

// add takes in a round and returns its place.
func (l *roundList) add(key roundKey) int32 {
	*l = append(*l, key)
	return int32(len(*l) - 1)
}

// join takes in the rounds of another list, whose places move up by what it
// returns.
func (l *roundList) join(other roundList) (moved int32) {
	moved = int32(len(*l))
	*l = append(*l, other...)
	return moved
}

// ranks are the places of the rounds in the order of their keys.
func (l roundList) ranks() []int32 {
	places := make([]int32, len(l))
	for i := range places {
		places[i] = int32(i)
	}
	slices.SortFunc(places, func(a, b int32) int { return l[a].compare(l[b]) })
	ranks := make([]int32, len(l))
	for rank, place := range places {
		ranks[place] = int32(rank)
	}
	return ranks
}

// roundSums are two sums over the strokes of one cell, round by round, with the
// number of strokes: what an interval over rounds is drawn from.
type roundSums []roundSum

type roundSum struct {
	round, n int32
	sums     [2]float64
}

// add adds a stroke of the round that is being added.
func (r *roundSums) add(round int32, first, second float64) {
	if last := len(*r) - 1; last < 0 || (*r)[last].round != round {
		*r = append(*r, roundSum{round: round})
	}
	sum := &(*r)[len(*r)-1]
	sum.n++
	sum.sums[0] += first
	sum.sums[1] += second
}

// join adds the rounds of another cell, moved up in the player's list.
func (r *roundSums) join(other roundSums, moved int32) {
	for _, sum := range other {
		sum.round += moved
		*r = append(*r, sum)
	}
}

// inOrder are the sums in the order of the rounds' ranks.
func (r roundSums) inOrder(ranks []int32) roundSums {
	sorted := slices.Clone(r)
	for i := range sorted {
		sorted[i].round = ranks[sorted[i].round]
	}
	slices.SortFunc(sorted, func(a, b roundSum) int { return cmp.Compare(a.round, b.round) })
	return sorted
}

// n is the number of strokes.
func (r roundSums) n() (n int64) {
	for i := range r {
		n += int64(r[i].n)
	}
	return n
}

// counts are the numbers of strokes by round.
func (r roundSums) counts() []float64 {
	counts := make([]float64, len(r))
	for i := range r {
		counts[i] = float64(r[i].n)
	}
	return counts
}

// values are the first (0) or second (1) sums by round.
func (r roundSums) values(which int) []float64 {
	values := make([]float64, len(r))
	for i := range r {
		values[i] = r[i].sums[which]
	}
	return values
}

// ratioOf is sum(num)/sum(den) with its interval by the bootstrap over the
// rounds that the sums come from; NaN without anything to divide by.
func ratioOf(num, den []float64, draws *resamplers) (ratio float64, interval estimate.Interval) {
	var total, of estimate.Sum
	for i := range num {
		total.Add(num[i])
		of.Add(den[i])
	}
	return total.Value() / of.Value(), draws.of(len(num)).Ratio(num, den, Level)
}

// shareOf is k of n with Wilson's interval, which under five rounds is none.
func shareOf(k, n int64, rounds int) (share float64, interval estimate.Interval) {
	if rounds < leastRounds {
		return float64(k) / float64(n), estimate.None()
	}
	return float64(k) / float64(n), estimate.Wilson(int(k), int(n), Level)
}
