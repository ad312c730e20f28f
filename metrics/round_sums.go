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

// A roundCount is how many rounds have a stroke of one cell.
type roundCount struct{ n, last int32 }

// add adds a stroke of the round that is being added.
func (c *roundCount) add(round int32) {
	if c.n == 0 || c.last != round {
		c.n, c.last = c.n+1, round
	}
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

// counts are the numbers of strokes in each of all rounds, given sums in order.
func (r roundSums) counts(rounds int) []float64 {
	counts := make([]float64, rounds)
	for _, sum := range r {
		counts[sum.round] = float64(sum.n)
	}
	return counts
}

// values are the first (0) or second (1) sums in each of all rounds, given sums
// in order.
func (r roundSums) values(which, rounds int) []float64 {
	values := make([]float64, rounds)
	for _, sum := range r {
		values[sum.round] = sum.sums[which]
	}
	return values
}

// mean is the mean of the first (0) or second (1) sums over the strokes, given
// sums in order, with its interval by the bootstrap over rounds.
func (r roundSums) mean(which int, draws playerDraws) (mean float64, interval estimate.Interval) {
	return ratioOverRounds(r.values(which, draws.rounds), r.counts(draws.rounds), draws.from)
}

// share is the first (0) or second (1) sums as a share of the strokes, each of
// which adds 0 or 1, with Wilson's interval.
func (r roundSums) share(which int) (share float64, interval estimate.Interval) {
	k := 0.0
	for i := range r {
		k += r[i].sums[which]
	}
	return shareOverRounds(int64(k), r.n(), len(r))
}

// indicator is 1 for what is so.
func indicator(so bool) float64 {
	if so {
		return 1
	}
	return 0
}

// playerDraws are the resamples of all rounds of one player, and the ranks that
// put the rounds in order.
type playerDraws struct {
	*estimate.Resampler
	from   *resamplers
	ranks  []int32
	rounds int
}

func (r *resamplers) ofPlayer(rounds roundList) playerDraws {
	return playerDraws{r.of(len(rounds)), r, rounds.ranks(), len(rounds)}
}
