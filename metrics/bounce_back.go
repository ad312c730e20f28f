package metrics

import (
	"roundmill/metrics/estimate"
	"roundmill/transform"
)

// BounceBack is one row of the table bounce_back: how often one player is under
// par straight after a hole over par, beside how often after any other hole. A
// share alone says little: without a memory a player bounces back exactly as
// often as he is under par otherwise.
//
// Straight after is the next hole number of the same round, both holes
// complete; a round that began on another tee than the first has one pair
// wrong, which the log does not tell.
type BounceBack struct {
	Player            string  `col:"player" about:"player as named in the log, null when the log names none"`
	Rounds            int64   `col:"rounds" about:"rounds with at least one hole straight after a hole over par"`
	N                 int64   `col:"n" about:"complete holes straight after a hole over par: the next hole number of the same round"`
	UnderPar          int64   `col:"under_par" about:"of these, holes under par"`
	Share             float64 `col:"bounce_back_share" unit:"share" about:"under par straight after over par"`
	ShareLo           float64 `col:"bounce_back_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	ShareHi           float64 `col:"bounce_back_hi" unit:"share" about:"upper end of its 90 % interval"`
	OtherwiseN        int64   `col:"otherwise_n" about:"complete holes straight after a hole in par or better"`
	OtherwiseUnderPar int64   `col:"otherwise_under_par" about:"of these, holes under par"`
	OtherwiseShare    float64 `col:"otherwise_share" unit:"share" about:"under par straight after a hole in par or better"`
	OtherwiseLo       float64 `col:"otherwise_lo" unit:"share" about:"lower end of its 90 % interval (Wilson)"`
	OtherwiseHi       float64 `col:"otherwise_hi" unit:"share" about:"upper end of its 90 % interval"`
	Difference        float64 `col:"difference" unit:"share" about:"bounce back less otherwise"`
	DifferenceLo      float64 `col:"difference_lo" unit:"share" about:"lower end of its 90 % interval (from the two Wilson intervals, Zou and Donner 2008)"`
	DifferenceHi      float64 `col:"difference_hi" unit:"share" about:"upper end of its 90 % interval"`
}

// BounceBackFigures count what follows a hole over par.
type BounceBackFigures struct {
	players byPlayer[holeAfterHole]
}

// holeAfterHole counts pairs of holes by what the first one was.
type holeAfterHole struct{ afterOver, otherwise pairCounts }

type pairCounts struct{ rounds, holes, underPar int64 }

func newBounceBackFigures(Options) *BounceBackFigures {
	return &BounceBackFigures{players: byPlayer[holeAfterHole]{}}
}

// Add adds the pairs of complete holes of a batch.
func (f *BounceBackFigures) Add(s *transform.Shots) {
	h := &s.Holes
	for round, from := range s.Rounds.From {
		var here holeAfterHole
		first, end := s.Rounds.HoleRange(round, h)
		for hole := first + 1; hole < end; hole++ {
			before, row := h.From[hole-1], h.From[hole]
			if !h.Complete[hole-1] || !h.Complete[hole] || s.Hole[row] != s.Hole[before]+1 {
				continue
			}
			pairs := &here.otherwise
			if h.Score[hole-1] > s.Par[before] {
				pairs = &here.afterOver
			}
			pairs.rounds = 1
			pairs.holes++
			if h.Score[hole] < s.Par[row] {
				pairs.underPar++
			}
		}
		if here != (holeAfterHole{}) {
			f.players.of(s.Player.At(int(from))).add(&here)
		}
	}
}

func (a *holeAfterHole) add(other *holeAfterHole) {
	a.afterOver.add(other.afterOver)
	a.otherwise.add(other.otherwise)
}

func (c *pairCounts) add(other pairCounts) {
	c.rounds += other.rounds
	c.holes += other.holes
	c.underPar += other.underPar
}

// Rows are the finished rows, players in order.
func (f *BounceBackFigures) Rows() []BounceBack {
	return rowsOf(f.players, func(name string, player *holeAfterHole) []BounceBack {
		over, other := player.afterOver, player.otherwise
		row := BounceBack{
			Player: name, Rounds: over.rounds, N: over.holes, UnderPar: over.underPar,
			OtherwiseN: other.holes, OtherwiseUnderPar: other.underPar,
		}
		share, ofShare := shareOverRounds(over.underPar, over.holes, int(over.rounds))
		otherwise, ofOtherwise := shareOverRounds(other.underPar, other.holes, int(other.rounds))
		row.Share, row.ShareLo, row.ShareHi = withEnds(share, ofShare)
		row.OtherwiseShare, row.OtherwiseLo, row.OtherwiseHi = withEnds(otherwise, ofOtherwise)
		row.Difference, row.DifferenceLo, row.DifferenceHi = withEnds(share-otherwise,
			estimate.IndependentDifference(share, otherwise, ofShare, ofOtherwise))
		return []BounceBack{row}
	})
}
