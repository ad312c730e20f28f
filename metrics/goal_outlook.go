package metrics

import (
	"math"
	"slices"

	"roundmill/metrics/estimate"
)

// outlook is what one player may score on 18 holes, by both methods of the
// table goal.
type outlook struct {
	goal        Goal
	target, par int                 // the goal over par; par of the usual 18
	usual18     [highestPar + 1]int // holes of each par
	holesPlayed int

	byHole    strokeDistribution   // of 18 holes drawn by par
	drawn     []strokeDistribution // the same from each resample of rounds
	drawnFrom int                  // how many rounds are resampled
	meanDrawn []float64

	rounds []wholeRound // complete, of 18 holes
}

// wholeRound is a round as it was played.
type wholeRound struct{ overPar, score float64 }

// outlook adds up a player's rounds, at least one of them with a complete hole.
func (g *goalRounds) outlook(goal Goal, draws *resamplers) *outlook {
	g.sort()
	o := &outlook{goal: goal, drawnFrom: len(g.rounds)}
	o.usual18, o.holesPlayed = g.usual18()
	for par, holes := range o.usual18 {
		o.par += par * holes
	}
	o.target = goal.toPar(o.par)
	for _, r := range g.rounds {
		if r.complete18 {
			o.rounds = append(o.rounds, r.whole())
		}
	}
	resampler := draws.of(len(g.rounds))
	nothing := strokeDistribution{chances: []float64{1}}
	o.byHole, o.drawn = nothing, slices.Repeat([]strokeDistribution{nothing}, Resamples)
	for par, holes := range o.usual18 {
		if holes == 0 {
			continue
		}
		one, drawn := g.oneHole(par, resampler)
		for range holes {
			o.byHole = o.byHole.plus(one)
			for i := range drawn {
				o.drawn[i] = o.drawn[i].plus(drawn[i])
			}
		}
	}
	for i := range o.drawn {
		o.meanDrawn = append(o.meanDrawn, o.drawn[i].mean())
	}
	return o
}

func (r *goalRound) whole() (round wholeRound) {
	for _, hole := range r.scores {
		round.overPar += float64(hole.toPar)
		round.score += float64(hole.par) + float64(hole.toPar)
	}
	return round
}

// usual18 is how many of the player's usual 18 holes have each par: the shares
// of all his complete holes, times 18, rounded by the largest remainder.
func (g *goalRounds) usual18() (usual [highestPar + 1]int, played int) {
	var byPar, remainder [highestPar + 1]int
	for _, r := range g.rounds {
		for _, hole := range r.scores {
			byPar[hole.par]++
			played++
		}
	}
	missing := 18
	for par, n := range byPar {
		usual[par], remainder[par] = 18*n/played, 18*n%played
		missing -= usual[par]
	}
	for ; missing > 0; missing-- {
		most := 0
		for par := range remainder {
			if remainder[par] > remainder[most] {
				most = par
			}
		}
		usual[most]++
		remainder[most] = -1
	}
	return usual, played
}

// oneHole is the distribution over par of one hole of a par, from all rounds
// and from each resample of them: NaN where a resample has no such hole.
func (g *goalRounds) oneHole(par int, resampler *estimate.Resampler) (all strokeDistribution, drawn []strokeDistribution) {
	least, most, played := math.MaxInt8, math.MinInt8, 0
	for _, r := range g.rounds {
		for _, hole := range r.scores {
			if int(hole.par) == par {
				least, most, played = min(least, int(hole.toPar)), max(most, int(hole.toPar)), played+1
			}
		}
	}
	counts := make([][]float64, most-least+1) // by score, by round
	for score := range counts {
		counts[score] = make([]float64, len(g.rounds))
	}
	holes := make([]float64, len(g.rounds))
	all = strokeDistribution{least, make([]float64, len(counts))}
	for i, r := range g.rounds {
		for _, hole := range r.scores {
			if int(hole.par) == par {
				holes[i]++
				counts[int(hole.toPar)-least][i]++
				all.chances[int(hole.toPar)-least]++
			}
		}
	}
	for score := range all.chances {
		all.chances[score] /= float64(played)
	}
	drawn = make([]strokeDistribution, Resamples)
	for i := range drawn {
		drawn[i] = strokeDistribution{least, make([]float64, len(counts))}
	}
	for score := range counts {
		for i, share := range resampler.Replicates(counts[score], holes) {
			drawn[i].chances[score] = share
		}
	}
	return all, drawn
}

// byHoles is the chance of the goal after a gain a round, with its interval.
func (o *outlook) byHoles(gain float64) (chance, lo, hi float64) {
	replicates := make([]float64, len(o.drawn))
	for i := range o.drawn {
		replicates[i] = o.drawn[i].atMost(o.target, gain)
	}
	interval := estimate.Percentile(replicates, o.drawnFrom, Level)
	return o.byHole.atMost(o.target, gain), interval.Lo, interval.Hi
}

// byRounds is the same by whole rounds.
func (o *outlook) byRounds(gain float64) (chance, lo, hi float64) {
	whole := math.Floor(gain)
	two := gain - whole
	one, ofOne := o.reached(whole)
	more, ofMore := o.reached(whole + 1)
	between := func(a, b float64) float64 { return (1-two)*a + two*b }
	return between(one, more), between(ofOne.Lo, ofMore.Lo), between(ofOne.Hi, ofMore.Hi)
}

// reached is the share of rounds that reached the goal, or missed it by no more
// than so many strokes.
func (o *outlook) reached(by float64) (float64, estimate.Interval) {
	reached := int64(0)
	for _, round := range o.rounds {
		if o.goal.above(round) <= by {
			reached++
		}
	}
	return shareOverRounds(reached, int64(len(o.rounds)), len(o.rounds))
}

// meanOfRounds is the mean and the spread of the complete rounds of 18 holes.
func (o *outlook) meanOfRounds(draws *resamplers) (mean, lo, hi, spread float64) {
	if len(o.rounds) == 0 {
		return math.NaN(), math.NaN(), math.NaN(), math.NaN()
	}
	var moments estimate.Moments
	overPar := make([]float64, len(o.rounds))
	for i, round := range o.rounds {
		overPar[i] = round.overPar
		moments.Add(round.overPar)
	}
	interval := draws.of(len(o.rounds)).Mean(overPar, Level)
	return moments.Mean(), interval.Lo, interval.Hi, moments.StandardDeviation()
}

// meanAbove is how many strokes the complete rounds of 18 holes were above the
// goal, on average.
func (o *outlook) meanAbove() float64 {
	var above estimate.Moments
	for _, round := range o.rounds {
		above.Add(o.goal.above(round))
	}
	return above.Mean()
}
