package metrics

import "roundmill/transform"

// PuttingGround is one row of the table putting_ground: the putts of a player
// from one distance on one kind of ground.
type PuttingGround struct {
	Player       string  `col:"player" about:"player as named in the log, null when the log names none"`
	Kind         string  `col:"ground_kind" about:"slope or break"`
	Ground       string  `col:"ground" about:"the slope or break, as logged"`
	FromFt       float64 `col:"from_ft" unit:"ft" about:"lower edge of the distance, included; null for all distances"`
	ToFt         float64 `col:"to_ft" unit:"ft" about:"upper edge of the distance, not included; null for all distances, and for the last"`
	N            int64   `col:"n" about:"putts whose end is known"`
	NMade        int64   `col:"n_made" about:"of these, putts holed"`
	Made         float64 `col:"made_share" unit:"share" about:"share of n that was holed"`
	MadeLo       float64 `col:"made_share_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	MadeHi       float64 `col:"made_share_hi" unit:"share" about:"upper end of its 90 % interval"`
	BaselineMade float64 `col:"baseline_made_share" unit:"share" about:"share that the baseline, which knows no ground, holes from these distances"`
	Baseline     string  `col:"baseline" about:"what shares made are measured against"`
}

// PuttingGroundDifference is one row of the table putting_ground_differences:
// putts on one kind of ground less putts on another, at like distance. Putts
// are compared within the distances of the table putting, each of which weighs
// by nm/(n+m) for n and m putts.
type PuttingGroundDifference struct {
	Player          string  `col:"player" about:"player as named in the log, null when the log names none"`
	Kind            string  `col:"ground_kind" about:"slope or break"`
	Ground          string  `col:"ground" about:"the slope or break, as logged"`
	Other           string  `col:"other_ground" about:"the one it is compared with"`
	N               int64   `col:"n" about:"putts on the ground, from distances that have both"`
	NOther          int64   `col:"n_other" about:"putts on the other ground, from distances that have both"`
	Made            float64 `col:"made_share_difference" unit:"share" about:"share made, ground less other ground, at like distance, distances weighed by nm/(n+m)"`
	MadeLo          float64 `col:"made_share_difference_lo" unit:"share" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	MadeHi          float64 `col:"made_share_difference_hi" unit:"share" about:"upper end of its 90 % interval"`
	StrokesGained   float64 `col:"strokes_gained_difference" unit:"strokes" about:"strokes gained a putt, ground less other ground, at like distance"`
	StrokesGainedLo float64 `col:"strokes_gained_difference_lo" unit:"strokes" about:"lower end of its 90 % interval (bootstrap over rounds, to first order)"`
	StrokesGainedHi float64 `col:"strokes_gained_difference_hi" unit:"strokes" about:"upper end of its 90 % interval"`
	Baseline        string  `col:"baseline" about:"what strokes gained are measured against"`
}

// Kinds of ground under a putt.
const (
	BySlope = "slope"
	ByBreak = "break"
)

// puttGrounds are the kinds of ground, in the words of a log.
var puttGrounds = [...]struct{ kind, word string }{
	{BySlope, "uphill"}, {BySlope, "level"}, {BySlope, "downhill"},
	{ByBreak, "left to right"}, {ByBreak, "straight"}, {ByBreak, "right to left"},
}

// groundPairs are the comparisons, by place in puttGrounds: downhill with
// uphill first, then each with the plain kind.
var groundPairs = [...]struct{ ground, other int }{{2, 0}, {0, 1}, {2, 1}, {3, 5}, {3, 4}, {5, 4}}

func (p *puttPlayer) addGround(s *transform.Shots, row int, round int32, step int, baselineMade float64) {
	slope, breaks := s.PuttSlope.At(row), s.PuttBreak.At(row)
	if slope == "" {
		p.noSlope++
	}
	if breaks == "" {
		p.noBreak++
	}
	for ground, g := range puttGrounds {
		if g.kind == BySlope && g.word == slope || g.kind == ByBreak && g.word == breaks {
			p.grounds[ground][step].add(s, row, round, baselineMade)
		}
	}
}

// GroundRows are the finished rows of putting_ground: players in order, slopes
// before breaks, all distances before each; what was never putted is left out.
func (f *PuttingFigures) GroundRows() []PuttingGround {
	return rowsOf(f.players, func(name string, player *puttPlayer) (rows []PuttingGround) {
		ranks := player.rounds.ranks()
		for ground, g := range puttGrounds {
			var all puttSums
			for step := range puttSteps {
				all.merge(&player.grounds[ground][step])
			}
			for step := -1; step < puttSteps; step++ {
				sums := &all
				if step >= 0 {
					sums = &player.grounds[ground][step]
				}
				rounds := sums.rounds.inOrder(ranks)
				if len(rounds) == 0 {
					continue
				}
				n, made := rounds.n()
				share, ofShare := shareOverRounds(made, n, len(rounds))
				row := PuttingGround{
					Player: name, Kind: g.kind, Ground: g.word, N: n, NMade: made,
					Made: share, MadeLo: ofShare.Lo, MadeHi: ofShare.Hi, BaselineMade: sums.baselineShare(n), Baseline: f.options.Baseline,
				}
				row.FromFt, row.ToFt = puttStepFt(step)
				rows = append(rows, row)
			}
		}
		return rows
	})
}

// GroundDifferenceRows are the finished rows of putting_ground_differences:
// players in order; pairs that were never putted from one distance are left
// out.
func (f *PuttingFigures) GroundDifferenceRows() []PuttingGroundDifference {
	draws := resamplers{seed: f.options.Seed}
	return rowsOf(f.players, func(name string, player *puttPlayer) (rows []PuttingGroundDifference) {
		draws := draws.ofPlayer(player.rounds)
		for _, pair := range groundPairs {
			made, gained := player.compareGrounds(pair.other, pair.ground, draws.ranks)
			if len(made) == 0 {
				continue
			}
			n := made.n()
			share, ofShare := made.difference(0, draws)
			mean, ofMean := gained.difference(0, draws)
			rows = append(rows, PuttingGroundDifference{
				Player: name, Kind: puttGrounds[pair.ground].kind, Ground: puttGrounds[pair.ground].word, Other: puttGrounds[pair.other].word,
				N: n[1], NOther: n[0], Made: share, MadeLo: ofShare.Lo, MadeHi: ofShare.Hi,
				StrokesGained: mean, StrokesGainedLo: ofMean.Lo, StrokesGainedHi: ofMean.Hi, Baseline: f.options.Baseline,
			})
		}
		return rows
	})
}

// compareGrounds puts the putts on two kinds of ground side by side, distance by
// distance, in the distances that have both.
func (p *puttPlayer) compareGrounds(first, second int, ranks []int32) (made, gained likeForLike) {
	for step := range puttSteps {
		a, b := p.grounds[first][step].rounds.inOrder(ranks), p.grounds[second][step].rounds.inOrder(ranks)
		made = append(made, [2]roundSums{a.made(), b.made()})
		gained = append(gained, [2]roundSums{a.gained(), b.gained()})
	}
	return made.shared(), gained.shared()
}
