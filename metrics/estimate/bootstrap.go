package estimate

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"sync/atomic"

	"gonum.org/v1/gonum/stat/distuv"
)

const (
	// fewestRounds is the least number of rounds with anything to divide by that an interval is drawn from.
	fewestRounds = 5
	// blockLimit is the largest number of units that are resampled one by one.
	blockLimit = 1000
)

// Resampler draws intervals by the bootstrap over whole rounds: the shots of one round share a day, a course and a
// swing, so the round is what is drawn with replacement, as often as there are rounds, and a figure is computed anew
// from the sums of the rounds that were drawn. B. Efron and R. J. Tibshirani (1993), An Introduction to the Bootstrap,
// Chapman & Hall, chapters 6, 8 and 13.
//
// The draws are made once, when the first of them is needed, so all figures of a player share them and differences are
// paired. They depend on the three arguments of [NewResampler] only: players with as many rounds can share a Resampler,
// and goroutines too.
//
// Intervals are percentile intervals, their two percentiles moved outwards for the number of rounds m, from Φ(±z) to
// Φ(±t √(m/(m-1))), where t is Student's with m-1 degrees of freedom: the plain ones are too narrow by that much.
// T. C. Hesterberg (2015), "What teachers should know about the bootstrap: resampling in the undergraduate statistics
// curriculum", The American Statistician 69(4):371-386, the expanded percentile interval.
//
// Paid: skewed rounds leave less than the level. Measured at 90 %, 4,000 repeats each, the plain percentile interval
// in brackets: ratio of sums over rounds of 3 to 8 exponential values: 86.4 % (77.5) for 5 rounds, 89.2 (84.7) for 10,
// 88.7 (86.0) for 20, 89.8 (88.9) for 46. Mean of one exponential value a round: 83.1 (75.2), 86.5 (81.2), 87.2 (85.0),
// 89.0 (88.2). Mean of one lognormal value with a log spread of 1, far more skewed than golf: 76.3 (67.2), 80.1 (75.3),
// 82.1 (79.6), 86.3 (85.3).
//
// From 10 rounds with something to divide by, the percentiles of ratios, means and linear figures are not drawn but
// computed by an expansion where that holds, which is nearer to what ever more resamples would tend to than 2,000 are:
// 0.01 of a standard error off in place of 0.05 (see [expanded]). It takes all rounds as they are.
//
// What is still drawn past 1,000 rounds is so from 1,000 blocks of neighbours, as even as can be, that take the place of
// rounds: memory and time stay bounded, and an interval from 1,000 blocks is as good.
type Resampler struct {
	rounds, blocks, resamples int
	seed                      uint64
	drawn                     sync.Once
	counts                    []uint8 // once drawn: of block after block, how often it is in each resample
	held                      atomic.Int64
}

// NewResampler returns a resampler for a player with this many rounds. It costs nothing until something is drawn.
func NewResampler(rounds, resamples int, seed uint64) *Resampler {
	return &Resampler{rounds: rounds, blocks: min(rounds, blockLimit), resamples: resamples, seed: seed}
}

// Ratio returns the interval of sum(num)/sum(den), where num[i] and den[i] are the sums of round i and den is not
// negative: strokes gained over shots, successes over tries. A resample whose rounds have nothing to divide by is
// left out. It is None when fewer than 5 rounds have a denominator above zero, or when all of them have the same ratio:
// rounds that agree do not say how far another would be off.
func (r *Resampler) Ratio(num, den []float64, level float64) Interval {
	r.mustFit(num)
	return r.interval(num, den, r.with(den), level)
}

// interval is that of Ratio, from rounds that have something to divide by.
func (r *Resampler) interval(num, den []float64, rounds int, level float64) Interval {
	if rounds < fewestRounds || agree(num, den) {
		return None()
	}
	if interval, holds := expanded(num, den, rounds, level); holds {
		return interval
	}
	s := scratches.Get().(*scratch)
	defer scratches.Put(s)
	return s.percentile(r.replicates(s, num, den), rounds, level)
}

// agree tells whether num is everywhere the same multiple of den, but for rounding.
func agree(num, den []float64) bool {
	var above, below float64
	for i, d := range den {
		above += num[i]
		below += d
	}
	ratio := above / below
	for i, d := range den {
		if math.Abs(num[i]-ratio*d) > 1e-12*(1+math.Abs(num[i])+math.Abs(ratio*d)) {
			return false
		}
	}
	return true
}

// Mean returns the interval of the mean over rounds of one value per round. It is None under 5 rounds, and when all are
// the same.
func (r *Resampler) Mean(values []float64, level float64) Interval {
	return r.Ratio(values, ones(r.rounds), level)
}

// Replicates returns sum(num)/sum(den) of each resample, in the order of the draws, so that replicates of figures of
// the same player can be combined one by one; NaN where there is nothing to divide by. The caller owns the slice.
func (r *Resampler) Replicates(num, den []float64) []float64 {
	s := scratches.Get().(*scratch)
	defer scratches.Put(s)
	return slices.Clone(r.replicates(s, num, den))
}

// replicates are those of Replicates, in the scratch. They are added up block by block, not resample by resample: a
// cell has nothing in most rounds, and these are passed over.
func (r *Resampler) replicates(s *scratch, num, den []float64) []float64 {
	num, den = r.inBlocks(num), r.inBlocks(den)
	s.above, s.below = zeros(s.above, r.resamples), zeros(s.below, r.resamples)
	r.drawn.Do(r.draw)
	for block, d := range den {
		n := num[block]
		if n == 0 && d == 0 {
			continue
		}
		counts := r.counts[block*r.resamples:][:r.resamples]
		above, below := s.above[:len(counts)], s.below[:len(counts)]
		for resample, count := range counts {
			// Each product is rounded on its own, so that machines with a fused multiply-add give the same bits.
			above[resample] += float64(float64(count) * n)
			below[resample] += float64(float64(count) * d)
		}
	}
	for resample, total := range s.below {
		if total == 0 {
			s.above[resample] = math.NaN()
		} else {
			s.above[resample] /= total
		}
	}
	return s.above
}

func zeros(values []float64, n int) []float64 {
	values = slices.Grow(values[:0], n)[:n]
	clear(values)
	return values
}

// scratch is the memory that an interval takes while it is drawn; a large squad has a hundred thousand of them.
type scratch struct {
	above, below []float64 // sums of each resample
	selection    selection
}

var scratches = sync.Pool{New: func() any { return new(scratch) }}

// Percentile returns the interval between two percentiles of bootstrap replicates that come from this many rounds, as
// the comment on [Resampler] says. NaN among the replicates is left out. It is None under 5 rounds. The replicates are
// used up: reordered, and overwritten where some are left out.
func Percentile(replicates []float64, rounds int, level float64) Interval {
	s := scratches.Get().(*scratch)
	defer scratches.Put(s)
	return s.percentile(replicates, rounds, level)
}

func (s *scratch) percentile(replicates []float64, rounds int, level float64) Interval {
	finite := withoutNaN(replicates)
	if rounds < fewestRounds || len(finite) == 0 {
		return None()
	}
	below := expandedTail(rounds, level)
	ranked := &s.selection
	ranked.begin(finite)
	defer ranked.begin(nil)
	n := int64(len(finite))
	return Interval{quantile(n, below, ranked.at), quantile(n, 1-below, ranked.at)}
}

// withoutNaN moves what is a number to the front.
func withoutNaN(values []float64) []float64 {
	kept := 0
	for _, v := range values {
		values[kept] = v
		if v == v {
			kept++
		}
	}
	return values[:kept]
}

// expandedTail is the share of replicates below an interval from this many rounds.
func expandedTail(rounds int, level float64) float64 {
	return normalBelow(-expandedScore(rounds, level))
}

// expandedScore is the standard score of the ends of an interval from this many rounds.
func expandedScore(rounds int, level float64) float64 {
	type key struct {
		rounds int
		level  float64
	}
	if known, ok := expandedScores.Load(key{rounds, level}); ok {
		return known.(float64)
	}
	freedom := float64(rounds - 1)
	student := distuv.StudentsT{Sigma: 1, Nu: freedom}
	score := student.Quantile(normalBelow(standardScore(level))) * math.Sqrt(float64(rounds)/freedom)
	expandedScores.Store(key{rounds, level}, score)
	return score
}

// expandedScores remembers what [expandedScore] has found: without it, Student's quantile was a twentieth of a large run.
var expandedScores sync.Map

// draw makes the draws. Of at most 1,000 blocks none is drawn 256 times in a resample: the chance is under 1e-500.
func (r *Resampler) draw() {
	r.counts = make([]uint8, r.blocks*r.resamples)
	random := newRandom(r.seed)
	for resample := range r.resamples {
		for range r.blocks {
			r.counts[int(random.Uint32N(uint32(r.blocks)))*r.resamples+resample]++
		}
	}
	r.held.Store(int64(len(r.counts)))
}

// Held is how many bytes of draws are in memory.
func (r *Resampler) Held() int { return int(r.held.Load()) }

// inBlocks adds rounds up into blocks; with up to 1,000 rounds it returns its argument.
func (r *Resampler) inBlocks(perRound []float64) []float64 {
	r.mustFit(perRound)
	if r.rounds == r.blocks {
		return perRound
	}
	perBlock := make([]float64, r.blocks)
	for round, v := range perRound {
		perBlock[round*r.blocks/r.rounds] += v
	}
	return perBlock
}

func (r *Resampler) mustFit(perRound []float64) {
	if len(perRound) != r.rounds {
		panic("estimate: resampler made for another number of rounds")
	}
}

// with counts the blocks with a denominator above zero.
func (r *Resampler) with(den []float64) int {
	count := 0
	for _, v := range r.inBlocks(den) {
		if v > 0 {
			count++
		}
	}
	return count
}

func ones(n int) []float64 {
	values := make([]float64, n)
	for i := range values {
		values[i] = 1
	}
	return values
}

// newRandom is the generator behind every draw of this package: M. E. O'Neill's PCG-DXSM, the same on every machine.
func newRandom(seed uint64) *rand.Rand { return rand.New(rand.NewPCG(seed, 0)) }
