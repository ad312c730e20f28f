package metrics

import (
	"math"

	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// ShortSided is one row of the table short_sided: what it costs a player to
// miss the green on the side, or at the depth, where the hole is cut. It
// compares the short-game strokes that follow a missed green, on complete holes
// and without a penalty on the way, at like distance: short-sided less not. The
// row over all distances compares within each of them and weighs by nm/(n+m)
// for n and m strokes.
type ShortSided struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	FromYd          float64 `col:"from_yd" unit:"yd" about:"lower edge of the distance left, included; null for all distances that have both kinds of miss"`
	ToYd            float64 `col:"to_yd" unit:"yd" about:"upper edge of the distance, not included (50 yd itself is); null for all distances, and beyond 50 yd"`
	N               int64   `col:"n" about:"short-sided misses without a penalty, followed by a short-game stroke from there"`
	NOther          int64   `col:"n_other" about:"other misses without a penalty, followed by a short-game stroke from there"`
	Strokes         float64 `col:"strokes_mean" unit:"strokes" about:"mean strokes to hole out after a short-sided miss"`
	StrokesOther    float64 `col:"strokes_mean_other" unit:"strokes" about:"mean strokes to hole out after another miss"`
	Cost            float64 `col:"strokes_difference" unit:"strokes" about:"strokes to hole out, short-sided less other, at like distance, distances weighed by nm/(n+m): above zero it costs"`
	CostLo          float64 `col:"strokes_difference_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	CostHi          float64 `col:"strokes_difference_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	StrokesGained   float64 `col:"strokes_gained_difference" unit:"strokes" about:"strokes gained from there to the hole, short-sided less other, at like distance: what is left of the cost once lie and exact distance are allowed for, with the sign turned"`
	StrokesGainedLo float64 `col:"strokes_gained_difference_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	StrokesGainedHi float64 `col:"strokes_gained_difference_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what strokes gained are measured against"`
}

// sidedSums are sums over strokes that follow a missed green, by the distance left
// and whether it was missed on the short side.
type sidedSums [shortSteps][2]roundSums

// Sides of sidedSums.
const (
	notShortSided = 0
	isShortSided  = 1
)

// addSided adds the short-game strokes of a complete hole that follow a missed
// green: strokes to hole out, and strokes gained from there to the hole.
func (p *shortPlayer) addSided(s *transform.Shots, hole int, round int32) {
	from, to := s.RowRange(hole)
	for row := from; row+1 < to; row++ {
		next := row + 1
		if !s.AtGreen[row] || s.Penalty[row] > 0 || s.Class[next] != transform.ShortGame {
			continue
		}
		if s.ShortSided[row] == transform.Unknown {
			p.sideMissed++
			continue
		}
		p.sideKnown++
		side := notShortSided
		if s.ShortSided[row] == transform.Yes {
			side = isShortSided
		}
		strokes := float64(strokesToHoleOut(s, next, to))
		step := shortStep(s.ToHoleYd[next])
		p.sided[step][side].add(round, strokes, 0)
		if expected := s.ExpectedBefore[next]; !math.IsNaN(expected) {
			p.sidedGained[step][side].add(round, expected-strokes, 0)
		}
	}
}

// SidedRows are the finished rows of short_sided: players in order, all
// distances before each; a distance without both kinds of miss is left out.
func (f *ShortGameFigures) SidedRows() []ShortSided {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *shortPlayer) (rows []ShortSided) {
		draws := draws.ofPlayer(player.rounds)
		strokes, gained := player.sided.inOrder(draws), player.sidedGained.inOrder(draws)
		for step := range shortSteps {
			ofStep := func(all likeForLike) likeForLike {
				if step > 0 {
					all = all[step-1 : step]
				}
				return all.shared()
			}
			if len(ofStep(strokes)) == 0 {
				continue
			}
			row := sidedRow(ofStep(strokes), ofStep(gained), draws)
			row.Player, row.Baseline = name, f.options.Baseline
			row.FromYd, row.ToYd = shortStepYd(step)
			rows = append(rows, row)
		}
		return rows
	})
}

// inOrder are the sums of every distance, one after the other.
func (s *sidedSums) inOrder(draws playerDraws) (all likeForLike) {
	for step := 1; step < shortSteps; step++ {
		all = append(all, [2]roundSums{s[step][notShortSided].inOrder(draws.ranks), s[step][isShortSided].inOrder(draws.ranks)})
	}
	return all
}

func sidedRow(strokes, gained likeForLike, draws playerDraws) ShortSided {
	n := strokes.n()
	mean := func(side int) float64 {
		var total estimate.Sum
		for _, stratum := range strokes {
			for _, sum := range stratum[side] {
				total.Add(sum.sums[0])
			}
		}
		return total.Value() / float64(n[side])
	}
	cost, ofCost := strokes.difference(0, draws)
	gain, ofGain := gained.difference(0, draws)
	return ShortSided{
		N: n[isShortSided], NOther: n[notShortSided], Strokes: mean(isShortSided), StrokesOther: mean(notShortSided),
		Cost: cost, CostLo: ofCost.Lo, CostHi: ofCost.Hi,
		StrokesGained: gain, StrokesGainedLo: ofGain.Lo, StrokesGainedHi: ofGain.Hi,
	}
}
